package siltwright.plan;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.plan.MeterLog.Event;
import siltwright.plan.MeterLog.Reading;

/**
 * Hour-meter readings out of a table.
 *
 * @param readings readings of each machine
 * @param strangers machines in it that the fleet does not have
 */
record MeterTable(Map<String, List<Reading>> readings, Set<String> strangers) {
  private static final String MACHINE = "machine";
  private static final String DATE = "date";
  private static final String METER = "meter_h";
  private static final String EVENT = "event";
  private static final LocalDate FIRST = LocalDate.of(1970, 1, 1);

  static final List<RecordColumn> COLUMNS =
      List.of(
          RecordColumn.word(MACHINE, true, "machine of the fleet file"),
          RecordColumn.word(DATE, true, "day of the reading, such as 2026-03-02"),
          RecordColumn.number(METER, 0, 1e6, true, "what the meter showed, h"),
          RecordColumn.word(EVENT, false, "change or new-meter, else empty"));

  static MeterTable of(Optional<Records> table, Set<String> machines) {
    Map<String, List<Reading>> readings = new LinkedHashMap<>();
    Set<String> strangers = new TreeSet<>();
    table.ifPresent(
        t ->
            TableRow.all(
                t,
                row -> {
                  String machine = row.text(MACHINE);
                  Reading reading =
                      new Reading(
                          date(row).toEpochDay(), row.number(METER), event(row), row.line());
                  if (machines.contains(machine)) {
                    readings.computeIfAbsent(machine, m -> new ArrayList<>()).add(reading);
                  } else {
                    strangers.add(machine);
                  }
                }));
    return new MeterTable(readings, strangers);
  }

  Optional<LocalDate> newest() {
    return readings.values().stream()
        .flatMap(List::stream)
        .map(Reading::day)
        .max(Long::compare)
        .map(LocalDate::ofEpochDay);
  }

  private static LocalDate date(TableRow row) {
    try {
      LocalDate date = LocalDate.parse(row.text(DATE));
      if (date.isBefore(FIRST)) {
        throw row.fault(DATE, "a day after 1970");
      }
      return date;
    } catch (DateTimeParseException e) {
      throw row.fault(DATE, "a day such as 2026-03-02");
    }
  }

  private static Event event(TableRow row) {
    String text = row.optionalText(EVENT);
    return switch (text) {
      case "" -> Event.READING;
      case "change" -> Event.CHANGE;
      case "new-meter" -> Event.NEW_METER;
      default -> throw row.fault(EVENT, "change, new-meter or nothing");
    };
  }
}
