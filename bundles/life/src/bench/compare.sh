#!/bin/sh
# Times the three jobs as whole processes, reading included, in R and here by turns.
# Needs Maven, and Debian's r-base-core, r-cran-survival and r-cran-boot.
# Usage: bundles/life/src/bench/compare.sh [runs, 5 by default]
set -eu
runs=${1:-5}
cd "$(dirname "$0")/../../../.."
bench=bundles/life/src/bench
out=bundles/life/target/bench
mkdir -p "$out"

mvn -q -P benchmarks -pl bundles/life -am test-compile \
  dependency:build-classpath -Dmdep.outputFile=target/bench/classpath
classpath=bundles/life/target/classes:bundles/life/target/test-classes:$(cat "$out/classpath")
java -cp "$classpath" siltwright.life.WriteTimingFiles "$out"

# run NAME COMMAND...: appends the process's seconds, elapsed and of processor, to $out/NAME.times
run() {
  name=$1
  shift
  bash -c 'TIMEFORMAT="%R %U %S"; times=$1; answer=$2; shift 2
    { time "$@" >"$answer" 2>"$answer.err"; } 2>>"$times" || { cat "$answer.err" >&2; exit 1; }' \
    run "$out/$name.times" "$out/$name.answer" "$@"
}

# column NAME COLUMN: median, least and largest
column() {
  awk -v c="$2" '{ print c == 1 ? $1 : $2 + $3 }' "$out/$1.times" | sort -n |
    awk '{ v[NR] = $1 } END { m = NR % 2 ? v[(NR + 1) / 2] : (v[NR / 2] + v[NR / 2 + 1]) / 2
      printf "%.2f (%.2f-%.2f)", m, v[1], v[NR] }'
}

rm -f "$out"/*.times
command=features/target/siltwright.jar
java -jar "$command" life --help >/dev/null 2>&1 || command=
for i in $(seq "$runs"); do
  for job in regression survival bootstrap; do
    run "$job-r" Rscript --vanilla "$bench/r/$job.R" "$out/$job.csv"
    run "$job-engine" java -cp "$classpath" siltwright.life.TimingJob "$job" "$out/$job.csv"
  done
  if [ -n "$command" ]; then
    run regression-command java -jar "$command" life "$out/regression.csv" --json \
      --covariate code --covariate temp --covariate mob
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
for name in regression-r regression-engine regression-command survival-r survival-engine \
  bootstrap-r bootstrap-engine; do
  if [ -e "$out/$name.times" ]; then
    echo "| ${name%-*} | ${name#*-} | $(column "$name" 1) | $(column "$name" 2) |"
  fi
done
for job in regression survival bootstrap; do
  echo
  echo "$job, R and engine:"
  paste -d'\n' "$out/$job-r.answer" "$out/$job-engine.answer"
done
