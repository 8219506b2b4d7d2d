"""General-purpose programs on the workloads, for a comparison of times: SciPy's milp and NumPy.

Reads one question a line, words with spaces between, and answers each with a line of JSON: an instance, or the cost
that was found, null without a proof, and the milliseconds that the solver alone took.
"""
import importlib.util
import json
import os
import sys
import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

import instances

SCALE = 1000.0  # some releases of the solver do not end on costs of millions
HERE = os.path.dirname(os.path.abspath(__file__))


def script(*path):
    """The script that holds a workload's model for its own package's tests."""
    spec = importlib.util.spec_from_file_location(path[-1].split(".")[0], os.path.join(HERE, "..", *path))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def timed(call):
    start = time.perf_counter()
    found = call()
    return found, (time.perf_counter() - start) * 1000


def choice_milp(machines, types, seed, limited):
    cost, _, ms = script("joint", "subset", "testdata", "optimum.py").solve(
        instances.choice(machines, types, seed, limited)).split()
    return {"cost": None if cost == "unsolved" else float(cost), "ms": float(ms)}


def choice_numpy(machines, types, seed, limited):
    """Plain enumeration, a million sets at a time: each set's place in each table, bit by bit."""
    problem = instances.choice(machines, types, seed, limited)
    tables = [(term["items"], np.array(term["cost"], np.int64)) for term in problem["terms"]]

    def least():
        best = None
        for first in range(0, 1 << machines, 1 << 20):
            sets = np.arange(first, min(1 << machines, first + (1 << 20)), dtype=np.int64)
            cost = np.zeros(len(sets), np.int64)
            for items, table in tables:
                place = np.zeros(len(sets), np.int64)
                for i, m in enumerate(items):
                    place |= (sets >> m & 1) << i
                cost += table[place]
            for limit in problem["limits"]:
                used = sum((sets >> m & 1) * w for m, w in enumerate(limit["weight"]))
                cost[used > limit["most"]] = 1 << 60
            best = int(cost.min()) if best is None else min(best, int(cost.min()))
        return best

    cost, ms = timed(least)
    return {"cost": cost, "ms": ms}


def roadmap_milp(machines, seed, limit):
    """Owned and bought are variables of each machine and year; each job type and year has a weight for each of its sets."""
    r = instances.Roadmap(machines, seed)
    cost, whole, upper, rows = [], [], [], []

    def variable(price, most, integer):
        cost.append(price / SCALE), whole.append(integer), upper.append(most)
        return len(cost) - 1

    years = range(instances.YEARS)
    owned = [[variable(r.owned[m][t], 1, 1) for t in years] for m in range(machines)]
    bought = [[variable(r.bought[m][t], 1, 0) for t in years] for m in range(machines)]
    for m in range(machines):
        for t in years:
            before = [(owned[m][t - 1], -1)] if t else []
            rows.append(([(owned[m][t], 1), (bought[m][t], -1)] + before, 0, 0))
    for t in years:
        rows.append(([(bought[m][t], r.paid[m][t] / SCALE) for m in range(machines)], -np.inf, r.budget / SCALE))
    for j, need in enumerate(r.shop.need):
        for t in years:
            sets = [variable(r.jobs[j][t] * r.rental[t] * r.shop.rented(j, s), np.inf, 0) for s in range(1 << len(need))]
            rows.append(([(v, 1) for v in sets], 1, 1))
            for i, m in enumerate(need):
                rows.append(([(v, 1) for s, v in enumerate(sets) if s >> i & 1] + [(owned[m][t], -1)], 0, 0))
    at = [(i, v, c) for i, (terms, _, _) in enumerate(rows) for v, c in terms]
    matrix = csr_matrix(([c for _, _, c in at], ([i for i, _, _ in at], [v for _, v, _ in at])), (len(rows), len(cost)))
    found, ms = timed(lambda: milp(
        np.array(cost), constraints=LinearConstraint(matrix, [row[1] for row in rows], [row[2] for row in rows]),
        integrality=np.array(whole), bounds=Bounds(0, np.array(upper)), options={"mip_rel_gap": 0, "time_limit": limit}))
    return {"cost": found.fun * SCALE if found.status == 0 else None, "ms": ms}


def futures_numpy(futures, seed):
    """W3, two thousand futures at a time: all sets of eight machines are priced by one product of matrices."""
    shop, dice = instances.Shop(8, 20, 1), np.random.Generator(np.random.PCG64(seed))

    def mean():
        total, square, wins = np.zeros(256), np.zeros(256), np.zeros(256, int)
        for done in range(0, futures, 2000):
            cost = priced(shop, dice, min(2000, futures - done))
            total += cost.sum(0)
            square += (cost * cost).sum(0)
            wins += np.bincount(cost.argmin(1), minlength=256)
        return float(total[0]) / futures

    cost, ms = timed(mean)
    return {"cost": cost, "ms": ms}


def priced(shop, dice, n):
    """Costs by future and set."""
    years, machines = np.arange(instances.YEARS), np.arange(8)
    start = np.array([max(1, k * 3 // 5) for k in shop.jobs], float)
    drift = dice.standard_normal((n, 2, len(years) - 1))
    growth, rental = np.ones((n, len(years))), np.ones((n, len(years)))
    growth[:, 1:] = np.exp(np.cumsum(0.04 + 0.12 * drift[:, 0], 1))
    rental[:, 1:] = np.exp(np.cumsum(0.03 + 0.04 * drift[:, 1], 1))
    discount = 1.06 ** -(years + 1.0)
    running = discount * 1.02 ** years
    jobs = dice.poisson(growth[:, :, None] * start)
    rented, worked = np.einsum("ntj,nt->nj", jobs, rental * discount), np.einsum("ntj,t->nj", jobs, running)
    resale = np.minimum(0.9, 0.30 * np.exp(0.35 * dice.standard_normal((n, 8)) - 0.35 ** 2 / 2))
    own = np.array(shop.price) * (1 - resale * 1.06 ** -10.0) + np.array(shop.area) * 1200 * running.sum()
    sets, costs, picks = np.arange(256), [], []
    for j, need in enumerate(shop.need):
        minutes = np.array(shop.minutes[j]) * (0.7 + 1.1 * dice.beta(1 + 4 * 0.3 / 1.1, 1 + 4 * 0.8 / 1.1, (n, len(need))))
        for i, m in enumerate(need):
            own[:, m] += shop.minute[m] * minutes[:, i] * worked[:, j]
        parts = np.arange(1 << len(need))
        time_of = minutes @ ((parts[:, None] >> np.arange(len(need))) & 1).astype(float).T
        visits = (np.maximum(2, np.ceil(time_of / 30)) * 1400 + 2200) * rented[:, j:j + 1]
        place = sum(((sets >> m & 1) ^ 1) << i for i, m in enumerate(need))
        pick = np.zeros((len(parts) - 1, 256))
        pick[place[place > 0] - 1, sets[place > 0]] = 1
        costs.append(visits[:, 1:]), picks.append(pick)
    has = ((sets[None, :] >> machines[:, None]) & 1).astype(float)
    return np.hstack(costs + [own]) @ np.vstack(picks + [has])


def visits_milp(jobs, seed, loads, limit):
    problem = dict(instances.errands(jobs, seed, loads), limit=limit)
    cost, ms = script("..", "..", "rental", "visitplan", "testdata", "optimum.py").least(problem)
    return {"cost": cost, "ms": ms}


questions = {"choice": instances.choice, "errands": instances.errands, "choice_milp": choice_milp,
             "choice_numpy": choice_numpy, "roadmap_milp": roadmap_milp, "futures_numpy": futures_numpy,
             "visits_milp": visits_milp}
milp([1.0], bounds=Bounds(0, 1), integrality=[1])  # load the solver before any timing
for line in sys.stdin:
    word, *numbers = line.split()
    print(json.dumps(questions[word](*map(int, numbers))), flush=True)
