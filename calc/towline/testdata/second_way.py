"""Solves towed lines a second way, with SciPy, and writes the numbers that the Go tests compare with.

    /usr/bin/python3 calc/towline/testdata/second_way.py > calc/towline/testdata/second_way.json

The formulation differs from the one in Go: the angle and the tension are the unknowns of the submerged line
(T dphi/ds = w cos phi - R sin phi |sin phi|, dT/ds = w sin phi + F), integrated by LSODA at rtol 1e-12 instead of
components by Dormand-Prince; the part in the air is integrated too, where Go uses the closed catenary; and the
unknown depth of the lure is found by brentq on the height of the upper end. SciPy from Debian (python3-scipy).
"""

import json

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

RHO, NU, G = 1025.0, 1.19e-6, 9.80665


def white(re):
    return 1 + 10 * re ** (-2 / 3)


def climb(sections, speed, profile, free_depth, tip):
    """Follows the line from its free end. Returns depth and distance of every lower end, height of the upper end."""
    t_vec, x, depth, lows = np.zeros(2), 0.0, free_depth, []
    stream = lambda z: speed + (np.interp(z, *profile) if profile else 0.0)
    for s in sections:
        u = stream(depth)
        q = 0.5 * RHO * abs(u)
        t_vec = t_vec + [q * u * s["dragArea"], s["weight"] - q * abs(u) * s["liftArea"]]
        lows.append((depth, x))
        d = s["d"]

        def slopes(_, y, wet):
            phi, t, z = y[0], y[1], y[2]
            c, sn = np.cos(phi), np.sin(phi)
            if not wet:
                return [s["wAir"] * c / t, s["wAir"] * sn, -sn, c]
            u = stream(z)
            re = abs(u * sn) * d / NU
            cn = s["cn"] if s["cn"] else (white(re) if re > 0 else 0.0)
            r = 0.5 * RHO * cn * s["strum"] * d * u * abs(u)
            f = 0.5 * RHO * np.pi * d * s["ct"] * u * abs(u)
            return [(s["w"] * c - r * sn * abs(sn)) / t, s["w"] * sn + f * c * abs(c), -sn, c]

        y = [np.arctan2(t_vec[1], t_vec[0]), np.hypot(*t_vec), depth, x]
        left = s["length"]
        for wet in (True, False):
            if left <= 0 or (wet and y[2] <= 0):
                continue
            surface = lambda _, y, wet: y[2]
            surface.terminal, surface.direction = wet and tip > 0, -1
            r = solve_ivp(slopes, (0, left), y, args=(wet,), method="LSODA", rtol=1e-12, atol=1e-13, events=surface)
            y, left = list(r.y[:, -1]), left - r.t[-1]
            if wet and r.status == 1:
                y[2] = 0.0
        phi, t, depth, x = y
        t_vec = np.array([t * np.cos(phi), t * np.sin(phi)])
    return lows, -depth, x, t_vec


def solve(case):
    sections, tip = case["sections"], case["tip"]
    length = sum(s["length"] for s in sections)
    over = lambda z: climb(sections, case["speed"], case["profile"], z, tip)[1] - tip
    free = brentq(over, 1e-3, length, xtol=1e-12, rtol=1e-14)
    lows, _, x, t = climb(sections, case["speed"], case["profile"], free, tip)
    return {
        "depth": [z for z, _ in lows],
        "astern": [x - xl for _, xl in lows],
        "tension": float(np.hypot(*t)),
        "angle": float(np.arctan2(t[1], t[0])),
    }


def line(name, length, d, density, body=(0, 0, 0), cn=0.0, ct=0.006, strum=1.0):
    area = np.pi / 4 * d * d
    return {
        "name": name, "length": length, "d": d, "w": (density - RHO) * G * area, "wAir": density * G * area,
        "cn": cn, "ct": ct, "strum": strum, "weight": body[0], "dragArea": body[1], "liftArea": body[2],
    }


spoon = (1.22, 0.001, 0.0)
cases = {
    # What the screen shows: White's drag, wire in the air from a tip 1.8 m up, half a pound at the join.
    "corner rod": {
        "speed": 1.672, "tip": 1.8, "profile": None,
        "sections": [
            line("leader", 6.096, 0.0009, 1140, spoon),
            line("wire", 60.96, 0.000508, 7930, (2.023, 1.06e-4, 0)),
        ],
    },
    # All wire and some backing out, a lure that lifts, strumming wire, two drails in the leader.
    "long line": {
        "speed": 1.5, "tip": 1.2, "profile": None,
        "sections": [
            line("leader a", 2.0, 0.0009, 1140, (1.1, 0.0012, 2e-4)),
            line("leader b", 4.1, 0.0009, 1140, (1.0, 7e-5, 0)),
            line("wire", 91.44, 0.000427, 7930, (1.0, 7e-5, 0), strum=1.3),
            line("backing", 25.0, 0.00066, 1140),
        ],
    },
    # A stream that falls off towards the bottom, with a knee, and constant coefficients.
    "sheared stream": {
        "speed": 1.7, "tip": 1.5, "profile": [[0, 6, 12, 40], [0, -0.05, -0.35, -0.6]],
        "sections": [
            line("leader", 6.096, 0.0009, 1140, spoon, cn=1.3),
            line("wire", 70.0, 0.000508, 7930, (1.0115, 7e-5, 0), cn=1.5),
        ],
    },
    # The same with White's drag and nothing in the air.
    "sheared, under water": {
        "speed": 1.4, "tip": 0.0, "profile": [[0, 30], [0, -0.5]],
        "sections": [line("leader", 4.0, 0.0008, 1140, spoon), line("wire", 50.0, 0.000457, 7930)],
    },
    # Deep down the stream runs the other way: what is there is carried forward.
    "against the stream": {
        "speed": 1.0, "tip": 1.2, "profile": [[0, 8], [0, -1.4]],
        "sections": [
            line("leader", 5.5, 0.0009, 1140, spoon),
            line("wire", 40.0, 0.000522, 7930, (2.9, 1.06e-4, 0), strum=1.35),
        ],
    },
    "against it, constant coefficients": {
        "speed": 1.0, "tip": 0.0, "profile": [[0, 12], [0, -1.5]],
        "sections": [line("wire", 60.0, 0.000522, 7930, (6.0, 5e-4, 0), cn=1.5)],
    },
}

if __name__ == "__main__":
    for case in cases.values():
        case["answer"] = solve(case)
    print(json.dumps(cases, indent=1))
