#!/usr/bin/env python3
"""Writes tables for the sampler, the converter and the reconstruction from NumPy and SciPy: an independent program in double precision.

Usage:  python3 make_digitizer_vectors.py          (writes numpy-*.csv below ../src/test/resources/reference)
"""
import os

import numpy as np
import scipy
from scipy import signal, special, stats

OUT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "src", "test", "resources", "reference")
TOOL = f"computed with NumPy {np.__version__} and SciPy {scipy.__version__} by scripts/make_digitizer_vectors.py"


def write(name, title, source, columns, rows):
    with open(os.path.join(OUT, name + ".csv"), "w", encoding="utf-8") as f:
        f.write(f"# {title}\n# source: {source}\n# {TOOL}\n{','.join(columns)}\n")
        for row in rows:
            f.write(",".join(c if isinstance(c, str) else repr(float(c)) if isinstance(c, float) else str(c) for c in row) + "\n")


def interleaving():
    """Samples of a sine behind a chain, core by core, then the FFT; nothing of the line formula."""
    n, fs, cycles = 4096, 1e9, 409
    f = cycles / n * fs
    chain = signal.bessel(4, 2 * np.pi * 200e6, analog=True, norm="mag", output="ba")

    def gain(hz):
        h = signal.freqs(*chain, worN=[2 * np.pi * f])[1][0]
        return h if hz == 0 else h / (1 + 1j * f / hz)

    cases = {
        # gain error, offset, skew, own single pole (0 = none)
        "bandwidth": [(0, 0, 0, 0), (0, 0, 0, 900e6)],
        "all": [(1e-3, 2e-4, 1e-12, 1.2e9), (-2e-3, -1e-4, -3e-12, 1.0e9), (5e-4, 0, 2e-12, 0), (0, 3e-4, 0, 1.1e9)],
        "eight": [((-1) ** m * 1e-3 * (m + 1), 1e-4 * m, 1e-12 * (m - 3), 0) for m in range(8)],
    }
    rows = []
    for name, cores in cases.items():
        k = np.arange(n)
        v = np.zeros(n)
        for m, (g, o, d, hz) in enumerate(cores):
            mine = k % len(cores) == m
            t = k[mine] / fs + d
            h = gain(hz)
            v[mine] = (1 + g) * np.abs(h) * np.sin(2 * np.pi * f * t + np.angle(h)) + o
        lines = np.abs(np.fft.rfft(v)) / n
        lines[1:-1] *= 2
        for b in np.flatnonzero(lines > 1e-9):
            rows.append((name, len(cores), int(b), float(lines[b])))
    write(
        "numpy-interleaving",
        "Lines of interleaved cores behind Bessel 4 at 200 MHz, fs = 1 GHz, sine of amplitude 1 at 409/4096 fs; cores as in the script",
        "numpy.fft of samples taken core by core; scipy.signal for the chain. Lines below 1e-9 left out",
        ("case", "cores", "bin", "amplitude"),
        rows,
    )


def sinc():
    """Kaiser-windowed sinc from numpy.sinc and scipy.special.i0."""
    rows = []
    for length in (4, 16, 31):
        attenuation = 2.285 * 0.4 * np.pi * 2 * length + 8
        beta = 0.1102 * (attenuation - 8.7)
        for share in (0.125, 0.5, 0.8125):
            d = share + length - 1 - np.arange(2 * length)
            h = np.sinc(d) * special.i0(beta * np.sqrt(1 - (d / length) ** 2))
            h /= h.sum()
            rows += [(length, share, i, float(w)) for i, w in enumerate(h)]
    write(
        "numpy-sinc",
        "Weights of the 2 L points about a place a share of an interval after point L - 1: sinc under a Kaiser window, over their sum",
        "numpy.sinc and scipy.special.i0; J. F. Kaiser's rules for beta (1974, from memory)",
        ("halfLength", "share", "point", "weight"),
        rows,
    )


def linearity():
    """INL by end points and by least squares (the places regressed on the levels), by numpy.linalg.lstsq."""
    rng = np.random.default_rng(20250340)
    bits = 7
    n = 2**bits - 1
    place = np.arange(n) + 0.5 - 2 ** (bits - 1)
    level = place[0] + np.concatenate([[0], np.cumsum(rng.gamma(4, 0.25, n - 1))])
    level[40] = level[41]
    level = level * 1.013 - 0.7
    g, v = np.linalg.lstsq(np.stack([level, np.ones(n)], axis=1), place, rcond=None)[0]
    ge = (place[-1] - place[0]) / (level[-1] - level[0])
    ve = place[0] - ge * level[0]
    best = stats.linregress(level, place)
    assert abs(best.slope - g) < 1e-12
    rows = [
        (float(t), float(ge * t + ve - p), float(g * t + v - p), float(ge), float(ve), float(g), float(v))
        for t, p in zip(level, place)
    ]
    write(
        "numpy-linearity",
        "Transition levels of 7 bits with widths drawn from a gamma distribution, one code missing; INL in steps by end points and by least squares, gain and offset of each",
        "IEEE Std 1241, gain and offset (clause from memory): numpy.linalg.lstsq, scipy.stats.linregress",
        ("level", "inlEndPoints", "inlLeastSquares", "gainEndPoints", "offsetEndPoints", "gainLeastSquares", "offsetLeastSquares"),
        rows,
    )


if __name__ == "__main__":
    interleaving()
    sinc()
    linearity()
