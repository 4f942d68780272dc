"""Makes src/test/resources/siltwright/life/reference/ from the shared reference cases.

Usage: python3 trim.py FOLDER, the folder that holds shared.json and data/shared/*.csv. It keeps the
groups A, B, C, D, T and those of H that concern component life, the published answers, and the
small data sets that these cases name; nothing is computed here.
"""
import json
import os
import shutil
import sys

source = sys.argv[1]
here = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "resources", "siltwright", "life", "reference")
os.makedirs(here, exist_ok=True)
cases = []
files = set()
for case in json.load(open(os.path.join(source, "shared.json")))["list"]:
    life = ("zero_failure", "binomial_plan", "test_length", "weibayes")
    if case["group"] in "ABCD" or case["group"] == "T" and "mcf" not in case["id"] or case["group"] == "H" and any(
        k in case["id"] for k in life
    ):
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
    "Reference answers for component life. Computed with R 4.2.2 (survival 3.5-3, KMsurv 0.1-5, npsurv 0.5-0),"
    " Python 3.11 (mpmath 1.2.1, numpy 1.24.2, scipy 1.10.1); group A with 50 digits. The source of each data set"
    " and every published answer stand in its case. Pass: |got - value| <= atol + rtol |value|; null: does not"
    " exist. Tolerances are what double precision code owes, not the accuracy of the values."
)
with open(os.path.join(here, "cases.json"), "w") as out:
    out.write('{"source": %s,\n"list": [\n' % json.dumps(header))
    out.write(",\n".join(json.dumps(c) for c in cases))
    out.write("\n]}\n")
for name in files:
    shutil.copyfile(os.path.join(source, "data", "shared", name), os.path.join(here, name))
print(len(cases), "cases,", len(files), "files")
