"""Exact figures of JCGM 101:2008, 9.5 (gauge block), printed for UncertaintyTrialsTest.

The model is L_S + D + d_1 + d_2 - L_S [da (t_0 + Dl) + aS dt] - L_nom. The product takes L_S at its estimate (what that leaves
out is below 1e-4 nm); then the output is a sum of six independent terms, and its distribution their convolution: probabilities of
cells of 0.02 nm, multiplied as spectra over +/- 20 971 nm. A cell adds its own variance, 3.3e-5 nm^2 a term, to 1282 nm^2.

Then the scatter of an interval's ends in n trials: lowest and highest order statistics of n uniform values by sums of exponential
spacings, through the exact quantiles; the ends of the shortest interval have no normal law, and are told by their range over
the repeats.

NumPy 1.24.2, SciPy 1.10.1; under a minute.
"""
import numpy as np
from scipy import stats

STEP, CELLS = 0.02, 1 << 21
LENGTH = 50_000_623.0
P, TRIALS, REPEATS = 0.99, 4_000_000, 10_000

edges = (np.arange(CELLS + 1) - CELLS // 2 - 0.5) * STEP


def trapezoid_cdf(x, half, inexact):
    """Curvilinear trapezoid about 0 (6.4.3): rectangular, its half-width rectangular in half +/- inexact."""
    nodes, weights = np.polynomial.legendre.leggauss(40)
    total = np.zeros_like(x)
    for node, weight in zip(nodes, weights):
        w = half + inexact * node
        total += weight / 2 * np.clip(0.5 + x / (2 * w), 0, 1)
    return total


def cells(cdf):
    return np.diff(cdf)


def table(cdf_at):
    """A distribution function that is smooth beside 0.02 nm, from a coarser grid where it is neither 0 nor 1."""
    at = np.arange(-400, 400 + 0.02, 0.02)
    return np.interp(edges, at, cdf_at(at), left=0, right=1)


def expansion(z):
    """L aS dt, aS rectangular."""
    nodes, weights = np.polynomial.legendre.leggauss(40)
    return sum(w / 2 * trapezoid_cdf(z / (LENGTH * (11.5e-6 + 2e-6 * n)), 0.05, 0.025) for n, w in zip(nodes, weights))


def difference(z):
    """L da (t_0 + Dl); da is symmetric, so the sign of the temperature does not matter."""
    normal, weights = np.polynomial.legendre.leggauss(120)
    normal, weights = 8 * normal, 8 * weights * stats.norm.pdf(8 * normal)
    cosines = np.cos(np.pi * (np.arange(100) + 0.5) / 100)
    temperatures = np.abs(-0.1 + 0.2 * normal[:, None] + 0.5 * cosines[None, :]).ravel()
    shares = np.repeat(weights / weights.sum(), 100) / 100
    # as many temperatures as there are, in bins of 1e-4 degC
    bins = np.bincount((temperatures * 1e4).astype(int), shares)
    total = np.zeros_like(z)
    for k in np.flatnonzero(bins):
        total += bins[k] * trapezoid_cdf(z / (LENGTH * (k + 0.5) * 1e-4), 1e-6, 0.1e-6)
    return total


spectrum = np.ones(CELLS // 2 + 1, complex)
for scale, dof in ((25, 18), (6, 24), (4, 5), (7, 8)):
    spectrum *= np.fft.rfft(np.fft.ifftshift(cells(stats.t.cdf(edges / scale, dof))))
for term in (expansion, difference):
    spectrum *= np.fft.rfft(np.fft.ifftshift(cells(table(term))))
mass = np.fft.fftshift(np.fft.irfft(spectrum, CELLS)).clip(0)
mass /= mass.sum()
centre = (edges[:-1] + edges[1:]) / 2
mean = (mass * centre).sum()
print("mean %.5f, u %.5f" % (838 + mean, np.sqrt((mass * (centre - mean) ** 2).sum())))
near = slice(CELLS // 2 - 50_000, CELLS // 2 + 50_000)
cdf = np.cumsum(mass)[near]
at = edges[1:][near]
keep = np.concatenate(([True], np.diff(cdf) > 0))
cdf, at = cdf[keep], at[keep]


def quantile(p):
    return np.interp(p, cdf, at)


def density(x):
    return (np.interp(x + 0.1, at, cdf) - np.interp(x - 0.1, at, cdf)) / 0.2


low, high = quantile((1 - P) / 2), quantile((1 + P) / 2)
error = np.sqrt((1 - P) / 2 * (1 + P) / 2 / TRIALS) / density(low)
print("symmetric [%.4f, %.4f], density at the ends %.4e; one standard error in %d trials %.4f" % (838 + low, 838 + high, density(low), TRIALS, error))
u = np.linspace(1e-5, 1 - P - 1e-5, 20001)
lengths = quantile(u + P) - quantile(u)
best = u[lengths.argmin()]
a, b = quantile(best), quantile(best + P)
print("shortest [%.4f, %.4f], length %.4f, density %.4e; one standard error of the length %.4f" % (838 + a, 838 + b, b - a, density(a), np.sqrt(P * (1 - P) / TRIALS) / density(a)))

random = np.random.default_rng(95)
count = int(TRIALS * (1 - P) * 1.15)
lows, highs = [], []
inside = int(round(P * TRIALS))
for _ in range(REPEATS):
    # the sum of all spacings but those of the tails is a gamma variable
    left = np.cumsum(random.standard_exponential(count))
    right = np.cumsum(random.standard_exponential(count))
    total = left[-1] + right[-1] + random.standard_gamma(TRIALS + 1 - 2 * count)
    lower, upper = quantile(left / total), quantile(1 - right / total)
    # order statistics i (from below) and i + inside; upper[j] is number TRIALS - 1 - j
    i = np.arange(TRIALS - inside)
    spans = upper[TRIALS - 1 - inside - i] - lower[i]
    k = spans.argmin()
    lows.append(lower[k])
    highs.append(upper[TRIALS - 1 - inside - k])
lows, highs = np.array(lows), np.array(highs)
print("shortest in %d repeats of %d trials: lower mean %.3f, sd %.3f, range %.3f to %.3f; upper mean %.3f, sd %.3f, range %.3f to %.3f; length mean %.4f, sd %.4f, range %.4f to %.4f" % (
    REPEATS, TRIALS, 838 + lows.mean(), lows.std(), 838 + lows.min(), 838 + lows.max(),
    838 + highs.mean(), highs.std(), 838 + highs.min(), 838 + highs.max(),
    (highs - lows).mean(), (highs - lows).std(), (highs - lows).min(), (highs - lows).max()))
