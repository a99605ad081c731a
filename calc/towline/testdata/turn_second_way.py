"""Solves lines towed round a circle a second way, with SciPy, and writes the numbers that the Go tests compare with.

    /usr/bin/python3 calc/towline/testdata/turn_second_way.py > calc/towline/testdata/turn_second_way.json

Where Go shoots from the free ends up, this solves all sections at once as one boundary value problem by collocation
(scipy.integrate.solve_bvp), in the frame that turns about the centre: tension vector and place of each section are the
unknowns, tied to each other at the joints. It is led there from the straight tow through ever tighter circles. SciPy
from Debian (python3-scipy).
"""

import json

import numpy as np
from scipy.integrate import solve_bvp

RHO, NU = 1025.0, 1.19e-6


def solve(case):
    sections, speed = case["sections"], case["speed"]
    n = len(sections)
    children = [[j for j, s in enumerate(sections) if s["parent"] == i] for i in range(n)]
    length = sum(s["length"] for s in sections)

    def flow(p, radius):  # velocity of a place through the water: x outward, y forward, z up at the boat
        omega = speed / radius
        return np.array([-omega * p[1], omega * p[0], 0 * p[0]]), omega

    def slopes(s, t, p, radius):
        u, omega = flow(p, radius)
        size = np.sqrt((t * t).sum(0))
        e = t / size
        along = (u * e).sum(0)
        un = u - along * e
        across = np.sqrt((un * un).sum(0))
        cn = s["cn"] if s["cn"] else 1 + 10 * np.maximum(across * s["d"] / NU, 1e-9) ** (-2 / 3)
        drag = 0.5 * RHO * s["d"] * (cn * across * un + np.pi * s["ct"] * abs(along) * along * e)
        a = -omega**2 * np.array([p[0], p[1], 0 * p[0]])
        ae = (a * e).sum(0)
        dt = drag + s["m"] * a + s["ma"] * (a - ae * e)
        dt[2] += s["w"]
        return dt * s["length"], e * s["length"]

    def pull(b, p, radius):
        u, omega = flow(p, radius)
        v = np.hypot(u[0], u[1])
        t = 0.5 * RHO * b["dragArea"] * v * u - b["mass"] * omega**2 * np.array([p[0], p[1], 0])
        t[2] += b["weight"] - 0.5 * RHO * v * v * b["liftArea"]
        return t

    def rhs(radius):
        def f(_, y):
            out = np.empty_like(y)
            for i, s in enumerate(sections):
                out[6 * i : 6 * i + 3], out[6 * i + 3 : 6 * i + 6] = slopes(s, y[6 * i : 6 * i + 3], y[6 * i + 3 : 6 * i + 6], radius)
            return out
        return f

    def ends(radius):
        def g(low, top):
            r = []
            for i, s in enumerate(sections):
                t, p = low[6 * i : 6 * i + 3], low[6 * i + 3 : 6 * i + 6]
                r.append(t - pull(s["body"], p, radius) - sum((top[6 * j : 6 * j + 3] for j in children[i]), np.zeros(3)))
                head = np.array([radius, 0, 0]) if s["parent"] < 0 else low[6 * s["parent"] + 3 : 6 * s["parent"] + 6]
                r.append(top[6 * i + 3 : 6 * i + 6] - head)
            return np.concatenate(r)
        return g

    # A first guess: everything on a flat slope behind the boat.
    x = np.linspace(0, 1, 40)
    y = np.zeros((6 * n, x.size))
    radius = 20 * length
    tops = {}
    for i, s in enumerate(sections):
        behind, depth = tops.get(s["parent"], (0.0, 0.0))
        tops[i] = (behind + 0.98 * s["length"], depth + 0.2 * s["length"])
        y[6 * i + 1], y[6 * i + 2] = 3, 0.6
        along = (1 - x) * s["length"]
        y[6 * i + 3], y[6 * i + 4], y[6 * i + 5] = radius, -behind - 0.98 * along, -depth - 0.2 * along
    while True:
        last = radius == case["radius"]
        sol = solve_bvp(rhs(radius), ends(radius), x, y, tol=1e-9 if last else 1e-3, bc_tol=1e-11 if last else 1e-5, max_nodes=200000)
        if sol.status:
            raise SystemExit(f"{radius}: {sol.message}")
        if last:
            break
        x, y = sol.x, sol.y
        step = max(radius * 0.85, case["radius"])
        for i in range(n):  # carried along with the boat as she comes nearer to the centre
            y[6 * i + 3] += step - radius
        radius = step
    low, top = sol.y[:, 0], sol.y[:, -1]
    places = [low[6 * i + 3 : 6 * i + 6] for i in range(n)]
    return {
        "radius": [float(np.hypot(p[0], p[1])) for p in places],
        "depth": [float(-p[2]) for p in places],
        "lag": [float(np.arctan2(-p[1], p[0])) for p in places],
        "tensionTop": [float(np.linalg.norm(top[6 * i : 6 * i + 3])) for i in range(n)],
    }


def body(weight=0.0, dragArea=0.0, liftArea=0.0, mass=0.0):
    return {"weight": weight, "dragArea": dragArea, "liftArea": liftArea, "mass": mass}


def line(parent, length, d, density, at_end, cn=0.0, ct=0.006):
    area = np.pi / 4 * d * d
    return {
        "parent": parent, "length": length, "d": d, "w": (density - RHO) * 9.80665 * area, "cn": cn, "ct": ct,
        "m": density * area, "ma": RHO * area, "body": at_end,
    }


spoon, steel, nylon = body(1.2, 1e-3, 0.0, 0.16), 7930.0, 1140.0
cases = {
    "three-way": {"speed": 1.6, "radius": 60.0, "sections": [
        line(-1, 60.96, 0.000508, steel, body(), cn=1.4),
        line(0, 0.6096, 0.0009, nylon, body(4.046, 7e-4, 0.0, 0.474), cn=1.2),
        line(0, 6.096, 0.0009, nylon, spoon, cn=1.2)]},
    "three-way, tight, White's drag": {"speed": 1.7, "radius": 35.0, "sections": [
        line(-1, 50.0, 0.000457, steel, body()),
        line(0, 4.0, 0.0009, nylon, body(3.0, 6e-4, 0.0, 0.35)),
        line(0, 6.0, 0.0009, nylon, body(1.0, 1.5e-3, 2e-4, 0.13))]},
    "no weight, in the sinking turn": {"speed": 1.6, "radius": 33.0, "sections": [
        line(-1, 60.0, 0.000508, steel, body(), cn=1.4),
        line(0, 6.0, 0.0009, nylon, spoon, cn=1.2)]},
    "two drails, wire and backing, wide": {"speed": 1.9, "radius": 150.0, "sections": [
        line(-1, 20.0, 0.00066, nylon, body()),
        line(0, 90.0, 0.000508, steel, body(1.0, 7e-5, 0.0, 0.12)),
        line(1, 3.0, 0.0009, nylon, body(1.0, 7e-5, 0.0, 0.12)),
        line(2, 3.0, 0.0009, nylon, spoon)]},
}

if __name__ == "__main__":
    for case in cases.values():
        case["answer"] = solve(case)
    print(json.dumps(cases, indent=1))
