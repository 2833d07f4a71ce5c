#!/usr/bin/env python3
"""What SciPy charges for four second-order sections, beside a NumPy copy: nanoseconds a sample.

The yardstick of the class Streaming. Run it just before or after that benchmark, on the same core:
    taskset -c 1 python3 bench/scripts/sosfilt.py

Two filters of eight poles at 1 GS/s, designed by SciPy's bilinear transform: a x10 probe 5 % off trim, 10 Hz coupling, Bessel of
order 4 at 200 MHz and Butterworth of order 2 at 20 MHz; and a Butterworth of order 8 at 100 MHz. What the coefficients are does not
matter to the time, as long as nothing is subnormal.
"""
import statistics
import time

import numpy as np
import scipy
from scipy import signal

RATE = 1e9
SAMPLES = 1 << 16


def chain():
    r1c1 = 9e6 * (108e-12 / 9 * 1.05)
    tau = 0.9e6 * (108e-12 / 9 * 1.05 + 108e-12)
    slow = signal.bilinear_zpk([-1 / r1c1, 0], [-1 / tau, -2 * np.pi * 10], r1c1 / tau, RATE)
    return np.vstack([signal.zpk2sos(*slow),
                      signal.bessel(4, 200e6, fs=RATE, output='sos', norm='mag'),
                      signal.butter(2, 20e6, fs=RATE, output='sos')])


def nanoseconds(call, repeat=50):
    call()
    times = []
    for _ in range(repeat):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times) / SAMPLES * 1e9


def main():
    k = np.arange(SAMPLES)
    x = np.sin(0.01 * k) + 0.01 * np.sin(17.3 * k)
    y = np.empty_like(x)
    print(f'NumPy {np.__version__}, SciPy {scipy.__version__}, {SAMPLES} samples a call, median of 50')
    print(f'copy                              {nanoseconds(lambda: np.copyto(y, x)):7.3f} ns a sample')
    for name, sos in (('chain', chain()), ('Butterworth of order 8', signal.butter(8, 100e6, fs=RATE, output='sos'))):
        zi = np.zeros((len(sos), 2))
        t = nanoseconds(lambda: signal.sosfilt(sos, x, zi=zi))
        print(f'sosfilt, {len(sos)} sections, {name:22s} {t:7.3f} ns a sample')


if __name__ == '__main__':
    main()
