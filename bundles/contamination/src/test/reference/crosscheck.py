"""Repeats rows of balance.csv with another integrator and equations written down a second time.

Usage: python3 crosscheck.py balance.csv [step]     (needs SciPy; every step-th row, 1 unless given)

Radau IIA, with the formulas taken literally: the loading comes from the counts, the kinks lie where
the values say and are stepped over. So the agreement is coarser than that between two runs of
reference.c; what it guards against is a slip in the equations.
"""

import csv
import math
import sys

import numpy
from scipy.integrate import solve_ivp

BANDS = range(6)
EDGES_UM = (4.0, 6.0, 14.0, 21.0, 38.0, 70.0, 100.0)
MASS_G = numpy.array(
  [
    2650.0 * math.pi / 6.0 * (math.sqrt(EDGES_UM[j] * EDGES_UM[j + 1]) * 1e-6) ** 3 * 1e3
    for j in BANDS
  ]
)


def bands(row, pattern):
  return numpy.array([float(row[pattern % j]) for j in BANDS])


def curve(m, n, r):
  if n == 1.0:
    return r**m
  k = (r ** (1.0 - n) - 1.0) / (1.0 - n)
  inner = 1.0 + (1.0 - n) * k * m
  return inner ** (1.0 / (1.0 - n)) if inner > 0.0 else math.inf


def number(row, name):
  return float(row[name])


def pressure_and_bypass(row, k, mass):
  flow = number(row, "flow_%d_L_per_min" % k)
  rated = number(row, "rated_flow_L_per_min")
  crack, full = number(row, "crack_kPa"), number(row, "full_kPa")
  viscosity = number(row, "viscosity_%d_mm2_per_s" % k) / number(
    row, "rated_viscosity_mm2_per_s"
  )
  clean = number(row, "clean_kPa")
  h = curve(
    mass / number(row, "capacity_g"),
    number(row, "exponent"),
    number(row, "terminal_kPa") / clean,
  )
  element = clean * (flow / rated) * viscosity * h
  if element <= crack:
    return element, 0.0
  g = rated / (full - crack)
  p = (flow + g * crack) / (flow / element + g)
  return p, g * (p - crack) / flow


def solve(row):
  """Yields (retained g, passing, end, retained, exposure, p, b) of each cycle."""
  states = range(1, int(row["states"]) + 1)
  share = [number(row, "share_%d" % k) for k in states]
  flow = [number(row, "flow_%d_L_per_min" % k) * 6e4 for k in states]
  volume = number(row, "volume_L") * 1e3
  off = number(row, "offline_flow_L_per_min") * 6e4 * bands(row, "offline_efficiency_%d")
  settled = bands(row, "settling_%d_per_h") * volume
  tank, back = bands(row, "tank_ingress_%d_per_h"), bands(row, "return_ingress_%d_per_h")
  e, ep = bands(row, "efficiency_%d"), bands(row, "pressure_efficiency_%d")
  weight = bands(row, "wear_weight_%d") / number(row, "wear_reference_per_mL")
  power, floor = number(row, "wear_power"), number(row, "wear_floor")
  solid = 1.0 - number(row, "fines_share")
  mean_flow = sum(w * q for w, q in zip(share, flow))

  def rates(_, y):
    n, kept = y[:6], y[6:12]
    mass = float(MASS_G @ kept) / solid
    e_mean, qe = numpy.zeros(6), numpy.zeros(6)
    for k, w, q in zip(states, share, flow):
      _, b = pressure_and_bypass(row, k, mass)
      ek = number(row, "filtered_share") * (1.0 - b) * number(row, "field_factor") * e
      e_mean += w * ek
      qe += w * q * ek
    dn = (
      tank
      + back * (1.0 - e_mean)
      - (mean_flow * ep + (1.0 - ep) * qe + off + settled) * n
    ) / volume
    dkept = back * e_mean + (1.0 - ep) * qe * n
    wear = max(floor, max(float(weight @ n), 0.0) ** power)
    return numpy.concatenate((dn, dkept, n, [wear]))

  n = bands(row, "start_%d_per_mL")
  hours = number(row, "interval_h")
  for _ in range(int(row["cycles"])):
    total = (tank + back) * hours + volume * n
    scale = numpy.concatenate(
      (total / volume, total, total / volume * hours, [floor * hours])
    )
    y0 = numpy.concatenate((n, numpy.zeros(13)))

    def jacobian(t, y):
      # SciPy's own differences grow their step without end where a count has no effect
      matrix, base = numpy.zeros((19, 19)), rates(t, y)
      for i in range(12):
        moved = y.copy()
        moved[i] += 1e-7 * max(abs(y[i]), 1e-6 * scale[i])
        if moved[i] > y[i]:
          matrix[:, i] = (rates(t, moved) - base) / (moved[i] - y[i])
      return matrix

    limits = 1e-14 * scale + 1e-30
    found = solve_ivp(
      rates, (0.0, hours), y0, method="Radau", jac=jacobian, rtol=1e-8, atol=limits
    )
    y = found.y[:, -1]
    mass = float(MASS_G @ y[6:12]) / solid
    pb = [pressure_and_bypass(row, k, mass) for k in states]
    yield mass, mean_flow * y[12:18], y[:6], y[6:12], y[18], [p for p, _ in pb], [
      b for _, b in pb
    ]
    n = (
      y[:6]
      + (number(row, "back_flush_share") * y[6:12] + bands(row, "handling_%d")) / volume
    )


def relative(a, b, floor=0.0):
  a, b = numpy.asarray(a), numpy.asarray(b)
  return float(
    numpy.max(numpy.abs(a - b) / numpy.maximum(numpy.maximum(numpy.abs(b), floor), 1e-300))
  )


def main(path, step):
  with open(path, encoding="ascii") as lines:
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))[::step]
  worst = {}
  for row in rows:
    for cycle, (mass, passing, end, kept, wear, p, b) in enumerate(solve(row), start=1):
      level = (
        passing
        / sum(
          number(row, "share_%d" % k) * number(row, "flow_%d_L_per_min" % k) * 6e4
          for k in range(1, int(row["states"]) + 1)
        )
        / number(row, "interval_h")
      )
      errors = {
        "retained_g": relative(mass, number(row, "retained_g_%d" % cycle)),
        "passing": relative(passing, bands(row, "passing_%%d_%d" % cycle)),
        # far below the mean of the cycle only rounding is left
        "end": relative(end, bands(row, "end_%%d_per_mL_%d" % cycle), 1e-6 * level),
        "retained": relative(kept, bands(row, "retained_%%d_%d" % cycle)),
        "exposure_h": relative(wear, number(row, "exposure_h_%d" % cycle)),
        "bypass": max(
          abs(x - number(row, "bypass_%d_%d" % (k, cycle)))
          for k, x in enumerate(b, 1)
        ),
      }
      # on the wall the element's pressure follows from the last digits of the mass
      errors["pressure"] = max(
        abs(x / number(row, "pressure_%d_kPa_%d" % (k, cycle)) - 1.0)
        for k, x in enumerate(p, 1)
      )
      for name, error in errors.items():
        if not error <= worst.get(name, (0.0,))[0]:
          worst[name] = (error, row["case"], row["tag"], cycle)
  print("%d rows" % len(rows))
  for name, found in worst.items():
    print("  %-12s %.1e  case %s %s, cycle %d" % ((name,) + found))


main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 1)
