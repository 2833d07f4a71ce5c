#!/usr/bin/env python3
"""What NumPy charges for the levels and percentiles of a record, beside its copy: nanoseconds a point.

The yardstick of the class PulseReadings. Run it just before or after that benchmark, on the same core:
    taskset -c 1 python3 bench/scripts/histogram.py
"""
import statistics
import time

import numpy as np

POINTS = 1 << 20


def modes(x):
    """The fullest bin of each half."""
    counts, edges = np.histogram(x, 256)
    low = int(np.argmax(counts[:128]))
    high = 255 - int(np.argmax(counts[::-1][:128]))
    return counts, edges, low, high


def levels(x):
    """The same, and the median of the values in each of the two bins, as the library defines a level."""
    _, edges, low, high = modes(x)
    return [np.median(x[(x >= edges[b]) & (x < edges[b + 1])]) for b in (low, high)]


def nanoseconds(call, repeat=25):
    call()
    times = []
    for _ in range(repeat):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times) / POINTS * 1e9


def main():
    place = np.arange(POINTS) % 1000
    x = np.interp(place, [0, 20, 500, 520, 1000], [-1, 1, 1, -1, -1]) + 0.02 * np.random.default_rng(1).standard_normal(POINTS)
    y = np.empty_like(x)
    print(f"NumPy {np.__version__}, {POINTS} points, median of 25")
    for name, call in (
        ("copy", lambda: np.copyto(y, x)),
        ("maximum", lambda: x.max()),
        ("histogram of 256 bins, modes", lambda: modes(x)),
        ("the same, medians of the bins", lambda: levels(x)),
        ("median", lambda: np.percentile(x, 50)),
        ("standard deviation", lambda: x.std()),
    ):
        print(f"{name:32s} {nanoseconds(call):7.3f} ns a point")


if __name__ == "__main__":
    main()
