"""Least cost of grouping dated jobs, by a general-purpose solver: scipy's milp.

Reads {"jobs": [[ready, due, minutes, load], ...], "capacity": 0 or more, "block": cost of 30 minutes,
"travel": cost of a visit, "limit": seconds} from standard input, one problem a line, and writes one line each:
the least cost, or "none" where the solver has no proof within its limit.

The leader of a visit is its job with the earliest due date; y leads a visit, x rides along with a leader, b
counts the blocks of a leader's visit, at least two. Jobs stand by due date.
"""
import json
import sys
from time import perf_counter

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

SCALE = 1000.0  # the solver of scipy 1.10 can go round in circles on raw cents


def least(problem):
    """The least cost, None without a proof, and the milliseconds that the solver alone took."""
    jobs, capacity = problem["jobs"], problem["capacity"]
    cost, whole, rows = [], [], []

    def variable(price):
        cost.append(price / SCALE)
        whole.append(1)
        return len(cost) - 1

    inside = [[] for _ in jobs]
    for i, (ready, due, minutes, load) in enumerate(jobs):
        leads, blocks = variable(problem["travel"]), variable(problem["block"])
        inside[i].append((leads, 1))
        time, weight = [(leads, minutes)], [(leads, load - capacity)]
        for k in range(i + 1, len(jobs)):
            if jobs[k][0] <= due and (not capacity or load + jobs[k][3] <= capacity):
                rides = variable(0)
                inside[k].append((rides, 1))
                time.append((rides, jobs[k][2]))
                weight.append((rides, jobs[k][3]))
                rows.append(([(rides, 1), (leads, -1)], -np.inf, 0))
        rows.append(([(blocks, 30)] + [(v, -c) for v, c in time], 0, np.inf))
        rows.append(([(blocks, 1), (leads, -2)], 0, np.inf))
        if capacity:
            rows.append((weight, -np.inf, 0))
    rows += [(inside[k], 1, 1) for k in range(len(jobs))]

    value, row, column = [], [], []
    for r, (terms, _, _) in enumerate(rows):
        for v, c in terms:
            value.append(c)
            row.append(r)
            column.append(v)
    matrix = csr_matrix((value, (row, column)), shape=(len(rows), len(cost)))
    upper = np.full(len(cost), np.inf)
    start = perf_counter()
    found = milp(np.array(cost), constraints=LinearConstraint(matrix, [r[1] for r in rows], [r[2] for r in rows]),
                 integrality=np.array(whole), bounds=Bounds(0, upper),
                 options={"mip_rel_gap": 0, "time_limit": problem["limit"]})
    took = (perf_counter() - start) * 1000
    return (found.fun * SCALE if found.status == 0 else None), took


def main():
    for line in sys.stdin:
        answer, _ = least(json.loads(line))
        print("none" if answer is None else round(answer), flush=True)


if __name__ == "__main__":
    main()
