"""Mean cumulative function with robust variance in one pass: the plain script that the engine is timed against.

    python3 one_pass.py RECORDS.csv        columns machine, hours, event, as `siltwright compare` reads them

Own derivation: a machine at risk has the sum a_i - D, D the sum of dM/r so far; sums of a_i and of its square over those at
risk, and the squares of those who left, give the variance at each event. All hours distinct but ends; no late entry.
"""
import sys
import time


def load(path):
    events, ends = [], []
    with open(path) as f:
        next(f)
        for line in f:
            m, h, e = line.split(",")[:3]
            (events if e.strip() == "1" else ends).append((float(h), m))
    return events, ends


def mean(events, ends):
    rows = [(t, 0, m) for t, m in events] + [(t, 1, m) for t, m in ends]
    rows.sort()
    a = dict.fromkeys((m for _, m in ends), 0.0)
    risk, total, drift, s1, s2, left = len(a), 0.0, 0.0, 0.0, 0.0, 0.0
    times, means, variances = [], [], []
    for t, end, m in rows:
        v = a[m]
        if end:
            s1 -= v
            s2 -= v * v
            left += (v - drift) ** 2
            risk -= 1
        else:
            step = 1.0 / risk
            total += step
            drift += step * step
            a[m] = v + step
            s1 += step
            s2 += (v + step) ** 2 - v * v
            times.append(t)
            means.append(total)
            variances.append(s2 - 2 * drift * s1 + risk * drift * drift + left)
    return times, means, variances


events, ends = load(sys.argv[1])
start, cpu = time.perf_counter(), time.process_time()
times, means, variances = mean(events, ends)
print("%d machines, %d events: %.2f s, %.2f s of processor; last %.1f h %.6f %.6g" % (
    len(ends), len(events), time.perf_counter() - start, time.process_time() - cpu, times[-1], means[-1], variances[-1]))
