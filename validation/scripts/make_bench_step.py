#!/usr/bin/env python3
"""Writes an invented bench's two records of a step, from SciPy: an independent program in double precision.

Usage:  python3 make_bench_step.py        (writes ../../examples/fits/data/bench-step.csv)

A step of 1 V at t = 0 through a Butterworth response of second order, half power at 17.2 MHz, solved by scipy.linalg.expm from its
state equations; gain 1.8 % too large, offset 8 mV too low (0.5 % of 1.6 V); white noise of 5 mV; 8 bits over 1.6 V about 0.5 V. The
records are 3.1 ns late and 1.4 ns early.
"""
import os

import numpy as np
import scipy
from scipy import linalg

OUT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "examples", "fits", "data", "bench-step.csv")
RATE, POINTS = 250e6, 400
START = -200e-9
HALF_POWER, GAIN, OFFSET, NOISE = 17.2e6, 1.018, -0.008, 0.005
STEP = 1.6 / 256
LATE = (3.1e-9, -1.4e-9)


def response(t):
    """C A^-1 (e^(A t) - I) B."""
    if t < 0:
        return 0.0
    w = 2 * np.pi * HALF_POWER
    a = np.array([[0.0, 1.0], [-1.0, -np.sqrt(2)]])  # in units of w
    x = linalg.solve(a, (linalg.expm(a * w * t) - np.eye(2)) @ np.array([0.0, 1.0]))
    return x[0]


def main():
    rng = np.random.default_rng(20)
    columns = []
    for late in LATE:
        t = START + late + np.arange(POINTS) / RATE
        v = GAIN * np.array([response(x) for x in t]) + OFFSET + NOISE * rng.standard_normal(POINTS)
        columns.append(0.5 + STEP * np.clip(np.round((v - 0.5) / STEP), -128, 127))
    with open(OUT, "w", encoding="utf-8") as f:
        f.write("# Invented: two records of a step of 1 V by a bench that does not exist\n")
        f.write("# half power 17.2 MHz (Butterworth, second order), gain error +1.8 %, offset error -0.5 % of 1.6 V, 5 mV of noise, 8 bits;\n")
        f.write("# the first record is 3.1 ns late, the second 1.4 ns early, which their times do not say\n")
        f.write(f"# computed with NumPy {np.__version__} and SciPy {scipy.__version__} by validation/scripts/make_bench_step.py\n")
        f.write("time_ns,first_V,second_V\n")
        for k in range(POINTS):
            f.write(f"{START * 1e9 + k * 1e9 / RATE:.0f},{columns[0][k]:.5f},{columns[1][k]:.5f}\n")


if __name__ == "__main__":
    main()
