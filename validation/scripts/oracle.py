"""High-precision oracle: what a rational response makes of a piecewise exponential-polynomial signal.

Method, independent of the library's: the Laplace transform of every piece of the input times the response is expanded in partial
fractions (residues by power series, so that repeated poles are exact and nearly repeated ones only cost digits), and the pieces are
superposed. A periodic input is the sum over all its past periods: the last period or two term by term, the rest, which consists of
decaying modes alone, as a geometric series in closed form. Everything in mpmath at the working precision mp.dps.

The exact input is the exact value of the doubles that the expressions name: instants are start + k/rate in exact arithmetic.
"""
from mpmath import mp, mpf, mpc


def exact(x):
    """The exact value of a double (or of anything mpmath already holds)."""
    return mpf(x)


# --- responses -------------------------------------------------------------------------------------------------------------------


class Response:
    """H(s) = gain prod(s - zeros) / prod(s - poles), s in rad/s."""

    def __init__(self, zeros, poles, gain):
        self.zeros, self.poles, self.gain = [mpc(z) for z in zeros], [mpc(p) for p in poles], mpf(gain)
        self.cache = {}

    def __mul__(self, other):
        return Response(self.zeros + other.zeros, self.poles + other.poles, self.gain * other.gain)

    def at(self, s):
        h = mpc(self.gain)
        for z in self.zeros:
            h *= s - z
        for p in self.poles:
            h /= s - p
        return h

    def modes(self, s0, degree):
        """Output for the input t^degree e^(s0 t), t >= 0: list of (pole, [c0, c1, ...]) meaning sum c_k t^k e^(pole t)."""
        key = (s0, degree)
        if key not in self.cache:
            order = {}
            for p in self.poles + [mpc(s0)] * (degree + 1):
                order[p] = order.get(p, 0) + 1
            numerator = self.gain * mp.factorial(degree)
            self.cache[key] = [(p, self._residue(p, r, order, numerator)) for p, r in order.items()]
        return self.cache[key]

    def _residue(self, p, r, order, numerator):
        series = [mpc(numerator)] + [mpc(0)] * (r - 1)  # of (s - p)^r Y(s) about p
        for z in self.zeros:
            d = p - z
            series = [series[i] * d + (series[i - 1] if i else 0) for i in range(r)]
        for q, m in order.items():
            if q != p:
                d = p - q
                for _ in range(m):
                    quotient = []
                    for i in range(r):
                        quotient.append((series[i] - (quotient[i - 1] if i else 0)) / d)
                    series = quotient
        return [series[r - 1 - k] / mp.factorial(k) for k in range(r)]


def identity():
    return Response([], [], 1)


def gain(g):
    return Response([], [], exact(g))


def _all_pole(poles, w):
    poles = [p * w for p in poles]
    g = mpc(1)
    for p in poles:
        g *= -p
    return Response([], poles, g.real)


def singlePole(hz):
    return _all_pole([mpf(-1)], 2 * mp.pi * exact(hz))


def highPass(hz):
    return Response([0], [-2 * mp.pi * exact(hz)], 1)


def _symmetric(roots):
    """Real roots real, complex ones in exactly conjugate pairs."""
    out = []
    for r in roots:
        if abs(mp.im(r)) < mpf(10) ** (-mp.dps // 2):
            out.append(mpc(mp.re(r)))
        elif mp.im(r) > 0:
            out += [mpc(r), mp.conj(r)]
    assert len(out) == len(roots)
    return out


def butterworth_poles(n):
    return _symmetric([mp.expjpi(mpf(2 * k + n - 1) / (2 * n)) for k in range(1, n + 1)])


def bessel_poles(n):
    """Thomson 1949: roots of the reverse Bessel polynomial, over their own half-power frequency."""
    f = mp.factorial
    c = [f(2 * n - k) / (2 ** (n - k) * f(k) * f(n - k)) for k in range(n + 1)]  # ascending
    power = lambda w: abs(mp.polyval(c[::-1], mpc(0, w))) ** 2 / c[0] ** 2 - 2
    lo, hi = mpf(0), mpf(2 * n)  # |H|^2 falls monotonically
    for _ in range(40):
        mid = (lo + hi) / 2
        lo, hi = (mid, hi) if power(mid) < 0 else (lo, mid)
    w = mp.findroot(power, (lo, hi))
    roots = mp.polyroots(c[::-1], maxsteps=500, extraprec=20 * mp.prec)
    return [r / w for r in _symmetric(roots)]


def gaussian_poles(n):
    """Truncated exponential, Zverev 1967 ch. 3: |H|^2 = 1/sum_{k<=n} (c w^2)^k/k!, c the positive root of sum c^k/k! = 2."""
    a = [1 / mp.factorial(k) for k in range(n, -1, -1)]
    c = mp.findroot(lambda x: mp.polyval(a, x) - 2, mp.log(2))
    poles = []
    for x in mp.polyroots(a, maxsteps=500, extraprec=20 * mp.prec):
        s = mp.sqrt(-x / c)
        poles.append(-s if mp.re(s) > 0 else s)
    return _symmetric(poles)


_SHAPES = {}


def _shape(poles, n, hz):
    key = (poles.__name__, n, mp.dps)
    if key not in _SHAPES:
        _SHAPES[key] = poles(n)
    return _all_pole(_SHAPES[key], 2 * mp.pi * exact(hz))


def butterworth(n, hz):
    return _shape(butterworth_poles, n, hz)


def bessel(n, hz):
    return _shape(bessel_poles, n, hz)


def gaussian(n, hz):
    return _shape(gaussian_poles, n, hz)


def rational(g, zeros, poles):
    """Zeros and poles in rad/s as real and imaginary parts in turn; every root is written out, conjugates too."""
    pairs = lambda v: [mpc(exact(v[i]), exact(v[i + 1])) for i in range(0, len(v), 2)]
    return Response(pairs(zeros), pairs(poles), exact(g))


def product(*responses):
    out = responses[0]
    for r in responses[1:]:
        out = out * r
    return out


# --- signals ---------------------------------------------------------------------------------------------------------------------


class Piece:
    """Re sum c (t - begin)^m e^(s (t - begin)) for begin <= t < end; terms are (c, s, m); end may be mp.inf."""

    def __init__(self, begin, end, terms):
        self.begin, self.end, self.terms = mpf(begin), mpf(end), [(mpc(c), mpc(s), m) for c, s, m in terms if c != 0]

    def moved(self, d):
        return Piece(self.begin + d, self.end + d, self.terms)

    def scaled(self, f):
        return Piece(self.begin, self.end, [(c * f, s, m) for c, s, m in self.terms])

    def terms_about(self, t):
        """The same function written about another origin."""
        d, out = t - self.begin, []
        for c, s, m in self.terms:
            e = c * mp.exp(s * d)
            out += [(e * mp.binomial(m, j) * d ** (m - j), s, j) for j in range(m + 1)]
        return out

    def within(self, a, b):
        begin, end = max(self.begin, a), min(self.end, b)
        return None if begin >= end else Piece(begin, end, self.terms_about(begin))


class Signal:
    """A constant, two-sided sines (amplitude, hertz, phase, delay), single pieces, and periodic groups of pieces (period, pieces)."""

    horizon = None  # nothing after this instant is asked for: an endless gate of a periodic signal may stop here

    def __init__(self, level=0, sines=(), pieces=(), periodic=()):
        self.level, self.sines, self.pieces, self.periodic = mpf(level), list(sines), list(pieces), list(periodic)

    def sum(self, o):
        return Signal(self.level + o.level, self.sines + o.sines, self.pieces + o.pieces, self.periodic + o.periodic)

    def scaled(self, f):
        return Signal(
            self.level * f,
            [(a * f, hz, ph, d) for a, hz, ph, d in self.sines],
            [p.scaled(f) for p in self.pieces],
            [(T, [p.scaled(f) for p in g]) for T, g in self.periodic],
        )

    def moved(self, d):
        return Signal(
            self.level,
            [(a, hz, ph, s + d) for a, hz, ph, s in self.sines],
            [p.moved(d) for p in self.pieces],
            [(T, [p.moved(d) for p in g]) for T, g in self.periodic],
        )

    def within(self, a, b):
        """Zero outside a <= t < b."""
        whole = []
        if self.level:
            whole.append(Piece(a, b, [(self.level, 0, 0)]))
        for amp, hz, ph, d in self.sines:
            w = 2 * mp.pi * hz
            whole.append(Piece(a, b, [(mpc(0, -1) * amp * mp.expj(w * (a - d) + ph), mpc(0, w), 0)]))
        stop = b if mp.isfinite(b) else Signal.horizon
        for T, group in self.periodic:
            for p in group:
                assert mp.isfinite(p.end), "gate of a repeated signal that never ends"
                n = mp.ceil((a - p.end) / T)
                while p.begin + n * T < stop:
                    whole.append(p.moved(n * T).within(a, b))
                    n += 1
        whole += [p.within(a, b) for p in self.pieces]
        return Signal(pieces=[p for p in whole if p is not None])


def _linear(t0, t1, v0, v1):
    return Piece(t0, t1, [(v0, 0, 0), ((v1 - v0) / (t1 - t0), 0, 1)]) if t1 > t0 else None


def _corners(points):
    """Piecewise linear through (t, v) points in order; a repeated instant is a jump."""
    pieces = [_linear(a[0], b[0], a[1], b[1]) for a, b in zip(points, points[1:])]
    return [p for p in pieces if p is not None]


def constant(v):
    return Signal(level=exact(v))


def step(v, at):
    return Signal(pieces=[Piece(exact(at), mp.inf, [(exact(v), 0, 0)])])


def ramp(v, begin, end=None):
    if end is None:
        return Signal(pieces=[Piece(exact(begin), mp.inf, [(exact(v), 0, 1)])])
    v, a, b = exact(v), exact(begin), exact(end)
    return Signal(pieces=[_linear(a, b, mpf(0), v), Piece(b, mp.inf, [(v, 0, 0)])])


def sine(a, hz, phase=0.0):
    return Signal(sines=[(exact(a), exact(hz), exact(phase), mpf(0))])


def multiTone(amplitudes, hertz, phases):
    return Signal(sines=[(exact(a), exact(f), exact(p), mpf(0)) for a, f, p in zip(amplitudes, hertz, phases)])


def square(low, high, period, duty):
    low, high, T, d = exact(low), exact(high), exact(period), exact(duty)
    return Signal(level=low, periodic=[(T, [Piece(0, d * T, [(high - low, 0, 0)])])])


def _pulse_points(t0, height, width, rise, fall):
    """Width between the 50 % points; the rise begins at t0."""
    fall_begins = t0 + rise / 2 + width - fall / 2
    return [(t0, mpf(0)), (t0 + rise, height), (fall_begins, height), (fall_begins + fall, mpf(0))]


def trapezoid(low, high, period, duty, rise, fall):
    low, high, T, d = exact(low), exact(high), exact(period), exact(duty)
    return Signal(level=low, periodic=[(T, _corners(_pulse_points(mpf(0), high - low, d * T, exact(rise), exact(fall))))])


def triangle(low, high, period, symmetry):
    low, high, T, s = exact(low), exact(high), exact(period), exact(symmetry)
    h = high - low
    return Signal(level=low, periodic=[(T, _corners([(mpf(0), mpf(0)), (s * T, h), (T, mpf(0))]))])


def pulseTrain(base, top, period, width, rise, fall):
    base, top, T = exact(base), exact(top), exact(period)
    return Signal(level=base, periodic=[(T, _corners(_pulse_points(mpf(0), top - base, exact(width), exact(rise), exact(fall))))])


def pulse(a, start, width, rise, fall):
    return Signal(pieces=_corners(_pulse_points(exact(start), exact(a), exact(width), exact(rise), exact(fall))))


def runt(a, runt_volts, period, width, edge, every):
    """The last of every `every` pulses is the runt: pulse numbers every - 1, 2 every - 1, ..."""
    T, w, e = exact(period), exact(width), exact(edge)
    group = []
    for n in range(every):
        group += _corners(_pulse_points(n * T, exact(runt_volts) if n == every - 1 else exact(a), w, e, e))
    return Signal(periodic=[(every * T, group)])


def burst(a, hz, cycles, start):
    f = exact(hz)
    w, t0 = 2 * mp.pi * f, exact(start)
    return Signal(pieces=[Piece(t0, t0 + cycles / f, [(mpc(0, -1) * exact(a), mpc(0, w), 0)])])


def exponentialEdge(v, start, tau):
    v = exact(v)
    return Signal(pieces=[Piece(exact(start), mp.inf, [(v, 0, 0), (-v, -1 / exact(tau), 0)])])


def dampedRinging(a, hz, decay, start):
    return Signal(pieces=[Piece(exact(start), mp.inf, [(mpc(0, -1) * exact(a), mpc(-1 / exact(decay), 2 * mp.pi * exact(hz)), 0)])])


def rippleOnRail(rail, ripple, ripple_hz, ringing, ringing_hz, decay):
    """Level, triangle about it that rises from its lowest point at t = 0, ringing at every lowest point."""
    T, half = 1 / exact(ripple_hz), exact(ripple) / 2
    ramps = _corners([(mpf(0), mpf(0)), (T / 2, 2 * half), (T, mpf(0))])
    rings = dampedRinging(ringing, ringing_hz, decay, 0.0).pieces
    return Signal(level=exact(rail) - half, periodic=[(T, ramps), (T, rings)])


def recorded(times, volts):
    t, v = [exact(x) for x in times], [exact(x) for x in volts]
    points = [(a, b - v[0]) for a, b in zip(t, v)]
    return Signal(level=v[0], pieces=_corners(points) + [Piece(t[-1], mp.inf, [(v[-1] - v[0], 0, 0)])])


def recordedAt(start, rate, volts):
    s, r = exact(start), exact(rate)
    return recorded([s + k / r for k in range(len(volts))], volts)


def plus(*signals):
    out = signals[0]
    for s in signals[1:]:
        out = out.sum(s)
    return out


def times(factor, signal):
    return signal.scaled(exact(factor))


def delayed(signal, seconds):
    return signal.moved(exact(seconds))


def gated(signal, begin, end):
    return signal.within(exact(begin), exact(end))


def startingAt(signal, begin):
    return signal.within(exact(begin), mp.inf)


def repeated(signal, period):
    """The sum of all copies shifted by whole periods; the signal must die away."""
    assert not signal.level and not signal.sines and not signal.periodic
    return Signal(periodic=[(exact(period), signal.pieces)])


# --- outputs ---------------------------------------------------------------------------------------------------------------------


def _atoms(pieces):
    """(begin, terms) of starts from rest whose sum is the pieces: each piece starts, and its own continuation is taken off at its end."""
    merged = {}
    for p in pieces:
        merged.setdefault(p.begin, []).extend(p.terms)
        if mp.isfinite(p.end):
            merged.setdefault(p.end, []).extend((-c, s, m) for c, s, m in p.terms_about(p.end))
    return sorted(merged.items())


class Output:
    """The response to a signal: periodic parts, sines and constants settled, everything else from rest."""

    DEAD = -2500  # e^DEAD is below every precision used here, whatever the coefficient in front

    def __init__(self, signal, response):
        self.h, self.signal = response, signal
        self.settled = signal.level * response.at(mpf(0)).real if signal.level else mpf(0)
        self.tones = [(a * response.at(mpc(0, 2 * mp.pi * f)), f, ph, d) for a, f, ph, d in signal.sines]
        self.single = _atoms(signal.pieces)
        self.groups = []
        for T, pieces in signal.periodic:
            atoms = _atoms(pieces)
            self.groups.append((T, atoms, self._tail(atoms)))

    def _at_rest(self, atoms, t, after):
        y = mpf(0)
        for begin, terms in atoms:
            v = t - begin
            if v < 0 or (v == 0 and not after):
                break
            for c, s, m in terms:
                for p, poly in self.h.modes(s, m):
                    if p.real * v > self.DEAD:
                        y += (c * mp.exp(p * v) * mp.polyval(poly[::-1], v)).real
        return y

    def _tail(self, atoms):
        """Modes of everything after the last atom, written about it: {pole: [c0, c1, ...]}; only decaying ones may remain."""
        last, modes, scale = atoms[-1][0], {}, {}
        for begin, terms in atoms:
            d = last - begin
            for c, s, m in terms:
                for p, poly in self.h.modes(s, m):
                    e = c * mp.exp(p * d)
                    row = modes.setdefault(p, [])
                    row += [mpc(0)] * (len(poly) - len(row))
                    for k, q in enumerate(poly):
                        for j in range(k + 1):
                            part = e * q * mp.binomial(k, j) * d ** (k - j)
                            row[j] += part
                            scale[p] = max(scale.get(p, 0), abs(part))
        for p in [p for p in modes if p.real >= 0]:
            assert max(abs(c) for c in modes[p]) <= scale[p] * mpf(10) ** (-mp.dps // 3), "a repeated signal that does not die away"
            del modes[p]
        return last, modes

    def _periodic(self, group, t, after):
        T, atoms, (last, modes) = group
        y, n = mpf(0), mp.floor((t - atoms[0][0]) / T)
        while True:
            u = t - n * T
            if u > last or (u == last and after):
                break
            y += self._at_rest(atoms, u, after)
            n -= 1
        v = u - last
        for p, row in modes.items():
            if p.real * v > self.DEAD:
                x = mp.exp(p * T)
                gap = -mp.expm1(p * T)
                moments = [mpc(1) / gap]  # sum over n >= 0 of n^j x^n
                for j in range(1, len(row)):
                    moments.append(sum(mp.stirling2(j, i) * mp.factorial(i) * x**i / gap ** (i + 1) for i in range(1, j + 1)))
                total = mpc(0)
                for k, c in enumerate(row):
                    total += c * sum(mp.binomial(k, j) * v ** (k - j) * T**j * moments[j] for j in range(k + 1))
                y += (mp.exp(p * v) * total).real
        return y

    def at(self, t, after=True):
        y = self.settled + self._at_rest(self.single, t, after)
        for a, f, ph, d in self.tones:
            cycles = f * (t - d)
            y += (a * mp.expj(2 * mp.pi * (cycles - mp.floor(cycles)) + ph)).imag
        for group in self.groups:
            y += self._periodic(group, t, after)
        return y
