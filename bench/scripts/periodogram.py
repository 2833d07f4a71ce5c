#!/usr/bin/env python3
"""What SciPy charges for power spectra, beside a NumPy copy: milliseconds a record.

The yardstick of the class Spectra. Run it just before or after that benchmark, on the same core:
    taskset -c 1 python3 bench/scripts/periodogram.py

Besides the functions as they are called, the cheapest that NumPy and SciPy can do with the weights kept: real transform, squares.
"""
import statistics
import time

import numpy as np
import scipy
import scipy.fft
from scipy import signal


def milliseconds(call, repeat=25):
    call()
    times = []
    for _ in range(repeat):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times) * 1e3, min(times) * 1e3


def main():
    print(f"NumPy {np.__version__}, SciPy {scipy.__version__}, milliseconds a record: median and least of 25")
    for n in (1000000, 1 << 20):
        v = np.sin(0.01 * np.arange(n)) + 0.01 * (np.random.default_rng(1).random(n) - 0.5)
        out = np.empty_like(v)
        w = signal.get_window("hann", n)
        weighed = np.empty_like(v)

        def cheapest():
            np.subtract(v, v.mean(), out=weighed)
            np.multiply(weighed, w, out=weighed)
            x = scipy.fft.rfft(weighed)
            return x.real ** 2 + x.imag ** 2

        for name, call in (
            ("copy", lambda: np.copyto(out, v)),
            ("rfft alone", lambda: scipy.fft.rfft(v)),
            ("mean, weights kept, rfft, squares", cheapest),
            ("periodogram, Hann by name", lambda: signal.periodogram(v, 1e9, "hann")),
            ("periodogram, weights kept", lambda: signal.periodogram(v, 1e9, w)),
            ("welch, 4096 by half", lambda: signal.welch(v, 1e9, "hann", 4096)),
            ("welch, 256 by half", lambda: signal.welch(v, 1e9, "hann", 256)),
        ):
            median, least = milliseconds(call)
            print(f"{n:8d}  {name:36s} {median:9.3f} {least:9.3f}")


if __name__ == "__main__":
    main()
