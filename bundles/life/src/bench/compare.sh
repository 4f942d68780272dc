#!/usr/bin/env bash
# Times the three jobs as whole processes, reading included: the command of the built product, R, and
# numpy where it is, by turns. Needs Maven, and Debian's r-base-core, r-cran-survival and r-cran-boot.
# Usage: bundles/life/src/bench/compare.sh [runs, 5 by default]
set -eu
runs=${1:-5}
cd "$(dirname "$0")/../../../.."
bench=bundles/life/src/bench
out=bundles/life/target/bench
rm -rf "$out"
mkdir -p "$out"

mvn -q -DskipTests package
mvn -q -P benchmarks -pl bundles/life -am test-compile \
  dependency:build-classpath -Dmdep.outputFile=target/bench/classpath
java -cp "bundles/life/target/classes:bundles/life/target/test-classes:$(cat "$out/classpath")" \
  siltwright.life.WriteTimingFiles "$out"
(cd "$out" && jar xf "$OLDPWD"/features/target/siltwright-*.zip)
siltwright=$(echo "$out"/siltwright-*/bin/siltwright)
chmod +x "$siltwright"

sides='command r'
if python3 -c 'import numpy' 2>/dev/null; then
  sides='command r numpy'
fi

# job SIDE NAME: does a job as one process
job() {
  case $1-$2 in
    command-regression)
      "$siltwright" life "$out/regression.csv" --json --distribution weibull \
        --covariate code,temp,mob ;;
    command-survival) "$siltwright" life "$out/survival.csv" --json --distribution none ;;
    command-bootstrap)
      "$siltwright" life "$out/bootstrap.csv" --json --distribution weibull --bootstrap 1000 ;;
    r-*) Rscript --vanilla "$bench/r/$2.R" "$out/$2.csv" ;;
    numpy-*) python3 "$bench/python/vectorised.py" "$out" "$2" ;;
  esac
}

# column FILE N: median, least and largest of elapsed (1) or processor (2) seconds
column() {
  awk -v c="$2" '{ print c == 1 ? $1 : $2 + $3 }' "$1" | sort -n |
    awk '{ v[NR] = $1 } END { m = NR % 2 ? v[(NR + 1) / 2] : (v[NR / 2] + v[NR / 2 + 1]) / 2
      printf "%.2f (%.2f-%.2f)", m, v[1], v[NR] }'
}

TIMEFORMAT='%R %U %S'
for i in $(seq 0 "$runs"); do # the first is not counted: it makes the start script's archive
  for name in regression survival bootstrap; do
    for side in $sides; do
      { time job "$side" "$name" >"$out/$name-$side.answer" 2>&3; } 3>&2 2>>"$out/$name-$side.times"
    done
  done
  if [ "$i" = 0 ]; then
    rm "$out"/*.times
  fi
done

uname -srm
grep -m 1 'model name' /proc/cpuinfo || true
echo "processors: $(nproc), load: $(cut -d' ' -f1-3 /proc/loadavg)"
java -version 2>&1 | sed -n 2p
Rscript --vanilla -e 'cat(R.version.string, "survival", format(packageVersion("survival")),
  "boot", format(packageVersion("boot")), "\n")'
echo
echo "| job | side | elapsed s, median of $runs (least-most) | processor s |"
echo "| --- | --- | ---: | ---: |"
for name in regression survival bootstrap; do
  for side in $sides; do
    echo "| $name | $side | $(column "$out/$name-$side.times" 1) | $(column "$out/$name-$side.times" 2) |"
  done
done
echo
cat "$out"/*-r.answer
python3 - "$out" <<'END' 2>/dev/null || true
import json, sys
for job, key in (("regression", "coefficients"), ("survival", "withoutLaw"), ("bootstrap", "bootstrap")):
    d = json.load(open(f"{sys.argv[1]}/{job}-command.answer"))
    print(job, d["fits"][0][key] if key == "coefficients" else d[key])
END
