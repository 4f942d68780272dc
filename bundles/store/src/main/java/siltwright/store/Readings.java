package siltwright.store;

import java.util.Arrays;
import java.util.stream.IntStream;
import siltwright.model.history.MeterLine;

/** What the meter of a machine showed, in any order, the same as often as it was written down. */
final class Readings {
  private long[] atMs = new long[16];
  private double[] meterH = new double[16];
  private int n;
  private boolean sorted = true;

  void add(long at, double meter) {
    if (n == atMs.length) {
      atMs = Arrays.copyOf(atMs, 2 * n);
      meterH = Arrays.copyOf(meterH, 2 * n);
    }
    sorted &= n == 0 || at > atMs[n - 1] || at == atMs[n - 1] && meter > meterH[n - 1];
    atMs[n] = at;
    meterH[n++] = meter;
  }

  /** Returns their line: in order, each once. */
  MeterLine line(String machine) {
    if (sorted) {
      return MeterLine.of(machine, Arrays.copyOf(atMs, n), Arrays.copyOf(meterH, n));
    }
    int[] order =
        IntStream.range(0, n)
            .boxed()
            .sorted(
                (a, b) ->
                    atMs[a] != atMs[b]
                        ? Long.compare(atMs[a], atMs[b])
                        : Double.compare(meterH[a], meterH[b]))
            .mapToInt(Integer::intValue)
            .toArray();
    Readings inOrder = new Readings();
    for (int i : order) {
      int last = inOrder.n - 1;
      if (last < 0 || inOrder.atMs[last] != atMs[i] || inOrder.meterH[last] != meterH[i]) {
        inOrder.add(atMs[i], meterH[i]);
      }
    }
    return inOrder.line(machine);
  }
}
