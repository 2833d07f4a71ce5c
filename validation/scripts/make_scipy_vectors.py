#!/usr/bin/env python3
"""Writes vectors from SciPy, an independent program in double precision: its own poles, its own solvers, from rest.

Usage:  python3 make_scipy_vectors.py          (writes scipy.csv and ecg.csv below ../src/test/resources)

Times run in nanoseconds inside, so that the polynomials and matrices of SciPy stay near 1. The tolerance stated with each case is
SciPy's own: that of the solver asked for, or what double precision leaves of the matrix exponential.
"""
import os
import platform

import numpy as np
import scipy
from scipy import signal
from scipy.integrate import solve_ivp

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources")
NS = 1e-9


def shape(kind, n, hz):
    """Zeros, poles and gain by SciPy, in rad/ns."""
    w = 2 * np.pi * hz * NS
    if kind == "highPass":
        return np.array([0.0]), np.array([-w]), 1.0
    if kind == "singlePole":
        return np.array([]), np.array([-w]), w
    if kind == "butterworth":
        return signal.butter(n, w, analog=True, output="zpk")
    return signal.bessel(n, w, analog=True, output="zpk", norm="mag")


def words(factors):
    return "product(" + ", ".join(f"{k}({hz!r})" if n == 0 else f"{k}({n}, {hz!r})" for k, n, hz in factors) + ")"


def system(factors):
    z, p, g = np.array([]), np.array([]), 1.0
    for kind, n, hz in factors:
        a, b, c = shape(kind, n, hz)
        z, p, g = np.append(z, a), np.append(p, b), g * c
    return signal.ZerosPolesGain(z, p, g)


def cascade(factors):
    """A, B, C, D of the sections one after another: better conditioned than one polynomial."""
    a, b, c, d = np.zeros((0, 0)), np.zeros((0, 1)), np.zeros((1, 0)), np.ones((1, 1))
    for kind, n, hz in factors:
        a2, b2, c2, d2 = signal.zpk2ss(*shape(kind, n, hz))
        a = np.block([[a, np.zeros((a.shape[0], a2.shape[0]))], [b2 @ c, a2]])
        b, c, d = np.vstack([b, b2 @ d]), np.hstack([d2 @ c, c2]), d2 @ d
    return a, b, c, d


def solved(factors, pieces, rate, ks, rtol=1e-12, atol=1e-13):
    """solve_ivp (DOP853) piece by piece: pieces are (begin, end, u(t)) in ns."""
    a, b, c, d = cascade(factors)
    x, out = np.zeros(a.shape[0]), {}
    for begin, end, u in pieces:
        inside = [k for k in ks if begin <= k / rate / NS < end]
        at = [k / rate / NS for k in inside]
        r = solve_ivp(lambda t, y: a @ y + b[:, 0] * u(t), (begin, end), x, method="DOP853", rtol=rtol, atol=atol, t_eval=at + [end])
        for i, k in enumerate(inside):
            out[k] = c[0] @ r.y[:, i] + d[0, 0] * u(at[i])
        x = r.y[:, -1]
    return [(k, out[k]) for k in ks]


def case(name, sig, response, fs, rate, rows, tolerance, how):
    lines = ["", f"# {how}", f"case: {name}", f"signal: {sig}", f"response: {response}", f"full scale: {fs!r}", "start: 0.0", f"rate: {rate!r}"]
    return lines + [f"tolerance: {tolerance!r}", "kind,where,volts"] + [f"sample,{k},{float(v)!r}" for k, v in rows]


def steps():
    lines = []
    for kind in ("butterworth", "bessel"):
        for n in range(1, 9):
            f = [(kind, n, 1e8)]
            t = np.arange(0, 40) * 0.5
            _, y = signal.step(system(f), T=t)
            lines += case(f"step through {kind} {n}", "step(1.0, 0.0)", words(f), 1.0, 2e9, list(enumerate(y)), 1e-9, "scipy.signal.step of the zeros, poles and gain of SciPy's own design")
    return lines


def piecewise_linear():
    lines = []
    rate = 4e9
    for f in (
        [("butterworth", 2, 20e6)],
        [("bessel", 4, 200e6), ("butterworth", 2, 20e6)],
        [("highPass", 0, 1e6), ("bessel", 3, 100e6)],
        [("singlePole", 0, 50e6), ("singlePole", 0, 50e6)],
    ):
        # corners on the grid, so that the piecewise linear input of lsim is the signal itself; 2^-2 ns steps are exact
        t = np.arange(0, 801) * 0.25
        x = np.interp(t % 50, [0, 2, 20, 25, 50], [0, 1, 1, 0, 0])
        _, y, _ = signal.lsim(system(f), x, t)
        lines += case(
            f"trapezoid from rest through {words(f)}", "gated(trapezoid(0.0, 1.0, 5e-08, 0.43, 2e-09, 5e-09), 0.0, 2e-07)", words(f), 1.0, rate,
            [(k, y[k]) for k in list(range(0, 30)) + list(range(37, 800, 23))], 1e-9, "scipy.signal.lsim, piecewise-linear input (first-order hold), from rest")
    return lines


def driven():
    lines = []
    ks = list(range(0, 20)) + list(range(23, 300, 11))
    w = 2 * np.pi * 80e6 * NS
    for f in ([("bessel", 4, 200e6), ("butterworth", 2, 20e6)], [("highPass", 0, 5e6), ("butterworth", 4, 150e6)]):
        burst = [(0, 2, lambda t: 0.0), (2, 2 + 5 / 0.08, lambda t: np.sin(w * (t - 2))), (2 + 5 / 0.08, 320, lambda t: 0.0)]
        lines += case(f"burst through {words(f)}", "burst(1.0, 80000000.0, 5, 2e-09)", words(f), 2.0, 1e9, solved(f, burst, 1e9, ks), 1e-9,
                      "scipy.integrate.solve_ivp, DOP853, rtol 1e-12, atol 1e-13, piece by piece")
        ring = [(0, 3, lambda t: 0.0), (3, 320, lambda t: np.exp(-(t - 3) / 30) * np.sin(w * (t - 3)))]
        lines += case(f"damped ringing through {words(f)}", "dampedRinging(1.0, 80000000.0, 3e-08, 3e-09)", words(f), 2.0, 1e9, solved(f, ring, 1e9, ks), 1e-9,
                      "scipy.integrate.solve_ivp, DOP853, rtol 1e-12, atol 1e-13, piece by piece")
        edge = [(0, 4, lambda t: 0.0), (4, 320, lambda t: -np.expm1(-(t - 4) / 12))]
        lines += case(f"exponential edge through {words(f)}", "exponentialEdge(1.0, 4e-09, 1.2e-08)", words(f), 1.0, 1e9, solved(f, edge, 1e9, ks), 1e-9,
                      "scipy.integrate.solve_ivp, DOP853, rtol 1e-12, atol 1e-13, piece by piece")
    return lines


def ecg():
    """The recorded waveform through SciPy: lsim, piecewise linear between the points, from rest."""
    with open(os.path.join(OUT, "recorded", "ecg-mitbih208.csv"), encoding="utf-8") as f:
        rows = [line.split(",") for line in f if line[0].isdigit()]
    x = np.array([float(r[2]) for r in rows])
    t = np.arange(len(x)) / 360
    runs = {
        "butterworth(2, 40.0)": signal.lsim(signal.butter(2, 2 * np.pi * 40, analog=True), x, t)[1],
        "highPass(0.5)": signal.lsim(([1, 0], [1, 2 * np.pi * 0.5]), x, t)[1],
        "bessel(4, 25.0)": signal.lsim(signal.bessel(4, 2 * np.pi * 25, analog=True, norm="mag"), x, t)[1],
    }
    lines = [
        "# Recorded electrocardiogram (recorded/ecg-mitbih208.csv, its head names source and licence), read as if millivolts were volts,",
        "# through analog filters, from rest.",
        f"# tool: SciPy {scipy.__version__}, NumPy {np.__version__}, Python {platform.python_version()}; script: validation/scripts/make_scipy_vectors.py",
        "# expression: scipy.signal.lsim(filter, x, k/360): piecewise linear between the points; the first two filters are rows of the",
        "#   reference values computed with SciPy 1.10.1 too, equal to all printed digits",
        "# tolerance: 1e-9 of 3.62 mV, the span of the record: what double precision leaves of lsim",
        "response,index,millivolts",
    ]
    for name, y in runs.items():
        lines += [f'"{name}",{k},{float(y[k])!r}' for k in list(range(0, 3600, 36)) + [1, 2, 3, 100, 1000, 2000, 3599]]
    return lines


def main():
    head = [
        "# Test vectors: SciPy, from rest.",
        f"# tool: SciPy {scipy.__version__}, NumPy {np.__version__}, Python {platform.python_version()}; script: validation/scripts/make_scipy_vectors.py",
        "# expression: stands above each case; sampling: sample k is at start + k/rate",
        "# tolerance: stated with each case, of its full scale: SciPy's own",
    ]
    for name, lines in (("vectors/scipy.csv", head + steps() + piecewise_linear() + driven()), ("recorded/ecg-lsim.csv", ecg())):
        with open(os.path.join(OUT, name), "w", encoding="utf-8") as f:
            f.write("\n".join(lines) + "\n")
        print(name, len(lines), "lines")


if __name__ == "__main__":
    main()
