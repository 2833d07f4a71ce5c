#!/usr/bin/env python3
"""Writes ../src/test/resources/vectors/channels.psv: power of two filtered signals, readings of pairs of records, and the mean and the
spread of an edge that jitters, from NumPy and SciPy, independent programs.

Usage:  python3 make_channel_vectors.py          (needs NumPy and SciPy)

power   Settled periodic signals as Fourier series: the coefficients of a piecewise straight period are integrals by parts, in closed
        form; the responses are polynomials of SciPy (signal.bessel, signal.butter) evaluated at the harmonics. Mean power is the sum of
        V I*, apparent power the root of two sums of squares; 200 000 harmonics, summed by math.fsum. The terms fall as n^-4 at least,
        so that 1e-16 is left out.
record  Two records, made here from a seed: sums of tones and noise. numpy.mean of the product, root of numpy.mean of the squares; the
        delay from numpy.interp between the points on either side of each crossing of the level midway between numpy.min and numpy.max.
jitter  A step whose instant is normal, through a single pole: the mean of the output is the distribution function of an
        exponentially modified normal variable (scipy.stats.exponnorm.cdf), the mean square an integral over the normal density
        (scipy.integrate.quad).
overlap The energy of two straight ramps by scipy.integrate.quad.
"""
import math
import os

import numpy as np
import scipy
from scipy import integrate, signal, stats

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources", "vectors", "channels.psv")
HARMONICS = 200_000


def number(x):
    return repr(float(x))


# Periods as corners (time, value), straight between; a jump is two corners at one time.

def trapezoid(low, high, period, duty, rise, fall):
    """Rise begins at 0; duty factor at half height."""
    top = rise / 2 + duty * period - fall / 2
    return period, [(0, low), (rise, high), (top, high), (top + fall, low), (period, low)]


def triangle(low, high, period, symmetry):
    return period, [(0, low), (symmetry * period, high), (period, low)]


def square(low, high, period, duty):
    return period, [(0, high), (duty * period, high), (duty * period, low), (period, low)]


def delayed(wave, seconds):
    return wave[0], wave[1], seconds


def coefficients(wave, n):
    """c_n of sum c_n exp(2 pi j n t / T), n > 0; and the mean."""
    period, corners = wave[0], wave[1]
    late = wave[2] if len(wave) > 2 else 0.0
    w = 2j * np.pi * n / period
    c = np.zeros(len(n), dtype=complex)
    mean = 0.0
    ends = corners + [(corners[0][0] + period, corners[0][1])]
    for (a, va), (b, vb) in zip(ends, ends[1:]):
        if b > a:
            s = (vb - va) / (b - a)
            # integral of v exp(-w t) by parts
            c += (va * np.exp(-w * a) - vb * np.exp(-w * b)) / w + s * (np.exp(-w * a) - np.exp(-w * b)) / w ** 2
            mean += (va + vb) / 2 * (b - a)
    return c / period * np.exp(-w * late), mean / period


def response(kind, n, hz, f):
    if kind == "identity":
        return np.ones(len(f), dtype=complex)
    if kind == "singlePole":
        return 1 / (1 + 1j * f / hz)
    w = 2 * np.pi * hz
    b, a = signal.butter(n, 1, analog=True) if kind == "butterworth" else signal.bessel(n, 1, analog=True, norm="mag")
    return np.polyval(b, 1j * 2 * np.pi * f / w) / np.polyval(a, 1j * 2 * np.pi * f / w)


def power_row(first, first_response, first_words, second, second_response, second_words):
    n = np.arange(1, HARMONICS + 1)
    f = n / first[0]
    v, v0 = coefficients(first, n)
    i, i0 = coefficients(second, n)
    v = v * response(*first_response, f)
    i = i * response(*second_response, f)
    p = v0 * i0 + 2 * math.fsum((v * np.conj(i)).real)
    s = math.sqrt((v0 ** 2 + 2 * math.fsum(abs(v) ** 2)) * (i0 ** 2 + 2 * math.fsum(abs(i) ** 2)))
    words = (first_words, second_words)
    names = ["identity()" if r[0] == "identity" else
             "singlePole(%s)" % r[2] if r[0] == "singlePole" else "%s(%d, %s)" % r for r in (first_response, second_response)]
    return "power|%s|%s|%s|%s|%s|%s|%s|%s" % (words[0], names[0], words[1], names[1], number(first[0]), number(p), number(s), number(p / s))


def power():
    none = ("identity", 0, 0)
    pole = lambda hz: ("singlePole", 1, hz)
    t1 = trapezoid(-1, 3, 1e-5, 0.4, 1e-6, 2e-6), "trapezoid(-1, 3, 1e-5, 0.4, 1e-6, 2e-6)"
    t2 = trapezoid(0, 2, 1e-5, 0.5, 5e-7, 5e-7), "trapezoid(0, 2, 1e-5, 0.5, 5e-7, 5e-7)"
    t3 = delayed(t2[0], 1.3e-6), "delayed(trapezoid(0, 2, 1e-5, 0.5, 5e-7, 5e-7), 1.3e-6)"
    r = triangle(-2, 5, 1e-5, 0.3), "triangle(-2, 5, 1e-5, 0.3)"
    q = square(-3, 4, 1e-5, 0.35), "square(-3, 4, 1e-5, 0.35)"
    cases = [
        (t1, none, r, none), (t1, none, t2, none), (t1, pole(1e6), t2, pole(3e5)), (t1, pole(1e6), t3, pole(3e5)),
        (q, pole(2e5), r, pole(5e6)), (q, pole(2e5), q, pole(2e6)), (q, ("bessel", 4, 4e5), t3, pole(1e5)),
        (q, ("butterworth", 3, 1.5e5), r, ("bessel", 2, 9e5)), (t3, ("butterworth", 5, 2.5e5), q, ("butterworth", 5, 2.5e5)),
        (r, ("bessel", 6, 1e6), t1, none),
    ]
    return [power_row(a[0], ra, a[1], b[0], rb, b[1]) for a, ra, b, rb in cases]


def crossings(v):
    level = (v.min() + v.max()) / 2
    armed_at = level - 0.1 * (v.max() - v.min())
    found, armed = [], v[0] <= armed_at
    for k in range(len(v) - 1):
        if armed and v[k] < level <= v[k + 1]:
            found.append(float(np.interp(level, [v[k], v[k + 1]], [k, k + 1])))
            armed = False
        armed = armed or v[k + 1] <= armed_at
    return np.array(found)


def record():
    rows = []
    for seed in range(1, 7):
        rng = np.random.default_rng(seed)
        rate, size = 10.0 ** rng.integers(3, 10), 240
        k = np.arange(size)
        cycles = rng.uniform(4, 9)
        lag = rng.uniform(-1.5, 1.5)
        noise = 0.01 * seed
        v = 10 * np.sin(2 * np.pi * cycles * k / size + 0.3) + noise * rng.standard_normal(size)
        i = 2 * np.sin(2 * np.pi * cycles * k / size + 0.3 - lag) + 0.3 * np.sin(6 * np.pi * cycles * k / size) \
            + 0.1 * noise * rng.standard_normal(size)
        v, i = np.round(v, 6), np.round(i, 6)
        p = np.mean(v * i)
        s = np.sqrt(np.mean(v ** 2)) * np.sqrt(np.mean(i ** 2))
        a, b = crossings(v), crossings(i)
        pairs = [(x, b[np.argmin(abs(b - x))]) for x in a]
        pairs = [(x, y) for x, y in pairs if a[np.argmin(abs(a - y))] == x]
        delay = np.mean([y - x for x, y in pairs]) / rate
        period = (a[-1] - a[0]) / (len(a) - 1)
        phase = np.angle(np.mean([np.exp(2j * np.pi * (y - a[np.argmin(abs(a - y))]) / period) for y in b]))
        rows.append("record|%s|%s|%s|%s|%s|%s|%s|%s" % (
            number(rate), " ".join(number(x) for x in v), " ".join(number(x) for x in i), number(p), number(s), number(p * size / rate),
            number(delay), number(phase)))
    return rows


def jitter():
    rows = []
    for sigma, tau in ((50e-12, 100e-12), (50e-12, 20e-12), (200e-12, 100e-12)):
        for u in np.linspace(-3, 6, 10) * max(sigma, tau / 2):
            mean = stats.exponnorm.cdf(u, tau / sigma, loc=0, scale=sigma)
            square = integrate.quad(
                lambda d: stats.norm.pdf(d) * (-np.expm1(-(u - sigma * d) / tau)) ** 2, -12, min(12, u / sigma),
                epsabs=1e-14, epsrel=1e-12, limit=400)[0]
            rows.append("jitter|%s|%s|%s|%s|%s" % (number(sigma), number(tau), number(u), number(mean), number(square)))
    return rows


def overlap():
    rows = []
    for volts, amperes, fall, rise, late in ((400, 10, 20e-9, 20e-9, 0), (48, 2, 20e-9, 15e-9, 15e-9), (600, 30, 80e-9, 50e-9, -10e-9),
                                             (12, 5, 5e-9, 40e-9, 3e-9)):
        v = lambda t: volts * (1 - np.clip((t - late) / fall, 0, 1))
        i = lambda t: amperes * np.clip(t / rise, 0, 1)
        cuts = sorted({0, rise, late, late + fall})
        energy = math.fsum(integrate.quad(lambda t: v(t) * i(t), a, b, epsrel=1e-13, epsabs=0)[0] for a, b in zip(cuts, cuts[1:]) if b > a)
        rows.append("overlap|%s|%s|%s|%s|%s|%s" % tuple(number(x) for x in (volts, amperes, fall, rise, late, energy)))
    return rows


def main():
    with open(OUT, "w", encoding="utf-8") as out:
        out.write("# Test vectors: readings between two channels, and edges that jitter.\n")
        out.write("# tool: NumPy %s, SciPy %s; script: validation/scripts/make_channel_vectors.py\n" % (np.__version__, scipy.__version__))
        out.write("# rank: independent program; expressions in the script's head; tolerances in ChannelsVectorsTest\n")
        out.write("# power|first|response|second|response|periodSeconds|meanPower|apparentPower|powerFactor\n")
        out.write("# record|rateHz|first|second|meanPower|apparentPower|energy|delaySeconds|phaseLagRadians\n")
        out.write("# jitter|sigmaSeconds|tauSeconds|secondsAfterStep|mean|meanSquare\n")
        out.write("# overlap|volts|amperes|fallSeconds|riseSeconds|fallStartsAt|joules\n")
        for row in power() + record() + jitter() + overlap():
            out.write(row + "\n")


if __name__ == "__main__":
    main()
