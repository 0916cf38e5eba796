"""Weibull fits, chances and bounds from published reference libraries, for the Rust tests.

    python weibull.py            print the tables
    python weibull.py --check    compute again, compare with weibull.json, exit 1 on a difference
    python weibull.py --write    write weibull.json

The fits are made three times: lifelines, reliability, and SciPy's minimiser on the log-likelihood as it stands in any textbook. The
likelihood-ratio intervals come from SciPy alone, by the definition: the likelihood maximised with the quantity held, and a root.
Chances are worked out with 50 decimal digits.
"""

import argparse
import json
import math
import sys
import warnings
from decimal import Decimal, getcontext
from importlib.metadata import version
from pathlib import Path

import matplotlib

matplotlib.use("Agg")

import numpy as np
from lifelines import WeibullFitter
from lifelines.datasets import load_waltons
from reliability.Fitters import Fit_Weibull_2P
from scipy import optimize, stats

TABLE = Path(__file__).resolve().parent / "weibull.json"
getcontext().prec = 50


def ten(x):
    return float(f"{float(x):.10g}")


def six(x):
    """What a library's own optimiser is good for."""
    return float(f"{float(x):.6g}")


def rows(failed, whole):
    return [[float(x), 1] for x in failed] + [[float(x), 0] for x in whole]


def drawn(count, shape, scale):
    """A log of many parts, each looked at after another number of cycles; a plain generator, so that it never changes."""
    state, log = 12345, []
    for _ in range(count):
        draws = []
        for _ in range(2):
            state = (1103515245 * state + 12345) % 2**31
            draws.append((state + 0.5) / 2**31)
        life = scale * (-math.log(draws[0])) ** (1 / shape)
        looked = 100 + 400 * draws[1]
        log.append([float(math.ceil(min(life, looked))), int(life <= looked)])
    return log


def logs():
    waltons = load_waltons()
    return {
        # NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1; data from memory.
        "nist": rows([54, 187, 216, 240, 244, 335, 361, 373, 375, 386], [500] * 10),
        # Gross and Clark, headache relief times; data from memory.
        "gross_clark": rows([1.1, 1.4, 1.3, 1.7, 1.9, 1.8, 1.6, 2.2, 1.7, 2.7, 4.1, 1.8, 1.5, 1.2, 1.4, 3.0, 1.7, 2.3, 1.6, 2.0], []),
        "waltons": [[float(t), int(e)] for t, e in zip(waltons["T"], waltons["E"])],
        # Ours: what a group of fliers might have.
        "three_of_nine": rows([84, 131, 160], [40, 55, 90, 120, 150, 170]),
        "two": rows([90, 150], []),
        "two_of_five": rows([60, 75], [20, 100, 120]),
        "many": drawn(1000, 2.2, 420.0),
    }


def log_likelihood(shape, scale, log):
    return log_likelihood_at(shape, math.log(scale), log)


def log_likelihood_at(shape, log_scale, log):
    x, failed = np.array(log).T
    z = np.log(x) - log_scale
    with np.errstate(over="ignore"):
        return float(np.sum(failed * (np.log(shape) - log_scale + (shape - 1) * z)) - np.sum(np.exp(shape * z)))


def best(log):
    """Maximum by SciPy in (ln shape, ln scale), polished until the steps vanish in the digits."""
    start = [0.0, math.log(np.mean([x for x, _ in log]))]
    cost = lambda p: -log_likelihood(math.exp(p[0]), math.exp(p[1]), log)
    for _ in range(4):
        start = optimize.minimize(cost, start, method="Nelder-Mead", options={"xatol": 1e-12, "fatol": 1e-14, "maxiter": 4000}).x
    return math.exp(start[0]), math.exp(start[1])


def interval(log, shape, scale, log_scale_of, value):
    """Ends of the 95 % likelihood-ratio interval of a quantity; log_scale_of(its logarithm, shape) holds it."""
    least = log_likelihood(shape, scale, log) - 0.5 * stats.chi2.ppf(0.95, 1)

    def over(log_value):
        def cost(log_shape):
            k = math.exp(log_shape)
            found = -log_likelihood_at(k, log_scale_of(log_value, k), log)
            return found if math.isfinite(found) else 1e300
        grid = np.linspace(math.log(0.06), math.log(150.0), 400)
        i = int(np.argmin([cost(u) for u in grid]))
        found = optimize.minimize_scalar(cost, bounds=(grid[max(i - 1, 0)], grid[min(i + 1, 399)]), method="bounded", options={"xatol": 1e-11})
        return -found.fun - least

    ends = []
    for sign in (-1, 1):
        step = 0.1
        while over(math.log(value) + sign * step) > 0:
            step *= 1.5
        ends.append(math.exp(optimize.brentq(over, math.log(value), math.log(value) + sign * step, xtol=1e-11)))
    return ends


def shape_interval(log, shape, scale):
    least = log_likelihood(shape, scale, log) - 0.5 * stats.chi2.ppf(0.95, 1)
    x, failed = np.array(log).T

    def over(log_shape):
        k = math.exp(log_shape)
        return log_likelihood(k, math.exp(math.log(np.sum((x / x.max()) ** k) / failed.sum()) / k) * x.max(), log) - least

    middle = math.log(shape)
    return [math.exp(optimize.brentq(over, middle, middle + way, xtol=1e-12)) for way in (-4.0, 3.0)]


def chance_interval(log, shape, scale, behind, ahead):
    gathered = ((behind + ahead) / scale) ** shape - (behind / scale) ** shape
    # In terms of the hazard gathered, which is not bounded above.
    grown = lambda k: k * math.log(behind + ahead) + math.log1p(-((behind / (behind + ahead)) ** k))
    ends = interval(log, shape, scale, lambda log_h, k: (grown(k) - log_h) / k, gathered)
    return {"behind": behind, "ahead": ahead, "value": ten(-math.expm1(-gathered)), "interval": [six(-math.expm1(-end)) for end in ends]}


def life_interval(log, shape, scale, share):
    wear = -math.log1p(-share)
    value = scale * wear ** (1 / shape)
    return {"share": share, "value": ten(value), "interval": [six(end) for end in interval(log, shape, scale, lambda log_t, k: log_t - math.log(wear) / k, value)]}


def fitted(name, log):
    x, failed = np.array(log).T
    shape, scale = best(log)
    lifelines = WeibullFitter().fit(x, failed)
    reliability = Fit_Weibull_2P(failures=list(x[failed == 1]), right_censored=list(x[failed == 0]) or None,
                                 show_probability_plot=False, print_results=False)
    # Three ages, from young to old.
    ages = [round(0.3 * scale, 3), round(0.7 * scale, 3), round(1.1 * scale, 3)]
    return {
        "rows": log,
        "scipy": {"shape": float(f"{shape:.7g}"), "scale": float(f"{scale:.7g}"), "log_likelihood": ten(log_likelihood(shape, scale, log))},
        "lifelines": {"shape": six(lifelines.rho_), "scale": six(lifelines.lambda_), "log_likelihood": six(lifelines.log_likelihood_)},
        "reliability": {"shape": six(reliability.beta), "scale": six(reliability.alpha), "shape_error": float(f"{reliability.beta_SE:.5g}"),
                        "scale_error": float(f"{reliability.alpha_SE:.5g}"), "covariance": float(f"{reliability.Cov_alpha_beta:.4g}")},
        "shape_interval": [six(end) for end in shape_interval(log, shape, scale)],
        "chances": [chance_interval(log, shape, scale, age, 1.0) for age in ages] + [chance_interval(log, shape, scale, 0.0, ages[0])],
        "lives": [life_interval(log, shape, scale, share) for share in (0.1, 0.5)],
    }


def chances():
    table = []
    for shape, scale, behind, ahead in [(2.5, 300, 0, 1), (2.5, 300, 120, 1), (2.5, 300, 120, 12), (1.0, 1e9, 5e8, 1), (3.0, 1e6, 1, 1),
                                        (0.7, 400, 0, 1), (0.7, 400, 200, 5), (12.0, 250, 240, 8), (2.0, 50, 400, 100), (8.0, 1e5, 100, 3)]:
        wear = lambda c: Decimal(0) if c == 0 else ((Decimal(c) / Decimal(scale)).ln() * Decimal(shape)).exp()
        chance = 1 - (wear(behind) - wear(behind + ahead)).exp()
        survival = (-wear(behind)).exp()
        table.append({"shape": shape, "scale": scale, "behind": behind, "ahead": ahead, "chance": float(f"{chance:.14e}"),
                      "survival": float(f"{survival:.14e}")})
    return table


def lives():
    return [{"shape": k, "scale": s, "share": f, "cycles": ten(stats.weibull_min.ppf(f, k, scale=s))}
            for k, s in [(1.7208, 606.528), (2.5, 300), (0.7, 400), (12, 250)] for f in (0.001, 0.1, 0.5, 0.9)]


def several():
    sets = [[0.3, 0.2, 0.1], [1e-3] * 6, [1e-7, 2e-7, 3e-6, 1e-5], [0.02] * 8, [0.9, 0.5, 0.01, 1e-6]]
    exact = []
    for each in sets:
        some = 1 - math.prod(1 - Decimal(q) for q in each)
        one = sum((Decimal(q) * math.prod(1 - Decimal(o) for j, o in enumerate(each) if j != i) for i, q in enumerate(each)), Decimal(0))
        by_scipy = stats.poisson_binom(each)
        assert abs(float(some) - by_scipy.sf(0)) < 1e-12 and abs(float(some - one) - by_scipy.sf(1)) < 1e-12
        exact.append({"chances": each, "any": ten(some), "two": ten(some - one)})
    return exact


def events():
    return [{"events": r, "confidence": c, "mean": ten(stats.chi2.ppf(c, 2 * r + 2) / 2)}
            for r in (0, 1, 2, 5, 20, 300, 5000) for c in (0.6, 0.9, 0.95, 0.99)]


def everything():
    v = {name: f"{name} {version(name)}" for name in ("lifelines", "reliability", "scipy")}
    return {
        "fits": {"source": f"{v['lifelines']} WeibullFitter; {v['reliability']} Fit_Weibull_2P; {v['scipy']} minimisers on the likelihood",
                 **{name: fitted(name, log) for name, log in logs().items()}},
        "chances": {"source": "Python decimal, 50 digits", "rows": chances()},
        "lives": {"source": f"{v['scipy']} stats.weibull_min.ppf", "rows": lives()},
        "several": {"source": f"Python decimal, 50 digits, checked against {v['scipy']} stats.poisson_binom", "rows": several()},
        "events": {"source": f"{v['scipy']} stats.chi2.ppf with 2 r + 2 degrees of freedom, halved", "rows": events()},
    }


def differences(path, old, new):
    if isinstance(old, dict) and isinstance(new, dict):
        for key in sorted(set(old) | set(new)):
            yield from differences(f"{path}.{key}", old.get(key), new.get(key))
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for i, (a, b) in enumerate(zip(old, new)):
            yield from differences(f"{path}[{i}]", a, b)
    elif isinstance(old, (int, float)) and isinstance(new, (int, float)):
        # Optimisers of libraries stop at a step, not at a digit: their numbers stand in the table with few digits.
        allowed = 1e-4 if "reliability" in path else 5e-6
        if abs(old - new) > allowed * max(abs(old), abs(new)):
            yield f"{path:60s} {old:16.10g} {new:16.10g} {new - old:10.2e}"
    elif old != new:
        yield f"{path:60s} {old!s} | {new!s}"


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--write", action="store_true")
    options = parser.parse_args()
    warnings.simplefilter("ignore")
    text = compact(everything())
    if options.write:
        TABLE.write_text(text)
    elif options.check:
        lines = list(differences("", json.loads(TABLE.read_text()), json.loads(text)))
        if lines:
            print(f"{'':60s} {'committed':>16s} {'now':>16s} {'difference':>10s}")
            print("\n".join(lines))
            return 1
        print(f"agrees with {TABLE.name}")
    else:
        print(text, end="")
    return 0


def compact(table):
    """JSON with every innermost object and the rows of a log on one line."""
    def shown(value, indent):
        pad = " " * indent
        if isinstance(value, dict) and any(isinstance(v, (dict, list)) and v for v in value.values()) and indent < 3:
            return "{\n" + ",\n".join(f'{pad} "{k}": {shown(v, indent + 1)}' for k, v in value.items()) + "\n" + pad + "}"
        if isinstance(value, list) and value and isinstance(value[0], dict):
            return "[\n" + ",\n".join(f"{pad} {json.dumps(v)}" for v in value) + "\n" + pad + "]"
        return json.dumps(value)
    return shown(table, 0) + "\n"


if __name__ == "__main__":
    sys.exit(main())
