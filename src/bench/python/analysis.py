"""The step and static measures of benchstroke's package `analysis`, with NumPy and SciPy.

analysis.py FOLDER reads FOLDER/{seconds,percent,steps}.f64 (raw float64 of this machine, little
endian; steps: rows of seconds, from, to) and FOLDER/saturated.u8, and prints what it works with.
Then it analyses them once for each line on standard input: writes FOLDER/measured.f64 and prints
the seconds that it took, without the reading of the files. The definitions are those of StepResponse, StaticCharacteristic and Linearity;
uncertainties are not worked out. A crossing is placed by the four samples around it, which serves
where the position changes by far more than the noise from sample to sample.
"""

import sys
import time

import numpy as np
import scipy
from numpy.lib.stride_tricks import sliding_window_view
from scipy.optimize import linprog
from scipy.special import ndtri

RESOLUTION = 0.0025
BAND = 1.0
LONGEST_PAUSE = 0.15
FASTEST = 7.5
SHARES = np.array([0.1, 1.0 - np.exp(-1.0), 1.0 - np.exp(-2.0), 0.9, 0.98])


def crossing(t, y, before, level, sign, deviation, corner):
    """When each level was crossed after the sample `before`; arrays of one length."""
    around = before[:, None] + np.arange(-1, 3)
    s = t[around]
    u = sign[:, None] * (y[around] - level[:, None])
    h = s[:, 2] - s[:, 1]
    speed = (u[:, 2] - u[:, 1]) / h
    chord = -u[:, 1] / speed
    left = (u[:, 1] - u[:, 0]) / (s[:, 1] - s[:, 0])
    right = (u[:, 3] - u[:, 2]) / (s[:, 3] - s[:, 2])
    flat = (np.abs(left) < 0.3 * speed) & (np.abs(right) < 0.3 * speed)
    meet = (u[:, 2] - right * h - u[:, 1]) / (left - right)
    on_left = u[:, 1] + left * meet >= 0.0
    prolonged = np.where(on_left, -u[:, 1] / left, h - u[:, 2] / right)
    apart = prolonged - chord
    curved = (meet > 0.0) & (meet < h) & (prolonged >= 0.0) & (prolonged <= h)
    if not corner:
        share = np.where(on_left, chord / h, 1.0 - chord / h)
        curved &= np.abs(apart) > 2.0 * np.sqrt(6.0) * share * deviation / speed
    shift = np.where(curved, (0.8 if corner else 0.6) * apart, 0.0)
    return s[:, 1] + np.where(flat, h / 2.0, chord + shift)


def peak(t, beyond, highest, standard):
    """The top of a parabola through the samples around the highest, down into the noise.

    One reading that noise put below the floor does not end them; one that noise can't, does.
    """
    floor = beyond[highest] - 4.0 * standard
    highest = min(max(1, highest), len(t) - 2)
    under = beyond < floor - 4.0 * standard
    under[highest - 1 : highest + 2] = False
    below = np.flatnonzero(under)
    ends = np.searchsorted(below, highest)
    a = below[ends - 1] + 1 if ends else 0
    b = below[ends] if ends < len(below) else len(t)
    top = a + np.flatnonzero(beyond[a:b] >= floor)
    a, b = min(top[0], highest - 1), max(top[-1], highest + 1)
    half = (t[b] - t[a]) / 2.0
    x = (t[a : b + 1] - (t[a] + t[b]) / 2.0) / half
    p = np.polynomial.polynomial.polyfit(x, beyond[a : b + 1], 2)
    top = -p[1] / (2.0 * p[2])
    inside = p[2] < 0.0 and abs(top) <= 1.0
    return p[0] + top * (p[1] + top * p[2]) if inside else beyond.max()


def slew(t, y, low, high):
    """The steepest straight line over a third of the rise, wherever it lies."""
    last = min(len(t) - 1, high + 1)
    count = min(last - low + 1, max(4, int(np.ceil((last - low) / 3.0)) + 1))
    stride = max(1, count // 20)
    around = slice(max(0, low - count), last + count)
    x = sliding_window_view(t[around], count)[::stride]
    z = sliding_window_view(y[around], count)[::stride]
    x = x - x.mean(axis=1, keepdims=True)
    return (np.einsum("ij,ij->i", x, z) / np.einsum("ij,ij->i", x, x)).max()


def last_exit(beyond, standard):
    """The last sample outside the band that noise doesn't explain."""
    for i in np.flatnonzero(np.abs(beyond) > BAND)[::-1]:
        if abs(beyond[i]) - BAND > 4.0 * standard:
            return i
        around = beyond[max(0, i - 4) : i + 5]
        mean = (around.sum() - beyond[i]) / (len(around) - 1)
        if abs(mean) + 3.0 * standard / np.sqrt(len(around) - 1) >= BAND:
            return i
    raise SystemExit("a response lies within the band")


def steps(t, y, saturated, changes):
    """A row of measures for each step."""
    first = np.searchsorted(t, changes[:, 0])
    begin = np.searchsorted(t, changes[:, 0] - 2.0)
    end = np.append(first[1:], len(t))
    signs = np.sign(changes[:, 2] - changes[:, 1])
    pause = np.diff(t)
    jump = np.abs(np.diff(y))
    if (pause > LONGEST_PAUSE).any() or saturated.any():
        raise SystemExit("a gap, or a saturated sample")
    if (jump - 0.5 > FASTEST * (pause + 0.002)).any():
        raise SystemExit("an impossible slew")
    n = len(first)
    start, finish, deviation, top, steepest = (np.empty(n) for _ in range(5))
    before = np.empty((n, len(SHARES) + 2), dtype=np.intp)
    settled_side = np.empty(n)
    for k in range(n):
        a, f, e, sign = begin[k], first[k], end[k], signs[k]
        s = t[a:e]
        p = y[a:e]
        f -= a
        after = len(p) - f
        wanted = max(20, after - np.searchsorted(s[f:], s[-1] - 0.1 * (s[-1] - s[f])))
        count = min(wanted, after // 4)
        window = p[-count:]
        deviation[k] = np.std(p[-20:], ddof=1)
        standard = np.hypot(deviation[k], RESOLUTION / np.sqrt(12.0))
        start[k] = p[f - 20 : f].mean()
        finish[k] = window.mean()
        apart = abs(finish[k] - p[-2 * count : -count].mean())
        wide = max((6.0 + np.log10(count / 20.0)) * standard, 0.05)
        if np.ptp(window) > wide or apart > 4.0 * np.sqrt(2.0 / count) * standard + 0.01:
            raise SystemExit("a response did not settle")
        departure = sign * (p - start[k])
        change = sign * (finish[k] - start[k])
        middle = f + np.argmax(departure[f:] >= change / 2.0)
        threshold = max(5.0 * standard, 2.0 * RESOLUTION)
        back = departure[middle::-1]
        on = departure[middle:]
        before[k, 0] = a + middle - np.argmax(back < threshold)
        before[k, 1] = a + middle - np.argmax(back < SHARES[0] * change)
        for j in range(1, len(SHARES)):
            before[k, j + 1] = a + middle + np.argmax(on >= SHARES[j] * change) - 1
        beyond = departure - change
        highest = middle + np.argmax(beyond[middle:])
        hidden = ndtri(1.0 - 0.025 / (len(p) - middle)) * deviation[k] + RESOLUTION
        above = beyond[highest] > hidden
        top[k] = peak(s, beyond, highest, standard) if above else 0.0
        leave = last_exit(beyond, standard)
        before[k, -1] = a + leave
        settled_side[k] = np.sign(beyond[leave]) * sign
        steepest[k] = slew(s, departure, before[k, 1] - a, before[k, 4] - a)
    standard = np.hypot(deviation, RESOLUTION / np.sqrt(12.0))
    change = signs * (finish - start)
    threshold = np.maximum(5.0 * standard, 2.0 * RESOLUTION)
    at = changes[:, 0]

    def time_of(column, level, sign, corner=False):
        return crossing(t, y, before[:, column], level, sign, standard, corner) - at

    dead = time_of(0, start + signs * threshold, signs, True)
    low, t63, t86, high, t98 = (
        time_of(j + 1, start + signs * share * change, signs) for j, share in enumerate(SHARES)
    )
    settling = time_of(len(SHARES) + 1, finish + settled_side * BAND, -settled_side)
    ratio = (t63 - dead) / (t86 - dead)
    motion = t[before[:, 0] + 1] - at
    return np.column_stack(
        (start, finish, dead, motion, t63, t86, t98, high - low, ratio, 100.0 * top / change, top)
        + (settling, finish - changes[:, 2], steepest)
    )


def minimax(x, y, through_first):
    """The smallest largest deviation from a straight line, by linear programming."""
    a = np.column_stack((np.ones_like(x), x - x[0], -np.ones_like(x)))
    b = np.column_stack((-np.ones_like(x), x[0] - x, -np.ones_like(x)))
    fixed = (y[0], y[0]) if through_first else (None, None)
    found = linprog(
        [0.0, 0.0, 1.0],
        A_ub=np.vstack((a, b)),
        b_ub=np.concatenate((y, -y)),
        bounds=[fixed, (None, None), (0.0, None)],
    )
    return found.x[2]


def static(t, y, changes):
    """Errors, hysteresis, repeatability and linearity by the last 20 samples of each rest."""
    end = np.append(np.searchsorted(t, changes[1:, 0]), len(t))
    rest = y[end[:, None] + np.arange(-20, 0)].mean(axis=1)
    error = rest - changes[:, 2]
    up = changes[:, 2] > changes[:, 1]
    points = np.unique(changes[:, 2])
    groups = [[error[(changes[:, 2] == p) & (up == d)] for d in (True, False)] for p in points]
    means = np.array([[g.mean() if len(g) else np.nan for g in pair] for pair in groups])
    average = np.nanmean(means, axis=1)
    lags = means[:, 1] - means[:, 0]
    some = [g for pair in groups for g in pair if len(g)]
    squares = sum(((g - g.mean()) ** 2).sum() for g in some)
    degrees = sum(len(g) - 1 for g in some)
    chord = average[0] + (average[-1] - average[0]) * (points - points[0]) / np.ptp(points)
    off = average - chord
    adjacent = []
    for p in points:
        here = changes[:, 2] == p
        turned = np.diff(up[here].astype(int))
        pairs = np.diff(error[here])[turned != 0] * -turned[turned != 0]
        adjacent.append(pairs[np.argmax(np.abs(pairs))] if len(pairs) else 0.0)
    return np.array(
        [
            average[0],
            average[-1] - average[0],
            lags[np.nanargmax(np.abs(lags))],
            adjacent[np.argmax(np.abs(adjacent))],
            max(np.ptp(g) for g in some if len(g) > 1),
            np.sqrt(squares / degrees),
            minimax(points, average, False),
            abs(off[np.argmax(np.abs(off))]),
            minimax(points, average, True),
        ]
    )


def main():
    folder = sys.argv[1]
    t = np.fromfile(folder + "/seconds.f64")
    y = np.fromfile(folder + "/percent.f64")
    saturated = np.fromfile(folder + "/saturated.u8", dtype=np.bool_)
    changes = np.fromfile(folder + "/steps.f64").reshape(-1, 3)
    print("NumPy " + np.__version__ + " and SciPy " + scipy.__version__, flush=True)
    for _ in sys.stdin:
        begin = time.perf_counter()
        with np.errstate(divide="ignore", invalid="ignore"):
            rows = steps(t, y, saturated, changes)
        still = static(t, y, changes)
        took = time.perf_counter() - begin
        np.concatenate((rows.ravel(), still)).tofile(folder + "/measured.f64")
        print(took, flush=True)


main()
