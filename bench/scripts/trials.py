#!/usr/bin/env python3
"""What NumPy and SciPy charge for the trials of a prediction of uncertainty: nanoseconds a trial.

The yardstick of the class Trials. Run it just before or after it, on the same core:
    taskset -c 1 python3 bench/scripts/trials.py

A trial: 1000 points at 1 GS/s of a trapezoid of 5 Vpp (2 MHz, edges of 0.006 of the period) or of a sine (5 Vpp, 10 MHz), gain normal
1 %, offset rectangular +/-50 mV, bandwidth triangular 200 MHz +/-10 %, start rectangular over a period, noise of 0.3 steps rms on every
sample, 8 bits of 8 V, peak to peak. The trapezoid goes through SciPy's own digital Bessel filter of order 4, designed anew for each
bandwidth at four times the rate; the sine through |H| and the phase of the analog one, in closed form and all trials of a chunk at once.
"Through a divider": a x10 probe from 50 ohm, its trimmer triangular +/-5 %, as one more section by the bilinear rule; the filter's
transient is left in, as a quick script would. "Shaped": white noise of 600 nV/sqrt(Hz) ahead of the filter in place of the converter's.
"""
import statistics
import time

import numpy as np
import scipy
from scipy import signal

AMPLITUDE, BITS, FULL = 2.5, 8, 8.0
STEP = FULL / 2**BITS
POINTS, RATE, OVER = 1000, 1e9, 4


def draws(rng, m):
    return (1 + 0.01 * rng.standard_normal(m), rng.uniform(-0.05, 0.05, m),
            rng.triangular(180e6, 200e6, 220e6, m), rng.uniform(0, 1, m))


def codes(v):
    return np.clip(np.round(v / STEP), -128, 127)


def divider(rng):
    """From 50 ohm into 9 Mohm || C1 over 1 Mohm || 100 pF, referred to the tip."""
    rs, r1, r2, c2 = 50.0, 9e6, 1e6, 100e-12
    c1 = (1 + rng.triangular(-.05, 0, .05)) * r2 * c2 / r1
    t1, t2 = r1 * c1, r2 * c2
    poles = np.roots([rs * t1 * t2, rs * (t1 + t2) + r1 * t2 + r2 * t1, rs + r1 + r2])
    return signal.zpk2sos(*signal.bilinear_zpk([-1 / t1], poles, 10 * r2 * t1 / (rs * t1 * t2), RATE * OVER))


def trapezoid(trials, rng, probe=False, shaped=False):
    t = np.arange(POINTS * OVER) / (RATE * OVER)
    out = np.empty(trials)
    for i in range(trials):
        (g,), (o,), (bw,), (ph,) = draws(rng, 1)
        x = (t / 500e-9 + ph) % 1.0
        u = AMPLITUDE * np.interp(x, [0, .003, .497, .503, .997, 1], [0, 1, 1, -1, -1, 0])
        if shaped:
            u += rng.standard_normal(u.size) * 600e-9 * np.sqrt(RATE * OVER / 2)
        sos = signal.bessel(4, bw, fs=RATE * OVER, output='sos', norm='mag')
        if probe:
            sos = np.vstack([divider(rng), sos])
        v = g * signal.sosfilt(sos, u)[::OVER] + o
        if not shaped:
            v += rng.standard_normal(POINTS) * (0.3 * STEP)
        out[i] = np.ptp(codes(v)) * STEP
    return out


def sine(trials, rng, chunk=100):
    f = 10e6
    t = np.arange(POINTS) / RATE
    cs, sn = np.cos(2 * np.pi * f * t), np.sin(2 * np.pi * f * t)
    zeros, poles, gain = signal.bessel(4, 1, analog=True, output='zpk', norm='mag')
    out = np.empty(trials)
    for i in range(0, trials, chunk):
        g, o, bw, ph = draws(rng, chunk)
        h = gain / np.prod(1j * (f / bw)[:, None] - poles, axis=1)
        a = g * AMPLITUDE * h * np.exp(2j * np.pi * ph)
        v = a.imag[:, None] * cs + a.real[:, None] * sn + o[:, None]
        v += rng.standard_normal(v.shape) * (0.3 * STEP)
        c = codes(v)
        out[i:i + chunk] = (c.max(axis=1) - c.min(axis=1)) * STEP
    return out


def main():
    rng = np.random.default_rng(7)
    jobs = [
        ('trapezoid', 200, lambda m: trapezoid(m, rng)),
        ('trapezoid, shaped noise', 200, lambda m: trapezoid(m, rng, shaped=True)),
        ('trapezoid through a divider', 200, lambda m: trapezoid(m, rng, probe=True)),
        ('sine', 5000, lambda m: sine(m, rng)),
    ]
    print(f'NumPy {np.__version__}, SciPy {scipy.__version__}, medians of five')
    for name, trials, call in jobs:
        call(trials // 10)
        times = []
        for _ in range(5):
            start = time.perf_counter()
            result = call(trials)
            times.append((time.perf_counter() - start) / trials * 1e9)
        print(f'{name:30s} {statistics.median(times):12.0f} ns a trial; mean {result.mean():.4f} V, u {result.std(ddof=1):.4f} V')


if __name__ == '__main__':
    main()
