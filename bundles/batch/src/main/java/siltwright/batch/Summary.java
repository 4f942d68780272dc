package siltwright.batch;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import siltwright.transfer.Row;
import siltwright.transfer.Table;

/**
 * What a table of results comes to.
 *
 * @param machines rows
 * @param before of these, rows that a run before this one had done
 * @param currency currency code of the fleet
 * @param reasons how often there is no interval, by reason, the most frequent first
 * @param intervalH 5, 50 and 95 % quantile of the interval that costs least, h; empty without any
 * @param today machines with a cost both today and at the best interval
 * @param todayPerH what these cost today, money per hour, together
 * @param bestPerH what they cost at their best interval, together
 */
public record Summary(
    long machines,
    long before,
    String currency,
    List<Map.Entry<String, Long>> reasons,
    double[] intervalH,
    long today,
    double todayPerH,
    double bestPerH) {

  /** Reads a table of results. */
  static Summary of(Path results, long before, String currency) {
    int interval = Answer.HEADINGS.indexOf("interval_h");
    int cost = Answer.HEADINGS.indexOf("cost_per_h");
    int now = Answer.HEADINGS.indexOf("today_cost_per_h");
    int reason = Answer.HEADINGS.indexOf("reason");
    long machines = 0;
    long both = 0;
    double todayPerH = 0;
    double bestPerH = 0;
    Map<String, Long> reasons = new HashMap<>();
    DoubleStream.Builder hours = DoubleStream.builder();
    try (Table table = Table.open(results, null)) {
      table.next();
      for (Row row = table.next(); row != null; row = table.next()) {
        machines++;
        if (!row.text(reason).isEmpty()) {
          reasons.merge(row.text(reason), 1L, Long::sum);
        }
        if (!row.text(interval).isEmpty()) {
          hours.add(Double.parseDouble(row.text(interval)));
          if (!row.text(now).isEmpty()) {
            both++;
            todayPerH += Double.parseDouble(row.text(now));
            bestPerH += Double.parseDouble(row.text(cost));
          }
        }
      }
    }
    List<Map.Entry<String, Long>> inOrder = new ArrayList<>(reasons.entrySet());
    inOrder.sort(
        Map.Entry.<String, Long>comparingByValue()
            .reversed()
            .thenComparing(Map.Entry.comparingByKey()));
    return new Summary(
        machines,
        before,
        currency,
        inOrder,
        quantiles(hours.build().sorted().toArray()),
        both,
        todayPerH,
        bestPerH);
  }

  private static double[] quantiles(double[] sorted) {
    return sorted.length == 0
        ? new double[0]
        : DoubleStream.of(0.05, 0.5, 0.95)
            .map(q -> sorted[(int) Math.round(q * (sorted.length - 1))])
            .toArray();
  }
}
