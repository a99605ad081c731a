"""Learns from touches a second way, with SciPy, and writes the numbers that the Go tests compare with.

    /usr/bin/python3 calc/calibrate/testdata/second_way.py > calc/calibrate/testdata/second_way.json

The lines are solved by calc/towline/testdata/second_way.py, in another formulation than in Go. The posterior is written in
the space of the inputs instead of that of the observations: all inputs at all observations and at the rod now are one
vector, whitened by the root of its prior covariance, and the negative logarithm of the posterior is minimised by SciPy's
BFGS. The covariance is the inverse of I + J'WJ there (Laplace, Gauss and Newton). scipy.special.log_ndtr is the likelihood
of a line that stayed clear. It takes some minutes.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import minimize
from scipy.special import log_ndtr

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "towline" / "testdata"))
from second_way import G, RHO, line, solve  # noqa: E402

DOUBT = np.array([0.1, 0.02, 0.2, 0.2, 0.4, 0.1, 0.35, 1e-4, 0.03])
GROUND = 0.4
DAY = 86400.0

# line out, drail (kg), speed, depth of water, ticks, wire, lure, age
observations = [
    (62.0, 0.2268, 1.67, 14.6, True, "a", "x", 600.0),
    (70.0, 0.2268, 1.60, 16.0, True, "a", "x", 1500.0),
    (45.0, 0.4536, 1.70, 15.4, True, "b", "x", 3 * DAY),
    (80.0, 0.0, 1.50, 12.5, False, "a", "y", 3 * DAY + 1200),
    (55.0, 0.3402, 1.55, 15.0, False, "b", "y", 40 * DAY),
    (75.0, 0.1134, 1.75, 13.6, True, "b", "y", 41 * DAY),
]
target = ("a", "y", 0.0)


def depth(o, x):
    x = x * DOUBT
    line_out, drail, speed = o[0] * np.exp(x[1]), o[1], max(o[2] + x[0], 0)
    drag, friction = np.exp(x[3]), np.exp(x[4])
    spoon = (0.1134 * G * (1 - RHO / 8200) * np.exp(x[5]), 0.001 * np.exp(x[6]), x[7])
    volume = drail / 11340
    thick = np.cbrt(6 * volume / (4 * np.pi))
    lead = (drail * G * (1 - RHO / 11340) * np.exp(x[8]), 0.30 * np.pi / 4 * thick**2, 0)
    case = {
        "speed": speed, "tip": max(1.524 + x[2], 0), "profile": None,
        "sections": [
            line("leader", 6.096, 0.0009, 1140, spoon, ct=0.006 * friction, strum=drag),
            line("wire", line_out, 0.000508, 7930, lead, ct=0.006 * friction, strum=drag),
        ],
    }
    return solve(case)["depth"][0]


def prior(points):
    """The prior covariance of each input at all points, as the package comment of calibrate says."""
    n = len(points)
    c = np.zeros((9, n, n))
    for i, (wi, li, ai) in enumerate(points):
        for j, (wj, lj, aj) in enumerate(points):
            wire, lure = 1 if wi == wj else 0.5, 1 if li == lj else 0.5
            same = 1.0 if i == j else 0.0
            c[:, i, j] = [
                np.exp(-abs(ai - aj) / 1800), same, same, wire * (1 + min(ai, aj) / (120 * DAY)), 1, lure, lure, lure, 1,
            ]
    return c


n = len(observations)
points = [o[5:] for o in observations] + [target]
roots = [np.linalg.cholesky(c + 1e-10 * np.eye(n + 1)) for c in prior(points)]
step = 1e-3


def inputs(z):
    return np.array([roots[k] @ z.reshape(9, n + 1)[k] for k in range(9)]).T  # point by input


def rows(x):
    out = np.zeros((n, 9))
    for i, o in enumerate(observations):
        for k in range(9):
            e = np.zeros(9)
            e[k] = step
            out[i, k] = (depth(o, x[i] + e) - depth(o, x[i] - e)) / (2 * step)
    return out


def sites(h):
    """Cost, slope by depth, and bend of each likelihood."""
    cost, slope, bend = 0.0, np.zeros(n), np.zeros(n)
    for i, o in enumerate(observations):
        u = (o[3] - h[i]) / GROUND
        if o[4]:
            cost += u * u / 2
            slope[i], bend[i] = -u / GROUND, 1 / GROUND**2
        else:
            cost -= log_ndtr(u)
            r = np.exp(-u * u / 2 - log_ndtr(u)) / np.sqrt(2 * np.pi)
            slope[i], bend[i] = r / GROUND, r * (u + r) / GROUND**2
    return cost, slope, bend


def objective(z):
    x = inputs(z)
    h = np.array([depth(o, x[i]) for i, o in enumerate(observations)])
    cost, slope, _ = sites(h)
    j = rows(x)
    grad = z.reshape(9, n + 1).copy()
    for k in range(9):
        grad[k] += roots[k][:n].T @ (slope * j[:, k])
    return cost + z @ z / 2, grad.ravel()


if __name__ == "__main__":
    best = minimize(objective, np.zeros(9 * (n + 1)), jac=True, method="BFGS", options={"gtol": 1e-4})
    x = inputs(best.x)
    h = np.array([depth(o, x[i]) for i, o in enumerate(observations)])
    _, _, bend = sites(h)
    j = rows(x)
    wide = np.zeros((n, 9 * (n + 1)))
    for k in range(9):
        wide[:, k * (n + 1) : (k + 1) * (n + 1)] = j[:, [k]] * roots[k][:n]
    covariance = np.linalg.inv(np.eye(9 * (n + 1)) + wide.T @ (bend[:, None] * wide))
    pick = np.zeros((9, 9 * (n + 1)))
    for k in range(9):
        pick[k, k * (n + 1) : (k + 1) * (n + 1)] = roots[k][n]
    now = pick @ covariance @ pick.T
    names = ["lineOut", "drail", "speed", "bottom", "ticks", "wire", "lure", "age"]
    json.dump({
        "observations": [dict(zip(names, o)) for o in observations],
        "depths": list(h),
        "shift": list(x[n][3:] * DOUBT[3:]),
        "covariance": (now[3:, 3:] * np.outer(DOUBT[3:], DOUBT[3:])).tolist(),
    }, sys.stdout, indent=1)
