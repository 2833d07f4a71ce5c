#!/usr/bin/env python3
"""Writes the test vectors of the noiseless chain, one CSV file a group of cases (cases.py), with oracle.py.

Usage:  python3 make_vectors.py [--check] [group ...]

With --check nothing is written; instead some cases are compared with the convolution integral, done by quadrature, some poles with
the printed table, and all files with what 60 digits more would have written.
"""
import os
import platform
import sys

import mpmath
from mpmath import mp, mpf

import oracle
from cases import GROUPS

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources", "vectors")
WORDS = {k: v for k, v in vars(oracle).items() if callable(v) and not k.startswith("_")}


def evaluate(expression):
    return eval(expression, {"__builtins__": {}}, WORDS)


def number(y):
    """17 digits; below 1e-30 V, which is what the working precision leaves of an exact zero, zero."""
    return mp.nstr(y, 17, min_fixed=-4, max_fixed=17) if abs(y) > mpf("1e-30") else "0"


def solve(case, more_digits=0):
    mp.dps = case.digits + more_digits
    rate, start = mpf(case.rate), mpf(case.start)
    instants = [start + k / rate for k in case.samples] + [mpf(t) for t in case.values + case.befores]
    oracle.Signal.horizon = max(instants) + mpf(1e-9)
    return oracle.Output(evaluate(case.signal), evaluate(case.response)), start, rate


def span(values):
    """A full scale that holds the values, zero included: 1-2-5, at least 2 V."""
    need, scale = 2 * max(abs(v) for v in values), 2.0
    while scale < need:
        scale *= 2.5 if f"{scale:e}"[0] == "2" else 2.0
    return scale


def text(name, title, cases, more_digits=0):
    lines = [
        f"# Test vectors: {title}.",
        f"# tool: mpmath {mpmath.__version__}, Python {platform.python_version()}; script: validation/scripts/make_vectors.py {name}",
        "# expression: partial fractions of response x Laplace transform of each piece, superposed; periodic parts summed over all past",
        "#   periods in closed form (oracle.py); 60 to 220 decimal digits, 17 written",
        "# inputs: the exact values of the doubles that the lines name; poles of the shapes from their definitions at full precision",
        "# sampling: sample k is at start + k/rate exactly; value is the value at an instant (after a jump), before its limit from the left",
        "# tolerance: of the full scale stated with the case",
    ]
    for c in cases:
        output, start, rate = solve(c, more_digits)
        rows = [("sample", str(k), output.at(start + k / rate)) for k in c.samples]
        rows += [("value", repr(t), output.at(mpf(t))) for t in c.values]
        rows += [("before", repr(t), output.at(mpf(t), after=False)) for t in c.befores]
        full_scale = c.full_scale or span([v for _, _, v in rows])
        lines += ["", f"case: {c.name}", f"signal: {c.signal}", f"response: {c.response}"]
        lines += [f"full scale: {full_scale!r}", f"start: {c.start!r}", f"rate: {c.rate!r}", "tolerance: 1e-09", "kind,where,volts"]
        lines += [f"{kind},{where},{number(v)}" for kind, where, v in rows]
    return "\n".join(lines) + "\n"


def check():
    """The oracle against the convolution integral: impulse response as the derivative of the step response, input by its definition."""
    mp.dps = 30
    h = oracle.product(oracle.butterworth(2, 80e6), oracle.singlePole(30e6))
    impulse = lambda v: sum((p[0] * mp.exp(q * v)).real for q, p in _impulse(h))
    worst = mpf(0)
    for words, value, knots in [
        ("pulse(1.0, 1e-9, 20e-9, 3e-9, 5e-9)", None, [1e-9, 4e-9, 20e-9, 25e-9]),
        ("burst(1.0, 60e6, 2, 2e-9)", None, [2e-9 + k / 240e6 for k in range(9)]),
        ("exponentialEdge(1.0, 1e-9, 7e-9)", None, [1e-9]),
        ("trapezoid(0.0, 1.0, 30e-9, 0.5, 4e-9, 6e-9)", None, sorted(k * 30e-9 + d for k in range(-12, 2) for d in (0.0, 4e-9, 14e-9, 20e-9))),
    ]:
        signal = evaluate(words)
        x, y = oracle.Output(signal, oracle.identity()), oracle.Output(signal, h)
        for t in (7.7e-9, 19e-9, 33.3e-9):
            past = 12 * mpf(30e-9)
            cuts = [t - past] + [k for k in knots if t - past < k < t] + [t]
            integral = mp.quad(lambda u: impulse(t - u) * x.at(u), cuts)
            missing = mp.exp(-2 * mp.pi * 30e6 * past)
            gap = abs(integral - y.at(mpf(t)))
            worst = max(worst, gap)
            assert gap < missing * 10 + mpf(1e-15), (words, t, gap)
    print("oracle against the convolution integral: worst difference", mp.nstr(worst, 3))
    table = {("bessel", 4): -1.370067830551444, ("gaussian", 5): -1.773573635394546, ("bessel", 8): -1.757408400401643, ("gaussian", 8): -2.086907819245437}
    for (kind, n), re in table.items():  # first pole of the printed table, to its digits
        poles = getattr(oracle, kind + "_poles")(n)
        assert min(abs(p.real - mpf(repr(re))) for p in poles) < 1e-15, (kind, n)
    print("poles against the printed table: equal to its 16 digits")
    for name, (title, make) in GROUPS.items():
        with open(os.path.join(OUT, name + ".csv"), encoding="utf-8") as f:
            strip = lambda lines: [line for line in lines.splitlines() if not line.startswith("# tool")]
            assert strip(f.read()) == strip(text(name, title, make(), more_digits=60)), name
    print("files against 60 digits more: equal in all 17 digits")


def _impulse(h):
    out = []
    for p in h.poles:
        c = mp.mpc(h.gain)
        for q in h.poles:
            if q != p:
                c /= p - q
        out.append((p, [c]))
    return out


def main():
    arguments = sys.argv[1:]
    if "--check" in arguments:
        check()
        return
    for name, (title, make) in GROUPS.items():
        if not arguments or name in arguments:
            cases = make()
            names = [c.name for c in cases]
            assert len(set(names)) == len(names), name
            with open(os.path.join(OUT, name + ".csv"), "w", encoding="utf-8") as f:
                f.write(text(name, title, cases))
            print(f"{name}: {len(cases)} cases, {sum(len(c.samples) + len(c.values) + len(c.befores) for c in cases)} values")


if __name__ == "__main__":
    main()
