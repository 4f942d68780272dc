package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/**
 * The text of a fleet file with what it means, to be edited step by step. Immutable: an edit gives
 * another one, which shares with this one all that stayed.
 *
 * <p>An edit inside one machine reads that machine again and no other, so that it takes no longer
 * in a file of thousands.
 */
public final class FleetText {
  private static final String MACHINES = "/machines/";

  private final String source;
  private final Extensions extensions;
  private final FleetReader.Head head;
  private final List<byte[]> gaps;
  private final List<byte[]> machines;
  private final List<FleetReader.Entry> entries;
  private final FleetFile file;

  private FleetText(
      String source,
      Extensions extensions,
      FleetReader.Head head,
      List<byte[]> gaps,
      List<byte[]> machines,
      List<FleetReader.Entry> entries) {
    this.source = source;
    this.extensions = extensions;
    this.head = head;
    this.gaps = gaps;
    this.machines = machines;
    this.entries = List.copyOf(entries);
    this.file = head.file(entries);
  }

  /**
   * Reads a file.
   *
   * @param extensions loading laws and terms of the cost that it may name
   * @throws InputException as {@link FleetReader#read(Path)} does
   */
  public static FleetText read(Path file, Extensions extensions) {
    return of(FleetDocument.bytes(file), file.toString(), extensions);
  }

  /**
   * Reads the bytes of a file.
   *
   * @param bytes JSON in UTF-8; not modified
   * @param source name of the file in messages
   * @param extensions loading laws and terms of the cost that it may name
   * @throws InputException as {@link FleetReader#read(byte[], String)} does
   */
  public static FleetText of(byte[] bytes, String source, Extensions extensions) {
    JsonNode document = FleetDocument.parse(bytes, source);
    FleetReader.Head head = FleetReader.head(document, source, extensions);
    List<byte[]> gaps = new ArrayList<>();
    List<byte[]> machines = new ArrayList<>();
    int at = 0;
    for (JsonSpan span : JsonSpan.of(bytes).fields().get("machines").items()) {
      gaps.add(Arrays.copyOfRange(bytes, at, span.start()));
      machines.add(Arrays.copyOfRange(bytes, span.start(), span.end()));
      at = span.end();
    }
    gaps.add(Arrays.copyOfRange(bytes, at, bytes.length));
    return new FleetText(source, extensions, head, gaps, machines, head.entries(document));
  }

  /** Returns the text: where nothing was edited, the bytes that were read. */
  public byte[] bytes() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (int i = 0; i < machines.size(); i++) {
      out.writeBytes(gaps.get(i));
      out.writeBytes(machines.get(i));
    }
    out.writeBytes(gaps.get(machines.size()));
    return out.toByteArray();
  }

  /**
   * Returns other bytes of the same file, or the same read anew with what bundles bring now.
   *
   * @throws InputException as {@link #of} does
   */
  public FleetText with(byte[] bytes) {
    return of(bytes, source, extensions);
  }

  /** Returns whether its machines hang on laws or terms of other bundles, or may do. */
  public boolean hangsOnOthers() {
    return !problems().isEmpty()
        || head.shared().elements().values().stream().anyMatch(e -> e.namedLoading().isPresent())
        || fleet().machines().stream().anyMatch(m -> !m.costs().added().isEmpty());
  }

  /** Returns the name of the file in messages. */
  public String source() {
    return source;
  }

  /** Returns the machines that could be read. */
  public Fleet fleet() {
    return file.fleet();
  }

  /** Returns what is wrong with the other machines. */
  public List<Problem> problems() {
    return file.problems();
  }

  /** Returns the ids of all machines in the file's order, those with problems too. */
  public List<String> ids() {
    return entries.stream().map(FleetReader.Entry::id).toList();
  }

  /** Returns the pointer of the machine with an id. */
  public Optional<String> pointer(String id) {
    int at = ids().indexOf(id);
    return at < 0 ? Optional.empty() : Optional.of(MACHINES + at);
  }

  /**
   * Returns the pointer of what a path in a machine names: keys, numbers in a list, and ids of what
   * stands in a list.
   *
   * @param machine pointer of the machine
   * @param path path such as {@code components/pump/life}, or the key of a field without its unit
   * @return pointer of the deepest part that is there; empty if not even the first is
   */
  public Optional<String> resolved(String machine, String path) {
    List<Field> fields = fields(machine);
    Optional<String> found = Optional.empty();
    for (String part : path.split("/")) {
      Optional<Field> next = fields.stream().filter(f -> isNamed(f, part)).findFirst();
      if (next.isEmpty()) {
        break;
      }
      found = Optional.of(next.get().pointer());
      fields = next.get().parts();
    }
    return found;
  }

  private static boolean isNamed(Field field, String name) {
    return field.key().equals(name)
        || field.pointer().endsWith("/" + name)
        || field.parts().stream()
            .anyMatch(p -> p.key().equals("id") && p.value().equals(Optional.of(name)));
  }

  /** Returns the machine at a pointer into it, if it has no problem. */
  public Optional<Machine> machineAt(String pointer) {
    return machineIndex(pointer).flatMap(i -> entries.get(i).machine());
  }

  /** Returns the id of the machine at a pointer into it. */
  public Optional<String> idAt(String pointer) {
    return machineIndex(pointer).map(i -> entries.get(i).id());
  }

  /**
   * Returns the fields of the object at a pointer, as forms show them.
   *
   * @param pointer pointer of a machine, or empty for what the machines share
   * @return fields in the order of the format; none if nothing is there
   */
  public List<Field> fields(String pointer) {
    if (pointer.isEmpty()) {
      JsonNode document = FleetDocument.parse(bytes(), source);
      return FieldReading.of(document, FleetForms.FLEET, "", head.shared());
    }
    return machineIndex(pointer)
        .map(
            i ->
                FieldReading.of(
                    FleetDocument.parse(machines.get(i), source),
                    FleetForms.MACHINE,
                    MACHINES + i,
                    head.shared()))
        .orElse(List.of());
  }

  /**
   * Returns the text with edits made, one after the other.
   *
   * @throws InputException if a place is not there, or if the text would have a problem that this
   *     one has not
   */
  public FleetText edited(List<Edit> edits) {
    FleetText now = this;
    for (Edit edit : edits) {
      now = now.made(edit);
    }
    List<Problem> problems = new ArrayList<>(now.problems());
    problems.removeAll(problems());
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return now;
  }

  private FleetText made(Edit edit) {
    Optional<Integer> index = machineIndex(edit.pointer());
    int slash = edit.pointer().indexOf('/', MACHINES.length());
    if (index.isEmpty() || slash < 0) {
      return with(Spliced.edited(bytes(), source, edit.pointer(), edit));
    }
    int i = index.get();
    byte[] machine = Spliced.edited(machines.get(i), source, edit.pointer().substring(slash), edit);
    List<byte[]> changed = new ArrayList<>(machines);
    changed.set(i, machine);
    List<FleetReader.Entry> read = new ArrayList<>(entries);
    JsonNode node = FleetDocument.parse(machine, source);
    read.set(i, head.entry(node, "/machines/" + i, id -> takenBefore(id, i)));
    FleetText now = new FleetText(source, extensions, head, gaps, changed, read);
    // Another id may have been twice there before, or be so now.
    return now.idAt(edit.pointer()).equals(idAt(edit.pointer())) ? now : with(now.bytes());
  }

  private boolean takenBefore(String id, int i) {
    return entries.subList(0, i).stream().anyMatch(e -> e.id().equals(id));
  }

  private Optional<Integer> machineIndex(String pointer) {
    if (!pointer.startsWith(MACHINES)) {
      return Optional.empty();
    }
    String index = pointer.substring(MACHINES.length()).split("/", 2)[0];
    if (!index.matches("0|[1-9][0-9]{0,8}") || Integer.parseInt(index) >= machines.size()) {
      return Optional.empty();
    }
    return Optional.of(Integer.parseInt(index));
  }
}
