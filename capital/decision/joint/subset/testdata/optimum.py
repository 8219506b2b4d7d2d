"""Solves subset problems with a general-purpose solver of mixed-integer programs.

Reads a JSON list of problems from standard input and writes, for each of them, a
line with the least cost, the subset as a number, and the milliseconds the solver
took. A problem has "items", "terms" [{"items": [i], "cost": [2^n numbers]}] and
"limits" [{"weight": [by item], "most": number}].

Each term has a weight z for every part of its items that may be taken; the weights
are one in sum, and those of the parts with an item make up whether it is taken. Then
only the items need be whole numbers.
"""

import json
import sys
import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

SCALE = 1000.0  # some releases of the solver do not end on costs of millions


def model(problem):
    items = problem["items"]
    cost, rows, low, high = [0.0] * items, [], [], []
    for term in problem["terms"]:
        first = len(cost)
        cost += term["cost"]
        parts = range(len(term["cost"]))
        rows.append([(first + p, 1) for p in parts])
        low.append(1), high.append(1)
        for bit, item in enumerate(term["items"]):
            rows.append([(first + p, 1) for p in parts if p >> bit & 1] + [(item, -1)])
            low.append(0), high.append(0)
    for limit in problem["limits"]:
        scale = limit["most"] or 1
        rows.append([(i, w / scale) for i, w in enumerate(limit["weight"])])
        low.append(-np.inf), high.append(limit["most"] / scale * (1 + 1e-9))
    return cost, rows, low, high


def solve(problem):
    cost, rows, low, high = model(problem)
    at = [(r, c, v) for r, row in enumerate(rows) for c, v in row]
    matrix = csr_matrix(([v for _, _, v in at], ([r for r, _, _ in at], [c for _, c, _ in at])), (len(rows), len(cost)))
    whole = np.array([1] * problem["items"] + [0] * (len(cost) - problem["items"]))
    start = time.perf_counter()
    found = milp(np.array(cost) / SCALE, constraints=LinearConstraint(matrix, low, high), integrality=whole,
                 bounds=Bounds(0, 1), options={"mip_rel_gap": 0.0, "time_limit": 60.0})
    took = (time.perf_counter() - start) * 1000
    if found.status != 0:
        return "unsolved 0 %.3f" % took
    chosen = sum(1 << i for i in range(problem["items"]) if found.x[i] > 0.5)
    return "%.6f %d %.3f" % (found.fun * SCALE, chosen, took)


def main():
    milp([1.0], bounds=Bounds(0, 1), integrality=[1])  # load the solver before any timing
    for problem in json.load(sys.stdin):
        print(solve(problem), flush=True)


if __name__ == "__main__":
    main()
