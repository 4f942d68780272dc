package siltwright.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.BrokenBarrierException;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Entry;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.ListParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.MachineParameter;
import siltwright.model.Problem;
import siltwright.model.Revision;

class CommandsTest {
  private static final Path SCHEMA = Path.of("../../docs/schema/result-1.schema.json");

  private final Locale userLocale = Locale.getDefault();
  private final Analysis alone = MadeUp.everything("alone", Scope.NONE);
  private final Analysis each = MadeUp.everything("each", Scope.MACHINE);
  private final Analysis whole = MadeUp.everything("whole", Scope.FLEET);
  private final Session session = new Session(whole, each, alone);

  @TempDir Path folder;

  @AfterEach
  void restoreLocale() {
    Locale.setDefault(userLocale);
  }

  @Test
  void windowIsOpenedWithTheFileNamedWhereThereIsOne() {
    List<String> opened = new ArrayList<>();
    Session window =
        new Session(whole)
            .opening(
                file -> {
                  opened.add(String.join(",", file));
                  return 7;
                });
    assertEquals(7, window.run("open", "fleet.json"));
    assertEquals(7, window.run("open"));
    assertEquals(List.of("fleet.json", ""), opened);
    assertEquals(0, window.run("--help"));
    assertTrue(window.out().contains("open"), window.out());
    assertEquals(2, window.run("open", "a.json", "b.json"));
    assertEquals(2, session.run("open"), "a product without a window");
  }

  @ParameterizedTest
  @ValueSource(strings = {"en-US", "tr-TR", "de-DE", "ar-EG"})
  void jsonIsAsExpectedInEveryLocale(String locale) throws IOException {
    Locale.setDefault(Locale.forLanguageTag(locale));
    assertEquals(0, session.run("alone", "--json", "--hours", "12.5", "--warm", "--name=i=1"));
    assertEquals(resource("alone.json"), session.out());
    assertEquals("", session.err());
  }

  @ParameterizedTest
  @ValueSource(strings = {"en-US", "tr-TR", "de-DE", "ar-EG"})
  void textIsAsExpectedInEveryLocale(String locale) throws IOException {
    Locale.setDefault(Locale.forLanguageTag(locale));
    assertEquals(0, session.run("each", "fleet.json", "--machine", "m2"));
    assertEquals(resource("each-m2.txt"), session.out());
    assertEquals("", session.err());
  }

  @ParameterizedTest
  @ValueSource(strings = {"en-US", "tr-TR", "de-DE", "ar-EG"})
  void helpIsAsExpectedInEveryLocale(String locale) throws IOException {
    Locale.setDefault(Locale.forLanguageTag(locale));
    assertEquals(0, session.run("--help"));
    assertEquals(resource("help.txt"), session.out());
    assertEquals(0, session.run("each", "--help"));
    assertEquals(resource("help-each.txt"), session.out());
    String sameText = session.out();
    assertEquals(0, session.run("help", "each"));
    assertEquals(sameText, session.out());
  }

  @Test
  void everyJsonFollowsTheSchema() throws IOException {
    JsonSchema schema =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(Files.readString(SCHEMA));
    Session partly =
        new Session(whole, each, alone).reading(p -> Session.fleet(List.of(problem()), "m1", "m2"));
    for (String command :
        List.of(
            "alone --json",
            "each fleet.json --json",
            "each fleet.json --json --machine m1",
            "whole fleet.json --json")) {
      partly.run(command.split(" "));
      assertEquals(
          List.of(), List.copyOf(schema.validate(partly.out(), InputFormat.JSON)), command);
    }
    assertFalse(schema.validate("{\"analysis\": \"alone\"}", InputFormat.JSON).isEmpty());
  }

  @Test
  void versionIsShown() {
    assertEquals(0, session.run("--version"));
    assertEquals("siltwright 1.2.3\n", session.out());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "ecah; found ecah; nearest is each",
        "--vresion; found --vresion; nearest is --version",
        "alone --jsno; found --jsno; nearest is --json",
        "alone --huors 3; found --huors; nearest is --hours",
        "alone file.json; found file.json; expected nothing more",
        "each; siltwright each FILE; Fleet file",
        "each fleet.json --machine; --machine; Only the machine",
        "each fleet.json --machine m9; --machine: found m9; one of m1, m2, m3",
        "alone --hours twelve; --hours: found twelve; a number from 1 to 5000 h",
        "alone --hours NaN; --hours: found NaN; a number from 1 to 5000 h",
        "alone --hours 1 --hours 2; --hours; expected it once",
        "alone --way far; --way: found far; one of short, long",
        "alone --report r.html; found --report; expected an option",
        "help nothing-like-it; found nothing-like-it; a command"
      })
  void faultsOfTheOptionsAreOneLine(String args, String found, String expected) {
    assertEquals(2, session.run(args.split(" ")), args);
    assertEquals("", session.out());
    assertEquals(1, session.err().lines().count(), session.err());
    assertTrue(session.err().contains(found), session.err());
    assertTrue(session.err().contains(expected), session.err());
  }

  @Test
  void nothingAskedForIsAFaultOfTheOptions() {
    assertEquals(2, session.run());
    assertEquals("", session.out());
    assertTrue(session.err().contains("--help"));
  }

  @Test
  void aRequiredValueIsAskedFor() {
    TextParameter needed = TextParameter.required("needed", "some text", "text that is needed");
    Description d = Description.of("asks", "Asks", "Which?", Scope.NONE, needed);
    Session asking =
        new Session(new MadeUp(d, (c, v, p) -> Result.of(d, v.get(needed), v).build()));
    assertEquals(2, asking.run("asks"));
    assertTrue(asking.err().contains("--needed"), asking.err());
    assertEquals(1, asking.err().lines().count());
    assertEquals(0, asking.run("asks", "--needed", "x"));
  }

  @Test
  void controlCharactersDoNotReachTheTerminal() {
    assertEquals(2, session.run("alone", "--way", "\u001b[31mred\nnext"));
    assertFalse(session.err().contains("\u001b"));
    assertEquals(1, session.err().lines().count());
  }

  @Test
  void rowsAtFaultAreNamedAndTheOthersDone() throws IOException {
    Path table = folder.resolve("t.csv");
    Files.writeString(table, "a,b\n1,x\ntwo,y\n3,x\n");
    Session session = new Session(ofRecords(List.of()));
    assertEquals(2, session.run("table", table.toString(), "--pick", "b", "--pick=c,d", "--json"));
    assertEquals(
        List.of(
            table + " row 3, column a: found two; expected a number from 0 to 10",
            table + ": found 1 of 3 rows that are left out; expected none; the other 2 are kept"),
        session.err().lines().toList());
    assertTrue(
        session
            .out()
            .contains(
                """
                  "parameters": {
                    "pick": [ "b", "c", "d" ]
                  },
                  "rows": {
                    "read": 3,
                    "kept": 2,
                    "refused": 1
                  },
                  "refusals": [ {
                """
                    .stripTrailing()),
        session.out());
    assertTrue(
        session.out().contains("\"whole\": {\n    \"parts\": {\n      \"low\": 1,"), session.out());
    JsonSchema schema =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(Files.readString(SCHEMA));
    assertEquals(List.of(), List.copyOf(schema.validate(session.out(), InputFormat.JSON)));
    assertEquals(2, session.run("table", table.toString(), "--csv", folder.toString()));
    assertTrue(session.out().contains("3 rows read, 2 kept, 1 refused"), session.out());
    assertEquals(
        "of_parts_low,of_parts_words\r\n1,w\r\n", Files.readString(folder.resolve("nested.csv")));
    assertEquals(
        "of,hours,mean\r\nnorth,1,0.5\r\nnorth,2,1\r\n",
        Files.readString(folder.resolve("curves.csv")));
    assertTrue(session.out().contains("Not shown, see --json or --csv: nested (1 rows), curves"));
    Files.writeString(table, "a,b\n1,x\n");
    assertEquals(0, session.run("table", table.toString()));
    assertEquals("", session.err());
  }

  @Test
  void revisionsAreMadeInTheFleetFileAlone() throws IOException {
    Path table = folder.resolve("t.csv");
    Files.writeString(table, "a,b\n1,x\n");
    Path fleet = folder.resolve("fleet.json");
    String before =
        Files.readString(Path.of("../model/src/test/resources/siltwright/model/json/full.json"));
    Files.writeString(fleet, before);
    MachineParameter shape = MachineParameter.parse("components/pump/life/shape").orElseThrow();
    Revision revision =
        new Revision("EX-01", List.of(new Revision.Value(shape, 3.25)), Optional.empty());
    Session session = new Session(ofRecords(List.of(revision)));
    assertEquals(0, session.run("table", table.toString()));
    assertEquals(before, Files.readString(fleet));
    assertEquals(
        0, session.run("table", table.toString(), "--into", fleet.toString()), session.err());
    assertEquals(before.replace("\"shape\": 2.2,", "\"shape\": 3.25,"), Files.readString(fleet));
    assertEquals(fleet + ": 1 numbers of 1 machines revised", session.err().strip());
    String once = Files.readString(fleet);
    Revision bad = new Revision("EX-01", List.of(new Revision.Value(shape, -1)), Optional.empty());
    assertEquals(
        2,
        new Session(ofRecords(List.of(bad)))
            .run("table", table.toString(), "--into", fleet.toString()));
    assertEquals(once, Files.readString(fleet));
  }

  private static Analysis ofRecords(List<Revision> revisions) {
    ListParameter pick = new ListParameter("pick", "a column", "columns to pick");
    FleetFileParameter into = new FleetFileParameter("into", "fleet file to write into");
    Description d = Description.of("table", "Table", "Which rows?", Scope.RECORDS, pick, into);
    Cell nested =
        new Cell.Parts(
            Map.of(
                "parts",
                new Cell.Parts(new TreeMap<>(Map.of("low", Cell.of(1), "words", Cell.of("w"))))));
    return new Analysis() {
      @Override
      public Description description() {
        return d;
      }

      @Override
      public List<RecordColumn> columns(Values values) {
        return List.of(
            RecordColumn.number("a", 0, 10, true, "number"), RecordColumn.word("b", false, "word"));
      }

      @Override
      public Result run(Context context, Values values, Progress progress) {
        Result.Builder result = Result.of(d, "t", values).records(context.records().orElseThrow());
        revisions.forEach(result::add);
        return result
            .add(new Entry.Value("whole", "Whole", "", nested))
            .add(
                new Entry.Table(
                    "nested",
                    "Nested",
                    Entry.Use.DATA,
                    List.of(new Entry.Column("of", "Of", "")),
                    List.of(List.of(nested))))
            .add(
                new Entry.Group(
                    "curves",
                    "Curves",
                    Entry.Use.DATA,
                    List.of(
                        new Entry.Value(
                            "north",
                            "North",
                            "1",
                            new Cell.Parts(
                                new TreeMap<>(
                                    Map.of(
                                        "hours", new Cell.Numbers(1, 2),
                                        "mean", new Cell.Numbers(0.5, 1))))))))
            .build();
      }
    };
  }

  @Test
  void machinesRunAtOnceAndComeOutInTheirOrder() {
    // Each machine waits for the others: in turn they would never end. With one processor they do
    // run in turn, and only the order is checked.
    int parties = Math.min(2, Runtime.getRuntime().availableProcessors());
    CyclicBarrier barrier = new CyclicBarrier(parties);
    Description d = MadeUp.of("meet", Scope.MACHINE, null).description();
    Analysis meeting =
        new MadeUp(
            d,
            (context, values, progress) -> {
              await(barrier);
              return Result.of(d, context.machine().id(), values).build();
            });
    Session four =
        new Session(meeting).reading(p -> Session.fleet(List.of(), "m4", "m2", "m3", "m1"));
    assertEquals(0, four.run("meet", "fleet.json", "--json"), four.err());
    assertEquals(
        List.of("m4", "m2", "m3", "m1"),
        four.out().lines().filter(l -> l.contains("\"id\"")).map(l -> l.split("\"")[3]).toList());
  }

  private static void await(CyclicBarrier barrier) {
    try {
      barrier.await(30, TimeUnit.SECONDS);
    } catch (InterruptedException | BrokenBarrierException | TimeoutException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void oneBadMachineIsNamedAndTheOthersAreDone() {
    Session partly =
        new Session(
                failing("m2", new InputException(new Problem("option", "--way", "short", "long"))))
            .reading(p -> Session.fleet(List.of(problem()), "m1", "m2", "m3"));
    assertEquals(2, partly.run("fails", "fleet.json", "--json"));
    assertEquals(
        List.of(
            "fleet.json /machines/3/reservoir/volume_L: found -1; expected a number above 0",
            "fleet.json machine m2 option --way: found short; expected long"),
        partly.err().lines().toList());
    assertTrue(partly.out().contains("\"id\": \"m1\""));
    assertTrue(partly.out().contains("\"id\": \"m3\""));
    assertFalse(partly.out().contains("\"id\": \"m2\""));
    assertTrue(partly.out().contains("\"place\": \"machine m2 option --way\""));
  }

  @Test
  void aMachineThatIsFineIsDoneAlone() {
    Session partly = new Session(each).reading(p -> Session.fleet(List.of(problem()), "m1"));
    assertEquals(0, partly.run("each", "fleet.json", "--machine", "m1"));
    assertEquals(2, partly.run("each", "fleet.json", "--machine", "m4"));
    assertTrue(partly.err().contains("/machines/3/reservoir/volume_L"), partly.err());
  }

  @Test
  void aFleetOfWhichNothingIsLeftIsNotComputed() {
    Session nothing = new Session(whole, each).reading(p -> Session.fleet(List.of(problem())));
    assertEquals(2, nothing.run("whole", "fleet.json", "--json"));
    assertEquals("", nothing.out());
    assertEquals(problem() + "\n", nothing.err());
    assertEquals(2, nothing.run("each", "fleet.json", "--json"));
    assertTrue(nothing.out().contains("\"machines\": [ ]"), nothing.out());
  }

  @Test
  void aFileAtFaultPrintsNothingButTheMessage() {
    Session refused =
        new Session(each)
            .reading(
                p -> {
                  throw new InputException(new Problem("fleet.json", "", "", "a file"));
                });
    assertEquals(2, refused.run("each", "fleet.json", "--json"));
    assertEquals("", refused.out());
    assertEquals("fleet.json: expected a file\n", refused.err());
  }

  @Test
  void aFaultOfTheProgramIsOneLineAndItsDetailsAFile() throws IOException {
    Session broken = new Session(failing("m2", new IllegalStateException("a bug")));
    assertEquals(1, broken.run("fails", "fleet.json"));
    assertEquals("", broken.out());
    assertEquals(1, broken.err().lines().count());
    assertTrue(broken.err().contains("machine m2"), broken.err());
    assertTrue(broken.err().contains("a bug"), broken.err());
    assertTrue(broken.err().contains("--log"), broken.err());

    Path log = folder.resolve("fault.log");
    assertEquals(1, broken.run("fails", "fleet.json", "--log", log.toString()));
    assertEquals(1, broken.err().lines().count());
    assertTrue(Files.readString(log).contains("\tat "));

    assertEquals(1, broken.run("fails", "fleet.json", "--log", "no\0name"));
    assertEquals(1, broken.err().lines().count());
  }

  private static Analysis failing(String id, RuntimeException fault) {
    Description d = MadeUp.of("fails", Scope.MACHINE, null).description();
    return new MadeUp(
        d,
        (context, values, progress) -> {
          if (context.machine().id().equals(id)) {
            throw fault;
          }
          return Result.of(d, context.machine().id(), values).build();
        });
  }

  private static Problem problem() {
    return new Problem("fleet.json", "/machines/3/reservoir/volume_L", "-1", "a number above 0");
  }

  @Test
  void tablesAreWrittenAsCsv() throws IOException {
    Path to = folder.resolve("tables");
    assertEquals(0, session.run("alone", "--csv", to.toString(), "--json"));
    assertEquals(
        "id,costPerHour,within_h_low,within_h_high\r\n"
            + "\"swap, \"\"quick\"\"\",12.5,1,2\r\n"
            + "flush,,,\r\n",
        Files.readString(to.resolve("procedures.csv")));
    assertEquals("t_h,n_1,n_2\r\n0,1,2\r\n0.1,3,4\r\n", Files.readString(to.resolve("series.csv")));
    assertEquals(0, session.run("each", "fleet.json", "--csv", to.toString()));
    assertTrue(Files.exists(to.resolve("m3").resolve("series.csv")));
  }

  @Test
  void aReportIsWrittenWholeOrNotAtAll() throws IOException {
    Session reporting =
        new Session(each)
            .with(
                (title, source, made, results, problems, out) ->
                    out.write(title + "|" + source + "|" + made + "|" + results.size() + "|ü"));
    Path page = folder.resolve("page.html");
    assertEquals(0, reporting.run("each", "fleet.json", "--report", page.toString()));
    assertEquals(
        "Made-up each: Made-up fleet|fleet.json|2026-01-02T03:04:05Z|3|ü", Files.readString(page));

    Session failing =
        new Session(each)
            .with(
                (title, source, made, results, problems, out) -> {
                  out.write("half");
                  throw new IOException("disk full");
                });
    assertEquals(2, failing.run("each", "fleet.json", "--report", page.toString()));
    assertTrue(failing.err().contains("disk full"));
    assertTrue(Files.readString(page).startsWith("Made-up each"), "the old file stays");
    try (Stream<Path> files = Files.list(folder)) {
      assertEquals(List.of(page), files.toList());
    }
  }

  @Test
  void aMissingFolderIsToldBeforeAnythingIsComputed() {
    Session reporting =
        new Session(failing("m1", new IllegalStateException("computed")))
            .with((title, source, made, results, problems, out) -> {});
    String page = folder.resolve("none").resolve("page.html").toString();
    assertEquals(2, reporting.run("fails", "fleet.json", "--report", page));
    assertTrue(reporting.err().contains("a folder that is there"), reporting.err());
    assertEquals(2, reporting.run("fails", "fleet.json", "--csv", page));
    assertEquals(2, reporting.run("fails", "fleet.json", "--report", folder.toString()));
  }

  @Test
  void progressIsShownToAPersonAfterASecond() {
    Clock halfSeconds =
        new Clock() {
          private Instant now = Instant.EPOCH;

          @Override
          public synchronized Instant instant() {
            now = now.plus(Duration.ofMillis(500));
            return now;
          }

          @Override
          public ZoneId getZone() {
            return ZoneOffset.UTC;
          }

          @Override
          public Clock withZone(ZoneId zone) {
            return this;
          }
        };
    Analysis slow = reporting((progress, share) -> progress.check(share, "step"));
    Session watched = new Session(slow).watchedAt(halfSeconds);
    assertEquals(0, watched.run("slow"));
    assertFalse(watched.err().contains(" 10 %"), watched.err());
    assertTrue(watched.err().contains("\r 20 %  step"), watched.err());
    assertTrue(watched.err().endsWith(" \r"), "wiped");
    Session unwatched = new Session(slow);
    assertEquals(0, unwatched.run("slow"));
    assertEquals("", unwatched.err());
  }

  @Test
  void aCancelledRunStopsQuietly() {
    Commands[] commands = new Commands[1];
    Session interrupted =
        new Session(
            reporting(
                (progress, share) -> {
                  commands[0].cancel();
                  progress.check(share, "step");
                }));
    commands[0] = interrupted.commands();
    assertEquals(1, commands[0].run("slow"));
    assertEquals("", interrupted.out());
    assertEquals("siltwright: cancelled\n", interrupted.err());
  }

  private interface Step {
    void at(Progress progress, double share);
  }

  /** A document writer that writes which machines it was given. */
  private static DocumentWriter naming(String option, String... endings) {
    return new DocumentWriter() {
      @Override
      public Form form() {
        return new Form("each", option, List.of(endings), "the names to this place");
      }

      @Override
      public List<Output> write(
          String ending, List<Context> contexts, Values values, Progress progress) {
        String ids = contexts.stream().map(c -> c.machine().id()).collect(Collectors.joining(" "));
        byte[] content = (ending + ": " + ids).getBytes(StandardCharsets.UTF_8);
        return ending.isEmpty()
            ? List.of(new Output("a.txt", content), new Output("in/b.txt", content))
            : List.of(new Output("", content));
      }
    };
  }

  @Test
  void documentsOfAnAnalysisAreOptionsOfItsCommand(@TempDir Path folder) throws Exception {
    Session session =
        new Session(
                MadeUp.everything("each", Scope.MACHINE), MadeUp.everything("alone", Scope.NONE))
            .with(naming("sheet", "pdf", "html"))
            .with(naming("pack"));
    assertEquals(0, session.run("each", "--help"));
    assertTrue(session.out().contains("--sheet FILE.pdf|FILE.html"), session.out());
    assertTrue(session.out().contains("--pack FOLDER"), session.out());
    Path sheet = folder.resolve("x.PDF");
    Path pack = folder.resolve("pack");
    assertEquals(
        0,
        session.run("each", "fleet.json", "--sheet", sheet.toString(), "--pack", pack.toString()));
    assertEquals("pdf: m1 m2 m3", Files.readString(sheet));
    assertEquals(": m1 m2 m3", Files.readString(pack.resolve("a.txt")));
    assertEquals(": m1 m2 m3", Files.readString(pack.resolve("in/b.txt")));
    assertEquals(2, session.run("each", "fleet.json", "--sheet", folder + "/x.doc"));
    assertTrue(session.err().contains("a file FILE.pdf|FILE.html"), session.err());
    assertEquals(2, session.run("each", "fleet.json", "--sheet", folder + "/none/x.pdf"));
    assertTrue(session.err().contains("a folder that is there"), session.err());
    assertEquals(2, session.run("alone", "--sheet", sheet.toString()));
  }

  private static Analysis reporting(Step step) {
    Description d = MadeUp.of("slow", Scope.NONE, null).description();
    return new MadeUp(
        d,
        (context, values, progress) -> {
          for (int i = 1; i < 10; i++) {
            step.at(progress, i / 10.0);
          }
          return Result.of(d, "", values).build();
        });
  }

  private static String resource(String name) throws IOException {
    try (var in = CommandsTest.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
