package siltwright.workbench.internal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.json.Edit;
import siltwright.model.json.FleetRevision;
import siltwright.model.json.FleetText;

/**
 * The one document, with its selection and its history. Used on the event thread only; tells its
 * listeners of every change.
 */
final class Document {
  private static final int LONGEST_HISTORY = 1000;

  private final List<Runnable> listeners = new ArrayList<>();
  private final Deque<Step> undone = new ArrayDeque<>();
  private final Deque<Step> done = new ArrayDeque<>();
  private Optional<FleetText> text = Optional.empty();
  private Optional<Path> file = Optional.empty();
  private FleetText saved;
  private long savedAt;
  private String selected = "";
  private long revision;

  /** A step that can be gone back: what was done, to which text and with which selection. */
  private record Step(String label, FleetText text, String selected) {}

  void addListener(Runnable listener) {
    listeners.add(listener);
  }

  private void changed() {
    List.copyOf(listeners).forEach(Runnable::run);
  }

  /**
   * Takes a text that was read.
   *
   * @param newText the text
   * @param newFile the file it came from; none for a copy that has no place yet
   */
  void open(FleetText newText, Optional<Path> newFile) {
    done.clear();
    undone.clear();
    text = Optional.of(newText);
    file = newFile;
    saved = newFile.isPresent() ? newText : null;
    savedAt = newFile.map(Document::time).orElse(0L);
    selected = newText.ids().stream().findFirst().orElse("");
    revision++;
    changed();
  }

  /** Takes a text that a crash left unsaved. */
  void recover(FleetText newText, Optional<Path> newFile) {
    open(newText, newFile);
    saved = null;
    changed();
  }

  /** Takes a text read anew, unless another has taken its place since; nothing to go back to. */
  void reread(FleetText before, FleetText now) {
    if (text.filter(t -> t == before).isPresent()) {
      saved = saved == before ? now : saved;
      take(now, selected);
    }
  }

  void close() {
    done.clear();
    undone.clear();
    text = Optional.empty();
    file = Optional.empty();
    saved = null;
    selected = "";
    revision++;
    changed();
  }

  Optional<FleetText> text() {
    return text;
  }

  Optional<Path> file() {
    return file;
  }

  long revision() {
    return revision;
  }

  /** Returns the id of the selected machine, empty if none is. */
  String selected() {
    return selected;
  }

  Optional<Machine> machine() {
    return pointer().flatMap(p -> text.flatMap(t -> t.machineAt(p)));
  }

  Optional<String> pointer() {
    return text.flatMap(t -> t.pointer(selected));
  }

  void select(String id) {
    String known = text.filter(t -> t.ids().contains(id)).map(t -> id).orElse("");
    if (!known.equals(selected)) {
      selected = known;
      changed();
    }
  }

  /** Tells what edits would make wrong. */
  List<Problem> check(List<Edit> edits) {
    try {
      text.ifPresent(t -> t.edited(edits));
      return List.of();
    } catch (InputException e) {
      return e.problems();
    }
  }

  List<Problem> edit(String label, List<Edit> edits) {
    try {
      text.ifPresent(t -> step(label, t.edited(edits)));
      return List.of();
    } catch (InputException e) {
      return e.problems();
    }
  }

  List<Problem> revise(String label, List<Revision> revisions) {
    try {
      text.ifPresent(
          t -> step(label, t.with(FleetRevision.revised(t.bytes(), t.source(), revisions))));
      return List.of();
    } catch (InputException e) {
      return e.problems();
    }
  }

  private void step(String label, FleetText next) {
    done.push(new Step(label, text.orElseThrow(), selected));
    if (done.size() > LONGEST_HISTORY) {
      done.removeLast();
    }
    undone.clear();
    // A machine that got another id stays selected.
    String id = pointer().flatMap(next::idAt).orElse("");
    take(next, id);
  }

  private void take(FleetText next, String id) {
    text = Optional.of(next);
    selected = next.ids().contains(id) ? id : "";
    revision++;
    changed();
  }

  /** Returns what undo would take back. */
  Optional<String> undoLabel() {
    return Optional.ofNullable(done.peek()).map(Step::label);
  }

  Optional<String> redoLabel() {
    return Optional.ofNullable(undone.peek()).map(Step::label);
  }

  void undo() {
    move(done, undone);
  }

  void redo() {
    move(undone, done);
  }

  private void move(Deque<Step> from, Deque<Step> to) {
    Step step = from.poll();
    if (step != null) {
      to.push(new Step(step.label(), text.orElseThrow(), selected));
      take(step.text(), step.selected());
    }
  }

  /** Returns whether there is something that no file holds. */
  boolean isDirty() {
    return text.isPresent() && text.get() != saved && (saved != null || hasWork());
  }

  /** A copy of the demo that nobody touched is nothing to lose. */
  private boolean hasWork() {
    return !done.isEmpty() || !undone.isEmpty() || file.isPresent();
  }

  /** Returns whether the file was changed by somebody else since it was read or saved. */
  boolean isOvertaken() {
    return file.isPresent() && Files.exists(file.get()) && time(file.get()) != savedAt;
  }

  private static long time(Path path) {
    try {
      return Files.getLastModifiedTime(path).toMillis();
    } catch (IOException e) {
      return 0;
    }
  }

  /** Writes the text to a file, which it then belongs to. */
  void save(Path path) throws IOException {
    FleetText now = text.orElseThrow();
    Store.write(path, now.bytes());
    file = Optional.of(path);
    saved = now;
    savedAt = time(path);
    changed();
  }
}
