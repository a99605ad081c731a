"""Learns from touches a second way, with SciPy, and writes the numbers that the Go tests compare with.

    /usr/bin/python3 calc/calibrate/testdata/second_way.py > calc/calibrate/testdata/second_way.json

The lines are solved by calc/towline/testdata/second_way.py, in another formulation than in Go. The posterior is written in
the space of the inputs instead of that of the observations: all inputs at all observations and at the rod now are one
vector, whitened by the root of its prior covariance, and the negative logarithm of the posterior is minimised by SciPy's
trust region, with I + J'WJ for the second derivatives (Gauss and Newton). The covariance is the inverse of that at the
mode (Laplace). scipy.special.log_ndtr is the likelihood of a line that stayed clear; a pull is compared by its logarithm.
It takes some minutes.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import minimize
from scipy.special import log_ndtr

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "towline" / "testdata"))
from second_way import G, RHO, line, solve  # noqa: E402

DOUBT = np.array([0.1, 0.02, 0.2, 0.2, 0.4, 0.1, 0.35, 1e-4, 0.03, 1.0])
DAY = 86400.0
INPUTS = 10

# One standard deviation of each reading by itself, and of what its instrument is off.
OWN = {"ticks": 0.4, "clear": 0.4, "known": 1 / np.sqrt(2), "angle": 0.0175 / np.sqrt(2), "pull": 0.15 / np.sqrt(2)}
COMMON = OWN | {"ticks": 0.3, "clear": 0.3}

# line out, drail (kg), speed, what was read, kind, wire, lure, age, trust
observations = [
    (62.0, 0.2268, 1.67, 14.6, "ticks", "a", "x", 600.0, 1.0),
    (62.0, 0.2268, 1.67, 0.131, "angle", "a", "x", 700.0, 1.0),
    (70.0, 0.2268, 1.60, 16.0, "ticks", "a", "x", 1500.0, 1.0),
    (62.0, 0.2268, 1.67, 6.1, "pull", "a", "x", 1500.0, 1.0),
    (45.0, 0.4536, 1.70, 15.4, "ticks", "b", "x", 3 * DAY, 0.5),
    (80.0, 0.0, 1.50, 12.5, "clear", "a", "y", 3 * DAY + 1200, 1.0),
    (55.0, 0.3402, 1.55, 15.0, "clear", "b", "y", 40 * DAY, 1.0),
    (75.0, 0.1134, 1.75, 13.6, "known", "b", "y", 41 * DAY, 1.0),
    (60.0, 0.2268, 1.70, 13.9, "known", "a", "y", 300 * DAY, 1.0),
    (58.0, 0.0000, 1.70, 4.2, "pull", "b", "y", 2 * DAY, 1.0),
]
target = (0.0, 0.0, 0.0, 0.0, "now", "a", "y", 0.0, 0.0)


def reading(o, x):
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
    found = solve(case)
    value = {"angle": found["angle"], "pull": np.log(found["tension"])}.get(o[4], found["depth"][0])
    return value + COMMON[o[4]] * x[9]


def lasts(a, b):
    """The correlation of errors that pass; half of the errors of known settings is one habit."""
    r = np.exp(-abs(a[7] - b[7]) / 1800)
    known = (a[4] == "known") + (b[4] == "known")
    return [r, np.sqrt(0.5) * r, 0.5 + 0.5 * r][known]


def prior(points):
    """The prior covariance of each input at all points, as the package comment of calibrate says."""
    n = len(points)
    c = np.zeros((INPUTS, n, n))
    for i, a in enumerate(points):
        for j, b in enumerate(points):
            wire, lure = 1 if a[5] == b[5] else 0.5, 1 if a[6] == b[6] else 0.5
            passing = 1.0 if i == j else lasts(a, b)
            setting = passing if i == j or (a[5] == b[5] and a[0] == b[0]) else 0.0
            tool = {"clear": "ticks"}
            same = tool.get(a[4], a[4]) == tool.get(b[4], b[4])
            instrument = 1.0 if i == j or a[4] == b[4] == "pull" else passing if same else 0.0
            drag = wire * (1 + min(a[7], b[7]) / (120 * DAY))
            c[:, i, j] = [passing, setting, setting, drag, 1, lure, lure, lure, 1, instrument]
    return c


n = len(observations)
points = observations + [target]
roots = [np.linalg.cholesky(c + 1e-10 * np.eye(n + 1)) for c in prior(points)]
step = 1e-3


def inputs(z):
    return np.array([roots[k] @ z.reshape(INPUTS, n + 1)[k] for k in range(INPUTS)]).T  # point by input


def rows(x):
    out = np.zeros((n, INPUTS))
    for i, o in enumerate(observations):
        for k in range(INPUTS):
            e = np.zeros(INPUTS)
            e[k] = step
            out[i, k] = (reading(o, x[i] + e) - reading(o, x[i] - e)) / (2 * step)
    return out


def likelihoods(h):
    """Cost, slope by what should be read, and second derivative of each."""
    cost, slope, bend = 0.0, np.zeros(n), np.zeros(n)
    for i, o in enumerate(observations):
        sd, trust = OWN[o[4]], o[8]
        u = ((np.log(o[3]) if o[4] == "pull" else o[3]) - h[i]) / sd
        if o[4] != "clear":
            cost += trust * u * u / 2
            slope[i], bend[i] = -trust * u / sd, trust / sd**2
        else:
            cost -= trust * log_ndtr(u)
            r = np.exp(-u * u / 2 - log_ndtr(u)) / np.sqrt(2 * np.pi)
            slope[i], bend[i] = trust * r / sd, trust * r * (u + r) / sd**2
    return cost, slope, bend


def wide(j):
    """The derivatives of the readings by the whitened inputs."""
    return np.hstack([j[:, [k]] * roots[k][:n] for k in range(INPUTS)])


def objective(z):
    """Cost, gradient and second derivatives."""
    x = inputs(z)
    h = np.array([reading(o, x[i]) for i, o in enumerate(observations)])
    cost, slope, bend = likelihoods(h)
    w = wide(rows(x))
    print(cost + z @ z / 2, file=sys.stderr)
    return cost + z @ z / 2, w.T @ slope + z, np.eye(len(z)) + w.T @ (bend[:, None] * w), h


class Cached:
    """The last place asked for, as the minimiser asks for value, gradient and second derivatives one by one."""

    z = None

    def __call__(self, z, part):
        if self.z is None or not np.array_equal(z, self.z):
            self.z, self.found = z.copy(), objective(z)
        return self.found[part]


if __name__ == "__main__":
    at = Cached()
    best = minimize(
        lambda z: at(z, 0), np.zeros(INPUTS * (n + 1)), jac=lambda z: at(z, 1), hess=lambda z: at(z, 2),
        method="trust-exact", options={"gtol": 1e-4},
    )
    x, h = inputs(best.x), at(best.x, 3)
    covariance = np.linalg.inv(at(best.x, 2))
    pick = np.zeros((INPUTS, INPUTS * (n + 1)))
    for k in range(INPUTS):
        pick[k, k * (n + 1) : (k + 1) * (n + 1)] = roots[k][n]
    now = pick @ covariance @ pick.T
    names = ["lineOut", "drail", "speed", "read", "kind", "wire", "lure", "age", "trust"]
    json.dump({
        "observations": [dict(zip(names, o)) for o in observations],
        "readings": list(h),
        "shift": list(x[n][3:9] * DOUBT[3:9]),
        "covariance": (now[3:9, 3:9] * np.outer(DOUBT[3:9], DOUBT[3:9])).tolist(),
    }, sys.stdout, indent=1)
