package siltwright.exchange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.model.InputException;

class RecordsReaderTest {
  private static final List<RecordColumn> WANTED =
      List.of(
          RecordColumn.number("hours", 0, 1e6, true, "age, h"),
          RecordColumn.word("event", true, "1 or 0"),
          RecordColumn.number("count", 0, 1e6, false, "how many"));

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "hours,event,count\n12.5,1,2\n1e3,0,\n",
        "hours;event;count\r\n12.5;1;2\r\n1000;0;\r\n",
        "hours;event;count\n12,5;1;2\n1000,0;0;\n",
        "hours\tevent\tcount\n12,5\t1\t2\n1000\t0\t\n",
        "count , hours,event\n2, 12.5 ,1\n\n,,\n,1000,0",
        "\"hours\",\"event\",\"count\"\n\"12.5\",\"1\",\"2\"\n\"1000\",\"0\",\"\"\n",
        "hours,event,count,\n12.5,1,2,\n1000,0,,,,\n"
      })
  void waysToWriteTheSameTable(String text) {
    Records r = RecordsReader.read(text, "t.csv", WANTED);
    assertArrayEquals(new double[] {12.5, 1000}, r.numbers("hours").orElseThrow());
    assertArrayEquals(new double[] {2, Double.NaN}, r.numbers("count").orElseThrow());
    assertEquals("1", r.find("event").orElseThrow().text(0));
    assertEquals("0", r.find("event").orElseThrow().text(1));
    assertEquals(0, r.refusals().count());
    assertEquals(List.of(), r.notes());
  }

  @Test
  void eachRowAtFaultIsNamedAndTheOthersKept() {
    String text =
        String.join(
            "\n",
            "hours,event,count",
            "-5,1,1",
            "10,1,1",
            "abc,1,1",
            "1,5,1,1",
            "10",
            "\"1,5\",1,1",
            "NaN,0,1",
            "0x10,0,1",
            "2000000,0,1",
            "20,0,1",
            "12d,0,1");
    Records r = RecordsReader.read(text, "t.csv", WANTED);
    assertArrayEquals(new double[] {10, 20}, r.numbers("hours").orElseThrow());
    assertEquals(List.of(3, 11), List.of(r.line(0), r.line(1)));
    assertEquals(9, r.refusals().count());
    assertEquals(
        String.join(
            "\n",
            "t.csv row 2, column hours: found -5; expected a number from 0 to 1000000",
            "t.csv row 4, column hours: found abc; expected a number from 0 to 1000000",
            "t.csv row 5: found 4 cells; expected 3 as in the first row; with decimal commas, part"
                + " the columns by semicolons",
            "t.csv row 6: found 1 cells; expected 3 as in the first row",
            "t.csv row 7, column hours: found 1,5; expected a number from 0 to 1000000, with a"
                + " decimal point since commas part the columns",
            "t.csv row 8, column hours: found NaN; expected a number from 0 to 1000000",
            "t.csv row 9, column hours: found 0x10; expected a number from 0 to 1000000",
            "t.csv row 10, column hours: found 2000000; expected a number from 0 to 1000000",
            "t.csv row 12, column hours: found 12d; expected a number from 0 to 1000000"),
        r.refusals().listed().stream().map(Object::toString).collect(Collectors.joining("\n")));
  }

  @Test
  void allAreCountedThoughNotAllAreListed() {
    String text = "hours,event\n" + "x,1\n".repeat(5000) + "5,1\n";
    Records r = RecordsReader.read(text, "t.csv", WANTED);
    assertEquals(5000, r.refusals().count());
    assertEquals(100, r.refusals().listed().size());
    assertEquals(1, r.rows());
  }

  @Test
  void aCommaThatMayPartThousandsIsNoted() {
    Records r = RecordsReader.read("hours;event\n1,234;1\n1.234,5;1\n12,5;0\n", "t.csv", WANTED);
    assertArrayEquals(new double[] {1.234, 12.5}, r.numbers("hours").orElseThrow());
    assertEquals(
        List.of(
            "Column hours, row 2: 1,234 was read as 1.234, with a decimal comma. If thousands are"
                + " meant, write them without a comma."),
        r.notes());
    assertEquals(3 - 2, r.refusals().count());
  }

  @Test
  void columnsNobodyAskedForAreNamed() {
    Records r = RecordsReader.read("hours,event,depot,\n1,1,north,\n", "t.csv", WANTED);
    assertEquals(List.of("Columns that were not asked for and are not used: depot."), r.notes());
  }

  @Test
  void aColumnIsOfNumbersIfNothingElseIsInIt() {
    List<RecordColumn> wanted =
        List.of(RecordColumn.either("a", "one"), RecordColumn.either("b", "other"));
    Records r = RecordsReader.read("a;b\n1,5;7\n;north\n3;07\n", "t.csv", wanted);
    assertArrayEquals(new double[] {1.5, Double.NaN, 3}, r.numbers("a").orElseThrow());
    assertEquals("07", r.find("b").orElseThrow().text(2));
    assertTrue(r.numbers("b").isEmpty());
  }

  @Test
  void aWordInARowThatIsRefusedAnywayLeavesAColumnOfNumbers() {
    List<RecordColumn> wanted =
        List.of(RecordColumn.either("a", "one"), RecordColumn.number("b", 0, 9, true, "other"));
    Records r = RecordsReader.read("a,b\n1,2\nx,10\nx,y\nx\n3,4\n", "t.csv", wanted);
    assertArrayEquals(new double[] {1, 3}, r.numbers("a").orElseThrow());
    assertEquals(
        "t.csv row 3, column b: found 10; expected a number from 0 to 9",
        r.refusals().listed().get(0).toString());
  }

  @Test
  void quotedCellsMayHoldLineEndsQuotesAndDelimiters() {
    List<RecordColumn> wanted = List.of(RecordColumn.word("a", true, "one"));
    Records r =
        RecordsReader.read(
            "a,b\r\n\"x \"\"y\"\",\nz\",1\rw\"w,2\n\u2003\u00e4\u2003,3", "t.csv", wanted);
    Records.Column a = r.find("a").orElseThrow();
    assertEquals(
        List.of("x \"y\",\nz", "w\"w", "\u00e4"), List.of(a.text(0), a.text(1), a.text(2)));
    assertEquals(List.of(2, 4, 5), List.of(r.line(0), r.line(1), r.line(2)));
  }

  @Test
  void moreWordsThanFitAtFirstAreKeptApart() {
    StringBuilder text = new StringBuilder("event,hours\n");
    for (int i = 0; i < 5000; i++) {
      text.append('w').append(i * 7919 % 3000).append(",1\n");
    }
    Records r = RecordsReader.read(text.toString(), "t.csv", WANTED);
    for (int i = 0; i < 5000; i++) {
      assertEquals("w" + i * 7919 % 3000, r.find("event").orElseThrow().text(i));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "|row 1: found nothing; expected the names of the columns",
        "Hours,event\n1,1|expected a column hours: age, h; Hours is written otherwise",
        "hours,event,hours\n1,1,1|found column hours twice; expected each name once",
        "hours,event\n2,0\n\"1,1\n|t.csv row 3: found a quoted cell that does not end",
        "hours,event\n\"1\"1,1\n|row 2: found a quoted cell that goes on behind its closing quote"
      })
  void tablesThatCannotBeReadAreRefused(String textAndMessage) {
    int bar = textAndMessage.indexOf('|');
    InputException e =
        assertThrows(
            InputException.class,
            () -> RecordsReader.read(textAndMessage.substring(0, bar), "t.csv", WANTED));
    assertTrue(e.getMessage().contains(textAndMessage.substring(bar + 1)), e.getMessage());
  }

  @Test
  void filesAreReadWithAByteOrderMarkAndRefusedInAnotherEncoding() throws IOException {
    Path file = folder.resolve("t.csv");
    Files.writeString(file, "\uFEFFhours,event\n1,1\n");
    assertEquals(1, RecordsReader.read(file, WANTED).rows());
    Files.write(file, "hours,event,ort\n1,1,M\u00fchle\n".getBytes(StandardCharsets.ISO_8859_1));
    assertMessage(file, "row 2, byte 22 of the file: found 0xFC; expected text in UTF-8");
    Files.write(file, "hours,event\n1,1\n".getBytes(StandardCharsets.UTF_16));
    assertMessage(file, "found text in UTF-16");
    assertMessage(folder.resolve("none.csv"), "found no such file");
    assertMessage(folder, "found a directory");
  }

  private void assertMessage(Path file, String part) {
    InputException e = assertThrows(InputException.class, () -> RecordsReader.read(file, WANTED));
    assertTrue(e.getMessage().contains(part), e.getMessage());
  }

  @Test
  void aMillionRowsAreReadQuickly() {
    StringBuilder text = new StringBuilder("hours,event,count,depot\n");
    for (int i = 0; i < 1_000_000; i++) {
      text.append(1000 + i % 9973).append(".25,").append(i % 2).append(",1,north\n");
    }
    String all = text.toString();
    Records r = // 0.5 s or so; the bound leaves room for a busy machine
        assertTimeout(Duration.ofSeconds(10), () -> RecordsReader.read(all, "t.csv", WANTED));
    assertEquals(1_000_000, r.rows());
  }
}
