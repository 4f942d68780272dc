package siltwright.workbench.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import javax.swing.JButton;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.workbench.testing.TestDesk;

class DocumentButtonsTest {
  @TempDir Path folder;

  private final TestDesk desk = TestDesk.atOnce();
  private final List<String> told = new ArrayList<>();

  /** Writes the machines' ids, or a file for each. */
  private record Ids(Form form) implements DocumentWriter {
    @Override
    public List<Output> write(
        String ending, List<Context> contexts, Values values, Progress progress) {
      List<String> ids = contexts.stream().map(c -> c.machine().id()).toList();
      if (form.isFolder()) {
        return ids.stream().map(id -> new Output("ids/" + id + ".txt", bytes(id))).toList();
      }
      return List.of(new Output("", bytes(ending + " " + ids)));
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static Ids ids(String... endings) {
    return new Ids(new DocumentWriter.Form("of", "ids", List.of(endings), "the ids"));
  }

  private DocumentButtons of(DocumentWriter writer) {
    return new DocumentButtons(List.of(writer), desk, told::add);
  }

  private static List<Context> twoMachines() {
    return TestDesk.DEMO.machines().stream()
        .limit(2)
        .map(m -> Context.of(TestDesk.DEMO, m))
        .toList();
  }

  @Test
  void canBePressedOnceThereIsAResult() {
    DocumentButtons documents = of(ids("pdf", "html"));
    JButton button = documents.buttons().get(0);
    assertEquals("Save document (PDF, HTML) …", button.getText());
    assertFalse(button.isEnabled());
    documents.offer(twoMachines(), null);
    assertTrue(button.isEnabled());
    documents.offer(List.of(), null);
    assertFalse(button.isEnabled(), "the result has gone");
  }

  @Test
  void writesAFileOfWhatTheResultIsOf() throws IOException {
    DocumentWriter writer = ids("txt");
    DocumentButtons documents = of(writer);
    documents.offer(twoMachines(), null);
    Path file = folder.resolve("ids.txt");
    documents.write(writer, "txt", file);
    assertEquals("txt [EX-11, EX-12]", Files.readString(file));
    assertEquals(List.of("Saved " + file), desk.said);
    assertTrue(told.isEmpty(), told::toString);
  }

  @Test
  void fillsAFolder() throws IOException {
    DocumentWriter writer = ids();
    DocumentButtons documents = of(writer);
    assertEquals("Save documents in a folder …", documents.buttons().get(0).getText());
    documents.offer(twoMachines(), null);
    documents.write(writer, "", folder.resolve("new"));
    assertArrayEquals(bytes("EX-12"), Files.readAllBytes(folder.resolve("new/ids/EX-12.txt")));
  }

  @Test
  void tellsInALineWhyNothingWasWritten() throws IOException {
    DocumentWriter writer = ids("txt");
    DocumentButtons documents = of(writer);
    documents.offer(twoMachines(), null);
    Path inTheWay = Files.createFile(folder.resolve("file"));
    documents.write(writer, "txt", inTheWay.resolve("ids.txt"));
    assertEquals(1, told.size());
    assertFalse(told.get(0).contains("\n"), told::toString);
    assertTrue(told.get(0).contains("a place that can be written to"), told::toString);
    assertTrue(desk.said.isEmpty(), desk.said::toString);
  }

  @Test
  void refusalAndCancelLeaveNoFile() {
    for (RuntimeException why :
        List.of(
            new InputException(new Problem("machine EX-11", "", "", "a reservoir")),
            new CancellationException())) {
      DocumentWriter writer =
          new DocumentWriter() {
            @Override
            public Form form() {
              return ids("txt").form();
            }

            @Override
            public List<Output> write(
                String ending, List<Context> contexts, Values values, Progress progress) {
              throw why;
            }
          };
      DocumentButtons documents = of(writer);
      documents.offer(twoMachines(), null);
      documents.write(writer, "txt", folder.resolve("none.txt"));
      assertFalse(Files.exists(folder.resolve("none.txt")));
    }
    assertEquals(2, told.size(), told::toString);
  }
}
