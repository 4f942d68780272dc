package siltwright.report.internal;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import siltwright.analysis.Cell;
import siltwright.analysis.Cells;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Overview;
import siltwright.analysis.Parameter;
import siltwright.analysis.ReportSection;
import siltwright.analysis.Result;
import siltwright.charts.ChartTheme;
import siltwright.charts.Charts;
import siltwright.report.Html;

/** One report while it is written. */
final class Page {
  private static final DateTimeFormatter MADE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);
  // Two pictures of one panel, or one of each, fit on a page. On a phone they scroll, like tables.
  private static final int WIDE = 740;
  private static final int FIRST_PANEL = 310;
  private static final int NEXT_PANEL = 180;

  /** Height that each further name on an upright axis takes, px, and how many need none. */
  private static final int NAME = 18;

  private static final int NAMES_THAT_FIT = 14;
  private static final int MOST_COLUMNS_LARGE = 7;

  /** Characters up to which a text stands among the numbers. */
  private static final int WORDS = 60;

  /** A browser would break a date at its hyphens. */
  private static final Pattern DATE = Pattern.compile("\\d{4}-\\d\\d-\\d\\d");

  private static final int MOST_COLUMNS = 9;

  private final Html html = new Html();
  private final String title;
  private final String source;
  private final Instant made;
  private final List<Result> results;
  private final List<ReportSection.Content> contents;
  private final Map<String, List<Integer>> byAnalysis = new LinkedHashMap<>();

  Page(ReportSection.Matter matter, List<ReportSection.Content> contents) {
    this.title = matter.title();
    this.source = matter.source();
    this.made = matter.made();
    this.results = matter.results();
    this.contents = contents;
    for (int i = 0; i < results.size(); i++) {
      String id = results.get(i).description().id();
      byAnalysis.computeIfAbsent(id, k -> new ArrayList<>()).add(i);
    }
  }

  String html() {
    String style = style();
    html.markup("<!DOCTYPE html>").line();
    html.begin("html", "lang", "en").line().begin("head").line();
    html.head(style);
    html.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1").line();
    html.empty("meta", "name", "color-scheme", "content", "light dark").line();
    html.empty("meta", "name", "generator", "content", "Siltwright").line();
    html.element("title", title).line();
    html.style(style).end().line();
    html.begin("body").line();
    top();
    if (results.size() > 1) {
      contents();
    }
    html.begin("main").line();
    byAnalysis.values().forEach(this::summaries);
    sections(ReportSection.Place.BEFORE_RESULTS);
    for (int i = 0; i < results.size(); i++) {
      section(i);
    }
    sections(ReportSection.Place.AFTER_RESULTS);
    parameters();
    html.end().line();
    return html.end().line().end().line().toString();
  }

  private void sections(ReportSection.Place place) {
    contents.stream().filter(c -> c.place() == place).forEach(this::section);
  }

  private static String style() {
    try (InputStream in = Page.class.getResourceAsStream("report.css")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void top() {
    html.begin("header").line();
    html.element("h1", title).line();
    html.begin("p", "class", "made").text("Made by Siltwright on ");
    html.element("time", MADE.format(made) + " UTC", "datetime", made.toString());
    if (!source.isEmpty()) {
      html.text(" from ").element("b", source);
    }
    html.text(".").end().line();
    html.begin("div", "class", "first", "role", "note");
    html.element(
        "p",
        "The machine makers' manuals, local codes and licensed practice come first. Where this"
            + " report and one of them differ, follow them.");
    html.element(
        "p",
        "The figures are computed from the data named above and are as good as these. They tell"
            + " nothing of the state of a machine that nobody has looked at.");
    html.end().line().end().line();
  }

  private void contents() {
    html.begin("nav", "aria-label", "Contents").line().element("h2", "Contents").begin("ol").line();
    for (int i = 0; i < results.size(); i++) {
      html.begin("li").element("a", heading(i), "href", "#" + id(i));
      worst(results.get(i)).ifPresent(f -> html.text(" ").markup(Marks.of(f)));
      html.end().line();
    }
    html.end().end().line();
  }

  private static Optional<Finding.Severity> worst(Result result) {
    return result.findings().stream().findFirst().map(Finding::severity);
  }

  private static String id(int index) {
    return "result-" + (index + 1);
  }

  /** Returns the name of a result: what it is about, and by which analysis if there are several. */
  private String name(int index) {
    Result r = results.get(index);
    if (r.subject().isEmpty()) {
      return r.description().title();
    }
    return byAnalysis.size() > 1 ? r.subject() + ": " + r.description().title() : r.subject();
  }

  /** Returns the name of a result with what people call its subject. */
  private String heading(int index) {
    String called = results.get(index).name();
    return called.isEmpty() ? name(index) : name(index) + " · " + called;
  }

  /** Writes an overview of the results of one analysis. */
  private void summaries(List<Integer> indices) {
    if (indices.size() < 2) {
      return;
    }
    Description description = results.get(indices.get(0)).description();
    List<String> heads = indices.stream().map(this::name).toList();
    List<String> links = indices.stream().map(Page::id).toList();
    List<Optional<Finding.Severity>> marks =
        indices.stream().map(i -> worst(results.get(i))).toList();
    for (Entry.Table table : Overview.of(indices.stream().map(results::get).toList())) {
      html.begin("section", "class", "summary").line();
      html.element("h2", description.title() + ": " + lower(table.label())).line();
      table(
          table.label(),
          table.columns(),
          byColumn(table),
          new RowHeads(heads, links, marks),
          false);
      html.end().line();
    }
  }

  private static List<List<Cell>> byColumn(Entry.Table table) {
    return IntStream.range(0, table.columns().size())
        .mapToObj(c -> table.rows().stream().map(row -> row.get(c)).toList())
        .toList();
  }

  private static String lower(String label) {
    return label.isEmpty()
        ? label
        : label.substring(0, 1).toLowerCase(Locale.ROOT) + label.substring(1);
  }

  private void section(ReportSection.Content section) {
    String id = "section-" + section.id();
    html.begin("section", "class", "brought", "id", id).line();
    html.element("h2", section.heading()).line();
    html.element("p", section.lead(), "class", "lead").line();
    findings(section.findings());
    entries(section.entries());
    for (int k = 0; k < section.figures().size(); k++) {
      figure(section.figures().get(k), id + "-figure-" + (k + 1));
    }
    html.end().line();
  }

  private void section(int index) {
    Result result = results.get(index);
    html.begin("section", "class", "result", "id", id(index)).line();
    html.element("h2", heading(index)).line();
    html.element("p", result.description().summary(), "class", "lead").line();
    findings(result.findings());
    entries(result.entries());
    for (int k = 0; k < result.figures().size(); k++) {
      figure(result.figures().get(k), id(index) + "-figure-" + (k + 1));
    }
    html.end().line();
  }

  private void findings(List<Finding> findings) {
    if (findings.isEmpty()) {
      return;
    }
    html.begin("ul", "class", "findings").line();
    for (Finding f : findings) {
      html.begin("li", "class", Marks.style(f.severity()));
      html.markup(Marks.of(f.severity()));
      html.begin("p").element("b", Marks.word(f.severity()) + ".").text(" " + f.text());
      if (!f.pointsAt().isEmpty()) {
        html.text(" ").element("code", f.pointsAt());
      }
      html.end().end().line();
    }
    html.end().line();
  }

  private void entries(List<Entry> entries) {
    List<Entry.Value> loose = new ArrayList<>();
    for (Entry entry : entries) {
      if (entry instanceof Entry.Value value) {
        loose.add(value);
        continue;
      }
      values(loose);
      loose.clear();
      if (entry instanceof Entry.Group group && group.use() == Entry.Use.READ) {
        html.begin("div", "class", "group").element("h3", group.label()).line();
        values(group.shown().values());
        html.end().line();
      } else if (entry instanceof Entry.Table table && table.use() == Entry.Use.READ) {
        html.begin("div", "class", "group").element("h3", table.label()).line();
        table(table);
        html.end().line();
      }
    }
    values(loose);
  }

  private void values(List<Entry.Value> values) {
    if (values.isEmpty()) {
      return;
    }
    html.begin("dl").line();
    for (Entry.Value value : values) {
      boolean isLong =
          value.cell().isLong() || value.cell() instanceof Cell.Text t && t.text().length() > WORDS;
      html.begin("div", "class", isLong ? "long" : "short");
      html.element("dt", value.label()).begin("dd").text(Cells.text(value.cell(), value.unit()));
      String unit = Numbers.shown(value.unit());
      if (!unit.isEmpty() && !(value.cell() instanceof Cell.None)) {
        html.text("\u00a0").element("span", unit, "class", "unit");
      }
      html.end().end().line();
    }
    html.end().line();
  }

  private void table(Entry.Table whole) {
    if (whole.rows().isEmpty()) {
      html.element("p", "Nothing.", "class", "lead").line();
      return;
    }
    Entry.Table table = whole.shown();
    List<List<Cell>> byColumn = byColumn(table);
    boolean firstNames = !byColumn.isEmpty() && byColumn.get(0).get(0) instanceof Cell.Text;
    if (table.columns().size() > MOST_COLUMNS && table.rows().size() < MOST_COLUMNS_LARGE) {
      turned(table, byColumn, firstNames);
    } else {
      table(table.label(), table.columns(), byColumn, RowHeads.NONE, firstNames);
    }
  }

  /** Writes a table of many columns and few rows on its side, each row a column. */
  private void turned(Entry.Table table, List<List<Cell>> byColumn, boolean firstNames) {
    List<Entry.Column> heads = new ArrayList<>();
    List<List<Cell>> columns = new ArrayList<>();
    heads.add(new Entry.Column("", firstNames ? table.columns().get(0).label() : "", ""));
    int first = firstNames ? 1 : 0;
    columns.add(table.columns().stream().skip(first).map(c -> Cell.of(withUnit(c))).toList());
    for (int r = 0; r < table.rows().size(); r++) {
      List<Cell> column = new ArrayList<>();
      for (int c = first; c < table.columns().size(); c++) {
        String unit = table.columns().get(c).unit();
        column.add(
            Cell.of(
                Cells.text(byColumn.get(c).get(r), unit, Cells.decimals(byColumn.get(c), unit))));
      }
      heads.add(new Entry.Column("", firstNames ? Cells.text(byColumn.get(0).get(r), "") : "", ""));
      columns.add(column);
    }
    table(table.label(), heads, columns, RowHeads.NONE, true);
  }

  private static String withUnit(Entry.Column column) {
    String unit = Numbers.shown(column.unit());
    return unit.isEmpty() ? column.label() : column.label() + " (" + unit + ")";
  }

  /** What stands before the rows of a table over results: names, their sections, their marks. */
  private record RowHeads(
      List<String> names, List<String> links, List<Optional<Finding.Severity>> marks) {
    static final RowHeads NONE = new RowHeads(List.of(), List.of(), List.of());
  }

  /**
   * Writes a table.
   *
   * @param label what it holds
   * @param columns heads of its columns
   * @param byColumn its cells, column by column
   * @param rowHeads what stands before its rows
   * @param firstNames whether the first column names the rows
   */
  private void table(
      String label,
      List<Entry.Column> columns,
      List<List<Cell>> byColumn,
      RowHeads rowHeads,
      boolean firstNames) {
    boolean large = columns.size() <= MOST_COLUMNS_LARGE;
    html.begin("div", "class", "scroll", "role", "region", "tabindex", "0", "aria-label", label);
    html.begin("table", "class", large ? "plain" : "many").line();
    html.begin("thead").begin("tr");
    boolean named = !rowHeads.names().isEmpty();
    if (named) {
      html.element("td", "");
    }
    for (int c = 0; c < columns.size(); c++) {
      Entry.Column column = columns.get(c);
      html.begin("th", "scope", "col", "class", side(byColumn.get(c))).text(column.label());
      String unit = Numbers.shown(column.unit());
      if (!unit.isEmpty()) {
        html.text(" ").element("span", "(" + unit + ")", "class", "unit");
      }
      html.end();
    }
    html.end().end().line().begin("tbody").line();
    List<OptionalInt> decimals =
        IntStream.range(0, columns.size())
            .mapToObj(c -> Cells.decimals(byColumn.get(c), columns.get(c).unit()))
            .toList();
    int rows = byColumn.isEmpty() ? 0 : byColumn.get(0).size();
    for (int r = 0; r < rows; r++) {
      html.begin("tr");
      if (named) {
        html.begin("th", "scope", "row");
        html.element("a", rowHeads.names().get(r), "href", "#" + rowHeads.links().get(r));
        rowHeads.marks().get(r).ifPresent(s -> html.text(" ").markup(Marks.of(s)));
        html.end();
      }
      for (int c = 0; c < columns.size(); c++) {
        String text = Cells.text(byColumn.get(c).get(r), columns.get(c).unit(), decimals.get(c));
        if (c == 0 && firstNames) {
          String[] row = {"scope", "row"};
          String[] date = {"scope", "row", "class", "date"};
          html.element("th", text, DATE.matcher(text).matches() ? date : row);
        } else {
          html.element("td", text, "class", side(byColumn.get(c)));
        }
      }
      html.end().line();
    }
    html.end().end().end().line();
  }

  private static String side(List<Cell> column) {
    return Cells.standsRight(column) ? "right" : "left";
  }

  private void figure(Figure figure, String name) {
    // The name makes the ids in the picture, which must differ from those of every other one.
    Figure named = new Figure(name, figure.title(), figure.caption(), figure.x(), figure.panels());
    int more = Math.max(0, figure.panels().size() - 1) * NEXT_PANEL;
    int names = figure.panels().stream().mapToInt(p -> p.y().names().size()).max().orElse(0);
    more += Math.max(0, names - NAMES_THAT_FIT) * NAME;
    html.begin("figure").element("h3", figure.title()).line();
    html.begin(
            "div",
            "class",
            "chart",
            "role",
            "region",
            "tabindex",
            "0",
            "aria-label",
            figure.title())
        .markup(Charts.svg(named, ChartTheme.LIGHT, WIDE, FIRST_PANEL + more))
        .end()
        .line();
    html.element("figcaption", figure.caption()).end().line();
  }

  /** Writes the parameters, once where several results have the same. */
  private void parameters() {
    Map<String, List<Integer>> same = new LinkedHashMap<>();
    for (int i = 0; i < results.size(); i++) {
      Result r = results.get(i);
      if (!r.values().isEmpty()) {
        String key = r.description().id() + new TreeMap<>(r.values());
        same.computeIfAbsent(key, k -> new ArrayList<>()).add(i);
      }
    }
    if (same.isEmpty()) {
      return;
    }
    html.begin("section", "class", "parameters").element("h2", "Parameters used").line();
    for (List<Integer> indices : same.values()) {
      Result first = results.get(indices.get(0));
      html.begin("div", "class", "group").element("h3", first.description().title()).line();
      if (indices.size() < results.size()) {
        html.element(
            "p", String.join(", ", indices.stream().map(this::name).toList()), "class", "lead");
      }
      List<List<Cell>> columns = List.of(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
      for (Parameter<?> p : first.description().parameters()) {
        String value = first.values().get(p.name());
        if (value != null) {
          String unit = p instanceof NumberParameter n ? " " + Numbers.shown(n.unit()) : "";
          columns.get(0).add(Cell.of(p.name()));
          String text = p.read(value) instanceof Double d ? ExactNumber.text(d) : value;
          columns.get(1).add(Cell.of((text + unit).strip()));
          columns.get(2).add(Cell.of(p.meaning()));
        }
      }
      List<Entry.Column> heads =
          List.of(
              new Entry.Column("", "Name", ""),
              new Entry.Column("", "Value", ""),
              new Entry.Column("", "Meaning", ""));
      table("Parameters of " + first.description().title(), heads, columns, RowHeads.NONE, true);
      html.end().line();
    }
    html.end().line();
  }
}
