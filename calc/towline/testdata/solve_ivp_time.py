"""Times SciPy's solve_ivp on the case S6 of cases.json: prints seconds per solve for the fastest method and tolerance
whose depth of the lure is within the relative error given as argument.

    /usr/bin/python3 calc/towline/testdata/solve_ivp_time.py 1e-8
"""

import json
import pathlib
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp

case = json.loads((pathlib.Path(__file__).parent / "cases.json").read_text())["S6_S5_plus_8oz_inline"]
rho, u = case["env"]["rho"], case["env"]["V"]
want = case["A"]["1"]["z"]


def solve(method, rtol):
    t, low = np.zeros(2), np.zeros(2)
    for s in reversed(case["tree"]):
        t = t + [0.5 * rho * u * u * s["end"]["CdA"], s["end"]["W"]]
        r, f, w = 0.5 * rho * u * u * s["d"] * s["Cn"], 0.5 * rho * u * u * np.pi * s["d"] * s["Ct"], s["w"]

        def slopes(_, y):
            tension = (y[0] * y[0] + y[1] * y[1]) ** 0.5
            x, z = y[0] / tension, y[1] / tension
            n, a = r * abs(z) * z, f * abs(x) * x
            return [n * z + a * x, a * z - n * x + w, x, z]

        y = solve_ivp(slopes, (0, s["L"]), [*t, *low], method=method, rtol=rtol, atol=rtol * 1e-2).y[:, -1]
        t, low = y[:2], y[2:]
    return low[1]


best = None
for method in ("RK45", "DOP853", "LSODA", "Radau", "BDF"):
    for rtol in 10.0 ** -np.arange(3, 13):
        if abs(solve(method, rtol) / want - 1) > float(sys.argv[1]):
            continue
        times = []
        for _ in range(7):
            start = time.perf_counter()
            solve(method, rtol)
            times.append(time.perf_counter() - start)
        if best is None or min(times) < best:
            best = min(times)
        break
print(best)
