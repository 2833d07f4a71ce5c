#!/usr/bin/env python3
"""What NumPy charges for sine fits of 10^6 points, beside a NumPy copy: nanoseconds a point.

The yardstick of the class SineFits. Run it just before or after that benchmark, on the same core:
    taskset -c 1 python3 bench/scripts/sine_fit.py

Three and four parameters as IEEE Std 1057 has them (from memory): least squares by numpy.linalg.lstsq, the frequency by Gauss and Newton
from a start a third of a period off over the record, until the phase at the ends stands still to 1e-9 rad.
"""
import statistics
import time

import numpy as np

RATE = 1e9
POINTS = 1_000_000
FREQUENCY = 9.97e6
START = 9.9703e6


def nanoseconds(call, repeat=7):
    call()
    times = []
    for _ in range(repeat):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times) / POINTS * 1e9


def three(t, y, f):
    w = 2 * np.pi * f
    return np.linalg.lstsq(np.stack([np.cos(w * t), np.sin(w * t), np.ones_like(t)], 1), y, rcond=None)[0]


def four(t, y, f):
    w = 2 * np.pi * f
    a = b = 0.0
    passes = 0
    while True:
        cs, sn = np.cos(w * t), np.sin(w * t)
        cols = [cs, sn, np.ones_like(t)]
        if passes:
            cols.append(t * (b * cs - a * sn))
        x = np.linalg.lstsq(np.stack(cols, 1), y, rcond=None)[0]
        a, b = x[0], x[1]
        passes += 1
        if passes > 1:
            w += x[3]
            if abs(x[3]) * t[-1] < 1e-9:
                return a, b, x[2], w / (2 * np.pi), passes


def main():
    k = np.arange(POINTS)
    t = k / RATE
    y = np.sin(2 * np.pi * FREQUENCY * t + 0.3) + 0.01 * np.random.default_rng(1).standard_normal(POINTS)
    z = np.empty_like(y)
    result = four(t, y, START)
    print(f'NumPy {np.__version__}, {POINTS} points a call, median of 7; found {result[3]:.6f} Hz in {result[4]} passes')
    print(f'copy                         {nanoseconds(lambda: np.copyto(z, y)):8.3f} ns a point')
    print(f'three parameters             {nanoseconds(lambda: three(t, y, FREQUENCY)):8.3f} ns a point')
    print(f'four parameters from a start {nanoseconds(lambda: four(t, y, START)):8.3f} ns a point')


if __name__ == '__main__':
    main()
