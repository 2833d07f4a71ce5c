#!/usr/bin/env python3
"""Writes how the rise time of filtered ramps follows that of the ramp, from SciPy: an independent program in double precision.

Usage:  python3 make_sensitivity_vectors.py        (writes ../src/test/resources/reference/scipy-sensitivity.csv)

A ramp from 0 to 1 V with a 10-90 % duration T through low-pass filters with half power at 350 MHz (scipy.signal.butter, bessel with
norm="mag"; the single pole is a Butterworth filter of first order). Behind the filter the response to a ramp that never ends, by partial
fractions of H(s)/s^2 (scipy.signal.residue), less that of one which begins at its end; crossings of 0.1 and 0.9 by scipy.optimize.brentq.
r is the duration read behind the filter. S is the least-squares slope of r over T through the origin of differences: T changed by -h and
+h for h = 5 % to 15 % in eight even steps.
"""
import os

import numpy as np
import scipy
from scipy import optimize, signal

OUT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "src", "test", "resources", "reference", "scipy-sensitivity.csv")
HALF_POWER = 350e6
SHARES = [0.05 + 0.1 * k / 7 for k in range(8)]


def filters():
    for order in (1, 2, 3):
        yield "butterworth", order, signal.butter(order, 1, analog=True)
    for order in (2, 4):
        yield "bessel", order, signal.bessel(order, 1, analog=True, norm="mag")


def endless(b, a):
    """The response to a ramp of slope 1 that never ends; times in units of 1/w of half power."""
    r, p, k = signal.residue(b, np.polymul(a, [1, 0, 0]))
    assert len(k) == 0
    # the double pole at 0 comes as 1/s, then 1/s^2
    zero = np.abs(p) < 1e-6
    assert zero.sum() == 2
    level, slope = r[zero]
    r, p = r[~zero], p[~zero]
    return lambda t: 0.0 if t <= 0 else float((level + slope * t + np.sum(r * np.exp(p * t))).real)


def duration(y, rise):
    """10-90 % behind the filter of a ramp of that 10-90 % duration."""
    whole = rise / 0.8

    def v(t):
        return (y(t) - y(t - whole)) / whole

    # the first crossing of each: none of these is off the rising edge
    grid = np.linspace(0, whole + 20, 20001)
    values = np.array([v(t) for t in grid])

    def crossing(level):
        i = int(np.argmax(values >= level))
        return optimize.brentq(lambda t: v(t) - level, grid[i - 1], grid[i], xtol=1e-14, rtol=1e-15)

    return crossing(0.9) - crossing(0.1)


def main():
    w = 2 * np.pi * HALF_POWER
    with open(OUT, "w", encoding="utf-8") as f:
        f.write("# 10-90 % duration of ramps behind filters of 350 MHz half power, and the slope of it over that of the ramp\n")
        f.write("# source: scipy.signal.butter, bessel, residue; scipy.optimize.brentq\n")
        f.write(f"# computed with NumPy {np.__version__} and SciPy {scipy.__version__} by scripts/make_sensitivity_vectors.py\n")
        f.write("shape,order,rise_s,read_s,sensitivity\n")
        for name, order, (b, a) in filters():
            y = endless(b, a)
            for rise in (0.3e-9, 1e-9, 3e-9):
                d = np.array([duration(y, w * rise * (1 + h)) - duration(y, w * rise * (1 - h)) for h in SHARES]) / w
                t = np.array([2 * h * rise for h in SHARES])
                f.write(f"{name},{order},{rise!r},{duration(y, w * rise) / w!r},{float(np.sum(d * t) / np.sum(t * t))!r}\n")


if __name__ == "__main__":
    main()
