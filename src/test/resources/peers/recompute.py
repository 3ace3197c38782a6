"""Recomputes by numpy and scipy what benchstroke measured, from the same numbers.

Usage: recompute.py FOLDER. Reads FOLDER/*.json, each {"task": ..., inputs}, prints one JSON object
of file name to results. Nothing here is taken from benchstroke's sources: the definitions are those
of the documentation.
"""

import json
import pathlib
import sys

import numpy as np
from scipy import optimize, special, stats

E1 = -np.expm1(-1.0)
E2 = -np.expm1(-2.0)


def crossing(t, y, level):
    """The first instant at which linear interpolation reaches a level; y rises."""
    i = int(np.argmax(y >= level))
    return float(np.interp(level, y[i - 1 : i + 1], t[i - 1 : i + 1]))


def step(d):
    t = np.array(d["t"]) - d["at"]
    y = np.array(d["y"]) * np.sign(d["to"] - d["from"])
    start = np.mean(y[t < 0][-20:])
    after = y[t >= 0]
    seconds = t[t >= 0]
    window = max(20, int(np.sum(seconds >= seconds[-1] - 0.1 * (seconds[-1] - seconds[0]))))
    end = np.mean(after[-min(window, len(after) // 4) :])
    change = end - start
    outside = np.nonzero(np.abs(y - end) > d["band"])[0][-1]
    edge = end + np.sign(y[outside] - end) * d["band"]
    pair = slice(outside, outside + 2)
    order = np.argsort(y[pair])
    settling = np.interp(edge, y[pair][order], t[pair][order])
    low, high = (crossing(t, y, start + s * change) for s in (0.1, 0.9))
    return {
        "t63": crossing(t, y, start + E1 * change),
        "t86": crossing(t, y, start + E2 * change),
        "t98": crossing(t, y, start + 0.98 * change),
        "rise": high - low,
        "settling": float(settling),
        "overshoot": float(100.0 * (np.max(y) - end) / change),
        "error": float(end * np.sign(d["to"] - d["from"]) - d["to"]),
    }


def first_order(d):
    """Parameters of y0 + A (1 - exp(-(t - td) / tau)) and their deviations, by curve_fit."""
    t, y = np.array(d["t"]), np.array(d["y"])

    def model(x, td, tau, before, change):
        return before + change * -np.expm1(-np.maximum(0.0, x - td) / tau)

    p, cov = optimize.curve_fit(model, t, y, p0=d["start"], xtol=1e-14, ftol=1e-14, gtol=1e-14)
    return {"p": p.tolist(), "sd": np.sqrt(np.diag(cov)).tolist()}


def line(d):
    x, y = np.array(d["x"]), np.array(d["y"])
    r = stats.linregress(x, y)
    residual = y - r.intercept - r.slope * x
    # Minimise h with |y - a - b x| <= h.
    one = np.ones_like(x)
    a_ub = np.block([[one[:, None], x[:, None], -one[:, None]], [-one[:, None], -x[:, None], -one[:, None]]])
    fit = optimize.linprog(
        [0, 0, 1], A_ub=a_ub, b_ub=np.concatenate([y, -y]), bounds=[(None, None)] * 3, method="highs"
    )
    zero = optimize.minimize_scalar(
        lambda b: np.max(np.abs(y - y[0] - b * (x - x[0]))),
        bounds=(r.slope - 5, r.slope + 5),
        method="bounded",
        options={"xatol": 1e-12},
    )
    terminal = y - y[0] - (y[-1] - y[0]) / (x[-1] - x[0]) * (x - x[0])
    return {
        "slope": r.slope,
        "intercept": r.intercept,
        "slope_sd": r.stderr,
        "intercept_sd": r.intercept_stderr,
        "residual": float(np.sqrt(np.sum(residual**2) / (len(x) - 2))),
        "minimax": fit.x[2],
        "terminal": float(np.max(np.abs(terminal))),
        "zero": float(zero.fun),
    }


def statistics(d):
    """Mean, s, and the coverage factors of the degrees of freedom that are given."""
    y = np.array(d["y"])
    u, nu = np.array(d["u"]), np.array(d["nu"])
    effective = np.sum(u**2) ** 2 / np.sum(u**4 / nu)
    return {
        "mean": float(np.mean(y)),
        "sd": float(np.std(y, ddof=1)),
        "range": float(np.ptp(y)),
        "nu": float(effective),
        "k": float(stats.t.ppf(0.975, np.floor(np.round(effective, 2)))),
        "t": [float(stats.t.ppf(0.975, n)) for n in range(1, 31)],
        "width": [float(width(*pair)) for pair in d["pairs"]],
    }


def width(bound, deviation):
    """The 95 % half-width of a rectangular and a normal part, by numerical convolution."""
    nodes, weights = special.roots_legendre(200)

    def probability(half):
        upper = stats.norm.cdf((half - bound * nodes) / deviation)
        lower = stats.norm.cdf((-half - bound * nodes) / deviation)
        return float(np.sum(weights * (upper - lower)) / 2.0)

    return optimize.brentq(lambda h: probability(h) - 0.95, 0.0, bound + 8 * deviation, xtol=1e-13)


TASKS = {"step": step, "first order": first_order, "line": line, "statistics": statistics}


def main():
    results = {}
    for path in sorted(pathlib.Path(sys.argv[1]).glob("*.json")):
        data = json.loads(path.read_text())
        results[path.stem] = TASKS[data["task"]](data)
    print(json.dumps(results))


if __name__ == "__main__":
    main()
