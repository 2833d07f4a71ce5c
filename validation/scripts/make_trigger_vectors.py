#!/usr/bin/env python3
"""Writes vectors of trigger events: the instants at which a settled periodic signal, behind a first-order high-pass and low-pass,
makes a comparator with hysteresis switch.

Usage:  python3 make_trigger_vectors.py          (needs mpmath)

The output of the low-pass is the convolution with exp(-t/tau)/tau, integrated over the linear pieces of one period by hand and summed
over all earlier periods as a geometric series; tones go through by their complex gain. s l/((s + h)(s + l)) = l/(l - h) (LP_l - LP_h).
The comparator is scanned on a grid and each switching refined by bisection, with 40 digits.
"""
import os

import mpmath as mp

mp.mp.dps = 40
HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources", "vectors", "trigger.psv")
GRID = 4000


def train(base, top, period, width, rise, fall, delay="0"):
    """Rise begins at the delay; width at half height."""
    base, top, period, width, rise, fall, delay = map(mp.mpf, (base, top, period, width, rise, fall, delay))
    fall_at = rise / 2 + width - fall / 2
    return ("pieces", period, delay, [(mp.mpf(0), base, rise, top), (rise, top, fall_at, top), (fall_at, top, fall_at + fall, base),
                                      (fall_at + fall, base, period, base)])


def low_pass_of_pieces(part, corner, t):
    _, period, delay, pieces = part
    tau = 1 / (2 * mp.pi * mp.mpf(corner))
    t = (t - delay) % period

    def over(a, va, b, vb, weight_from):
        slope = (vb - va) / (b - a)

        def primitive(s):
            return mp.exp(-(weight_from - s) / tau) * (va + slope * (s - a) - slope * tau)

        return primitive(b) - primitive(a)

    total = mp.mpf(0)
    whole = mp.mpf(0)
    for a, va, b, vb in pieces:
        whole += over(a, va, b, vb, period)
        if t > a:
            end = min(b, t)
            v_end = va + (vb - va) * (end - a) / (b - a)
            total += over(a, va, end, v_end, t)
    before = whole / (1 - mp.exp(-period / tau))
    return total + mp.exp(-t / tau) * before


def value_of_pieces(part, t):
    _, period, delay, pieces = part
    t = (t - delay) % period
    for a, va, b, vb in pieces:
        if a <= t < b:
            return va + (vb - va) * (t - a) / (b - a)
    raise ValueError(t)


def gain(high, low, f):
    s = 2j * mp.pi * mp.mpf(f)
    h = mp.mpc(1)
    if high:
        h *= s / (s + 2 * mp.pi * mp.mpf(high))
    if low:
        h *= 1 / (1 + s / (2 * mp.pi * mp.mpf(low)))
    return h


def output(parts, high, low, t):
    total = mp.mpf(0)
    for part in parts:
        if part[0] == "tone":
            _, amplitude, f, phase = part
            total += (gain(high, low, f) * mp.mpf(amplitude) * mp.expj(2 * mp.pi * mp.mpf(f) * t + mp.mpf(phase))).imag
        elif high and low:
            h, l = mp.mpf(high), mp.mpf(low)
            total += l / (l - h) * (low_pass_of_pieces(part, low, t) - low_pass_of_pieces(part, high, t))
        elif high:
            total += value_of_pieces(part, t) - low_pass_of_pieces(part, high, t)
        elif low:
            total += low_pass_of_pieces(part, low, t)
        else:
            total += value_of_pieces(part, t)
    return total


def events(parts, high, low, period, level, sign, hysteresis, qualifier, limit):
    period, level, hysteresis = mp.mpf(period), sign * mp.mpf(level), mp.mpf(hysteresis)

    def y(t):
        return sign * output(parts, high, low, t)

    def switch(a, b, threshold):
        up = y(b) >= threshold
        for _ in range(120):
            m = (a + b) / 2
            if (y(m) >= threshold) == up:
                b = m
            else:
                a = m
        return b

    values = [y(period * (k + mp.mpf("0.37")) / GRID) for k in range(GRID)]
    found, state, begun, peak = [], None, None, None
    for k in range(1, 3 * GRID):
        t = [period * (j + mp.mpf("0.37")) / GRID for j in (k - 1, k)]
        v = values[k % GRID]
        if state != "high" and v < level - hysteresis:
            state = "low"
        elif state == "low" and v >= level:
            state, begun, peak = "high", switch(*t, level), v
            if qualifier == "none":
                found.append(begun)
        elif state == "high":
            peak = max(peak, v)
            if v < level - hysteresis:
                state, end = "low", switch(*t, level - hysteresis)
                width = end - begun if begun is not None else None
                if qualifier == "shorter" and width is not None and width < mp.mpf(limit):
                    found.append(end)
                if qualifier == "longer" and width is not None and width > mp.mpf(limit):
                    found.append(end)
                if qualifier == "runt" and width is not None and peak < sign * mp.mpf(limit):
                    found.append(end)
        elif state is None and v >= level:
            state, begun, peak = "high", None, v
    last = sorted((t - period) % period for t in found if period <= t < 2 * period)
    return last


def train_text(*args):
    return "pulseTrain(" + ", ".join(str(a) for a in args) + ")"


def cases():
    a = ("-1", "3", "1e-6", "0.5e-6", "1e-7", "2e-7")
    n = ("0", "1", "20e-3", "1e-3", "0.1e-3", "0.3e-3")
    x, x2 = ("0", "1", "2e-6", "0.3e-6", "20e-9", "20e-9"), ("0", "0.6", "2e-6", "0.4e-6", "20e-9", "50e-9")
    pair = [train(*x), train(*x2, delay="1e-6")]
    pair_text = f"plus({train_text(*x)}, delayed({train_text(*x2)}, 1e-6))"
    tones = [("tone", "1", "1e6", "0.3"), ("tone", "0.4", "7e6", "-1.1")]
    tones_text = "multiTone([1, 0.4], [1e6, 7e6], [0.3, -1.1])"
    mixed = [train(*a), ("tone", "0.5", "3e6", "0")]
    mixed_text = f"plus({train_text(*a)}, sine(0.5, 3e6))"
    for slope in (1, -1):
        yield train_text(*a), [train(*a)], 0, 0, "1e-6", "0.4", slope, "0", "none", "0"
        yield train_text(*a), [train(*a)], 0, "2e6", "1e-6", "0.4", slope, "0.2", "none", "0"
        yield train_text(*a), [train(*a)], "50e3", 0, "1e-6", "0.4", slope, "0", "none", "0"
        yield train_text(*a), [train(*a)], "10", "50e3", "1e-6", "0.05", slope, "0", "none", "0"
        yield train_text(*n), [train(*n)], "10", 0, "20e-3", "0.1", slope, "0.05", "none", "0"
        yield train_text(*n), [train(*n)], "10", "300", "20e-3", "0.3", slope, "0.1", "none", "0"
        yield tones_text, tones, "50e3", "5e6", "1e-6", "0.1", slope, "0", "none", "0"
        yield tones_text, tones, 0, 0, "1e-6", "0.1", slope, "0.3", "none", "0"
        yield mixed_text, mixed, "100e3", "10e6", "1e-6", "0.2", slope, "0.01", "none", "0"
    yield pair_text, pair, 0, "20e6", "2e-6", "0.3", 1, "0.05", "none", "0"
    yield pair_text, pair, 0, "20e6", "2e-6", "0.3", 1, "0.05", "runt", "0.8"
    yield pair_text, pair, 0, "20e6", "2e-6", "0.3", 1, "0.05", "shorter", "0.36e-6"
    yield pair_text, pair, 0, "20e6", "2e-6", "0.3", 1, "0.05", "longer", "0.36e-6"
    yield pair_text, pair, "1e3", "20e6", "2e-6", "0.1", 1, "0", "runt", "0.6"


def main():
    with open(OUT, "w", encoding="utf-8") as out:
        out.write("# Test vectors: instants of trigger events within one period from zero, ascending.\n")
        out.write(f"# tool: mpmath {mp.__version__}, {mp.mp.dps} digits; script: validation/scripts/make_trigger_vectors.py\n")
        out.write("# rank: oracle of high precision; the convolution integral of a first-order filter over linear pieces, in closed form\n")
        out.write("# tolerance: 1e-12 of the period, stated in the test\n")
        out.write("signal|highPassHz|lowPassHz|periodSeconds|levelVolts|slope|hysteresisVolts|qualifier|limit|eventSeconds\n")
        for text, parts, high, low, period, level, sign, hysteresis, qualifier, limit in cases():
            found = events(parts, high, low, period, level, sign, hysteresis, qualifier, limit)
            row = [text, high, low, period, level, "rising" if sign > 0 else "falling", hysteresis, qualifier, limit,
                   " ".join(mp.nstr(t, 17, strip_zeros=False) for t in found)]
            out.write("|".join(map(str, row)) + "\n")
            print(row[-1], "|", text)


if __name__ == "__main__":
    main()
