#!/usr/bin/env python3
"""Writes tables of levels, percentiles, transitions and cycles from NumPy and SciPy: an independent program in double precision.

Usage:  python3 make_pulse_vectors.py          (writes numpy-pulse-records.csv, numpy-pulses.csv, scipy-heartbeat.csv below
                                                ../src/test/resources/reference)

Nothing here follows the library's way of searching: levels from numpy.histogram and numpy.median, instants from sign changes of the
whole array, regions and fits from slices of it, integrals from scipy.integrate.trapezoid.
"""
import os

import numpy as np
import scipy
from scipy import integrate, signal

RESOURCES = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "src", "test", "resources")
OUT = os.path.join(RESOURCES, "reference")
TOOL = f"computed with NumPy {np.__version__} and SciPy {scipy.__version__} by scripts/make_pulse_vectors.py"
POINTS = 1600


def records():
    """Invented: a ringing square, a noisy trapezoid, pulses with a sagging top; a point each second."""
    t = np.arange(POINTS)
    square = np.where((t + 37.3) % 317.7 < 150.2, 1.0, 0.0)
    b, a = signal.bilinear([0.0625], [1, 2 * 0.35 * 0.25, 0.0625])
    ringing = signal.lfilter(b, a, square)
    saw = np.abs(((t + 11.4) / 201.3) % 1 - 0.5) * 2
    noisy = np.clip(4 * saw - 1.5, 0, 1) * 3 - 1 + np.random.default_rng(181).normal(0, 0.02, POINTS)
    phase = (t + 60.7) % 400.3
    sagging = np.interp(phase, [0, 20, 30, 220, 226, 401], [-2, -2, 1, 0.55, -2, -2])
    return {"ringing": ringing, "noisy": noisy, "sagging": sagging}


def modes(x, bins=256):
    counts, edges = np.histogram(x, bins)
    low = int(np.argmax(counts[: bins // 2]))
    high = bins - 1 - int(np.argmax(counts[::-1][: bins // 2]))
    inside = lambda b: x[(x >= edges[b]) & (x < edges[b + 1] if b < bins - 1 else x <= edges[b + 1])]
    return float(np.median(inside(low))), float(np.median(inside(high)))


def crossings(x, level):
    """All instants at which straight lines between the points pass a level, with their direction."""
    s = np.sign(x - level)
    i = np.flatnonzero(s[:-1] * s[1:] < 0)
    return i + (level - x[i]) / (x[i + 1] - x[i]), x[i + 1] > x[i]


def levels(x):
    low, high = modes(x)
    middle = (x.min() + x.max()) / 2
    yield "lowMode", low
    yield "highMode", high
    yield "lowMean", x[x < middle].mean()
    yield "highMean", x[x >= middle].mean()
    for p in (0.5, 10, 37.7, 50, 90, 99.9):
        yield f"percentile{p:g}", np.percentile(x, p)


def figures(x):
    n = np.arange(len(x))
    low, high = modes(x)
    amplitude = high - low
    level = lambda p: low + p / 100 * amplitude
    t50, up50 = crossings(x, level(50))
    t10, _ = crossings(x, level(10))
    t90, _ = crossings(x, level(90))
    if np.any(up50[1:] == up50[:-1]) or len(t50) > 60:
        raise SystemExit("noise crosses 50 % to and fro: not for this script")
    rises, falls = t50[up50], t50[~up50]
    yield "transitions", len(t50)
    first = rises[0] if t10[t10 < rises[0]].size else rises[1]
    begin = t10[t10 < first].max()
    end = t90[t90 > first].min()
    yield "riseTime", end - begin
    fall = falls[0] if t90[t90 < falls[0]].size else falls[1]
    yield "fallTime", t10[t10 > fall].min() - t90[t90 < fall].max()
    cycles = rises if len(rises) >= len(falls) else falls
    yield "period", np.diff(cycles).mean()
    yield "frequency", 1 / np.diff(cycles).mean()
    yield "positiveDuration", np.mean([falls[falls > r].min() - r for r in rises if np.any(falls > r)])
    yield "negativeDuration", np.mean([rises[rises > f].min() - f for f in falls if np.any(rises > f)])
    a, b = cycles[0], cycles[-1]
    grid = np.concatenate(([a], n[(n > a) & (n < b)], [b]))
    values = np.interp(grid, n, x)
    yield "cycleMean", integrate.trapezoid(values, grid) / (b - a)
    yield "cycleRms", np.sqrt(integrate.trapezoid(values**2, grid) / (b - a))

    def within(p, q):
        return np.concatenate((np.interp([p, q], n, x), x[(n >= p) & (n <= q)]))

    d = end - begin
    next_fall = falls[falls > first].min()
    leaves = t90[t90 < next_fall].max()
    yield "overshoot", max(0, within(end, min(end + 3 * d, leaves)).max() - high) / amplitude * 100
    earlier = falls[falls < first]
    limit = t10[t10 > earlier.max()].min() if earlier.size else 0
    yield "preshoot", max(0, low - within(max(begin - 3 * d, limit), begin).min()) / amplitude * 100
    tilts = []
    for r in rises:
        if not np.any(falls > r) or not np.any(t90 > r):
            continue
        f = falls[falls > r].min()
        p, q = t90[t90 > r].min(), t90[t90 < f].max()
        margin = 0.1 * (q - p)
        flat = (n >= p + margin) & (n <= q - margin)
        tilts.append(-np.polyfit(n[flat], x[flat], 1)[0] * (f - r) / amplitude * 100)
    yield "tilt", np.mean(tilts)


def settling(x, percent):
    low, high = modes(x)
    n = np.arange(len(x))
    t50, up = crossings(x, (low + high) / 2)
    t10, _ = crossings(x, low + 0.1 * (high - low))
    t90, _ = crossings(x, low + 0.9 * (high - low))
    rise = t50[up][0] if t10[t10 < t50[up][0]].size else t50[up][1]
    fall = t50[~up][t50[~up] > rise].min()
    leaves = t90[t90 < fall].max()
    stop = leaves - (t10[t10 > fall].min() - leaves)
    band = percent / 100 * (high - low)
    outside = n[(n < stop) & (np.abs(x - high) > band)].max()
    side = high + band if x[outside] > high else high - band
    return outside + (side - x[outside]) / (x[outside + 1] - x[outside]) - rise


def heartbeat():
    path = os.path.join(RESOURCES, "recorded", "ecg-mitbih208.csv")
    return np.loadtxt([l for l in open(path, encoding="utf-8") if l[0].isdigit()], delimiter=",")[:, 2]


def write(name, title, source, columns, rows):
    with open(os.path.join(OUT, name + ".csv"), "w", encoding="utf-8") as f:
        f.write(f"# {title}\n# source: {source}\n# {TOOL}\n{','.join(columns)}\n")
        for row in rows:
            f.write(",".join(c if isinstance(c, str) else repr(float(c)) for c in row) + "\n")


def main():
    all_records = records()
    write("numpy-pulse-records", "Invented records, a point each second", "the script", all_records, zip(*all_records.values()))
    rows = [(name, what, value) for name, x in all_records.items() for what, value in levels(x)]
    rows += [(name, what, value) for name in ("ringing", "sagging") for what, value in figures(all_records[name])]
    rows += [("ringing", f"settling{p}", settling(all_records["ringing"], p)) for p in (1, 2, 5)]
    write(
        "numpy-pulses",
        "Levels, percentiles, transitions and cycles of the invented records",
        "numpy.histogram, median, percentile, polyfit, interp; scipy.integrate.trapezoid",
        ("record", "figure", "value"),
        rows,
    )
    x = heartbeat()
    low, high = modes(x)
    peaks, _ = signal.find_peaks(x, height=0.5, distance=100)
    rows = [("lowMode", low), ("highMode", high), ("mean", x.mean()), ("rms", np.sqrt(np.mean(x**2))), ("acRms", x.std())]
    rows += [("minimum", x.min()), ("maximum", x.max()), ("peaks", len(peaks)), ("meanSpacing", np.diff(peaks).mean() / 360)]
    rows += [(f"percentile{p:g}", np.percentile(x, p)) for p in (1, 10, 25, 50, 75, 90, 99)]
    write(
        "scipy-heartbeat",
        "A recorded electrocardiogram (recorded/ecg-mitbih208.csv, its head names source and licence), read as if millivolts were volts",
        "numpy.histogram, median, percentile; scipy.signal.find_peaks(x, height=0.5, distance=100)",
        ("figure", "value"),
        rows,
    )


if __name__ == "__main__":
    main()
