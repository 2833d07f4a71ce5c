#!/usr/bin/env python3
"""Writes tables for spectra: windows at 30 digits (mpmath), and spectra, averages and figures of windows from NumPy and SciPy.

Usage:  python3 make_spectrum_vectors.py          (writes windows.csv and scipy-spectr*.csv below ../src/test/resources/reference)

The records are made of whole numbers, so that another program makes the same doubles: x(n + 1) = (1103515245 x(n) + 12345) mod 2^31,
x(0) = seed; value = x/2^30 - 1 for n = 1, 2, ...
"""
import os

import mpmath
import numpy as np
import scipy
from mpmath import mp, mpf
from scipy import signal

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources", "reference")
ECG = os.path.join(OUT, "..", "recorded", "ecg-mitbih208.csv")
TOOL = f"computed with NumPy {np.__version__} and SciPy {scipy.__version__} by scripts/make_spectrum_vectors.py"
mp.dps = 40

WINDOWS = {
    "rectangular": ["1"],
    "Hann": ["0.5", "0.5"],
    "Hamming": ["0.54", "0.46"],
    "Blackman": ["0.42", "0.5", "0.08"],
    "Blackman-Harris": ["0.35875", "0.48829", "0.14128", "0.01168"],
    "flat top": ["1", "1.933", "1.286", "0.388", "0.0322"],
}

# F. J. Harris, Proc. IEEE 66 (1978) 51, Table I, from memory: noise bandwidth in bins, scallop loss in dB, highest side lobe in dB
HARRIS = {
    "rectangular": ("1.00", "3.92", "-13"),
    "Hann": ("1.50", "1.42", "-32"),
    "Hamming": ("1.36", "", "-43"),
    "Blackman": ("1.73", "1.10", "-58"),
    "Blackman-Harris": ("2.00", "0.83", "-92"),
    "flat top": ("", "", ""),
}


def text(c):
    return c if isinstance(c, str) else repr(float(c)) if isinstance(c, float) else str(c)


def write(name, title, source, tool, columns, rows):
    with open(os.path.join(OUT, name + ".csv"), "w", encoding="utf-8") as f:
        f.write(f"# {title}\n# source: {source}\n# {tool}\n{','.join(columns)}\n")
        for row in rows:
            f.write(",".join(text(c) for c in row) + "\n")


def transform(a, x):
    return (a[0] * mpmath.sincpi(x) + sum(a[k] / 2 * (mpmath.sincpi(x - k) + mpmath.sincpi(x + k)) for k in range(1, len(a)))) / a[0]


def highest(a):
    """Highest side lobe beyond the first null: the best of a scan, refined by golden section."""
    grid = [len(a) + mpf(i) / 8 for i in range(8 * 40)]
    best = max(grid, key=lambda x: abs(transform(a, x)))
    low, high = best - mpf(1) / 8, best + mpf(1) / 8
    g = (mpmath.sqrt(5) - 1) / 2
    for _ in range(120):
        p, q = high - g * (high - low), low + g * (high - low)
        if abs(transform(a, p)) > abs(transform(a, q)):
            high = q
        else:
            low = p
    return 20 * mpmath.log10(abs(transform(a, (low + high) / 2)))


def windows():
    rows = []
    for name, coefficients in WINDOWS.items():
        a = [mpf(c) for c in coefficients]
        figures = (a[0] / sum(a), 1 + sum(c * c for c in a[1:]) / (2 * a[0] ** 2), -20 * mpmath.log10(transform(a, mpf(1) / 2)), highest(a))
        rows.append((name, *(mpmath.nstr(f, 15) for f in figures), *HARRIS[name]))
    write("windows", "Windows in the limit of many points: coherent gain, noise bandwidth in bins, scallop loss and highest side lobe in dB",
          "closed form; columns harris*: F. J. Harris, Proc. IEEE 66 (1978) 51, Table I, from memory. The scallop loss printed there for Hamming "
          "(1.78) is not that of the limit and is left out; flat top: ISO 18431-2 (coefficients from memory)",
          "computed with mpmath, 40 digits, by scripts/make_spectrum_vectors.py; last digit may be off by one",
          ("window", "coherentGain", "noiseBandwidthBins", "scallopLossDb", "highestSidelobeDb", "harrisBandwidth", "harrisScallop", "harrisSidelobe"), rows)


def record(seed, n):
    x, v = seed, np.empty(n)
    for i in range(n):
        x = (1103515245 * x + 12345) % 2**31
        v[i] = x / 2**30 - 1
    return v


def heart():
    rows = [line.split(",") for line in open(ECG, encoding="utf-8") if line[0].isdigit()]
    return np.array([float(r[2]) for r in rows])


def scipy_window(name):
    """The weights by their definition where SciPy has others of that name, by SciPy's function elsewhere."""
    if name == "flat top":
        return lambda n: signal.windows.general_cosine(n, [float(c) for c in WINDOWS[name]], sym=False)
    function = {"rectangular": "boxcar", "Hann": "hann", "Hamming": "hamming", "Blackman": "blackman", "Blackman-Harris": "blackmanharris"}[name]
    return lambda n: signal.get_window(function, n)


CASES = [  # window, seed (0: the electrocardiogram at 360 Hz), points, rate, segment, overlap (points), detrend, sides
    ("rectangular", 1, 100, 1e6, 100, 0, False, "one"),
    ("rectangular", 2, 257, 1e6, 257, 0, False, "two"),
    ("Hann", 3, 1000, 44.1e3, 1000, 0, False, "one"),
    ("Hann", 4, 1000, 44.1e3, 1000, 0, "constant", "two"),
    ("Hann", 5, 4096, 2e9, 256, 128, "constant", "one"),
    ("Hann", 6, 4096, 2e9, 256, 0, False, "one"),
    ("Hamming", 7, 999, 1e3, 999, 0, "constant", "one"),
    ("Hamming", 8, 5000, 1e3, 333, 166, "constant", "one"),
    ("Blackman", 9, 1024, 1.0, 1024, 0, False, "one"),
    ("Blackman", 10, 3000, 1.0, 500, 375, "constant", "two"),
    ("Blackman-Harris", 11, 2048, 250e6, 2048, 0, False, "one"),
    ("Blackman-Harris", 12, 10007, 250e6, 1001, 500, "constant", "one"),
    ("flat top", 13, 1500, 5e9, 1500, 0, "constant", "one"),
    ("flat top", 14, 20000, 5e9, 2048, 1024, False, "two"),
    ("Hann", 0, 3600, 360.0, 3600, 0, "constant", "one"),
    ("Hann", 0, 3600, 360.0, 720, 360, "constant", "one"),
    ("Blackman-Harris", 0, 3600, 360.0, 1024, 512, "constant", "one"),
]


def spectra():
    rows = []
    for window, seed, n, rate, segment, overlap, detrend, sides in CASES:
        v = heart() if seed == 0 else record(seed, n)
        assert len(v) == n, len(v)
        w = scipy_window(window)(segment)
        values = {}
        for scaling in ("spectrum", "density"):
            arguments = dict(fs=rate, window=w, detrend=detrend, return_onesided=sides == "one", scaling=scaling)
            if segment == n:
                f, values[scaling] = signal.periodogram(v, **arguments)
            else:
                f, values[scaling] = signal.welch(v, nperseg=segment, noverlap=overlap, **arguments)
        if sides == "two":
            f = np.fft.fftshift(f)
            values = {k: np.fft.fftshift(p) for k, p in values.items()}
        for i in sorted({0, 1, 2, len(f) // 7, len(f) // 3, len(f) // 2, len(f) - 2, len(f) - 1}):
            rows.append((window, seed, n, float(rate), segment, float(overlap) / segment, "true" if detrend else "false", sides, i,
                         float(f[i]), float(values["spectrum"][i]), float(values["density"][i])))
    write("scipy-spectra", "Mean square (V^2) and density (V^2/Hz) of lines; records as in the script, seed 0 is recorded/ecg-mitbih208.csv",
          "scipy.signal.periodogram and scipy.signal.welch", TOOL,
          ("window", "seed", "points", "rateHz", "segment", "overlap", "meanRemoved", "sides", "index", "frequencyHz", "meanSquare", "density"), rows)


def figures():
    """What the weights themselves say, by sums and a padded transform."""
    rows = []
    for name in WINDOWS:
        n = 4096
        w = scipy_window(name)(n)
        half = abs(np.sum(w * np.exp(-1j * np.pi * np.arange(n) / n))) / np.sum(w)
        far = np.abs(np.fft.rfft(w, 64 * n))[64 * len(WINDOWS[name]):64 * 64] / np.sum(w)
        rows.append((name, n, float(np.mean(w) / w[n // 2]), float(n * np.sum(w * w) / np.sum(w) ** 2), float(-20 * np.log10(half)), float(20 * np.log10(far.max()))))
    write("scipy-windows", "Windows of 4096 points: coherent gain, noise bandwidth, scallop loss, highest side lobe on a grid of 1/64 bin",
          "scipy.signal.windows, numpy.fft", TOOL,
          ("window", "points", "coherentGain", "noiseBandwidthBins", "scallopLossDb", "highestSidelobeDb"), rows)


def harmonics():
    """THD, SINAD and SFDR of whole cycles by numpy.fft, line by line, with the harmonics where they fold to."""
    rows = []
    for seed, n, cycles, bits, bend in ((21, 4096, 401, 8, 0.0), (22, 4096, 1201, 8, 0.01), (23, 8192, 2557, 12, 0.003), (24, 10000, 333, 10, 0.02)):
        # a bent sine, rounded to whole steps of 2^-bits, with noise
        phase = 2 * np.pi * (cycles * np.arange(n) % n) / n
        s = np.cos(phase)
        v = np.rint((0.9 * (s + bend * (s * s + s ** 3)) + 0.01 * record(seed, n)) * 2 ** (bits - 1)) / 2 ** (bits - 1)
        lines = np.abs(np.fft.rfft(v)) ** 2 * 2 / n ** 2
        lines[-1] /= 2
        folded = [min(k * cycles % n, n - k * cycles % n) for k in range(1, 11)]
        assert len(set(folded)) == 10
        distortion = sum(lines[k] for k in folded[1:])
        fundamental = lines[cycles]
        others = np.array(lines)
        others[0] = others[cycles] = 0
        noise_lines = np.array(others)
        noise_lines[folded[1:]] = 0
        noise = noise_lines.sum() * (n / 2) / (n / 2 - 0.5 - 10)
        rows.append((seed, n, cycles, bits, float(bend), float(np.sqrt(2 * fundamental)), float(np.sqrt(distortion / fundamental)),
                     float(10 * np.log10(fundamental / (noise + distortion))), float(10 * np.log10(fundamental / others.max())),
                     float(np.sqrt(noise / (n / 2)))))
    write("numpy-harmonics", "Bent and rounded sines of whole cycles, no window: amplitude, THD (2 to 10), SINAD and SFDR in dB, noise floor at a rate of n Hz",
          "IEEE Std 1057 and 1241, definitions (clauses from memory): numpy.fft line by line", TOOL,
          ("seed", "points", "cycles", "bits", "bend", "amplitude", "thd", "sinadDb", "sfdrDb", "noiseFloor"), rows)


if __name__ == "__main__":
    windows()
    figures()
    spectra()
    harmonics()
