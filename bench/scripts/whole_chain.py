#!/usr/bin/env python3
"""What NumPy and SciPy charge for a whole capture by oversampling, and for its parts: nanoseconds a raw sample.

The yardstick of the classes WholeChain, Reducing, Digitizing and NoiseBenchmark. Run it just before or after them, on the same core:
    taskset -c 1 python3 bench/scripts/whole_chain.py

The chain, at 1 GS/s: a trapezoid of +/-1 V, 987.654321 ns, 3 ns edges; a x10 probe 5 % off trim, 10 Hz coupling, Bessel of order 4 at
200 MHz, Butterworth of order 2 at 20 MHz, each by SciPy's own digital design at the oversampled rate; noise ahead of it; 8 bits over 2.5 V;
the least and the greatest of every ten. "Tuned" leaves out what a careful hand would: np.interp, temporaries, quantising before reducing.
"""
import statistics
import time

import numpy as np
import scipy
from scipy import signal

RATE = 1e9
SAMPLES = 1_000_000
STEP = 2.5 / 256
PERIOD, EDGE = 987.654321e-9, 3e-9


def sections(rate):
    r1c1 = 9e6 * (108e-12 / 9 * 1.05)
    tau = 0.9e6 * (108e-12 / 9 * 1.05 + 108e-12)
    slow = signal.bilinear_zpk([-1 / r1c1, 0], [-1 / tau, -2 * np.pi * 10], r1c1 / tau, rate)
    return np.vstack([signal.zpk2sos(*slow),
                      signal.bessel(4, 200e6, fs=rate, output='sos', norm='mag'),
                      signal.butter(2, 20e6, fs=rate, output='sos')])


def trapezoid(n, rate):
    phase = (np.arange(n) / rate / PERIOD) % 1.0
    e = EDGE / PERIOD / 2
    return np.interp(phase, [0, e, .5 - e, .5 + e, 1 - e, 1], [0, 1, 1, -1, -1, 0])


def trapezoid_tuned(n, rate):
    x = np.arange(n, dtype=float)
    x *= 1 / (rate * PERIOD)
    x += .25
    x -= np.floor(x)
    x -= .5
    np.abs(x, out=x)
    x *= -4
    x += 1
    x *= PERIOD / (2 * EDGE)
    return np.clip(x, -1, 1, out=x)


def capture(n, over, rng):
    u = trapezoid(n * over, RATE * over)
    u += rng.standard_normal(n * over) * .004
    v = signal.sosfilt(sections(RATE * over), u)[::over]
    codes = np.clip(np.round(v / STEP), -128, 127).reshape(-1, 10)
    return codes.min(axis=1) * STEP, codes.max(axis=1) * STEP


def capture_tuned(n, over, rng):
    u = trapezoid_tuned(n * over, RATE * over)
    g = rng.standard_normal(n * over)
    g *= .004
    u += g
    v = signal.sosfilt(sections(RATE * over), u)[::over].reshape(-1, 10)
    return [np.clip(np.rint(w / STEP), -128, 127) * STEP for w in (v.min(axis=1), v.max(axis=1))]


def nanoseconds(call, repeat=9):
    call()
    times = []
    for _ in range(repeat):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times) / SAMPLES * 1e9


def main():
    rng = np.random.default_rng(1)
    x = np.sin(np.arange(SAMPLES) * 0.01) + 0.01 * rng.standard_normal(SAMPLES)
    y = np.empty_like(x)

    def quantise_in_place():
        np.multiply(x, 1 / STEP, out=y)
        np.rint(y, out=y)
        np.clip(y, -128, 127, out=y)
        np.multiply(y, STEP, out=y)

    jobs = [
        ('copy', lambda: np.copyto(y, x), 30),
        ('Gaussian noise', lambda: rng.standard_normal(SAMPLES, out=y), 9),
        ('quantise in place', quantise_in_place, 9),
        ('peak detect by 10', lambda: (x.reshape(-1, 10).min(axis=1), x.reshape(-1, 10).max(axis=1)), 9),
        ('boxcar by 10', lambda: x.reshape(-1, 10).mean(axis=1), 9),
        ('whole capture, 4 times oversampled', lambda: capture(SAMPLES, 4, rng), 3),
        ('whole capture, tuned, 4 times oversampled', lambda: capture_tuned(SAMPLES, 4, rng), 3),
    ]
    print(f'NumPy {np.__version__}, SciPy {scipy.__version__}, {SAMPLES} raw samples, medians')
    for name, call, repeat in jobs:
        print(f'{name:44s} {nanoseconds(call, repeat):8.3f} ns a raw sample')


if __name__ == '__main__':
    main()
