#!/usr/bin/env python3
"""Writes tables for the tests of recorders from NumPy and SciPy: an independent program in double precision.

Usage:  python3 make_fit_vectors.py          (writes numpy-sine-fit.csv, numpy-histogram.csv, numpy-step.csv and numpy-beam.csv
                                              below ../src/test/resources/reference)
"""
import csv
import os

import numpy as np
import scipy
from scipy import optimize, signal

OUT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "src", "test", "resources", "reference")
TOOL = f"computed with NumPy {np.__version__} and SciPy {scipy.__version__} by scripts/make_fit_vectors.py"


def write(name, title, source, columns, rows):
    with open(os.path.join(OUT, name + ".csv"), "w", encoding="utf-8") as f:
        f.write(f"# {title}\n# source: {source}\n# {TOOL}\n{','.join(columns)}\n")
        for row in rows:
            f.write(",".join(c if isinstance(c, str) else repr(float(c)) if isinstance(c, float) else str(c) for c in row) + "\n")


def points(n, cycles, harmonic, rough, slope, bits):
    """A sine of amplitude 0.8 on 0.25, its third harmonic, a sawtooth in place of noise, a trend; rounded to 2^-bits if bits."""
    k = np.arange(n)
    v = (0.25 + 0.8 * np.cos(2 * np.pi * cycles * k + 0.7) + harmonic * np.cos(6 * np.pi * cycles * k)
         + rough * ((k * 7919) % 1009 / 1009 - 0.5) + slope * k / n)
    return np.round(v * 2.0**bits) / 2.0**bits if bits else v


def fit(y, start, free):
    """Amplitude, phase, offset, cycles a point, root mean square residual and four deviations."""
    n = len(y)
    k = np.arange(n)

    def columns(w):
        return np.stack([np.cos(w * k), np.sin(w * k), np.ones(n)], 1)

    w = 2 * np.pi * start
    x = np.linalg.lstsq(columns(w), y, rcond=None)[0]
    if free:
        scale = np.array([1, 1, 1, 1 / n])

        def residual(p):
            p = p * scale
            return p[0] * np.cos((w + p[3]) * k) + p[1] * np.sin((w + p[3]) * k) + p[2] - y

        def jacobian(p):
            p = p * scale
            u = w + p[3]
            c, s = np.cos(u * k), np.sin(u * k)
            return np.stack([c, s, np.ones(n), k * (p[1] * c - p[0] * s)], 1) * scale

        p = optimize.least_squares(residual, np.append(x, 0), jacobian, method="lm", ftol=1e-15, xtol=1e-15, gtol=1e-15).x * scale
        x, w = p[:3], w + p[3]
    c, s = np.cos(w * k), np.sin(w * k)
    a, b = x[0], x[1]
    r = y - (a * c + b * s + x[2])
    amplitude = np.hypot(a, b)
    cols = [c, s, np.ones(n)] + ([k * (b * c - a * s)] if free else [])
    jac = np.stack(cols, 1)
    scale = 1 / np.linalg.norm(jac, axis=0)
    cov = np.linalg.inv((jac * scale).T @ (jac * scale)) * np.outer(scale, scale) * (r @ r) / (n - len(cols))
    to = np.zeros((4, len(cols)))
    to[0, :2] = a / amplitude, b / amplitude
    to[1, :2] = b / amplitude**2, -a / amplitude**2
    to[2, 2] = 1
    if free:
        to[3, 3] = 1 / (2 * np.pi)
    sd = np.sqrt(np.diag(to @ cov @ to.T))
    return (float(amplitude), float(np.arctan2(-b, a)), float(x[2]), float(w / (2 * np.pi)), float(np.sqrt(r @ r / n)),
            *(float(v) for v in sd))


def sine_fits():
    cases = [  # points, cycles a point, third harmonic, roughness, slope, bits
        (200, 0.0589, 0, 0.1, 0, 0), (1000, 0.01037, 0, 0.02, 0, 0), (1000, 0.25003, 0.05, 0.2, 0, 0), (64, 0.11, 0.02, 0.3, 0, 0),
        (4096, 479 / 4096, 0, 0, 0, 8), (4096, 479 / 4096, 0, 0.01, 0, 10), (10000, 0.00997, 0.01, 0.5, 0, 0),
        (10000, 0.4321, 0, 2, 0, 0), (500, 0.0123, 0, 0.01, 0.3, 0), (100000, 0.0371, 0.001, 0.02, 0, 0),
        (30, 0.061, 0, 0.05, 0, 6), (20000, 2.3 / 20000, 0, 0.1, 0, 0),
    ]
    rows = []
    for n, cycles, harmonic, rough, slope, bits in cases:
        y = points(n, cycles, harmonic, rough, slope, bits)
        for free in (False, True):
            rows.append((n, float(cycles), float(harmonic), float(rough), float(slope), bits, 4 if free else 3, *fit(y, cycles, free)))
    write(
        "numpy-sine-fit",
        "Sine fits of 3 and 4 parameters; points as in the script, amplitude cos(2 pi cycles k + phase) + offset; deviations by n - 3 or n - 4",
        "numpy.linalg.lstsq; scipy.optimize.least_squares, method lm, all tolerances 1e-15",
        ("points", "cycles", "harmonic", "rough", "slope", "bits", "parameters", "amplitude", "phase", "offset", "fitted", "residual",
         "sdAmplitude", "sdPhase", "sdOffset", "sdCycles"),
        rows,
    )


def histogram():
    """A sine through transition levels drawn at random, counted by numpy.searchsorted; INL and DNL of the cumulative histogram."""
    rng = np.random.default_rng(4)
    bits, n = 5, 100003
    widths = rng.gamma(25, 1 / 25, 2**bits - 2)
    levels = np.concatenate([[0], np.cumsum(widths)]) - 15.3
    x = 0.4 + 19 * np.sin(2 * np.pi * (np.arange(n) * 7919 / n + 0.123))
    counts = np.bincount(np.searchsorted(levels, x), minlength=2**bits)
    h = np.cumsum(counts)[:-1] / n
    t = -np.cos(np.pi * h)
    place = np.arange(2**bits - 1) - 2**(bits - 1) + 0.5
    ends = (t - t[0]) / (t[-1] - t[0]) * (len(t) - 1) + place[0] - place
    slope, shift = np.polyfit(t, place, 1)
    least = slope * t + shift - place
    rows = [(int(counts[i]), *((float(ends[i]), float(least[i])) if i < len(t) else (0.0, 0.0))) for i in range(2**bits)]
    write(
        "numpy-histogram",
        "Counts of 32 codes under a sine of coherent frequency, lowest code first; INL of the transition above each (but the last), in steps",
        "IEEE Std 1241, sine histogram (clause from memory): -cos(pi H); line through the ends, and numpy.polyfit",
        ("count", "inlEndPoints", "inlLeastSquares"),
        rows,
    )


def step():
    """A second-order step response from scipy.signal.step, its first difference through numpy.fft."""
    n, rate = 1200, 10e9
    z, w = 0.4, 2 * np.pi * 300e6
    t = np.arange(n) / rate
    at = 30.03e-9
    system = signal.lti([w * w], [1, 2 * z * w, w * w])
    later = t[t >= at] - at
    y = np.zeros(n)
    d = w * np.sqrt(1 - z * z)
    y[t >= at] = 1 - np.exp(-z * w * later) * (np.cos(d * later) + z / np.sqrt(1 - z * z) * np.sin(d * later))
    check = signal.step(system, T=np.linspace(0, 20e-9, 201))[1]
    own = 1 - np.exp(-z * w * np.linspace(0, 20e-9, 201)) * (
        np.cos(d * np.linspace(0, 20e-9, 201)) + z / np.sqrt(1 - z * z) * np.sin(d * np.linspace(0, 20e-9, 201)))
    assert np.max(np.abs(check - own)) < 1e-9
    y = 0.2 - 1.6 * y
    ends = n // 10
    first, second = y[:ends].mean(), y[-ends:].mean()
    share = (y - first) / (second - first)
    i = np.argmax(share >= 0.5)
    middle = i - 1 + (0.5 - share[i - 1]) / (share[i] - share[i - 1])
    spectrum = np.fft.rfft(np.diff(share))
    f = np.arange(len(spectrum)) / (n - 1)
    h = spectrum * np.exp(-2j * np.pi * f * (0.5 - middle)) / np.sinc(f)
    a = np.argmax(share >= 0.9)
    b = i - 1 - np.argmax(share[i - 1::-1] <= 0.1)
    t90 = a - 1 + (0.9 - share[a - 1]) / (share[a] - share[a - 1])
    t10 = b + (0.1 - share[b]) / (share[b + 1] - share[b])
    rows = [("transition", float((t90 - t10) / rate), 0.0), ("overshoot", float(share.max() - 1), 0.0),
            ("instant", float(middle / rate), 0.0)]
    rows += [(str(k), float(h[k].real), float(h[k].imag)) for k in (0, 1, 5, 20, 40, 80, 150, 300, 599)]
    write(
        "numpy-step",
        "Falling step from 0.2 to -1.4 V at 30.03 ns, 300 MHz, damping 0.4, 1200 points at 10 GS/s; frequency response from its first difference",
        "scipy.signal.step for the waveform; numpy.diff, numpy.fft.rfft, numpy.sinc",
        ("what", "real", "imaginary"),
        rows,
    )


def beam():
    """NIST's beam deflections (Lew), the sine that fits them best; the print in the handbook is cut to six digits."""
    with open(os.path.join(OUT, "nist-strd-univariate.csv"), encoding="utf-8") as f:
        lines = [line for line in f if not line.startswith("#")]
    y = np.array([float(row["value"]) for row in csv.DictReader(lines) if row["set"] == "Lew"])
    amplitude, phase, offset, cycles, nad, sa, sp, so, sc = fit(y, 0.3, True)
    rows = [(offset, so, amplitude, sa, cycles, sc, phase, sp, float(nad * np.sqrt(200 / 196)))]
    write(
        "numpy-beam",
        "Beam deflections (set Lew): C + amplitude cos(2 pi cycles k + phase), k = 0 ... 199, with deviations",
        "scipy.optimize.least_squares",
        ("offset", "sdOffset", "amplitude", "sdAmplitude", "cycles", "sdCycles", "phase", "sdPhase", "residualSd"),
        rows,
    )
    print("beam:", rows)


if __name__ == "__main__":
    sine_fits()
    histogram()
    step()
    beam()
