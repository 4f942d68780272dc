"""The three timing jobs in vectorised numpy, on the files that compare.sh wrote to a folder.

Usage: python3 vectorised.py FOLDER       in process from arrays in memory: median of 5
       python3 vectorised.py FOLDER JOB   one job once, as a whole process, reading included
"""

import statistics
import sys
import time

import numpy as np


def read(name):
    return np.loadtxt(f"{sys.argv[1]}/{name}.csv", delimiter=",", skiprows=1)


def weibull_regression(y, event, x):
    """Newton in (b, ln sigma) with analytic derivatives; x has an intercept."""
    mean, spread = x[:, 1:].mean(axis=0), x[:, 1:].std(axis=0)
    x = np.column_stack([x[:, 0], (x[:, 1:] - mean) / spread])
    p = x.shape[1]
    theta = np.zeros(p + 1)
    theta[p] = np.log(0.78 * y.std())
    theta[0] = y.mean() + 0.58 * np.exp(theta[p])
    for _ in range(50):
        sigma = np.exp(theta[p])
        z = (y - x @ theta[:p]) / sigma
        u = np.exp(z)
        first = event - u
        cross = first - u * z
        g = np.append(-(first @ x) / sigma, -(first @ z) - event.sum())
        h = np.empty((p + 1, p + 1))
        h[:p, :p] = -(x.T * u) @ x / sigma**2
        h[:p, p] = h[p, :p] = (cross @ x) / sigma
        h[p, p] = cross @ z
        step = np.linalg.solve(h, -g)
        theta += step * min(1, 1 / abs(step[p]))
        if step @ g < 1e-10:
            break
    return theta, np.linalg.inv(-h)


def kaplan_meier(hours, event):
    order = np.argsort(hours)
    t, d = hours[order], event[order]
    last = np.append(t[1:] != t[:-1], True)
    first = np.append(0, np.flatnonzero(last)[:-1] + 1)
    died = np.add.reduceat(d, first)
    risk = len(t) - first
    seen = died > 0
    died, risk = died[seen], risk[seen]
    s = np.cumprod(1 - died / risk)
    with np.errstate(divide="ignore", invalid="ignore"):
        greenwood = np.cumsum(died / (risk * (risk - died)))
        half = 1.959963984540054 * np.sqrt(greenwood) / np.log(s)
        return s, s ** np.exp(-half), s ** np.exp(half)


def refits(y, event, draws, seed):
    """All draws climb together, as counts of each row."""
    n = len(y)
    rows = np.random.default_rng(seed).integers(0, n, (draws, n))
    counts = np.zeros((draws, n))
    np.add.at(counts, (np.arange(draws)[:, None], rows), 1)
    failures = counts @ event
    mu = np.log(counts @ np.exp(y) / failures)
    tau = np.zeros(draws)
    for _ in range(50):
        inv = np.exp(-tau)
        z = (y - mu[:, None]) * inv[:, None]
        wu = counts * np.exp(z)
        wd = counts * event
        h1 = wd - wu
        g0, g1 = -h1.sum(1) * inv, -(h1 * z).sum(1) - failures
        a = -wu.sum(1) * inv**2
        b = (h1 - wu * z).sum(1) * inv
        c = (h1 * z - wu * z * z).sum(1)
        det = a * c - b * b
        s0, s1 = -(c * g0 - b * g1) / det, -(a * g1 - b * g0) / det
        factor = np.minimum(1, 1 / np.maximum(np.abs(s1), 1e-300))
        mu, tau = mu + factor * s0, tau + factor * s1
        if np.max(np.abs(s0)) < 1e-9:
            break
    return mu, tau


def timed(name, work):
    answer, elapsed, processor = None, [], []
    for _ in range(6):
        e, p = time.perf_counter(), time.process_time()
        answer = work()
        elapsed.append(time.perf_counter() - e)
        processor.append(time.process_time() - p)
    e, p = statistics.median(elapsed[1:]), statistics.median(processor[1:])
    print(f"| {name} | numpy {np.__version__} | {1e3 * e:.0f} ms | {1e3 * p:.0f} ms |")
    return answer


def regression(d):
    design = np.column_stack([np.ones(len(d)), d[:, 2:]])
    return weibull_regression(np.log(d[:, 0]), d[:, 1], design)


def survival(d):
    return kaplan_meier(d[:, 0], d[:, 1])


def bootstrap(d):
    return refits(np.log(d[:, 0]), d[:, 1], 1000, 1)


def told(name, answer):
    if name == "regression":
        return "sigma", np.exp(answer[0][-1])
    if name == "survival":
        return "last S", answer[0][-1]
    return "sd of shape", np.exp(-answer[1]).std()


jobs = {"regression": regression, "survival": survival, "bootstrap": bootstrap}
if len(sys.argv) > 2:
    print(*told(sys.argv[2], jobs[sys.argv[2]](read(sys.argv[2]))))
else:
    for name, job in jobs.items():
        data = read(name)
        print(*told(name, timed(name, lambda: job(data))))
