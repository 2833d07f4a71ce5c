"""The cases, as data. Signals and responses are expressions in the words of oracle.py; the Java loader reads the same text.

Each case: name, signal, response, full scale in volts, clock (start in seconds, rate in hertz), sample numbers, and instants in
seconds for the value at an instant and the limit from the left. Volts, seconds and hertz are invented for the purpose.
"""
import random
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass
class Case:
    name: str
    signal: str
    response: str
    full_scale: float
    start: float
    rate: float
    samples: list
    values: list = field(default_factory=list)
    befores: list = field(default_factory=list)
    digits: int = 60


def spread(count, first=0, growth=1.45):
    """A run of neighbours, then numbers ever further apart."""
    out, k, gap = [], first, 1.0
    for i in range(count):
        out.append(k)
        if i >= 7:
            gap *= growth
        k += int(gap)
    return out


SIGNALS = [  # name, expression, full scale
    ("constant", "constant(0.75)", 0.75),
    ("step", "step(1.5, 2.345e-9)", 1.5),
    ("endless ramp", "gated(ramp(1e7, 1.7e-9), 0.0, 1e-7)", 1.0),
    ("ramp and hold", "ramp(-2.0, 1.1e-9, 9.3e-9)", 2.0),
    ("sine", "sine(1.0, 123.456e6)", 2.0),
    ("sine with phase", "sine(0.5, 37.7e6, 1.2)", 1.0),
    ("tones", "multiTone([1.0, 0.5, 0.25], [10e6, 31.4159e6, 333e6], [0.0, 1.0, -2.5])", 3.5),
    ("square", "square(-1.0, 1.0, 97.3e-9, 0.37)", 2.0),
    ("trapezoid", "trapezoid(-1.0, 1.0, 98.7654321e-9, 0.41, 3e-9, 5e-9)", 2.0),
    ("triangle", "triangle(-0.5, 1.5, 71.1e-9, 0.3)", 2.0),
    ("falling sawtooth", "triangle(0.0, 1.0, 53.3e-9, 0.0)", 1.0),
    ("rising sawtooth", "triangle(0.0, 1.0, 53.3e-9, 1.0)", 1.0),
    ("pulse train", "pulseTrain(0.2, 1.2, 120.5e-9, 20e-9, 1.5e-9, 2.5e-9)", 1.0),
    ("single pulse", "pulse(3.0, 4.4e-9, 10e-9, 1e-9, 2e-9)", 3.0),
    ("runts", "runt(2.0, 0.8, 60.6e-9, 25e-9, 2e-9, 3)", 2.0),
    ("burst", "burst(1.0, 80e6, 5, 3.3e-9)", 2.0),
    ("exponential edge", "exponentialEdge(1.0, 2.2e-9, 4.5e-9)", 1.0),
    ("damped ringing", "dampedRinging(0.7, 90e6, 25e-9, 1.9e-9)", 1.4),
    ("repeated ringing", "repeated(dampedRinging(0.7, 90e6, 25e-9, 1.9e-9), 77.7e-9)", 1.4),
    ("recorded", "recorded([0.0, 3e-9, 3.5e-9, 11e-9, 30e-9], [0.1, 0.9, -0.4, 0.6, 0.2])", 1.3),
    ("rail with ripple", "rippleOnRail(1.2, 0.02, 6.5e6, 0.03, 90e6, 20e-9)", 0.08),
]

SHAPES = [  # name, expression
    ("identity", "identity()"),
    ("single pole", "singlePole(200e6)"),
    ("AC coupling", "highPass(10.0)"),
    ("Butterworth 3", "butterworth(3, 100e6)"),
    ("Bessel 4", "bessel(4, 200e6)"),
    ("Gaussian 5", "gaussian(5, 150e6)"),
    ("lead-lag", "rational(0.0525, [-100000.0, 0.0], [-52500.0, 0.0])"),
    ("chain", "product(highPass(10.0), bessel(4, 200e6), butterworth(2, 20e6))"),
    ("probe chain", "product(gain(10.0), rational(0.105, [-9523.809523809523, 0.0], [-9950.248756218906, 0.0]), highPass(10.0), gaussian(6, 350e6), butterworth(2, 20e6))"),
]


def builders():
    cases = []
    for i, (sn, s, fs) in enumerate(SIGNALS):
        for j, (rn, r) in enumerate(SHAPES):
            start = (-3.3e-9, -1e-9, 0.7e-9, 1.37e-9)[(i + j) % 4]
            rate = (1.25e9, 0.9e9, 2.5e9)[(i * 2 + j) % 3]
            cases.append(Case(f"{sn} through {rn}", s, r, fs, start, rate, spread(20), values=[1.234567e-8, 4.2e-8, 1.9e-7]))
    return cases


def orders():
    """Every order of every shape: a step and a trapezoid."""
    cases = []
    for kind in ("butterworth", "bessel", "gaussian"):
        for n in range(1, 11):
            r = f"{kind}({n}, 1e8)"
            cases.append(Case(f"step through {kind} {n}", "step(1.0, 0.0)", r, 1.0, -1e-9, 1.1e9, spread(24)))
            cases.append(
                Case(f"trapezoid through {kind} {n}", "trapezoid(0.0, 1.0, 43.21e-9, 0.3, 2e-9, 1e-9)", r, 1.0, 0.1e-9, 1.3e9, spread(24))
            )
    return cases


def stiff():
    rs = [
        ("10 Hz beside 1 GHz", "product(highPass(10.0), singlePole(1e9))"),
        ("10 Hz beside Butterworth 4 of 1 GHz", "product(highPass(10.0), butterworth(4, 1e9))"),
        ("0.1 Hz, 10 kHz and 5 GHz", "product(highPass(0.1), highPass(10e3), bessel(5, 5e9))"),
        ("1 Hz low-pass beside 1 GHz", "product(singlePole(1.0), bessel(3, 1e9))"),
        ("1 uHz coupling beside 10 GHz", "product(highPass(1e-6), gaussian(4, 10e9))"),
    ]
    ss = [
        ("trapezoid", "trapezoid(-1.0, 1.0, 987.654321e-9, 0.5, 3e-9, 3e-9)", 2.0),
        ("square of 1 kHz", "square(0.0, 1.0, 1e-3, 0.25)", 1.0),
        ("step", "step(1.0, 0.0)", 1.0),
        ("sine", "sine(1.0, 12.0)", 2.0),
        ("pulse", "pulse(1.0, 0.0, 1e-6, 1e-9, 1e-9)", 1.0),
    ]
    ks = list(range(0, 6)) + [100, 493, 494, 495, 10**4, 10**6, 10**8 + 3, 10**9 + 7]
    return [Case(f"{sn} through {rn}", s, r, fs, 0.123e-9, 1e9, ks, values=[0.05, 0.5]) for rn, r in rs for sn, s, fs in ss]


def edges():
    """Edges of 1 ps and shorter, segments far shorter than a sample."""
    rs = ["identity()", "singlePole(1e9)", "bessel(4, 1e9)", "product(highPass(10.0), gaussian(6, 500e6))"]
    ss = [
        ("1 ps edges", "trapezoid(-1.0, 1.0, 10.3e-9, 0.5, 1e-12, 1e-12)", 2.0),
        ("1 fs edges", "trapezoid(-1.0, 1.0, 10.3e-9, 0.5, 1e-15, 1e-15)", 2.0),
        ("1 ps rise, slow fall", "trapezoid(0.0, 1.0, 11.7e-9, 0.4, 1e-12, 4e-9)", 1.0),
        ("pulse of 2 ps", "pulse(1.0, 1.2345e-9, 2e-12, 1e-12, 1e-12)", 1.0),
        ("train of 5 ps pulses", "pulseTrain(0.0, 1.0, 3.21e-9, 5e-12, 1e-12, 1e-12)", 1.0),
        ("points 0.1 ps apart", "recorded([0.0, 1e-13, 2e-13, 3e-13, 4e-13, 5e-13], [0.0, 1.0, -1.0, 1.0, -1.0, 0.0])", 2.0),
        ("ramp of 1 ps", "ramp(1.0, 0.5e-9, 0.501e-9)", 1.0),
    ]
    cases = []
    for i, (sn, s, fs) in enumerate(ss):
        for j, r in enumerate(rs):
            values = [1.2350e-9, 0.5004e-9, 0.25e-12, 5.1502e-9]
            cases.append(Case(f"{sn}, response {j + 1}", s, r, fs, -0.4e-9, 1e9, spread(22), values=values))
    return cases


def idle():
    """Stretches of seconds in which nothing happens, at 1 GS/s."""
    near = lambda t: [int(t * 1e9) + d for d in (-2, -1, 0, 1, 2, 3, 10)]
    rs = ["bessel(4, 200e6)", "product(highPass(10.0), butterworth(4, 200e6))", "product(highPass(1e-3), singlePole(500e6))"]
    ss = [
        ("pulse 3 s after zero", "pulse(1.0, 3.0, 5e-9, 0.5e-9, 0.5e-9)", 1.0, near(3.0)),
        ("two pulses 7 s apart", "plus(pulse(1.0, 0.0, 5e-9, 1e-12, 1e-9), pulse(-1.0, 7.0, 5e-9, 1e-9, 1e-12))", 2.0, near(0.0)[2:] + near(7.0)),
        ("train of 2 ns pulses every 10 s", "pulseTrain(0.0, 1.0, 10.0, 2e-9, 0.1e-9, 0.1e-9)", 1.0, near(0.0)[2:] + near(10.0) + near(100.0)),
        ("recorded with 4 s between points", "recorded([0.0, 1e-9, 4.0, 4.000000001], [0.0, 1.0, 1.0, 0.0])", 1.0, near(0.0)[2:] + near(4.0)),
        ("burst an hour in", "burst(1.0, 150e6, 3, 3600.0)", 2.0, near(3600.0) + [3600 * 10**9 + 17, 3600 * 10**9 + 25]),
        ("trapezoid of 1 Hz with 2 ns edges", "trapezoid(0.0, 1.0, 1.0, 0.3, 2e-9, 2e-9)", 1.0, near(0.0)[2:] + near(0.3) + near(5.0) + near(1000.3)),
    ]
    return [Case(f"{sn}, response {j + 1}", s, r, fs, 0.0, 1e9, sorted(set(k))) for sn, s, fs, k in ss for j, r in enumerate(rs)]


def repeated_poles():
    ss = [("step", "step(1.0, 0.0)", 1.0), ("trapezoid", "trapezoid(-1.0, 1.0, 33.3e-9, 0.5, 1e-9, 2e-9)", 2.0), ("sine", "sine(1.0, 90e6)", 2.0),
          ("burst", "burst(1.0, 100e6, 3, 0.2e-9)", 2.0)]
    cases = []
    for n in (2, 3, 4, 6, 8):
        r = "product(" + ", ".join(["singlePole(1e8)"] * n) + ")"
        for sn, s, fs in ss[: 4 if n in (2, 4) else 2]:
            cases.append(Case(f"{sn} through {n} equal poles", s, r, fs, -0.3e-9, 1.7e9, spread(22), digits=80))
    for e in ("1e-1", "1e-2", "1e-3", "1e-4", "1e-6", "1e-9", "1e-12", "1e-15"):
        for n in (2, 3, 5):
            f = [repr(1e8 * (1 + k * float(e))) for k in range(n)]
            r = "product(" + ", ".join(f"singlePole({x})" for x in f) + ")"
            for sn, s, fs in ss[: 2 if n != 3 else 4]:
                cases.append(Case(f"{sn} through {n} poles {e} apart", s, r, fs, -0.3e-9, 1.7e9, spread(22), digits=220))
    for n in (2, 3):
        r = "product(" + ", ".join(["butterworth(2, 1e8)"] * n) + ")"
        for sn, s, fs in ss:
            cases.append(Case(f"{sn} through {n} equal pole pairs", s, r, fs, -0.3e-9, 1.7e9, spread(22), digits=80))
    for e in ("1e-3", "1e-6", "1e-9", "1e-12"):
        r = f"product(bessel(4, 1e8), bessel(4, {1e8 * (1 + float(e))!r}))"
        for sn, s, fs in ss[:2]:
            cases.append(Case(f"{sn} through two Bessel 4 {e} apart", s, r, fs, -0.3e-9, 1.7e9, spread(22), digits=200))
    many = "product(bessel(6, 1e8), bessel(6, 1e8), gaussian(4, 1e8), gaussian(4, 1.0000001e8), highPass(10.0), highPass(10.0))"
    for sn, s, fs in ss[:2]:
        cases.append(Case(f"{sn} through 22 poles, most in twos", s, many, fs, -0.3e-9, 1.7e9, spread(22), digits=200))
    ladder = "product(" + ", ".join(f"singlePole({1e8 * 1.05**k!r})" for k in range(8)) + ")"
    for sn, s, fs in ss:
        cases.append(Case(f"{sn} through 8 poles, each 5 % up", s, ladder, fs, -0.3e-9, 1.7e9, spread(22), digits=200))
    slow = "product(singlePole(10.29e3), singlePole(10.29e3), singlePole(11.78e3), singlePole(11.78e3), singlePole(11.78e3), singlePole(11.78e3), gaussian(6, 274.4e6))"
    for r in (slow, slow.replace("11.78", "10.30"), slow.replace("11.78", "14.9"), slow.replace("e3", "e1")):
        for sn, s, fs in (
            ("pulses of 954 ns", "repeated(pulse(-3.0, -335.2e-9, 541.4e-9, 50e-9, 100e-9), 9.5367431640625e-07)", 3.0),
            ("square of 954 ns", "square(0.0, 1.0, 9.5367431640625e-07, 0.3)", 1.0),
            ("step", "step(1.0, 0.0)", 1.0),
        ):
            cases.append(Case(f"{sn} through {r}", s, r, fs, -0.3e-9, 1.7e9, spread(14) + [10**4, 10**5, 10**6], digits=200))
    pair = "rational(3.9478417604357434e17, [], [-1e-3, 6.283185307179586e8, -1e-3, -6.283185307179586e8])"
    cases.append(Case("step into a pair that rings for 1000 s", "step(1.0, 0.0)", pair, 2.0, 0.0, 1e9, spread(12) + [10**5 + 3]))
    close_to_real = "rational(3.947841760435744e17, [], [-6.283185307179586e8, 6.283185307179586e-1, -6.283185307179586e8, -6.283185307179586e-1])"
    for sn, s, fs in ss:
        cases.append(Case(f"{sn} through a pair almost on the real axis", s, close_to_real, fs, -0.3e-9, 1.7e9, spread(22), digits=120))
    return cases


def crowded():
    """Many poles near one another without being equal: chains of filters of about the same bandwidth."""
    ss = [("step", "step(1.0, 0.0)", 1.0), ("trapezoid", "trapezoid(-1.0, 1.0, 33.3e-9, 0.5, 1e-9, 2e-9)", 2.0)]
    rs = [
        "product(bessel(6, 1e8), bessel(6, 1e8))",
        "product(bessel(8, 1e8), bessel(8, 1e8))",
        "product(bessel(10, 1e8), bessel(10, 1e8))",
        "product(butterworth(10, 1e8), butterworth(10, 1e8))",
        "product(gaussian(10, 1e8), gaussian(10, 1e8))",
        "product(gaussian(4, 1e8), gaussian(4, 1e8))",
        "product(gaussian(4, 1e8), gaussian(4, 1.0000001e8))",
        "product(bessel(6, 1e8), gaussian(4, 1e8))",
        "product(bessel(6, 1e8), gaussian(6, 1e8))",
        "product(bessel(6, 1e8), gaussian(6, 1e8), butterworth(6, 1e8))",
        "product(bessel(8, 1e8), gaussian(8, 1e8))",
        "product(bessel(10, 1e8), gaussian(10, 1e8))",
        "product(gaussian(10, 1e8), gaussian(10, 1.1e8))",
        "product(gaussian(8, 1e8), gaussian(8, 1.01e8))",
        "product(bessel(10, 1e8), bessel(10, 1.1e8))",
        "product(bessel(8, 1e8), bessel(8, 1.001e8))",
        "product(bessel(6, 1e8), bessel(6, 1e8), gaussian(4, 1e8))",
        "product(bessel(6, 1e8), bessel(6, 1e8), gaussian(4, 1e8), gaussian(4, 1e8))",
        "product(bessel(4, 1e8), gaussian(4, 1e8), gaussian(4, 1.05e8), singlePole(2e8), singlePole(2.1e8))",
        "product(bessel(4, 2e8), gaussian(4, 2.5e8), butterworth(4, 2e8), singlePole(3e8))",
        "product(bessel(3, 1e8), bessel(3, 1e8), bessel(3, 1e8))",
        "product(bessel(4, 1e8), bessel(4, 1.1e8), bessel(4, 1.2e8), bessel(4, 1.3e8), bessel(4, 1.4e8))",
        "product(gaussian(6, 1e8), gaussian(6, 1e8), gaussian(6, 1e8))",
        "product(gaussian(8, 1e8), gaussian(8, 1e8), gaussian(8, 1e8))",
        "product(gaussian(6, 1e8), bessel(6, 1.2e8), gaussian(6, 1.5e8))",
    ]
    return [Case(f"{sn} through {r}", s, r, fs, -0.3e-9, 1.7e9, spread(26, growth=1.3), digits=200) for r in rs for sn, s, fs in ss]


def slow_filters():
    """Fast trains, settled, through filters so slow that little but the mean is left."""
    ss = [
        ("trapezoid of 81 ns", "trapezoid(0.344, 2.235, 8.11376e-08, 0.5114, 6.1501e-09, 1.1596e-08)", 2.0),
        ("square of 13 ns", "square(-1.0, 1.0, 1.31629e-08, 0.5021)", 2.0),
        ("repeated ringing", "repeated(dampedRinging(1.0, 44594700.0, 1.22339e-09, 1.7875e-08), 6.29059e-09)", 2.0),
    ]
    rs = [
        "bessel(9, 13736.7), highPass(7637.95), singlePole(36820.3)",
        "bessel(4, 20823.3)",
        "bessel(8, 500566.0)",
        "bessel(10, 10.0)",
        "gaussian(10, 1e3)",
        "butterworth(10, 1e4), highPass(1e3)",
        "singlePole(34073.2), singlePole(34207.657617448), singlePole(34073.20000000106), singlePole(20746.3), singlePole(20746.30000093982), singlePole(20746.300000020015)",
        "singlePole(11356.0), singlePole(12289.054384), singlePole(11356.030863677479)",
        "highPass(10.0), highPass(11.0), highPass(12.0), bessel(4, 2e8)",
        "gaussian(8, 210409.0), gaussian(10, 3570370.0), highPass(256.423)",
    ]
    ks = spread(14) + [10**5, 10**9]
    return [Case(f"{sn} through {r}", s, f"product({r})", fs, 0.123e-6, 1.3e9, ks, digits=200) for r in rs for sn, s, fs in ss]


def resonance():
    """Inputs whose own exponent is, or nearly is, a pole of the response."""
    cases = []
    tau = 2.0**-27
    for label, t, p in [
        ("exactly the pole's", tau, -1 / tau),
        ("1e-12 off", tau * (1 + 1e-12), -1 / tau),
        ("1e-9 off", tau * (1 + 1e-9), -1 / tau),
        ("1e-6 off", tau * (1 + 1e-6), -1 / tau),
        ("1e-3 off", tau * (1 + 1e-3), -1 / tau),
    ]:
        one = f"rational({-p!r}, [], [{p!r}, 0.0])"
        two = f"rational({p * p!r}, [], [{p!r}, 0.0, {p!r}, 0.0])"
        for rn, r in [("one pole", one), ("two equal poles", two)]:
            cases.append(
                Case(f"exponential edge into {rn}, time constant {label}", f"exponentialEdge(1.0, 1e-9, {t!r})", r, 1.0, 0.0, 1e9, spread(22), digits=120)
            )
            cases.append(
                Case(f"repeated edge and fall into {rn}, time constant {label}",
                     f"repeated(plus(exponentialEdge(1.0, 1e-9, {t!r}), exponentialEdge(-1.0, 11e-9, {t!r})), 60e-9)", r, 1.0, 0.0, 1e9, spread(22), digits=120)
            )
    for n in (2, 3, 4, 6):
        for e in (0.3, 1e-1, 3e-2, 1e-2, 3e-3, 1e-3, 1e-4, 1e-5, 1e-7, 1e-10, 1e-14):
            r = f"rational({(-1 / tau) ** n * (-1) ** n!r}, [], [" + ", ".join([f"{-1 / tau!r}, 0.0"] * n) + "])"
            cases.append(Case(f"exponential edge into {n} equal poles, time constant {e:g} off, either way", f"plus(exponentialEdge(1.0, 1e-9, {tau * (1 + e)!r}), exponentialEdge(-0.5, 17e-9, {tau * (1 - e)!r}))", r, 1.0, 0.0, 1e9, spread(20), digits=200))
    for e in (1e-1, 1e-2, 1e-3, 1e-5, 1e-8, 1e-12):
        near = "product(singlePole(1e7), singlePole(1.001e7), singlePole(1.002e7), highPass(10.0))"
        cases.append(Case(f"edge {e:g} off three nearly equal poles", f"exponentialEdge(1.0, 1e-9, {(1 + e) / (2e7 * 3.141592653589793)!r})", near, 1.0, 0.0, 1e9, spread(20), digits=200))
        pair = "product(butterworth(2, 1e7), butterworth(2, 1e7))"
        f = 1e7 / 2**0.5
        cases.append(Case(f"ringing {e:g} off two equal pairs", f"dampedRinging(1.0, {f * (1 + e)!r}, {1 / (2 * 3.141592653589793 * f * (1 - e))!r}, 1e-9)", pair, 1.0, 0.0, 1e9, spread(20), digits=200))
    w = 2 * 3.141592653589793 * 100e6
    for q in (5.0, 100.0, 1e4, 1e6):
        a = w / (2 * q)
        wd = (w * w - a * a) ** 0.5
        r = f"rational({w * w!r}, [], [{-a!r}, {wd!r}, {-a!r}, {-wd!r}])"
        fs = 2.0 * q
        cases.append(Case(f"sine at a resonance of Q = {q:g}, settled", "sine(1.0, 100e6)", r, fs, 0.2e-9, 1e9, spread(14) + [10**6, 10**9]))
        cases.append(Case(f"burst through a resonance of Q = {q:g}", "burst(1.0, 100e6, 20, 1e-9)", r, 2.0 * min(q, 60.0), 0.0, 1e9, spread(22)))
        cases.append(Case(f"sine switched on at a resonance of Q = {q:g}", "startingAt(sine(1.0, 100e6), 2.5e-9)", r, 2.0 * min(q, 60.0), 0.0, 1e9, spread(24, growth=1.2)))
        cases.append(Case(f"damped ringing into a resonance of Q = {q:g}", f"dampedRinging(1.0, {wd / 6.283185307179586!r}, {1 / a!r}, 1e-9)", r, 2.0 * min(q, 60.0), 0.0, 1e9, spread(24, growth=1.2), digits=120))
    r = "product(highPass(10.0), butterworth(2, 20e6))"
    cases.append(Case("damped ringing of the filter's own frequency and decay", f"dampedRinging(1.0, {20e6 / 2**0.5!r}, {1 / (2 * 3.141592653589793 * 20e6 / 2**0.5)!r}, 1e-9)", r, 1.0, 0.0, 1e9, spread(24), digits=120))
    return cases


def undersampled():
    """A period, or many, between two samples."""
    ss = [
        ("square of 370 MHz", "square(-1.0, 1.0, 2.7027e-9, 0.5)", 2.0),
        ("square of 4.1 GHz, 30 %", "square(0.0, 1.0, 0.2439e-9, 0.3)", 1.0),
        ("trapezoid of 777 MHz", "trapezoid(-1.0, 1.0, 1.287e-9, 0.5, 0.1e-9, 0.2e-9)", 2.0),
        ("triangle of 12.3 GHz", "triangle(-1.0, 1.0, 0.0813e-9, 0.5)", 2.0),
        ("repeated ringing", "repeated(dampedRinging(1.0, 3e9, 0.3e-9, 0.0), 1.7e-9)", 2.0),
    ]
    rs = ["identity()", "singlePole(300e6)", "bessel(4, 1e9)", "product(highPass(10.0), gaussian(5, 2e9))"]
    return [
        Case(f"{sn} at 100 MS/s, response {j + 1}", s, r, fs, 0.31e-9, 100e6, spread(24), values=[1.1e-9, 0.77e-9, -3.3e-9])
        for sn, s, fs in ss
        for j, r in enumerate(rs)
    ]


def on_edge(first, period, rise, rate=1e9, start=0.0, count=2):
    """The first few samples from a number on that fall into the rise at the beginning of a period: where a wrong instant shows most."""
    T, r, f, t0 = (Fraction(x) for x in (period, rise, rate, start))
    out, k = [], first
    while len(out) < count:
        inside = (t0 + k / f) % T
        if inside < r:
            out.append(k)
            k += 1
        else:
            k += max(1, int((T - inside) * f))
    return out


def far():
    """Sample 10^9 and beyond: 1 s, and hours, into the clock."""
    ks = [0, 1, 10**6, 10**9 - 1, 10**9, 10**9 + 1, 10**9 + 2, 10**10 + 7, 10**12 + 1, 10**13 + 3]
    ss = [
        ("sine of 123.456789 MHz", "sine(1.0, 123456789.123, 0.3)", 2.0, None),
        ("sine of 499.999 MHz", "sine(1.0, 499999123.0)", 2.0, None),
        ("sine of 1/3 GHz", "sine(1.0, 333333333.3333333)", 2.0, None),
        ("trapezoid with 3 ns edges", "trapezoid(-1.0, 1.0, 987.654321e-9, 0.5, 3e-9, 3e-9)", 2.0, (987.654321e-9, 3e-9)),
        ("trapezoid of 7.77 ns", "trapezoid(-1.0, 1.0, 7.777e-9, 0.5, 3e-9, 3e-9)", 2.0, (7.777e-9, 3e-9)),
        ("runts, one in three", "runt(1.0, 0.5, 60.6e-9, 25e-9, 2e-9, 3)", 1.0, (60.6e-9, 2e-9)),
        ("runts, one in five", "runt(1.0, 0.5, 60.7e-9, 25e-9, 2e-9, 5)", 1.0, (60.7e-9, 2e-9)),
        ("repeated ringing", "repeated(dampedRinging(1.0, 90e6, 25e-9, 1.9e-9), 77.7e-9)", 2.0, None),
        ("rail with ripple", "rippleOnRail(1.2, 0.02, 6.5e6, 0.03, 90e6, 20e-9)", 0.08, None),
        ("rail with ripple of 1.3 MHz", "rippleOnRail(1.2, 0.02, 1.3e6, 0.03, 90e6, 20e-9)", 0.08, None),
    ]

    def numbers(edge, start):
        if edge is None:
            return ks
        more = [k for base in (10**9, 10**12, 10**13) for k in on_edge(base, *edge, start=start)]
        return sorted(set(ks + more + [k + 1 for k in more]))

    rs = [
        ("identity", "identity()"),
        ("AC coupling", "highPass(10.0)"),
        ("chain", "product(highPass(10.0), bessel(4, 200e6), butterworth(2, 20e6))"),
        ("Gaussian 6", "gaussian(6, 350e6)"),
    ]
    cases = [Case(f"{sn} through {rn}, clock from {st} s", s, r, fs, st, 1e9, numbers(edge, st)) for sn, s, fs, edge in ss for rn, r in rs for st in ((0.0,) if rn != "chain" else (0.0, -0.1))]
    cases.append(Case("rate of 3 MS/s", "trapezoid(-1.0, 1.0, 987.654321e-9, 0.5, 3e-9, 3e-9)", "bessel(4, 20e6)", 2.0, 1e-7, 3e6, ks[:-1]))
    cases.append(Case("rate of 1.1 GS/s, negative numbers", "sine(1.0, 123456789.123, 0.3)", "bessel(4, 200e6)", 2.0, 0.1, 1.1e9, [-(10**9), -(10**9) + 1, -1, 0, 1]))
    return cases


def ac_coupling():
    """Design case: 10 Hz, settled, under squares of 20 Hz to 1 kHz, seen in records of 2 us."""
    cases = []
    for f in (20, 100, 200, 500, 1000):
        cases.append(
            Case(f"square of {f} Hz, 10 Hz coupling, record of 2 us", f"square(-1.0, 1.0, {1 / f!r}, 0.5)", "highPass(10.0)", 2.0, -1e-6, 1e9, list(range(0, 2000, 125)) + [999, 1001],
                 values=[0.0, 0.25 / f], befores=[0.0])
        )
    cases.append(Case("square of 1 kHz, 10 Hz coupling and Bessel 4, record of 2 us from zero", "square(-1.0, 1.0, 1e-3, 0.5)", "product(highPass(10.0), bessel(4, 200e6))", 2.0, 0.0, 1e9, spread(20) + [1999]))
    cases.append(Case("unipolar pulses, 10 % duty, 10 Hz coupling", "pulseTrain(0.0, 1.0, 1e-3, 1e-4, 1e-6, 1e-6)", "highPass(10.0)", 1.0, -1e-6, 1e6, list(range(0, 1000, 50)) + [10**6]))
    cases.append(Case("square that starts from rest, 10 Hz coupling", "gated(square(-1.0, 1.0, 1e-3, 0.5), 0.0, 10e-3)", "highPass(10.0)", 2.0, -1e-5, 1e5, list(range(0, 300, 7))))
    cases.append(Case("two 10 Hz couplings, square of 1 kHz", "square(-1.0, 1.0, 1e-3, 0.5)", "product(highPass(10.0), highPass(10.0))", 2.0, -1e-6, 1e9, [0, 999, 1001, 1500, 1999]))
    return cases


def recorded():
    ss = [
        ("five uneven points", "recorded([0.0, 3e-9, 3.5e-9, 11e-9, 30e-9], [0.1, 0.9, -0.4, 0.6, 0.2])", 1.3),
        ("uniform points of 0.7 GS/s", "recordedAt(-1.5e-9, 0.7e9, [0.0, 0.2, 0.9, 0.4, -0.6, -0.2, 0.3, 0.3, 0.1])", 1.5),
        ("uniform points, 1/3 GS/s, far out", "recordedAt(2.5, 333333333.0, [1.0, 0.2, 0.9, 0.4, -0.6, -0.2, 0.3, 0.3, 0.1])", 1.6),
        ("points finer than the samples", "recordedAt(0.0, 17e9, [0.0, 1.0, 0.0, -1.0, 0.5, 0.25, -0.3, 0.8, 0.9, -0.9, 0.0, 1.0, 0.0, -1.0, 0.5, 0.25, -0.3, 0.8, 0.9, -0.9])", 2.0),
        ("from rest", "startingAt(recorded([0.0, 5e-9, 12e-9], [1.0, -1.0, 0.5]), 0.0)", 2.0),
    ]
    rs = ["identity()", "singlePole(100e6)", "butterworth(4, 200e6)", "product(highPass(10.0), bessel(4, 200e6), butterworth(2, 20e6))"]
    cases = []
    for sn, s, fs in ss:
        for j, r in enumerate(rs):
            start = 2.5 - 1.7e-9 if "far out" in sn else -1.7e-9
            cases.append(Case(f"{sn}, response {j + 1}", s, r, fs, start, 1.3e9, spread(26, growth=1.25)))
    return cases


def jumps():
    """Jumps exactly at a sample (every number here is a power of two, so exactly is exact), from both sides."""
    T, d = 2.0**-26, 2.0**-30  # 14.9 ns, 0.93 ns
    rs = ["identity()", "highPass(10.0)", "product(highPass(10.0), highPass(1e6))", "singlePole(200e6)", "rational(0.0525, [-100000.0, 0.0], [-52500.0, 0.0])"]
    ss = [
        ("square", f"square(-1.0, 1.0, {T!r}, 0.25)", 2.0),
        ("step", f"step(1.0, {4 * d!r})", 1.0),
        ("sawtooth", f"triangle(-1.0, 1.0, {T!r}, 1.0)", 2.0),
        ("gated sine", f"gated(sine(1.0, 30e6, 0.4), {2 * d!r}, {11 * d!r})", 2.0),
        ("staircase", f"plus(step(1.0, {2 * d!r}), step(0.5, {5 * d!r}), step(-2.0, {5 * d!r}), step(0.7, {9 * d!r}))", 2.0),
        ("delayed square", f"delayed(square(0.0, 1.0, {T!r}, 0.5), {3 * d!r})", 1.0),
    ]
    ks = list(range(0, 26)) + [2**20, 2**20 + 4, 2**30, 2**30 + 3, 2**30 + 4]
    at = [2 * d, 4 * d, 5 * d, 9 * d, 11 * d, T, 3 * d, 1024 * T, 1024 * T + 4 * d]
    return [Case(f"{sn}, response {j + 1}", s, r, fs, -2 * d, 2.0**30, ks, values=at, befores=at) for sn, s, fs in ss for j, r in enumerate(rs)]


def starts():
    """A record that begins before, inside and after a signal that happens once."""
    ss = [
        ("pulse", "pulse(1.0, 10e-9, 20e-9, 3e-9, 5e-9)", 1.0),
        ("burst", "burst(1.0, 70e6, 4, 10e-9)", 2.0),
        ("ramp", "ramp(1.0, 10e-9, 35e-9)", 1.0),
        ("gated trapezoid", "gated(trapezoid(0.0, 1.0, 9.1e-9, 0.5, 1e-9, 2e-9), 10e-9, 40e-9)", 1.0),
    ]
    r = "product(highPass(100e3), bessel(4, 200e6))"
    before = [-(10**9), -1000, -513, -512, -511, -100, -61, -60, -59, -52, -51, -50, -43, -40, -33, -21, -20, -10, -2, -1, 0, 1, 2]
    return [Case(f"{sn}, negative sample numbers", s, r, fs, 61e-9, 1.1e9, before) for sn, s, fs in ss + [("step", "step(1.0, 10e-9)", 1.0)]] + [
        Case(f"{sn}, record begins {w}", s, r, fs, st, 1.1e9, spread(16))
        for sn, s, fs in ss
        for w, st in [("long before", -1.0), ("just before", 9.5e-9), ("inside", 22.2e-9), ("after", 61e-9), ("long after", 1e-4)]
    ]


def algebra():
    """Sums, multiples, delays, gates, starts and repetitions of parts that enter in different ways."""
    rs = ["identity()", "product(highPass(10.0), bessel(4, 200e6))", "butterworth(5, 80e6)"]
    ss = [
        ("settled and starting parts", "plus(constant(0.3), sine(0.5, 33e6), trapezoid(0.0, 1.0, 41e-9, 0.5, 2e-9, 2e-9), step(1.0, 5e-9))", 3.0),
        ("negated and delayed", "delayed(times(-2.5, triangle(0.0, 1.0, 27e-9, 0.4)), 3.21e-9)", 2.5),
        ("delayed by 1000 s", "delayed(trapezoid(-1.0, 1.0, 98.7654321e-9, 0.41, 3e-9, 5e-9), 1000.1)", 2.0),
        ("delayed twice", "delayed(delayed(sine(1.0, 210e6, 0.1), 0.1), 0.2)", 2.0),
        ("gate of a constant", "gated(constant(1.0), 2.2e-9, 17e-9)", 1.0),
        ("gate of a sine", "gated(sine(1.0, 55e6, 0.7), 2.2e-9, 27e-9)", 2.0),
        ("gate of a gate", "gated(gated(exponentialEdge(1.0, 0.0, 5e-9), 1e-9, 20e-9), 3e-9, 30e-9)", 1.0),
        ("gate of damped ringing", "gated(dampedRinging(1.0, 120e6, 10e-9, 0.0), 4.4e-9, 15.5e-9)", 2.0),
        ("late start of a square", "gated(square(0.0, 1.0, 13.7e-9, 0.5), 7.7e-9, 2e-6)", 1.0),
        ("repeated single pulses", "repeated(plus(pulse(1.0, 1e-9, 3e-9, 1e-9, 1e-9), pulse(0.5, 9e-9, 3e-9, 1e-9, 1e-9)), 31e-9)", 1.0),
        ("repeated ringing longer than the period", "repeated(dampedRinging(1.0, 120e6, 50e-9, 0.0), 21e-9)", 4.0),
        ("repeated RC charge and discharge", "repeated(plus(exponentialEdge(1.0, 0.0, 4e-9), exponentialEdge(-1.0, 12e-9, 4e-9)), 29e-9)", 1.0),
        ("repeated gate of a sine", "repeated(gated(sine(1.0, 100e6), 0.0, 15e-9), 40e-9)", 2.0),
        ("repeated pulse longer than the period", "repeated(pulse(1.0, 0.0, 50e-9, 10e-9, 10e-9), 23e-9)", 3.0),
    ]
    cases = []
    for sn, s, fs in ss:
        for j, r in enumerate(rs):
            start = 1000.1 - 1.3e-9 if "1000 s" in sn else -1.3e-9
            cases.append(Case(f"{sn}, response {j + 1}", s, r, fs, start, 1.2e9, spread(24)))
    return cases


def drawn(seed=20261125, count=240):
    """Random signals through random chains, from one seed: what nobody thought of. Full scale 0: the span of the values."""
    r = random.Random(seed)
    log = lambda low, high: float(f"{low * (high / low) ** r.random():.6g}")
    volts = lambda: round(r.uniform(-3, 3), 3)
    instant = lambda most: float(f"{r.uniform(-most, most):.5g}")

    def periodic():
        T = log(3e-10, 3e-5)
        rise, fall = (float(f"{T * r.uniform(1e-4, 0.2):.5g}") for _ in "ab")
        return r.choice([
            lambda: f"sine({volts()}, {log(1e3, 3e9)}, {round(r.uniform(-3, 3), 3)})",
            lambda: f"square({volts()}, {volts()}, {T!r}, {round(r.uniform(0.02, 0.98), 4)})",
            lambda: f"trapezoid({volts()}, {volts()}, {T!r}, {round(r.uniform(0.3, 0.7), 4)}, {rise!r}, {fall!r})",
            lambda: f"triangle({volts()}, {volts()}, {T!r}, {round(r.random(), 4)})",
            lambda: f"runt({volts()}, {volts()}, {T!r}, {float(f'{T * 0.4:.5g}')!r}, {min(rise, fall)!r}, {r.randint(2, 6)})",
            lambda: f"repeated(dampedRinging({volts()}, {log(1e5, 1e9)}, {log(1e-9, 1e-5)}, {instant(1e-7)}), {T!r})",
            lambda: f"repeated(plus(exponentialEdge(1.0, 0.0, {log(1e-10, 1e-6)}), exponentialEdge(-1.0, {T / 3!r}, {log(1e-10, 1e-6)})), {T!r})",
        ])()

    def starting():
        at, rise, fall = instant(1e-6), log(1e-13, 1e-7), log(1e-13, 1e-7)
        n = r.randint(2, 12)
        times, t = [], at
        for _ in range(n):
            times.append(t)
            t = float(f"{t + log(1e-11, 1e-7):.9g}")
        return r.choice([
            lambda: f"step({volts()}, {at})",
            lambda: f"ramp({volts()}, {at}, {at + rise!r})",
            lambda: f"pulse({volts()}, {at}, {rise + fall + log(1e-12, 1e-6)!r}, {rise}, {fall})",
            lambda: f"burst({volts()}, {log(1e5, 1e9)}, {r.randint(1, 30)}, {at})",
            lambda: f"exponentialEdge({volts()}, {at}, {log(1e-11, 1e-4)})",
            lambda: f"dampedRinging({volts()}, {log(1e5, 3e9)}, {log(1e-10, 1e-5)}, {at})",
            lambda: f"gated(sine({volts()}, {log(1e4, 1e9)}), {at}, {at + log(1e-9, 1e-5)!r})",
            lambda: f"recorded({times}, {[volts() for _ in times]})",
        ])()

    def factor():
        hz = log(1e4, 5e9)
        return r.choice([
            lambda: f"singlePole({hz})",
            lambda: f"highPass({log(0.1, 1e7)})",
            lambda: f"butterworth({r.randint(1, 10)}, {hz})",
            lambda: f"bessel({r.randint(1, 10)}, {hz})",
            lambda: f"gaussian({r.randint(1, 10)}, {hz})",
            lambda: f"product(singlePole({hz}), singlePole({hz * (1 + log(1e-14, 1e-1))!r}), singlePole({hz * (1 + log(1e-14, 1e-1))!r}))",
            lambda: f"rational({log(0.1, 1)}, [{-log(1e4, 1e8)}, 0.0], [{-log(1e4, 1e8)}, 0.0])",
        ])()

    cases = []
    for i in range(count):
        parts = [r.choice([periodic, starting])() for _ in range(r.choice([1, 1, 2, 3]))]
        signal = parts[0] if len(parts) == 1 else "plus(" + ", ".join(parts) + ")"
        response = "product(" + ", ".join(factor() for _ in range(r.randint(1, 4))) + ")"
        if r.random() < 0.2:
            signal = f"delayed({signal}, {instant(1e-5)})"
        first = r.choice([0, 0, 0, r.randint(-2000, 0), 10 ** r.randint(3, 10)])
        ks = spread(18, first=first, growth=1.6)
        cases.append(Case(f"drawn {i}", signal, response, 0.0, instant(1e-6), log(1e6, 2e10), ks, values=[instant(1e-6), instant(1e-5)], digits=160))
    return cases


GROUPS = {
    "builders": ("every builder through every kind of response", builders),
    "orders": ("every order of every shape", orders),
    "stiff": ("slow poles beside fast ones", stiff),
    "edges": ("picosecond edges and segments shorter than a sample", edges),
    "idle": ("idle stretches of seconds", idle),
    "repeated-poles": ("repeated and nearly repeated poles", repeated_poles),
    "drawn": ("random signals through random chains", drawn),
    "slow-filters": ("fast trains through slow filters", slow_filters),
    "crowded": ("many poles near one another", crowded),
    "resonance": ("inputs at a pole of the response", resonance),
    "undersampled": ("periods shorter than the sample interval", undersampled),
    "far": ("sample 1e9 and beyond", far),
    "ac-coupling": ("settled AC coupling", ac_coupling),
    "recorded": ("recorded, piecewise linear", recorded),
    "jumps": ("jumps exactly at a sample", jumps),
    "starts": ("records that begin before, inside and after a single event", starts),
    "algebra": ("sums, delays, gates, starts and repetitions", algebra),
}
