#!/usr/bin/env python3
"""Writes mean, RMS, least and greatest value of exact outputs over spans (readings.csv), with oracle.py.

Usage:  python3 make_reading_vectors.py

Mean and RMS: adaptive Gauss-Legendre quadrature of the oracle between its corners. Extremes: both limits at every corner, and a dense
scan of every piece with golden-section search about its best points.
"""
import os
import platform

import mpmath
from mpmath import mp, mpf

import oracle
from make_vectors import OUT, evaluate, number

DIGITS, ABSOLUTE = 30, mpf("1e-14")

RESPONSES = {
    "identity": "identity()",
    "AC": "highPass(10.0)",
    "fast AC": "highPass(1e6)",
    "pole": "singlePole(50e6)",
    "Bessel": "bessel(4, 200e6)",
    "chain": "product(highPass(10.0), bessel(4, 200e6), butterworth(2, 20e6))",
    "ringing": "rational(3.947841760435743e17, [], [-2e7, 6.28e8, -2e7, -6.28e8])",
}

CASES = [  # name, signal, full scale, from, to, responses
    ("trapezoid, one period", "trapezoid(-1.0, 1.0, 98.7654321e-9, 0.41, 3e-9, 5e-9)", 2.0, 0.0, 98.7654321e-9, "identity AC pole Bessel chain ringing"),
    ("trapezoid, part of a period", "trapezoid(-1.0, 1.0, 98.7654321e-9, 0.41, 3e-9, 5e-9)", 2.0, 1.5e-9, 61e-9, "identity AC Bessel ringing"),
    ("trapezoid, 2.6 periods", "trapezoid(-1.0, 1.0, 98.7654321e-9, 0.41, 3e-9, 5e-9)", 2.0, -7e-9, 250e-9, "Bessel fast\u00a0AC"),
    ("square of 1 kHz, 2 us", "square(-1.0, 1.0, 1e-3, 0.5)", 2.0, -1e-6, 1e-6, "AC chain"),
    ("sine, 1.3 periods", "sine(1.0, 37.7e6, 0.3)", 2.0, 1e-9, 35.5e-9, "identity AC Bessel chain"),
    ("sine, little of a period", "sine(1.0, 1e6)", 2.0, 240e-9, 262e-9, "identity Bessel"),
    ("tones", "multiTone([1.0, 0.5], [10e6, 31.4159e6], [0.0, 1.0])", 3.0, 0.0, 60e-9, "identity Bessel ringing"),
    ("pulse inside", "pulse(1.0, 10e-9, 20e-9, 3e-9, 5e-9)", 1.0, 0.0, 100e-9, "identity Bessel fast\u00a0AC ringing"),
    ("pulse cut", "pulse(1.0, 10e-9, 20e-9, 3e-9, 5e-9)", 1.0, 11e-9, 24e-9, "identity pole ringing"),
    ("step", "step(1.0, 5e-9)", 1.0, 0.0, 80e-9, "identity pole Bessel ringing"),
    ("burst", "burst(1.0, 80e6, 3, 5e-9)", 2.0, 0.0, 70e-9, "identity Bessel chain ringing"),
    ("damped ringing", "dampedRinging(1.0, 90e6, 25e-9, 2e-9)", 2.0, 0.0, 90e-9, "identity pole ringing"),
    ("runts", "runt(2.0, 0.8, 60.6e-9, 25e-9, 2e-9, 3)", 2.0, 10e-9, 200e-9, "identity Bessel"),
    ("rail with ripple", "rippleOnRail(1.2, 0.02, 6.5e6, 0.03, 90e6, 20e-9)", 0.08, 0.0, 160e-9, "identity chain Bessel"),
    ("triangle", "triangle(-0.5, 1.5, 71.1e-9, 0.3)", 2.0, 0.0, 71.1e-9, "identity AC pole"),
    ("recorded", "recorded([0.0, 3e-9, 3.5e-9, 11e-9, 30e-9], [0.1, 0.9, -0.4, 0.6, 0.2])", 1.3, -2e-9, 50e-9, "identity pole chain"),
    ("1 ps edges", "trapezoid(-1.0, 1.0, 10.3e-9, 0.5, 1e-12, 1e-12)", 2.0, 0.1e-9, 9.9e-9, "identity Bessel"),
]

_NODES = []


def nodes():
    """Nodes and weights of the Gauss-Legendre rule of 12 points."""
    if not _NODES:
        _NODES.extend(mpmath.calculus.quadrature.GaussLegendre(mp).calc_nodes(3, mp.prec))
        assert len(_NODES) == 12 and abs(sum(w for _, w in _NODES) - 2) < mpf("1e-28")
    return _NODES


def rule(f, a, b):
    h, m = (b - a) / 2, (a + b) / 2
    return h * sum(w * f(m + h * x) for x, w in nodes())


def adaptive(f, a, b, width, whole=None, depth=0):
    """Integral over a smooth piece; width is that of the whole span, for the tolerance."""
    if whole is None:
        whole = rule(f, a, b)
    m = (a + b) / 2
    left, right = rule(f, a, m), rule(f, m, b)
    if abs(left + right - whole) < ABSOLUTE * width or depth > 40:
        assert depth <= 40, "a piece that is not smooth"
        return left + right
    return adaptive(f, a, m, width, left, depth + 1) + adaptive(f, m, b, width, right, depth + 1)


def corners(output, a, b):
    inside = {a, b}
    for begin, _ in output.single:
        inside.add(begin)
    for T, atoms, _ in output.groups:
        for begin, _ in atoms:
            n = mp.floor((a - begin) / T)
            while begin + n * T < b:
                inside.add(begin + n * T)
                n += 1
    return sorted(t for t in inside if a <= t <= b)


def golden(f, a, b):
    g = (mp.sqrt(5) - 1) / 2
    c, d = b - g * (b - a), a + g * (b - a)
    fc, fd = f(c), f(d)
    for _ in range(28):
        if fc > fd:
            b, d, fd = d, c, fc
            c = b - g * (b - a)
            fc = f(c)
        else:
            a, c, fc = c, d, fd
            d = a + g * (b - a)
            fd = f(d)
    return max(fc, fd)


def greatest(output, cuts, sign):
    best = -mp.inf
    f = lambda t: sign * output.at(t)
    for a, b in zip(cuts, cuts[1:]):
        # dense, and denser towards the corner where fast modes live
        grid = sorted({a + (b - a) * mpf(k) / 48 for k in range(49)} | {a + (b - a) * mpf(2) ** (-k / mpf(2)) for k in range(12, 32)})
        values = [sign * output.at(grid[0])] + [f(t) for t in grid[1:-1]] + [sign * output.at(grid[-1], after=False)]
        best = max(best, *values)
        top = max(values)
        if values[0] >= values[1] and values[0] > top - mpf("0.05") * abs(top):
            best = max(best, golden(f, grid[0], grid[1]))  # a turn just after a corner
        for i in range(1, len(grid) - 1):
            if values[i] >= values[i - 1] and values[i] >= values[i + 1] and values[i] > top - mpf("0.05") * abs(top):
                best = max(best, golden(f, grid[i - 1], grid[i + 1]))
    return sign * max(best, sign * output.at(cuts[-1]))


def main():
    mp.dps = DIGITS
    lines = [
        "# Test vectors: mean, RMS, least and greatest value of exact outputs over closed spans.",
        f"# tool: mpmath {mpmath.__version__}, Python {platform.python_version()}; script: validation/scripts/make_reading_vectors.py",
        "# expression: adaptive Gauss-Legendre quadrature and golden-section search over oracle.py, whose formulas make_vectors.py states",
        "# tolerance: 1e-9 of the full scale stated with the case",
    ]
    for name, signal, full_scale, a, b, responses in CASES:
        for key in responses.split(" "):
            key = key.replace("\u00a0", " ")
            oracle.Signal.horizon = mpf(b) + 1
            output = oracle.Output(evaluate(signal), evaluate(RESPONSES[key]))
            cuts = corners(output, mpf(a), mpf(b))
            width = mpf(b) - mpf(a)
            pieces = list(zip(cuts, cuts[1:]))
            mean = sum(adaptive(output.at, p, q, width) for p, q in pieces) / width
            rms = mp.sqrt(sum(adaptive(lambda t: output.at(t) ** 2, p, q, width) for p, q in pieces) / width)
            lines += ["", f"case: {name}, {key}", f"signal: {signal}", f"response: {RESPONSES[key]}", f"full scale: {full_scale!r}", f"from: {a!r}", f"to: {b!r}"]
            lines += [f"mean: {number(mean)}", f"rms: {number(rms)}", f"minimum: {number(greatest(output, cuts, -1))}", f"maximum: {number(greatest(output, cuts, 1))}"]
            print(name, key, flush=True)
    with open(os.path.join(OUT, "readings.csv"), "w", encoding="utf-8") as f:
        f.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
