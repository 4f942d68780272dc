"""Writes the random cases of the contamination balance as CSV to standard output.

Usage: python3 cases.py > cases.csv       (Python 3 standard library only; the seed is fixed)

Every number is rounded to four significant digits before it is written, so the text is the exact
input. The machines are invented.
"""

import math
import random
import sys

SEED = 20240607
EDGES_UM = (4.0, 6.0, 14.0, 21.0, 38.0, 70.0, 100.0)
BANDS = range(6)
DIAMETER_UM = [math.sqrt(EDGES_UM[j] * EDGES_UM[j + 1]) for j in BANDS]
# grams: kg/m3 times um^3 is 1e-18 kg, that is 1e-15 g
PARTICLE_G = [2650.0 * math.pi / 6.0 * d**3 * 1e-15 for d in DIAMETER_UM]
STATES = 4

random_source = random.Random(SEED)


def rounded(value):
  return float("%.4g" % value)


def uniform(low, high):
  return random_source.uniform(low, high)


def spread(low, high):
  """A draw whose logarithm is uniform."""
  return math.exp(uniform(math.log(low), math.log(high)))


def choose(*values):
  return random_source.choice(values)


def dirt(mass_g):
  """Particles per band of a power-law dust with that mass within the bands."""
  slope = uniform(2.3, 3.8)
  counts = [
    (EDGES_UM[j] ** -slope - EDGES_UM[j + 1] ** -slope) * spread(0.7, 1.4) for j in BANDS
  ]
  scale = mass_g / sum(c * g for c, g in zip(counts, PARTICLE_G))
  return [c * scale for c in counts]


def shares(count):
  """Whole per cents that add to exactly 100."""
  cuts = sorted(random_source.sample(range(5, 96, 5), count - 1))
  return [(b - a) / 100.0 for a, b in zip([0] + cuts, cuts + [100])]


def efficiencies(beta_low, beta_high):
  """1 - 1/beta at the band diameters, ln beta linear in size and held at the top."""
  low, high = math.log(beta_low), math.log(beta_high)
  return [
    1.0 - math.exp(-(low + (high - low) * min(1.0, (d - 4.9) / 25.0))) for d in DIAMETER_UM
  ]


def machine():
  """A realistic machine; the corner cases change it."""
  case = {}
  count = choose(1, 2, 2, 2, 3, 3, 4)
  case["volume"] = spread(20.0, 600.0)
  case["shares"] = shares(count)
  top = spread(30.0, 500.0)
  case["flows"] = [max(20.0, top * uniform(0.35, 1.0)) for _ in range(count)]
  case["viscosities"] = [spread(12.0, 120.0) for _ in range(count)]
  case["filtered"] = choose(1.0, 1.0, uniform(0.6, 1.0))
  case["field"] = choose(1.0, uniform(0.3, 1.0))
  case["e"] = efficiencies(spread(1.05, 10.0), spread(10.0, 3000.0))
  case["ep"] = [0.0] * 6
  case["offFlow"] = 0.0
  case["eOff"] = [0.0] * 6
  case["settling"] = [0.0] * 6
  case["capacity"] = spread(8.0, 250.0)
  case["ratedFlow"] = max(case["flows"]) * uniform(0.9, 2.0)
  case["ratedViscosity"] = 30.0
  case["pClean"] = uniform(8.0, 50.0)
  case["pTerm"] = case["pClean"] * uniform(4.0, 15.0)
  case["exponent"] = choose(0.5, 0.65, 1.0, 1.0, 1.0, 1.5, 2.2)
  case["pCrack"] = uniform(80.0, 350.0)
  case["pFull"] = case["pCrack"] * uniform(1.15, 2.0)
  case["fines"] = choose(0.0, 0.0, uniform(0.0, 0.5))
  case["phi"] = choose(0.0, uniform(0.0, 0.05), uniform(0.05, 0.5))
  life = spread(300.0, 6000.0)
  rate = case["capacity"] * (1.0 - case["fines"]) / life
  split = uniform(0.05, 0.6)
  case["toTank"] = dirt(rate * split)
  case["toReturn"] = dirt(rate * (1.0 - split))
  case["handling"] = choose([0.0] * 6, dirt(spread(0.001, 0.5)), dirt(spread(0.001, 0.5)))
  case["start"] = None
  case["startFactor"] = choose(0.0, 1.0, spread(0.1, 30.0))
  case["life"] = life
  case["interval"] = min(4000.0, max(5.0, life * spread(0.15, 1.3)))
  case["cycles"] = random_source.choices((2, 3, 4), (66, 22, 12))[0]
  case["weights"] = choose(
    [0.0, 0.0, 1.0, 1.0, 1.0, 1.0],
    [1.0] * 6,
    [round(uniform(0.0, 1.0), 2) for _ in BANDS],
  )
  case["power"] = choose(0.5, 1.0, 1.5, 2.0, uniform(0.5, 3.0))
  case["floor"] = spread(0.01, 0.8)
  case["refFactor"] = spread(0.3, 3.0)
  return case


def steady(case):
  """About the clean-element steady counts per band: the scale of start and wear reference."""
  flow = sum(w * q for w, q in zip(case["shares"], case["flows"])) * 6e4
  volume = case["volume"] * 1e3
  result = []
  for j in BANDS:
    e = case["filtered"] * case["field"] * case["e"][j]
    sink = flow * (case["ep"][j] + (1.0 - case["ep"][j]) * e)
    sink += case["offFlow"] * 6e4 * case["eOff"][j] + case["settling"][j] * volume
    sink = max(sink, volume / case["interval"])
    result.append((case["toTank"][j] + case["toReturn"][j] * (1.0 - e)) / sink)
  return result


def cold(case):
  k = random_source.randrange(len(case["shares"]))
  case["viscosities"][k] = spread(500.0, 1500.0)


def cold_all(case):
  case["viscosities"] = [spread(500.0, 1500.0) for _ in case["viscosities"]]


def tiny_efficiency(case):
  case["e"] = sorted(spread(1e-6, 1e-3) for _ in BANDS)
  case["interval"] = spread(50.0, 4000.0)


def tiny_factor(case):
  case[choose("filtered", "field")] = spread(1e-6, 1e-2)


def nothing_filtered(case):
  case["filtered"] = 0.0


def mixed_efficiency(case):
  case["e"] = [0.0, spread(1e-6, 1e-4), spread(1e-4, 1e-2), 0.05, 0.5, 0.99]


def tiny_tank(case):
  case["volume"] = 0.5


def huge_tank(case):
  case["volume"] = 20000.0
  if choose(True, False):
    case["flows"] = [uniform(20.0, 60.0) for _ in case["flows"]]


def past_bypass(case):
  case["exponent"] = choose(0.5, 0.65, 1.0)
  lengthen(case, 2.0, 12.0)


def wall(case):
  case["exponent"] = choose(1.5, 2.2, 2.2)
  lengthen(case, 1.5, 8.0)


def lengthen(case, low, high):
  """Past the bypass by that many lives, at most 4000 h: the ingress grows instead."""
  lives = uniform(low, high)
  interval = min(4000.0, case["life"] * lives)
  growth = lives * case["life"] / interval
  case["toTank"] = [growth * r for r in case["toTank"]]
  case["toReturn"] = [growth * r for r in case["toReturn"]]
  case["interval"] = interval
  case["pCrack"] = min(case["pCrack"], 0.9 * case["pTerm"] + 20.0)
  case["pFull"] = case["pCrack"] * uniform(1.15, 2.0)


def wall_back_flush(case):
  wall(case)
  case["phi"] = uniform(0.3, 0.5)
  case["cycles"] = 3


def back_flush(case):
  case["phi"] = uniform(0.3, 0.5)
  case["cycles"] = choose(3, 4)


def no_tank_ingress(case):
  case["toTank"] = [0.0] * 6


def no_return_ingress(case):
  case["toReturn"] = [0.0] * 6


def no_ingress(case):
  case["toTank"] = [0.0] * 6
  case["toReturn"] = [0.0] * 6
  case["start"] = [spread(1.0, 1e4) / (j + 1.0) ** 3 for j in BANDS]
  case["phi"] = uniform(0.05, 0.5)


def offline(case):
  case["offFlow"] = uniform(2.0, 40.0)
  case["eOff"] = efficiencies(spread(1.5, 10.0), spread(100.0, 2000.0))


def settling(case):
  base = spread(1e-4, 0.05)
  case["settling"] = [base * d * d / 100.0 for d in DIAMETER_UM]


def pressure(case):
  case["ep"] = efficiencies(spread(1.05, 5.0), spread(5.0, 1000.0))


def everything(case):
  offline(case)
  settling(case)
  pressure(case)
  cold(case)
  case["fines"] = uniform(0.1, 0.5)
  case["phi"] = uniform(0.05, 0.5)


def fines(case):
  case["fines"] = choose(0.5, uniform(0.2, 0.5))


def short_interval(case):
  case["interval"] = spread(5.0, 20.0)


def long_interval(case):
  case["interval"] = uniform(3000.0, 4000.0)


def dirty_start(case):
  case["start"] = [spread(3e4, 1e6) / (j + 1.0) ** 4 for j in BANDS]


def clean_start(case):
  case["start"] = [0.0] * 6


def clamp(case):
  """The wear floor lies close to the steady state: the wash-out or the loading crosses it."""
  case["floor"] = uniform(0.3, 1.0)
  case["refFactor"] = uniform(0.7, 1.5)
  case["startFactor"] = choose(0.0, 5.0)


def exponent(value):
  def change(case):
    case["exponent"] = value
    lengthen(case, 0.6, 1.4)

  return change


PLAN = (
  ("ordinary", 74, ()),
  ("cold", 24, (cold,)),
  ("cold_all", 8, (cold_all,)),
  ("tiny_efficiency", 10, (tiny_efficiency,)),
  ("tiny_factor", 8, (tiny_factor,)),
  ("tiny_efficiency_cold", 4, (tiny_efficiency, cold)),
  ("nothing_filtered", 2, (nothing_filtered,)),
  ("mixed_efficiency", 6, (mixed_efficiency,)),
  ("mixed_efficiency_past_bypass", 4, (mixed_efficiency, past_bypass)),
  ("tiny_tank", 8, (tiny_tank,)),
  ("tiny_tank_past_bypass", 4, (tiny_tank, past_bypass)),
  ("huge_tank", 8, (huge_tank,)),
  ("huge_tank_past_bypass", 4, (huge_tank, past_bypass)),
  ("past_bypass", 18, (past_bypass,)),
  ("past_bypass_cold", 6, (past_bypass, cold)),
  ("wall", 12, (wall,)),
  ("wall_cold", 4, (wall, cold)),
  ("wall_back_flush", 6, (wall_back_flush,)),
  ("exponent_0.5", 4, (exponent(0.5),)),
  ("exponent_0.65", 4, (exponent(0.65),)),
  ("exponent_1", 4, (exponent(1.0),)),
  ("exponent_1.5", 4, (exponent(1.5),)),
  ("exponent_2.2", 4, (exponent(2.2),)),
  ("back_flush", 8, (back_flush,)),
  ("no_tank_ingress", 5, (no_tank_ingress,)),
  ("no_return_ingress", 5, (no_return_ingress,)),
  ("no_ingress", 3, (no_ingress,)),
  ("offline", 6, (offline,)),
  ("settling", 5, (settling,)),
  ("pressure", 6, (pressure,)),
  ("everything", 6, (everything,)),
  ("fines", 4, (fines,)),
  ("short_interval", 4, (short_interval,)),
  ("long_interval", 4, (long_interval,)),
  ("dirty_start", 4, (dirty_start,)),
  ("clean_start", 2, (clean_start,)),
  ("clamp", 8, (clamp,)),
)


def numbered(name, count, unit=""):
  first = 0 if count == 6 else 1
  return ["%s_%d%s" % (name, first + i, unit) for i in range(count)]


HEADER = (
  ["case", "tag", "volume_L", "states"]
  + numbered("share", STATES)
  + numbered("flow", STATES, "_L_per_min")
  + numbered("viscosity", STATES, "_mm2_per_s")
  + ["filtered_share", "field_factor"]
  + numbered("efficiency", 6)
  + numbered("pressure_efficiency", 6)
  + ["offline_flow_L_per_min"]
  + numbered("offline_efficiency", 6)
  + numbered("settling", 6, "_per_h")
  + numbered("tank_ingress", 6, "_per_h")
  + numbered("return_ingress", 6, "_per_h")
  + ["capacity_g", "clean_kPa", "terminal_kPa", "exponent"]
  + ["rated_flow_L_per_min", "rated_viscosity_mm2_per_s", "crack_kPa", "full_kPa"]
  + ["fines_share", "back_flush_share"]
  + numbered("handling", 6)
  + numbered("start", 6, "_per_mL")
  + ["interval_h", "cycles"]
  + numbered("wear_weight", 6)
  + ["wear_reference_per_mL", "wear_power", "wear_floor"]
)


def row(number, tag, changes):
  case = machine()
  for change in changes:
    change(case)
  level = steady(case)
  if case["start"] is None:
    case["start"] = [case["startFactor"] * n for n in level]
  scale = [max(a, 1e-3 * b) for a, b in zip(level, case["start"])]
  if sum(w * n for w, n in zip(case["weights"], scale)) <= 0.0:
    case["weights"] = [1.0] * 6
  reference = case["refFactor"] * sum(w * n for w, n in zip(case["weights"], scale))

  def padded(values):
    return list(values) + [None] * (STATES - len(values))

  values = (
    [case["volume"], len(case["shares"])]
    + padded(case["shares"])
    + padded(case["flows"])
    + padded(case["viscosities"])
    + [case["filtered"], case["field"]]
    + case["e"]
    + case["ep"]
    + [case["offFlow"]]
    + case["eOff"]
    + case["settling"]
    + case["toTank"]
    + case["toReturn"]
    + [case["capacity"], case["pClean"], case["pTerm"], case["exponent"]]
    + [case["ratedFlow"], case["ratedViscosity"], case["pCrack"], case["pFull"]]
    + [case["fines"], case["phi"]]
    + case["handling"]
    + case["start"]
    + [case["interval"], case["cycles"]]
    + case["weights"]
    + [reference, case["power"], case["floor"]]
  )
  cells = ["" if v is None else "%g" % rounded(v) for v in values]
  return [str(number), tag] + cells


def main():
  rows = [HEADER]
  for tag, count, changes in PLAN:
    for _ in range(count):
      rows.append(row(len(rows), tag, changes))
  sys.stdout.write("".join(",".join(r) + "\n" for r in rows))


main()
