"""The gains of the engine's tables as one matrix product, timed: speed.py FOLDER (with tables.f64; writes peer.csv).

I = sum p r ln r - sum P ln P with P = sum p r: the rows r and their sums r ln r are known before, as in the engine.
"""

import os
import sys
import time

import numpy as np
from threadpoolctl import threadpool_info, threadpool_limits

KINDS, QUESTIONS, CHOICES = 1000, 100, 4


def median(work, runs=201):
    for _ in range(20):
        work()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return sorted(times)[runs // 2] * 1e3


folder = sys.argv[1]
numbers = np.fromfile(os.path.join(folder, "tables.f64"))
p, rest = numbers[:KINDS], numbers[KINDS:]
reports = rest[: QUESTIONS * CHOICES * KINDS].reshape(QUESTIONS, CHOICES, KINDS)
ours = rest[QUESTIONS * CHOICES * KINDS :]
spoken = (reports * np.log(reports)).sum(axis=1)
stacked = np.concatenate([reports.reshape(-1, KINDS), spoken])
turned = np.ascontiguousarray(stacked.T)


def finish(told):
    totals = told[: QUESTIONS * CHOICES].reshape(QUESTIONS, CHOICES)
    return (told[QUESTIONS * CHOICES :] - (totals * np.log(totals)).sum(axis=1)) / np.log(2)


def plain():
    joint = reports * p
    totals = joint.sum(axis=2)
    return ((joint * np.log(joint)).sum(axis=(1, 2)) - (totals * np.log(totals)).sum(axis=1) - (p * np.log(p)).sum()) / np.log(2)


best, kernel = np.inf, ""
for threads in {1, os.cpu_count() or 1}:
    with threadpool_limits(limits=threads):
        for name, work in [("rows", lambda: finish(stacked @ p)), ("columns", lambda: finish(p @ turned))]:
            took = median(work)
            if took < best:
                pool = next((i for i in threadpool_info() if i["user_api"] == "blas"), {})
                best = took
                kernel = f"{pool.get('internal_api', '?')} {pool.get('architecture', '?')}; {threads} thread(s); {name}"
apart = max(np.abs(finish(stacked @ p) - ours).max(), np.abs(plain() - ours).max())
with open(os.path.join(folder, "peer.csv"), "w") as file:
    print("what,ms", file=file)
    print(f"blas,{best:.6f}", file=file)
    print(f"plain,{median(plain, 31):.6f}", file=file)
    print(f"apart,{apart:.3e}", file=file)
    print(f"kernel,{kernel}", file=file)
