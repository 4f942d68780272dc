package siltwright.workbench.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.json.Edit;
import siltwright.model.json.Extensions;
import siltwright.model.json.FleetText;

class DocumentTest {
  private static final Path DEMO = Path.of("../../demo-data/three-pits.json");
  private static final String INTERVAL = "/machines/0/today/interval_h";

  @TempDir Path folder;
  private final Document document = new Document();
  private int changes;

  @BeforeEach
  void follow() {
    document.addListener(() -> changes++);
  }

  private Path copy() throws Exception {
    return Files.copy(DEMO, folder.resolve("fleet.json"));
  }

  private double interval() {
    return document.text().orElseThrow().fleet().machines().get(0).today().intervalH();
  }

  private List<?> set(double hours) {
    return document.edit("Interval", List.of(Edit.number(INTERVAL, hours)));
  }

  @Test
  void stepsAreUndoneAndMadeAgain() throws Exception {
    document.open(
        FleetText.read(copy(), Extensions.UNASKED), Optional.of(folder.resolve("fleet.json")));
    set(510);
    set(520);
    document.undo();
    assertEquals(510, interval());
    assertEquals(Optional.of("Interval"), document.redoLabel());
    document.redo();
    assertEquals(520, interval());
    document.undo();
    document.undo();
    assertEquals(500, interval());
    assertTrue(document.undoLabel().isEmpty());
    set(530);
    assertTrue(document.redoLabel().isEmpty(), "a new step ends what could be made again");
  }

  @Test
  void whatIsRefusedIsNoStepAndTellsNobody() throws Exception {
    document.open(FleetText.read(copy(), Extensions.UNASKED), Optional.empty());
    int before = changes;
    assertEquals(1, set(-1).size());
    assertEquals(1, document.check(List.of(Edit.number(INTERVAL, -1))).size());
    assertEquals(before, changes);
    assertTrue(document.undoLabel().isEmpty());
  }

  @Test
  void undoneBackToWhatIsSavedIsNotDirty() throws Exception {
    Path file = copy();
    document.open(FleetText.read(file, Extensions.UNASKED), Optional.of(file));
    assertFalse(document.isDirty());
    set(510);
    assertTrue(document.isDirty());
    document.undo();
    assertFalse(document.isDirty());
    set(510);
    document.save(file);
    assertFalse(document.isDirty());
    assertEquals(
        510,
        FleetText.read(file, Extensions.UNASKED).fleet().machines().get(0).today().intervalH());
    document.undo();
    assertTrue(document.isDirty());
    document.save(file);
    assertArrayEquals(Files.readAllBytes(DEMO), Files.readAllBytes(file));
  }

  @Test
  void demoThatNobodyTouchedIsNothingToLose() throws Exception {
    document.open(FleetText.read(DEMO, Extensions.UNASKED), Optional.empty());
    assertFalse(document.isDirty());
    set(510);
    assertTrue(document.isDirty());
  }

  @Test
  void fileThatSomebodyElseChangedIsNoticed() throws Exception {
    Path file = copy();
    document.open(FleetText.read(file, Extensions.UNASKED), Optional.of(file));
    assertFalse(document.isOvertaken());
    Files.setLastModifiedTime(file, FileTime.fromMillis(1_000_000));
    assertTrue(document.isOvertaken());
  }

  @Test
  void machineStaysSelectedUnderAnotherId() throws Exception {
    document.open(FleetText.read(DEMO, Extensions.UNASKED), Optional.empty());
    document.select("EX-11");
    document.edit("Id", List.of(Edit.text("/machines/0/id", "EX-19")));
    assertEquals("EX-19", document.selected());
    document.select("nobody");
    assertEquals("", document.selected());
    document.close();
    assertTrue(document.machine().isEmpty() && document.pointer().isEmpty());
  }

  @Test
  void workIsOfferedBackOnceItsWindowIsGone() throws Exception {
    document.open(
        FleetText.read(DEMO, Extensions.UNASKED), Optional.of(folder.resolve("mine.json")));
    set(510);
    Recovery dead = new Recovery(folder.resolve("state"));
    dead.keep(document.text().orElseThrow(), document.file());
    try (Recovery next = new Recovery(folder.resolve("state"))) {
      assertEquals(List.of(), next.left(Extensions.UNASKED), "its window is open");
      // what a killed process leaves: copy and name, and a lock that nobody holds
      try (var files = Files.newDirectoryStream(folder.resolve("state"), "*.json")) {
        for (Path file : files) {
          String number = file.getFileName().toString().replace(".json", "");
          Files.copy(file, folder.resolve("state/1-" + number + ".json"));
          Files.writeString(folder.resolve("state/1-" + number + ".name"), "/x/mine.json");
        }
      }
      Recovery.Left left = next.left(Extensions.UNASKED).get(0);
      assertEquals(510, left.text().fleet().machines().get(0).today().intervalH());
      assertEquals(Optional.of(Path.of("/x/mine.json")), left.file());
      Recovery.discard(left);
      assertEquals(List.of(), next.left(Extensions.UNASKED));
    }
    dead.close();
  }

  @Test
  void settingsAreKeptAndFilesOpenedLatelyStandFirst() {
    Settings settings = new Settings(folder);
    settings.put("look.units", "US");
    settings.opened(Path.of("/a.json"));
    settings.opened(Path.of("/b.json"));
    settings.opened(Path.of("/a.json"));
    settings.save();
    Settings again = new Settings(folder);
    assertEquals(Optional.of("US"), again.get("look.units"));
    assertEquals(List.of(Path.of("/a.json"), Path.of("/b.json")), again.recent());
    again.forget(Path.of("/a.json"));
    assertEquals(List.of(Path.of("/b.json")), again.recent());
  }
}
