package siltwright.transfer;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import siltwright.analysis.Progress;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Site;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.MeterMend;
import siltwright.model.json.FleetFile;
import siltwright.model.json.FleetReader;
import siltwright.store.Edits;
import siltwright.store.Store;

/** Brings files into a store: a file as a whole, in one action that can be taken back. */
public final class Importer {
  private static final int SHOWN = 10;
  private static final MathContext SHOWN_DIGITS = new MathContext(12);
  private static final int FEW_MACHINES = 20;

  private final Path file;
  private final ImportOptions options;

  /**
   * Makes an importer of a file.
   *
   * @throws InputException if there is no such file
   */
  public Importer(Path file, ImportOptions options) {
    this.file = file;
    this.options = options;
    if (!Files.isRegularFile(file) || !Files.isReadable(file)) {
      String found = Files.isDirectory(file) ? "a folder" : Files.exists(file) ? "no file" : "";
      throw problem(found, "a file that is there and can be read");
    }
    refused();
  }

  private Path refused() {
    Path to = options.refused().orElse(beside());
    Path folder = to.toAbsolutePath().getParent();
    if (options.refused().isPresent()
        && (folder == null || !Files.isDirectory(folder) || Files.isDirectory(to))) {
      throw new InputException(
          new Problem("option", "--refused", to.toString(), "a file in a folder that is there"));
    }
    return to;
  }

  private InputException problem(String found, String expected) {
    return new InputException(new Problem(file.toString(), "", found, expected));
  }

  private InputException unreadable(IOException e) {
    return problem("", "a file that can be read (" + e.getMessage() + ")");
  }

  private enum Format {
    TABLE,
    FLEET,
    TELEMATICS
  }

  private Format format() throws IOException {
    byte[] head;
    try (InputStream in = Files.newInputStream(file)) {
      head = in.readNBytes(1024);
    }
    if (head.length == 0) {
      throw problem("nothing in it", "a table, a fleet file or a document of telematics");
    }
    if (head[0] == (byte) 0xD0 && head[1] == (byte) 0xCF) {
      throw problem("a spreadsheet of the old binary form", "one saved as XLSX, or as CSV");
    }
    boolean wide =
        head.length > 1 && (head[0] & 0xFF) + (head[1] & 0xFF) == 0xFF + 0xFE && head[0] != head[1];
    String text =
        new String(head, wide ? StandardCharsets.UTF_16 : StandardCharsets.UTF_8)
            .replace("\uFEFF", "")
            .strip();
    if (text.startsWith("{") || text.startsWith("[")) {
      return text.contains("\"siltwright-fleet/") ? Format.FLEET : Format.TELEMATICS;
    }
    return text.startsWith("<") ? Format.TELEMATICS : Format.TABLE;
  }

  /** Returns whether it is a table, of which there is a preview; the others are documents. */
  public boolean isTable() {
    try {
      return format() == Format.TABLE;
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  /** Returns whether it is a table in a text, which has an encoding and a delimiter. */
  public boolean isText() {
    try {
      return isTable() && TableFile.form(file) == TableFile.Form.TEXT;
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  /** Returns the names of the sheets of a spreadsheet; none of another file. */
  public List<String> sheets() {
    try {
      return TableFile.form(file) == TableFile.Form.SPREADSHEET
          ? XlsxTable.sheets(file)
          : List.of();
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  /**
   * Looks at a table and says what would become of it. Changes nothing.
   *
   * @param where store whose machines are known; it need not be there
   */
  public Preview preview(String where) {
    try {
      if (format() != Format.TABLE) {
        throw problem("a document", "a table; a document needs no preview");
      }
      List<KnownMachine> known = List.of();
      Mapping kept = null;
      if (Store.exists(where)) {
        try (Store store = Store.openExisting(where, Clock.systemUTC());
            FleetHistory history = store.history()) {
          known = history.machines();
          kept = kept(store);
        }
      } else if (!options.mapping().isEmpty()) {
        throw notKept();
      }
      Wishes wishes = kept == null ? options.wishes() : options.wishes().over(kept);
      TableFile table = TableFile.of(file, wishes);
      return preview(table, table.look(wishes, columns(kept)), known);
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  private Preview preview(TableFile table, Detection d, List<KnownMachine> known)
      throws IOException {
    List<Preview.Line> lines = new ArrayList<>();
    List<String> columns = new ArrayList<>();
    boolean records = !d.mapping().kind().equals(Mapping.MACHINES);
    MachineFinder finder = TableImport.finder(d.mapping(), known);
    RowReading reading =
        records
            ? new RowReading(d, options.wishes().machine(), TableImport.zones(finder, known))
            : null;
    if (records) {
      columns.addAll(List.of("machine", "at", "meter_h"));
      reading.fields().forEach(f -> columns.add(f.name()));
    } else {
      d.mapping().columns().forEach(c -> columns.add(c.field()));
    }
    try (Table rows = table.open(null)) {
      Row row;
      while (lines.size() < SHOWN && (row = rows.next()) != null) {
        if (row.line() > d.dataFrom()) {
          lines.add(records ? line(row, reading, finder, known) : line(row, d));
        }
      }
    }
    return new Preview(
        d.mapping(), d.headRow(), d.headings(), columns, lines, d.notes(), d.questions());
  }

  private static Preview.Line line(Row row, Detection d) {
    List<String> cells = new ArrayList<>();
    for (int place : d.places()) {
      cells.add(row.text(place).strip());
    }
    return new Preview.Line(row.line(), cells, "");
  }

  private Preview.Line line(
      Row row, RowReading reading, MachineFinder finder, List<KnownMachine> known) {
    RowReading.Read read = reading.read(row);
    if (read == null) {
      RowReading.Fault f = reading.fault();
      return new Preview.Line(row.line(), List.of(), refusal(f.column(), f.found(), f.expected()));
    }
    Long machine = finder.find(read.machine());
    String refused =
        machine == null && !options.addMachines()
            ? refusal("machine", read.machine(), TableImport.KNOWN)
            : "";
    List<String> cells = new ArrayList<>();
    cells.add(machine == null ? finder.ruled(read.machine()) : known.get(machine.intValue()).id());
    String at = Instant.ofEpochMilli(read.atMs()).toString();
    cells.add(read.wholeDay() ? at.substring(0, 10) : at);
    cells.add(shown(read.meterH()));
    for (Object value : read.values()) {
      cells.add(value == null ? "" : value instanceof Double d ? shown(d) : value.toString());
    }
    return new Preview.Line(row.line(), cells, refused);
  }

  private static String refusal(String column, String found, String expected) {
    return column + ": found " + found + "; expected " + expected;
  }

  /** A number in the digits that say something: a change of units adds others. */
  private static String shown(double value) {
    return Double.isNaN(value)
        ? ""
        : new BigDecimal(value).round(SHOWN_DIGITS).stripTrailingZeros().toPlainString();
  }

  static String plain(double value) {
    return value == Math.rint(value) && Math.abs(value) < 1e15
        ? Long.toString((long) value)
        : Double.toString(value);
  }

  private Mapping kept(Store store) {
    if (options.mapping().isEmpty()) {
      return null;
    }
    String source = store.name() + " mapping " + options.mapping();
    return store
        .mapping(options.mapping())
        .map(body -> Mapping.of(body, source))
        .orElseThrow(this::notKept);
  }

  private InputException notKept() {
    return new InputException(
        new Problem("option", "--mapping", options.mapping(), "a mapping that the store keeps"));
  }

  private List<Mapping.Column> columns(Mapping kept) {
    return options.columns().orElse(kept == null ? null : kept.columns());
  }

  /**
   * Brings the file in.
   *
   * @throws InputException if it cannot be read, or leaves something open that the user must say;
   *     then nothing was changed
   */
  public ImportReport run(Store store, Progress progress) {
    try {
      return switch (format()) {
        case FLEET -> fleet(store);
        case TELEMATICS -> telematics(store);
        case TABLE -> table(store, progress);
      };
    } catch (IOException e) {
      throw unreadable(e);
    } catch (UncheckedIOException e) {
      throw unreadable(e.getCause());
    }
  }

  /** Returns how the meters of the machines that got records are mended, earlier ones included. */
  public static List<MeterMend> mends(ImportReport report, FleetHistory history) {
    if (report.added() == 0 || report.kind().equals(Mapping.MACHINES)) {
      return List.of();
    }
    if (report.touched().size() > FEW_MACHINES) {
      Set<String> ids = new HashSet<>(report.touched());
      return history.mends().stream().filter(m -> ids.contains(m.machine())).toList();
    }
    return report.touched().stream().flatMap(id -> history.mends(id).stream()).toList();
  }

  /**
   * Looks at the beginning of the file and at the options, so that no store is made for what cannot
   * be brought into it.
   *
   * @throws InputException if something is at fault
   */
  public void checkForNewStore() {
    if (!options.mapping().isEmpty()) {
      throw notKept();
    }
    try {
      if (format() == Format.TABLE) {
        Detection d = TableFile.of(file, options.wishes()).look(options.wishes(), null);
        if (!d.questions().isEmpty()) {
          throw new InputException(d.questions());
        }
      }
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  private ImportReport table(Store store, Progress progress) throws IOException {
    Mapping kept = kept(store);
    Wishes wishes = kept == null ? options.wishes() : options.wishes().over(kept);
    TableFile table = TableFile.of(file, wishes);
    Detection d = table.look(wishes, columns(kept));
    if (!d.questions().isEmpty()) {
      throw new InputException(d.questions());
    }
    List<KnownMachine> known;
    try (FleetHistory history = store.history()) {
      known = history.machines();
    }
    MessageDigest digest = sha256();
    try (RefusedRows refused = new RefusedRows(file.toString(), refused(), d.headings())) {
      TableImport work = new TableImport(table, d, options, known, refused, digest, progress);
      String mapping = d.mapping().toJson();
      long action =
          act(
              store,
              edits -> {
                work.run(edits);
                if (!options.keepAs().isEmpty()) {
                  edits.keepMapping(options.keepAs(), mapping);
                }
                note(edits, HexFormat.of().formatHex(digest.digest()), mapping, work, refused);
                progress.check(0.97, "saving");
              });
      List<String> notes = new ArrayList<>(d.notes());
      if (work.limits() > 0) {
        notes.add(work.limits() + " numbers are given as below a limit: taken as the limit.");
      }
      return report(d.mapping().kind(), action, work, refused, notes);
    }
  }

  /** The edits of an import. */
  private interface Work {
    void on(Edits edits) throws SQLException;
  }

  /** Does the edits of this file's import in one action; its number. */
  private long act(Store store, Work work) {
    return store.act(
        options.who(),
        "import",
        file.getFileName().toString(),
        edits -> {
          work.on(edits);
          return edits.number();
        });
  }

  private void note(
      Edits edits, String sha256, String mapping, FileImport work, RefusedRows refused)
      throws SQLException {
    edits.noteBatch(
        file.getFileName().toString(),
        sha256,
        mapping,
        work.rows,
        work.added,
        work.known,
        refused.count());
    refused.flush();
  }

  private static ImportReport report(
      String kind, long action, FileImport work, RefusedRows refused, List<String> notes) {
    refused.keep();
    return new ImportReport(
        kind,
        action,
        work.rows,
        work.added,
        work.known,
        refused.count(),
        work.machines,
        refused.told(),
        refused.file(),
        notes,
        work.touched);
  }

  private Path beside() {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    return file.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + ".refused.csv");
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private ImportReport telematics(Store store) throws IOException {
    Telematics document = Telematics.of(Node.read(file));
    if (document == null) {
      throw problem(
          "a document of another kind", "a fleet file, or one of telematics (ISO 15143-3)");
    }
    String sha256 = sha256(file);
    try (RefusedRows refused =
        new RefusedRows(
            file.toString(), refused(), List.of("machine", "equipment", "time_ms", "value"))) {
      TelematicsImport work = new TelematicsImport(document, options, refused);
      long action =
          act(
              store,
              edits -> {
                work.run(edits);
                note(edits, sha256, "", work, refused);
              });
      return report("telematics", action, work, refused, document.notes());
    }
  }

  private static String sha256(Path file) throws IOException {
    MessageDigest digest = sha256();
    TableFile.digest(file, digest);
    return HexFormat.of().formatHex(digest.digest());
  }

  private ImportReport fleet(Store store) throws IOException {
    FleetFile read = FleetReader.read(file);
    Fleet fleet = read.fleet();
    long[] changed = new long[1];
    String sha256 = sha256(file);
    int all = fleet.machines().size();
    int faults = read.problems().size();
    long action =
        act(
            store,
            edits -> {
              for (Site s : fleet.sites()) {
                edits.site(s.id(), s.name(), null);
              }
              for (Machine m : fleet.machines()) {
                if (edits.set(m.id(), null, m.name(), m.machineClass(), m.site()).changed()) {
                  changed[0]++;
                }
              }
              edits.noteBatch(
                  file.getFileName().toString(),
                  sha256,
                  "",
                  all + faults,
                  changed[0],
                  all - changed[0],
                  faults);
            });
    return new ImportReport(
        Mapping.MACHINES,
        action,
        all + faults,
        changed[0],
        all - changed[0],
        faults,
        changed[0],
        read.problems(),
        "",
        List.of(),
        fleet.machines().stream().map(Machine::id).toList());
  }
}
