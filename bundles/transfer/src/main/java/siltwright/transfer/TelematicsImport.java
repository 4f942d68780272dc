package siltwright.transfer;

import java.sql.SQLException;
import java.util.Arrays;
import siltwright.model.history.RecordKind;
import siltwright.store.Edits;
import siltwright.store.RecordWriter;

/** Brings what a document of telematics says in: hour meters and faults. */
final class TelematicsImport extends FileImport {
  private static final String SOURCE = "telematics";

  private final Telematics document;
  private final ImportOptions options;
  private final RefusedRows refused;
  private final Touched to = new Touched();

  TelematicsImport(Telematics document, ImportOptions options, RefusedRows refused) {
    this.document = document;
    this.options = options;
    this.refused = refused;
  }

  @Override
  void run(Edits edits) throws SQLException {
    MachineFinder finder =
        new MachineFinder(
            options.wishes().match(),
            options.wishes().rule(),
            edits.machines(false),
            edits.machines(true));
    RecordWriter.Refusal refusal =
        (row, column, found, expected) -> refused.refuse((Row) row, column, found, expected);
    try (RecordWriter meters = edits.writer(RecordKind.METER, RecordKind.METER.fields(), refusal);
        RecordWriter faults = edits.writer(RecordKind.FAULT, RecordKind.FAULT.fields(), refusal)) {
      int number = 0;
      for (Telematics.Machine m : document.machines()) {
        number++;
        take(edits, finder, meters, faults, m, number);
      }
      meters.flush();
      faults.flush();
      added = meters.added() + faults.added();
      known = meters.known() + faults.known();
      touched = to.ids(edits);
    }
  }

  private void take(
      Edits edits,
      MachineFinder finder,
      RecordWriter meters,
      RecordWriter faults,
      Telematics.Machine m,
      int number)
      throws SQLException {
    Row row = new Row(number, new Object[] {m.name(), m.equipmentId(), null, null});
    for (RowReading.Fault wrong : m.wrong()) {
      rows++;
      refused.refuse(row, wrong.column(), wrong.found(), wrong.expected());
    }
    int records = m.meters().size() + m.faults().size();
    rows += records;
    if (records == 0) {
      return;
    }
    Long machine = find(finder, m);
    if (machine == null) {
      if (!options.addMachines()) {
        for (int i = 0; i < records; i++) {
          refused.refuse(
              row,
              "machine",
              m.name(),
              "a machine that the store knows; --add-machines adds others");
        }
        return;
      }
      String id = m.equipmentId().isEmpty() ? m.name() : m.equipmentId();
      // the owner's own text may be another machine's
      if (finder.find(id) != null) {
        id = m.name();
      }
      String serial = m.pin().isEmpty() && m.serial().isEmpty() ? null : m.name();
      machine = edits.set(id, serial, null, null, null).number();
      finder.added(m.name(), machine);
      machines++;
    }
    to.add(machine);
    for (Telematics.Meter x : m.meters()) {
      Row of = new Row(number, new Object[] {m.name(), m.equipmentId(), x.atMs(), x.hours()});
      meters.add(of, machine, x.atMs(), x.wholeDay(), x.hours(), new Object[] {SOURCE});
    }
    for (Telematics.Fault x : m.faults()) {
      Row of = new Row(number, new Object[] {m.name(), m.equipmentId(), x.atMs(), x.code()});
      Object[] values = {x.code(), x.severity(), x.origin(), x.text()};
      for (int i = 0; i < values.length; i++) {
        values[i] = values[i].equals("") ? null : values[i];
      }
      faults.add(of, machine, x.atMs(), x.wholeDay(), Double.NaN, values);
    }
  }

  /** PIN, then serial number are the machine's own; the owner's text comes last. */
  private static Long find(MachineFinder finder, Telematics.Machine m) {
    for (String text : Arrays.asList(m.pin(), m.serial(), m.equipmentId())) {
      Long number = text.isEmpty() ? null : finder.find(text);
      if (number != null) {
        return number;
      }
    }
    return null;
  }
}
