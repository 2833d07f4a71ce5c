#!/usr/bin/env python3
"""Writes vectors of a saturating amplifier between two filters, integrated by SciPy's DOP853 between the crossings of its levels.

Usage:  python3 make_saturation_vectors.py          (writes saturation.csv below ../src/test/resources/vectors)

A sine burst that starts at t = 0 from rest, one pole, the amplifier, a Butterworth filter of order 2. The pole's output has a closed
form; its crossings are bracketed on a fine grid and refined by brentq; between them the filter is integrated as an ordinary
differential equation. Nothing here knows how the library works it out.
"""
import os
import platform

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

OUT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "src", "test", "resources", "vectors", "saturation.csv")
CASES = [  # amplitude V, sine Hz, pole ahead Hz, Butterworth behind Hz, low V, high V, fraction, recovery s, span s
    (1.4, 3e6, 80e6, 60e6, -1.0, 0.8, 0.02, 50e-9, 1.2e-6),
    (5.0, 20e6, 300e6, 150e6, -1.0, 1.0, 0.0, 1.0, 200e-9),
    (3.0, 1e6, 2e6, 9e6, -2.0, 0.5, 0.3, 400e-9, 3e-6),
]


def solve(a, f, ahead, behind, low, high, fraction, tau, span):
    w, p, wb = 2 * np.pi * f, 2 * np.pi * ahead, 2 * np.pi * behind
    k = a * p / (p * p + w * w)

    def x(t):  # one pole, sine from rest
        return k * (p * np.sin(w * t) - w * np.cos(w * t) + w * np.exp(-p * t))

    grid = np.linspace(0, span, 200_001)
    v = x(grid)
    events = []
    for level in (low, high):
        s = v > level
        for i in np.nonzero(s[1:] != s[:-1])[0]:
            events.append(brentq(lambda t: x(t) - level, grid[i], grid[i + 1], xtol=1e-24, rtol=8.9e-16))
    edges = np.array([0.0] + sorted(events) + [span])
    times = np.linspace(0, span, 121)[1:]
    state, tails, rows = np.zeros(2), [], []
    for start, end in zip(edges[:-1], edges[1:]):
        over = x(0.5 * (start + end))
        level = high if over > high else low if over < low else None

        def inside(t, z):
            u = (x(t) if level is None else level) + sum(e * np.exp(-(t - b) / tau) for b, e in tails)
            return [z[1] * wb, (u - z[0] - np.sqrt(2) * z[1]) * wb]

        at = times[(times > start) & (times <= end)]
        r = solve_ivp(inside, (start, end), state, method="DOP853", rtol=3e-14, atol=1e-14, t_eval=np.append(at, end) if len(at) == 0 or at[-1] < end else at)
        rows += [(t, y) for t, y in zip(at, r.y[0])]
        state = r.y[:, -1]
        if level is not None and end < span and fraction:
            sign = 1 if level == high else -1
            top = minimize_scalar(lambda t: -sign * x(t), bounds=(start, end), method="bounded", options={"xatol": 1e-18})
            tails.append((end, fraction * sign * (-top.fun - sign * level)))
    return rows


def main():
    lines = [
        "# A saturating amplifier between one pole and a Butterworth filter of order 2; a sine burst from rest.",
        f"# tool: SciPy {scipy.__version__}, NumPy {np.__version__}, Python {platform.python_version()}; script: validation/scripts/make_saturation_vectors.py",
        "# expression: scipy.integrate.solve_ivp(..., method='DOP853', rtol=3e-14, atol=1e-14) between crossings found by brentq",
        "# tolerance: 1e-10 V, what DOP853 leaves of its own tolerance over some hundreds of steps",
        "amplitude,hertz,aheadHz,behindHz,low,high,fraction,tau,span,time,volts",
    ]
    for case in CASES:
        for t, y in solve(*case):
            lines.append(",".join(repr(float(c)) for c in case + (t, y)))
    with open(OUT, "w", encoding="utf-8", newline="\n") as f:
        f.write("\n".join(lines) + "\n")
    print(len(lines) - 5, "rows")


if __name__ == "__main__":
    main()
