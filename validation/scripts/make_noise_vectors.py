#!/usr/bin/env python3
"""Writes ../src/test/resources/vectors/noise.csv: the covariance of sampled noise from SciPy, an independent program.

Usage:  python3 make_noise_vectors.py

The sections of each chain are put one after another as state spaces (SciPy's own zeros, poles and gain; Gaussian magnitudes from the
roots of their polynomial by NumPy). White noise of one-sided density 1 V/sqrt(Hz) has the two-sided density 1/2, so the state covariance
solves A P + P A' + B B'/2 = 0 (scipy.linalg.solve_continuous_lyapunov), and R(k) = C expm(A k h) P C' (scipy.linalg.expm). Time runs in
units of 1/(2 pi times the last bandwidth), so that the matrices stay near 1. The folded spectrum is the sum of |H|^2 over 200001 images
(scipy.signal.freqs_zpk), closed by the integral of the skirt.

Tolerance: what double arithmetic leaves of the cascade, 1e-7 of the variance (checked here against numerical integration of |H|^2 by
scipy.integrate.quad, to 1e-6); the spectrum to 1e-5 of its own value.
"""
import os
import platform

import numpy as np
import scipy
from scipy import signal
from scipy.integrate import quad
from scipy.linalg import expm, solve_continuous_lyapunov

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources", "vectors", "noise.csv")
LAGS = (0, 1, 2, 3, 5, 10, 20, 50, 100)
SHARES = (0.0, 0.01, 0.05, 0.1, 0.2, 0.35, 0.5)


def gaussian(n, w):
    """1 / sum (c x^2)^k / k!, equal to a half at x = 1: the left half plane's roots, x = s / (j w)."""
    poly = lambda c: [(c ** k) / float(np.prod(np.arange(1, k + 1))) for k in range(n + 1)]
    c = scipy.optimize.brentq(lambda c: sum(poly(c)) - 2, 0.1, 1, xtol=1e-16)
    coefficients = [a * (-1) ** k for k, a in enumerate(poly(c))]  # in s^2
    roots = np.roots(coefficients[::-1])
    p = -np.sqrt(roots.astype(complex))
    p = np.where(p.real > 0, -p, p) * w
    return np.array([]), p, float(np.real(np.prod(-p)))


def shape(kind, n, w):
    if kind == "highPass":
        return np.array([0.0]), np.array([-w]), 1.0
    if kind == "singlePole":
        return np.array([]), np.array([-w]), w
    if kind == "butterworth":
        return signal.butter(n, w, analog=True, output="zpk")
    if kind == "gaussian":
        return gaussian(n, w)
    return signal.bessel(n, w, analog=True, output="zpk", norm="mag")


def sections(z, p, k):
    """Real first- and second-order parts of one shape, each of unit gain but the first."""
    z, p = list(z), sorted(p, key=lambda q: (abs(q), q.imag))
    out = []
    while p:
        q = p.pop(0)
        poles = [q.real]
        if abs(q.imag) > 1e-12 * abs(q):
            mate = min(p, key=lambda r: abs(r - np.conj(q)))
            p.remove(mate)
            den = [1, -2 * q.real, abs(q) ** 2]
        else:
            den = [1, -q.real]
        if z:
            num = [1, -z.pop(0).real]
        else:
            num = [den[-1]]
        out.append((num, den))
    return out


def cascade(factors, unit):
    a, b, c, d = np.zeros((0, 0)), np.zeros((0, 1)), np.zeros((1, 0)), np.ones((1, 1))
    for kind, n, hz in factors:
        for num, den in sections(*shape(kind, n, hz / unit)):
            a2, b2, c2, d2 = signal.tf2ss(num, den)
            a = np.block([[a, np.zeros((a.shape[0], a2.shape[0]))], [b2 @ c, a2]])
            b, c, d = np.vstack([b, b2 @ d]), np.hstack([d2 @ c, c2]), d2 @ d
    return a, b, c, d


def square(factors, hz):
    h = np.ones_like(np.asarray(hz, dtype=float))
    for kind, n, f in factors:
        z, p, k = shape(kind, n, 1.0)
        h = h * np.abs(signal.freqs_zpk(z, p, k, worN=np.asarray(hz) / f)[1]) ** 2
    return h


def words(factors):
    return "product(" + ", ".join(f"{k}({hz!r})" if n == 0 else f"{k}({n}, {hz!r})" for k, n, hz in factors) + ")"


def case(factors, rate):
    unit = factors[-1][2]
    w = 2 * np.pi * unit  # time in 1/w
    a, b, c, d = cascade(factors, unit)
    assert abs(d[0, 0]) == 0
    p = solve_continuous_lyapunov(a, -b @ b.T / 2)
    r = [float((c @ expm(a * (w * k / rate)) @ p @ c.T)[0, 0]) * w for k in LAGS]
    top = max(f for _, _, f in factors)
    low = min(f for _, _, f in factors)
    edges = [0] + [low * 10.0 ** e for e in range(-2, int(np.log10(top / low)) + 4)]
    total = sum(quad(lambda f: float(square(factors, [f])[0]), u, v, epsrel=1e-10, limit=400)[0] for u, v in zip(edges, edges[1:]))
    last = edges[-1]
    total += float(square(factors, [last])[0]) * last  # the skirt falls as 1/f^2 at the slowest
    assert abs(total / r[0] - 1) < 1e-6 or len(factors) == 1 and factors[0][1] == 0 and abs(total / r[0] - 1) < 1e-5, (factors, total, r[0])
    lines = ["", f"case: {words(factors)}", f"rate: {rate!r}", "kind,where,value"]
    lines += [f"lag,{k},{v!r}" for k, v in zip(LAGS, r)]
    n = np.arange(-100000, 100001)
    for s in SHARES:
        folded = float(np.sum(square(factors, np.abs(s + n) * rate)))
        edge = 100000.5 * rate
        folded += 2 * float(square(factors, [edge])[0]) * 100000.5
        lines.append(f"spectrum,{s!r},{folded!r}")
    return lines


def main():
    cases = []
    for rate in (5e8, 2e9):
        cases += case([("singlePole", 0, 1e8)], rate)
        for n in (2, 4, 6):
            for kind in ("butterworth", "bessel", "gaussian"):
                cases += case([(kind, n, 1e8)], rate)
        cases += case([("bessel", 4, 2e8), ("butterworth", 2, 2e7)], rate)
        cases += case([("singlePole", 0, 3e8), ("gaussian", 4, 1e8)], rate)
        cases += case([("singlePole", 0, 5e7), ("singlePole", 0, 5e7), ("singlePole", 0, 5e7)], rate)
        cases += case([("highPass", 0, 1e6), ("bessel", 4, 1e8)], rate)
    head = [
        "# Autocovariance, V^2, at whole lags, and folded one-sided spectrum, V^2/Hz, at shares of the rate, of white noise of 1 V/sqrt(Hz)",
        "# behind a response, sampled at a rate.",
        f"# Made by scripts/make_noise_vectors.py: SciPy {scipy.__version__}, NumPy {np.__version__}, Python {platform.python_version()};"
        " solve_continuous_lyapunov, expm, freqs_zpk.",
    ]
    with open(OUT, "w", encoding="utf-8") as f:
        f.write("\n".join(head + cases) + "\n")


main()
