package siltwright.transfer.internal;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.ListParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.MeterMend;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;
import siltwright.store.StoreOptions;
import siltwright.transfer.ImportOptions;
import siltwright.transfer.ImportReport;
import siltwright.transfer.Importer;
import siltwright.transfer.Mapping;
import siltwright.transfer.Preview;
import siltwright.transfer.Wishes;

/** Brings a file into a store. */
@Component
@Capability(namespace = "siltwright.command", name = "import")
public final class ImportAction implements Action {
  private static final int MENDS_TOLD = 40;

  private static final FlagParameter PREVIEW =
      new FlagParameter(
          "preview", "shows what would become of the first rows, and changes nothing");
  private static final TextParameter KIND =
      TextParameter.optional(
          "kind",
          String.join(", ", RecordKind.words()) + " or " + Mapping.MACHINES,
          "kind of the records; if not given, the headings say it");
  private static final ListParameter COLUMN =
      new ListParameter(
          "column",
          "HEADING=FIELD, or HEADING=FIELD [UNIT]",
          "what a column is, where its heading does not say it");
  private static final TextParameter MAPPING =
      TextParameter.optional("mapping", "a name", "reads the table by a mapping that was kept");
  private static final TextParameter KEEP =
      TextParameter.optional("keep-mapping", "a name", "keeps the mapping under this name");
  private static final TextParameter DATES =
      TextParameter.optional(
          "dates", "ymd, dmy or mdy", "order of dates; if not given, the dates themselves say it");
  private static final ChoiceParameter DECIMAL =
      new ChoiceParameter(
          "decimal",
          List.of("auto", "point", "comma"),
          "auto",
          "what parts the fraction of a number");
  private static final TextParameter DELIMITER =
      TextParameter.optional(
          "delimiter", "one character, or the word tab", "what parts the cells of a text");
  private static final TextParameter ENCODING =
      TextParameter.optional(
          "encoding", "a name such as UTF-8 or windows-1252", "encoding of a text");
  private static final TextParameter SHEET =
      TextParameter.optional(
          "sheet", "a name", "sheet of a spreadsheet; if not given, its first one");
  private static final TextParameter ZONE =
      TextParameter.optional(
          "zone",
          "a time zone such as Europe/Lisbon",
          "zone of times that name none; if not given, that of the machine's site, or UTC");
  private static final TextParameter MACHINE =
      TextParameter.optional("machine", "an id", "machine of all rows, where no column says which");
  private static final ChoiceParameter MATCH =
      new ChoiceParameter(
          "match",
          List.of("auto", "id", "serial"),
          "auto",
          "how machines are found: auto is by id, by serial number, or by id written otherwise");
  private static final TextParameter RULE =
      TextParameter.optional(
          "machine-rule",
          "REGEX=>ID, such as \"Unit (\\d+)=>EX-$1\"",
          "how a machine's id is made of what stands in the table");
  private static final FlagParameter ADD =
      new FlagParameter("add-machines", "adds machines that the store does not know");
  private static final TextParameter REFUSED =
      TextParameter.optional(
          "refused",
          "a file",
          "where rows that are refused go, each with the reason; if not given, NAME.refused.csv"
              + " beside the file");

  private static final Description DESCRIPTION =
      Description.of(
          "import",
          "Import",
          "Brings records, machines or a fleet file into a store.",
          Scope.NONE,
          StoreOptions.STORE,
          PREVIEW,
          KIND,
          COLUMN,
          MAPPING,
          KEEP,
          DATES,
          DECIMAL,
          DELIMITER,
          ENCODING,
          SHEET,
          ZONE,
          MACHINE,
          MATCH,
          RULE,
          ADD,
          REFUSED,
          StoreOptions.WHO);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Table (CSV, XLSX, Parquet), document of telematics (ISO 15143-3) or fleet file (JSON).";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    Wishes wishes =
        new Wishes(
            values.find(KIND).orElse(""),
            values.find(SHEET).orElse(""),
            values.find(ENCODING).orElse(""),
            values.find(DELIMITER).orElse(""),
            values.get(DECIMAL).equals("auto") ? "" : values.get(DECIMAL),
            values.find(DATES).orElse(""),
            values.find(ZONE).orElse(""),
            values.find(MACHINE).orElse(""),
            values.get(MATCH),
            values.find(RULE).orElse(""),
            values.find(COLUMN).orElse(List.of()));
    Path path = StoreOptions.path("FILE", file);
    Optional<Path> refused = values.find(REFUSED).map(r -> StoreOptions.path("--refused", r));
    Importer importer =
        new Importer(
            path,
            new ImportOptions(
                wishes,
                StoreOptions.who(values),
                values.get(ADD),
                values.find(MAPPING).orElse(""),
                values.find(KEEP).orElse(""),
                refused));
    String where = values.get(StoreOptions.STORE);
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    if (values.get(PREVIEW)) {
      show(importer.preview(where), result);
      return result.build();
    }
    if (!Store.exists(where)) {
      importer.checkForNewStore();
    }
    try (Store store = Store.open(where, Clock.systemUTC())) {
      store.note().ifPresent(n -> result.finding(Severity.CAUTION, n, where));
      ImportReport report = importer.run(store, progress);
      tell(report, result);
      try (FleetHistory history = store.history()) {
        mends(Importer.mends(report, history), result);
      }
    }
    return result.build();
  }

  private static void show(Preview preview, Result.Builder result) {
    Mapping m = preview.mapping();
    result.value("kind", "Kind of records", m.kind());
    if (!m.encoding().isEmpty()) {
      result.value("encoding", "Encoding", m.encoding());
      result.value("delimiter", "Cells parted by", m.delimiter());
    }
    result.value("decimal", "Fractions parted by", m.decimal().equals(",") ? "comma" : "point");
    result.value("dates", "Order of dates", m.dates().word());
    result.value(
        "zone", "Time zone", m.zone().isEmpty() ? "that of each machine's site" : m.zone());
    if (preview.headRow() > 0) {
      result.value("head", "Row of the headings", "1", preview.headRow());
    }
    List<List<Cell>> columns = new ArrayList<>();
    for (Mapping.Column c : m.columns()) {
      columns.add(List.of(Cell.of(c.heading()), Cell.of(c.field()), Cell.of(c.unit())));
    }
    result.add(
        new Entry.Table(
            "columns",
            "What the columns become",
            Entry.Use.READ,
            List.of(
                new Entry.Column("heading", "Heading", ""),
                new Entry.Column("field", "Becomes", ""),
                new Entry.Column("unit", "Comes in", "")),
            columns));
    List<Entry.Column> heads = new ArrayList<>();
    heads.add(new Entry.Column("row", "Row", "1"));
    preview.columns().forEach(c -> heads.add(new Entry.Column(c, c, "")));
    heads.add(new Entry.Column("refused", "Refused because", ""));
    List<List<Cell>> rows = new ArrayList<>();
    for (Preview.Line line : preview.rows()) {
      List<Cell> row = new ArrayList<>();
      row.add(Cell.of(line.row()));
      for (int i = 0; i < preview.columns().size(); i++) {
        String text = i < line.cells().size() ? line.cells().get(i) : "";
        row.add(text.isEmpty() ? new Cell.None() : Cell.of(text));
      }
      row.add(line.refused().isEmpty() ? new Cell.None() : Cell.of(line.refused()));
      rows.add(row);
    }
    result.add(new Entry.Table("rows", "First rows", Entry.Use.READ, heads, rows));
    preview
        .questions()
        .forEach(
            q ->
                result.finding(
                    Severity.CAUTION,
                    "To be said before it can come in: " + q.value() + ": " + q.expected() + ".",
                    q.place()));
    preview.notes().forEach(n -> result.finding(Severity.NOTE, n, ""));
  }

  private static void tell(ImportReport report, Result.Builder result) {
    result.rows(
        new Result.Rows(
            Math.toIntExact(report.rows()),
            Math.toIntExact(report.rows() - report.refused()),
            Math.toIntExact(report.refused()),
            report.problems()));
    result.value("kind", "Kind of records", report.kind());
    result.value("added", "New records", "1", report.added());
    result.value("known", "Known already", "1", report.known());
    result.value("machines", "Machines added or changed", "1", report.machines());
    result.value("action", "Number of this action, for undo", "1", report.action());
    if (!report.refusedFile().isEmpty()) {
      result.value("refused", "Refused rows are in", report.refusedFile());
    }
    report.notes().forEach(n -> result.finding(Severity.NOTE, n, ""));
  }

  /** What the meters of the machines that got records do, earlier records included. */
  private static void mends(List<MeterMend> mends, Result.Builder result) {
    for (MeterMend mend : mends.subList(0, Math.min(MENDS_TOLD, mends.size()))) {
      result.finding(Severity.CAUTION, mend.text(), mend.machine());
    }
    if (mends.size() > MENDS_TOLD) {
      result.finding(
          Severity.CAUTION,
          (mends.size() - MENDS_TOLD) + " more places where meters do not go on: see history.",
          "");
    }
  }
}
