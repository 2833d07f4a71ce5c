#!/usr/bin/env python3
"""Writes fits of a chain's parameters to invented records, from SciPy: an independent program in double precision.

Usage:  python3 make_chain_fit_vectors.py        (writes scipy-chain-fit.csv below ../src/test/resources/reference)

Each record is the closed form of its model at invented parameters plus seeded normal noise, rounded to a microvolt. It is fitted by
scipy.optimize.curve_fit with the derivatives by complex step. For noise that is correlated from point to point the covariance is
A J'RJ A, A = 1/(J'J), and chi-squared has the mean tr(MR)/R0 and the variance 2 tr(MRMR)/R0^2, M = I - J A J', with all matrices written out.
"""
import csv
import os

import numpy as np
import scipy
from scipy import linalg, optimize

OUT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "src", "test", "resources", "reference")
RATE = 100e6
FULL_SCALE = 8.0


def instants(n, start):
    return start + np.arange(n) / RATE


def pole_step(n, f, gain, offset, start):
    """A step of 1 V at 100 ns through a single pole."""
    t = instants(n, start) - 100e-9
    y = np.where(np.real(t) >= 0, 1 - np.exp(-2 * np.pi * f * np.where(np.real(t) >= 0, t, 0)), 0)
    return (1 + gain) * y + offset * FULL_SCALE


def butterworth_step(n, f, gain, start):
    """The same through a Butterworth response of second order."""
    t = instants(n, start) - 100e-9
    x = np.sqrt(2) * np.pi * f * np.where(np.real(t) >= 0, t, 0)
    return (1 + gain) * (1 - np.exp(-x) * (np.cos(x) + np.sin(x)))


def coupled_sine(n, f, corner, offset):
    """A sine of 1 V and 1 MHz, settled, through AC coupling and a single pole."""
    w = 2 * np.pi * 1e6
    a, b = 2 * np.pi * f, 2 * np.pi * corner
    # 1/(1 + j w/a) times 1/(1 - j b/w)
    re, im = 1 / (1 + (w / a) ** 2), -(w / a) / (1 + (w / a) ** 2)
    cr, ci = 1 / (1 + (b / w) ** 2), (b / w) / (1 + (b / w) ** 2)
    hr, hi = re * cr - im * ci, re * ci + im * cr
    t = instants(n, 0)
    return hr * np.sin(w * t) + hi * np.cos(w * t) + offset * FULL_SCALE


CASES = [  # name, model, points, true parameters, start of the search, sigma, correlation from point to point
    ("pole", pole_step, 150, (2.3e6, 0.013, -0.004, 1.7e-9), (3e6, 0, 0, 0), 0.01, 0.0),
    ("butterworth", butterworth_step, 120, (3.1e6, -0.02, -2.3e-9), (4e6, 0, 0), 0.02, 0.0),
    ("sine", coupled_sine, 260, (1.7e6, 310e3, 0.002), (2e6, 200e3, 0), 0.005, 0.0),
    ("correlated", butterworth_step, 120, (3.1e6, 0.01, 1.1e-9), (4e6, 0, 0), 0.02, 0.9),
]


def main():
    rows = []
    for number, (name, model, n, truth, start, sigma, r) in enumerate(CASES):
        rng = np.random.default_rng(100 + number)
        noise = rng.standard_normal(n)
        for i in range(1, n):
            noise[i] = r * noise[i - 1] + np.sqrt(1 - r * r) * noise[i]
        y = np.round(model(n, *truth) + sigma * noise, 6)
        scale = np.array([abs(v) if v else 1.0 for v in truth])

        def curve(_, *p):
            return model(n, *(np.array(p) * scale))

        def jacobian(_, *p):
            columns = []
            for j in range(len(p)):
                q = np.array(p, dtype=complex)
                q[j] += 1e-30j
                columns.append(np.imag(model(n, *(q * scale))) / 1e-30)
            return np.stack(columns, 1)

        p, c = optimize.curve_fit(curve, np.arange(n), y, np.array(start) / scale, sigma=np.full(n, sigma), absolute_sigma=True,
                                  jac=jacobian, ftol=1e-15, xtol=1e-15, gtol=1e-15)
        left = y - curve(None, *p)
        j = jacobian(None, *p)
        a = np.linalg.inv(j.T @ j)
        corr = linalg.toeplitz(r ** np.arange(n)) if r else np.eye(n)
        if r:
            c = sigma**2 * a @ j.T @ corr @ j @ a
        m = (np.eye(n) - j @ a @ j.T) @ corr
        mean, variance = np.trace(m), 2 * np.trace(m @ m)
        for i, v in enumerate(y):
            rows.append((name, "point", i, 0, v))
        for i in range(len(p)):
            rows.append((name, "estimate", i, 0, p[i] * scale[i]))
            for k in range(i + 1):
                rows.append((name, "covariance", i, k, c[i, k] * scale[i] * scale[k]))
        rows.append((name, "reduced", 0, 0, left @ left / sigma**2 / mean))
        rows.append((name, "freedom", 0, 0, 2 * mean**2 / variance))
    with open(os.path.join(OUT, "scipy-chain-fit.csv"), "w", encoding="utf-8") as f:
        f.write("# Parameters of a chain fitted to invented records: points, estimates, covariances, reduced chi-squared, its degrees of freedom\n")
        f.write("# source: scipy.optimize.curve_fit, derivatives by complex step; models, covariances and degrees as in the script\n")
        f.write(f"# computed with NumPy {np.__version__} and SciPy {scipy.__version__} by scripts/make_chain_fit_vectors.py\n")
        out = csv.writer(f, lineterminator="\n")
        out.writerow(("case", "what", "i", "j", "value"))
        for row in rows:
            out.writerow((*row[:4], repr(float(row[4]))))


if __name__ == "__main__":
    main()
