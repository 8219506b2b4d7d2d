"""Reads a roadmap instance as JSON on standard input and writes the cost of its
cheapest roadmap, found by a general-purpose solver of mixed-integer programs.

A span of a machine is a binary variable; each table and year has one continuous
variable for each of its sets, as in the convex hull of the table.
Needs python3-scipy. Amounts are scaled, since older solvers can cycle on large ones.
"""
import json
import sys

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

SCALE = 1e3
p = json.load(sys.stdin)
T, machines = p["years"], p["machines"]
cost, whole = [], []
rows, low, high = [], [], []


def variable(c, integer):
    cost.append(c / SCALE)
    whole.append(1 if integer else 0)
    return len(cost) - 1


def row(terms, least, most):
    rows.append(terms)
    low.append(least)
    high.append(most)


spans = [[(a, b, variable(own, True)) for a, line in enumerate(m["own"]) for b, own in enumerate(line) if own is not None]
         for m in machines]
for mine in spans:
    if not p["again"]:
        row([(v, 1) for _, _, v in mine], 0, 1)
        continue
    for t in range(T):  # owned once at most, and not bought in the year in which it is sold
        row([(v, 1) for a, b, v in mine if a <= t < b or b == t > 0], 0, 1)
for t, limit in enumerate(p["budget"]):
    if limit is not None:
        row([(v, m["paid"][a][t] / SCALE) for m, mine in zip(machines, spans) for a, b, v in mine if a <= t < b],
            -np.inf, limit / SCALE)
for table in p["tables"]:
    for t, line in enumerate(table["cost"]):
        sets = [variable(c, False) for c in line]
        row([(v, 1) for v in sets], 1, 1)
        for i, m in enumerate(table["machines"]):
            terms = [(v, 1) for s, v in enumerate(sets) if s >> i & 1]
            row(terms + [(v, -1) for a, b, v in spans[m] if a <= t < b], 0, 0)
at = [(i, v, c) for i, terms in enumerate(rows) for v, c in terms]
matrix = csr_matrix(([c for _, _, c in at], ([i for i, _, _ in at], [v for _, v, _ in at])), shape=(len(rows), len(cost)))
found = milp(np.array(cost), constraints=LinearConstraint(matrix, low, high), integrality=np.array(whole),
             bounds=Bounds(0, 1), options={"mip_rel_gap": 0})
if found.x is None:
    sys.exit("no roadmap: " + found.message)
print(repr(found.fun * SCALE))
