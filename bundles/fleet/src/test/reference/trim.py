"""Makes src/test/resources/siltwright/fleet/reference/ from the shared reference cases.

Usage: python3 trim.py FOLDER, the folder that holds shared.json and data/shared/*.csv. It keeps the
groups E and F and those of H and T that compare fleets, the published answers, and the data sets
that these cases name, columns named as in the program; nothing is computed here.
"""
import json
import os
import sys

source = sys.argv[1]
here = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "resources", "siltwright", "fleet", "reference")
os.makedirs(here, exist_ok=True)
cases = []
files = set()
for case in json.load(open(os.path.join(source, "shared.json")))["list"]:
    ours = ("poisson_ci", "poisson_two_rates", "fleet_pumps", "T-mcf")
    if case["group"] in "EF" or any(k in case["id"] for k in ours):
        for key in ("method", "reference_seconds"):
            case.pop(key, None)
        if "file" in case["data"]:
            name = os.path.basename(case["data"]["file"])
            files.add(name)
            case["data"]["file"] = name
        for entry in case.get("published", []):
            entry.pop("computed", None)
        cases.append(case)
header = (
    "Reference answers for fleets side by side. Computed with R 4.2.2 (survival 3.5-3), Python 3.11 (mpmath 1.2.1,"
    " numpy 1.24.2); group F with 40 digits. The source of each data set and every published answer stand in its"
    " case. Pass: |got - value| <= atol + rtol |value|; null: does not exist."
)
with open(os.path.join(here, "cases.json"), "w") as out:
    out.write('{"source": %s,\n"list": [\n' % json.dumps(header))
    out.write(",\n".join(json.dumps(c) for c in cases))
    out.write("\n]}\n")
for name in files:
    lines = open(os.path.join(source, "data", "shared", name)).read().split("\n")
    head = lines[0].split(",")
    if "system" in head:
        lines[0] = ",".join({"system": "machine", "time": "hours"}.get(h, h) for h in head)
    open(os.path.join(here, name), "w").write("\n".join(lines))
print(len(cases), "cases,", len(files), "files")
