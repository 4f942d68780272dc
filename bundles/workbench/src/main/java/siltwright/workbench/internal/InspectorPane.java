package siltwright.workbench.internal;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Font;
import java.awt.KeyboardFocusManager;
import java.awt.Rectangle;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.SwingConstants;
import javax.swing.SwingUtilities;
import javax.swing.UIManager;
import net.miginfocom.swing.MigLayout;
import siltwright.model.Fleet;
import siltwright.model.Problem;
import siltwright.model.json.Edit;
import siltwright.model.json.Field;
import siltwright.model.json.Field.Kind;
import siltwright.model.json.FleetText;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.parts.ThemeColors;
import siltwright.workbench.parts.Wrapped;

/**
 * Every value of the selected machine, or of what the machines share if none is selected, to be
 * edited in place. An edit that holds only together with others, such as shares that add to 1,
 * waits for them.
 */
final class InspectorPane implements Pane {
  private static final String OPEN = "open";
  private static final String FIRST = "-";
  private static final String STANDARD_OPEN = "-,today,limits,costs,returnFilter";

  private final Bench bench;
  private final Desk desk;
  private final JPanel panel = new JPanel(new BorderLayout());
  private final JLabel title = new JLabel();
  private final JTextArea waiting = Wrapped.area("");
  private final JButton discard = new JButton(Texts.of("inspector.discard"));
  private final JPanel waits =
      new JPanel(new MigLayout("insets 6 10 6 10, fillx", "[grow, fill][]"));
  private final Page page =
      new Page(
          new MigLayout("insets 8 10 16 10, wrap 1, hidemode 3, fillx", "[grow, fill]", "[]2[]"));
  private final JScrollPane scroll = new JScrollPane(page);
  private final Set<String> open = new LinkedHashSet<>();
  private final Map<String, FieldEditor> editors = new LinkedHashMap<>();
  private final Map<String, Edit> pending = new LinkedHashMap<>();
  private final Deque<Runnable> unbuilt = new ArrayDeque<>();
  private String root = "none";
  private List<String> built = List.of();

  InspectorPane(Bench bench, Desk desk) {
    this.bench = bench;
    this.desk = desk;
    open.addAll(List.of(desk.recall(OPEN).orElse(STANDARD_OPEN).split(",")));
    title.setFont(title.getFont().deriveFont(Font.BOLD));
    title.setName("inspector.title");
    JPanel head =
        new JPanel(new MigLayout("insets 8 10 4 10, wrap 1, hidemode 3, fillx", "[grow, fill]"));
    head.add(title, "wmin 0");
    waits.setVisible(false);
    waiting.setName("inspector.waiting");
    waits.add(waiting, "wmin 0, growx");
    waits.add(discard);
    discard.addActionListener(e -> discard());
    head.add(waits, "wmin 0, growx");
    scroll.setBorder(null);
    panel.add(head, BorderLayout.NORTH);
    panel.add(scroll, BorderLayout.CENTER);
  }

  @Override
  public JComponent component() {
    return panel;
  }

  @Override
  public void show(Scenario scenario) {
    Optional<FleetText> text = bench.document().text();
    String now = text.isEmpty() ? "none" : scenario.pointer().orElse("");
    if (!now.equals(root)) {
      // another machine of the same make keeps the controls
      root = now;
      pending.clear();
      editors.values().forEach(FieldEditor::forget);
    }
    if (text.isEmpty()) {
      title.setText(Texts.of("view.inspector"));
      nothing(Texts.of("inspector.nothing"));
      return;
    }
    title.setText(
        now.isEmpty()
            ? Texts.of("inspector.shared", text.get().fleet().name())
            : bench.document().selected()
                + scenario.machine().map(m -> "  " + m.name()).orElse(""));
    title.setToolTipText(title.getText());
    List<Field> fields = text.get().fields(now);
    List<String> shape = shape(fields);
    if (!shape.equals(built)) {
      boolean first = built.isEmpty();
      built = shape;
      rebuild(fields, first);
    }
    update(fields, scenario);
    tellWaiting();
  }

  private void nothing(String what) {
    editors.clear();
    unbuilt.clear();
    built = List.of();
    page.removeAll();
    JTextArea area = Wrapped.area(what);
    area.setForeground(UIManager.getColor(ThemeColors.QUIET));
    page.add(area, "wmin 0, growx");
    page.revalidate();
    page.repaint();
  }

  /** Returns what decides which controls there are. */
  private List<String> shape(List<Field> fields) {
    List<String> shape = new ArrayList<>(open);
    fields.forEach(f -> shape(f, shape));
    return shape;
  }

  private static void shape(Field field, List<String> shape) {
    shape.add(inside(field.pointer()) + field.kind() + field.choices());
    if (!FieldEditor.canEdit(field)) {
      shape.add(String.valueOf(field.value().isPresent()));
      if (field.kind() == Kind.LIST) {
        field.parts().forEach(item -> shape.add(itemName(item)));
      }
      field.parts().forEach(p -> shape(p, shape));
    }
  }

  /** Returns a pointer from the machine on, by which its controls are known. */
  private static String inside(String pointer) {
    return pointer.replaceFirst("^/machines/[0-9]+(?=/|$)", "");
  }

  /** Does something with a field as the machine shown now has it. */
  private void now(Field field, Consumer<Field> action) {
    bench
        .document()
        .text()
        .flatMap(
            t -> find(t.fields(root.equals("none") ? "" : root), root + inside(field.pointer())))
        .ifPresent(action);
  }

  private static Optional<Field> find(List<Field> fields, String pointer) {
    for (Field f : fields) {
      if (f.pointer().equals(pointer)) {
        return Optional.of(f);
      }
      if (pointer.startsWith(f.pointer() + "/")) {
        return find(f.parts(), pointer);
      }
    }
    return Optional.empty();
  }

  private void update(List<Field> fields, Scenario scenario) {
    String currency = scenario.fleet().map(Fleet::currency).orElse("");
    for (Field field : fields) {
      FieldEditor editor = editors.get(inside(field.pointer()));
      if (editor != null) {
        editor.show(field, scenario.units(), currency, pending.containsKey(field.pointer()));
      } else {
        update(field.parts(), scenario);
      }
    }
  }

  private void rebuild(List<Field> fields, boolean first) {
    Component focus = KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
    String focused =
        focus != null && focus.getName() != null && SwingUtilities.isDescendingFrom(focus, page)
            ? inside(focus.getName())
            : null;
    int at = scroll.getVerticalScrollBar().getValue();
    editors.clear();
    unbuilt.clear();
    page.removeAll();
    List<Field> plain = fields.stream().filter(FieldEditor::canEdit).toList();
    unbuilt.add(() -> section(FIRST, Texts.of("inspector.general"), plain, null));
    for (Field field : fields) {
      if (!FieldEditor.canEdit(field)) {
        unbuilt.add(() -> section(field.key(), Texts.words(field.key()), field.parts(), field));
      }
    }
    if (first) {
      buildOn();
    } else {
      finish();
    }
    page.revalidate();
    page.repaint();
    SwingUtilities.invokeLater(
        () -> {
          scroll.getVerticalScrollBar().setValue(at);
          if (focused != null && editors.containsKey(focused)) {
            editors.get(focused).component().requestFocusInWindow();
          }
        });
  }

  /** Builds a section and leaves the next one to an event of its own. */
  private void buildOn() {
    Runnable next = unbuilt.poll();
    if (next != null) {
      next.run();
      SwingUtilities.invokeLater(
          () -> {
            if (!unbuilt.isEmpty()) {
              buildOn();
              fillIn();
            }
          });
    }
  }

  /** Builds at once what is not built yet. */
  private void finish() {
    boolean any = !unbuilt.isEmpty();
    for (Runnable next = unbuilt.poll(); next != null; next = unbuilt.poll()) {
      next.run();
    }
    if (any) {
      page.revalidate();
    }
  }

  /** Shows the values in the controls that were built after the others. */
  private void fillIn() {
    bench
        .document()
        .text()
        .ifPresent(t -> update(t.fields(root.equals("none") ? "" : root), desk.scenario()));
    page.revalidate();
    page.repaint();
  }

  private void section(String key, String name, List<Field> fields, Field whole) {
    boolean shown = open.contains(key);
    JButton head =
        new JButton(name, UIManager.getIcon(shown ? "Tree.expandedIcon" : "Tree.collapsedIcon"));
    head.setName("section." + key);
    head.putClientProperty("JButton.buttonType", "borderless");
    head.setHorizontalAlignment(SwingConstants.LEADING);
    head.setFont(head.getFont().deriveFont(Font.BOLD));
    head.getAccessibleContext()
        .setAccessibleDescription(Texts.of(shown ? "inspector.hide" : "inspector.unfold"));
    head.addActionListener(e -> toggle(key));
    page.add(head, "wmin 0");
    if (shown) {
      JPanel rows = rows();
      if (whole != null) {
        partsOf(rows, whole);
      } else {
        fields.forEach(f -> row(rows, f));
      }
      page.add(rows, "wmin 0, growx, gapleft 20");
    }
  }

  private static JPanel rows() {
    return new JPanel(
        new MigLayout(
            "insets 0 0 6 0, wrap 3, hidemode 3, fillx",
            "[110:n:190][grow, fill, 60::][]",
            "[]3[]"));
  }

  private void toggle(String key) {
    if (!open.remove(key)) {
      open.add(key);
    }
    desk.keep(OPEN, String.join(",", open));
    show(desk.scenario());
  }

  private void row(JPanel rows, Field field) {
    if (FieldEditor.canEdit(field)) {
      FieldEditor editor = new FieldEditor(field, this::commit, this::check);
      editors.put(inside(field.pointer()), editor);
      JLabel label = new JLabel(Texts.words(field.key()));
      label.setLabelFor(editor.component());
      label.setToolTipText(field.expected());
      rows.add(label, "wmin 0");
      rows.add(editor.component(), "wmin 40");
      rows.add(editor.unit());
      rows.add(editor.fault(), "skip 1, span 2, wmin 0");
      return;
    }
    JLabel label = new JLabel(Texts.words(field.key()));
    label.setFont(label.getFont().deriveFont(Font.BOLD));
    rows.add(label, "span 3, gaptop 4");
    JPanel nested = rows();
    partsOf(nested, field);
    rows.add(nested, "span 3, gapleft 12, growx, wmin 0");
  }

  private void partsOf(JPanel rows, Field field) {
    if (field.value().isEmpty()) {
      JLabel absent = new JLabel(Texts.of("inspector.absent"));
      absent.setForeground(UIManager.getColor(ThemeColors.QUIET));
      rows.add(absent, "span 2");
      if (root.startsWith("/machines/")) {
        rows.add(button("inspector.add", () -> now(field, this::addAsElsewhere)));
      }
      return;
    }
    if (field.kind() == Kind.LIST) {
      for (Field item : field.parts()) {
        JLabel name = new JLabel(itemName(item));
        name.setFont(name.getFont().deriveFont(Font.BOLD));
        rows.add(name, "span 3, split 3, growx, wmin 0, gaptop 4");
        rows.add(button("inspector.copy", () -> now(field, list -> now(item, i -> copy(list, i)))));
        rows.add(button("inspector.remove", () -> now(item, this::remove)));
        item.parts().forEach(f -> row(rows, f));
        if (item.parts().isEmpty()) {
          row(rows, item);
        }
      }
      return;
    }
    field.parts().forEach(f -> row(rows, f));
    if (!field.required()) {
      rows.add(button("inspector.remove", () -> now(field, this::remove)), "span 3, align right");
    }
  }

  private static String itemName(Field item) {
    return item.parts().stream()
        .filter(p -> List.of("id", "source", "parameter").contains(p.key()))
        .findFirst()
        .flatMap(Field::value)
        .orElse(
            Texts.of(
                "inspector.item", Integer.parseInt("0" + item.key().replaceAll("\\D", "")) + 1));
  }

  private static JButton button(String key, Runnable run) {
    JButton button = new JButton(Texts.of(key));
    button.putClientProperty("JButton.buttonType", "borderless");
    button.addActionListener(e -> run.run());
    return button;
  }

  /** Adds a copy of an item behind the list's last, with an id of its own. */
  private void copy(Field list, Field item) {
    String json = item.value().orElse("{}");
    Optional<String> id =
        item.parts().stream().filter(p -> p.key().equals("id")).findFirst().flatMap(Field::value);
    List<Edit> edits = new ArrayList<>();
    String place = list.pointer() + "/" + list.parts().size();
    edits.add(Edit.json(place, json));
    id.ifPresent(i -> edits.add(Edit.text(place + "/id", i + "-2")));
    tell(desk.edit(Texts.of("inspector.copied", itemName(item)), edits));
  }

  private void remove(Field field) {
    tell(
        desk.edit(
            Texts.of("inspector.removed", Texts.words(field.key())),
            List.of(Edit.removal(field.pointer()))));
  }

  /** Adds what another machine of the fleet has in that place. */
  private void addAsElsewhere(Field field) {
    FleetText text = bench.document().text().orElseThrow();
    String path = field.pointer().substring(root.length());
    for (int i = 0; i < text.ids().size(); i++) {
      String other = "/machines/" + i;
      Optional<String> json = find(text.fields(other), other + path).flatMap(Field::value);
      if (json.isPresent()) {
        List<Edit> edits = List.of(Edit.json(field.pointer(), json.get()));
        List<Problem> problems =
            desk.edit(Texts.of("inspector.added", Texts.words(field.key())), edits);
        tell(problems);
        if (problems.isEmpty()) {
          desk.status(Texts.of("inspector.addedAs", Texts.words(field.key()), text.ids().get(i)));
        }
        return;
      }
    }
    desk.status(Texts.of("inspector.nowhere", Texts.words(field.key())));
  }

  private void tell(List<Problem> problems) {
    problems.stream().findFirst().ifPresent(p -> desk.status(p.toString()));
  }

  /** Tells what an edit would make wrong, together with those that wait. */
  private void check(Edit edit) {
    FieldEditor editor = editors.get(inside(edit.pointer()));
    if (editor != null) {
      editor.tell(words(desk.check(with(edit)), edit));
    }
  }

  private List<Edit> with(Edit edit) {
    Map<String, Edit> all = new LinkedHashMap<>(pending);
    all.put(edit.pointer(), edit);
    return List.copyOf(all.values());
  }

  /** Makes an edit, or lets it wait where it is right by itself but does not fit the others. */
  private void commit(Edit edit) {
    List<Edit> edits = with(edit);
    String name = editors.get(inside(edit.pointer())).field().key();
    Map<String, Edit> waited = new LinkedHashMap<>(pending);
    pending.clear();
    List<Problem> problems =
        desk.edit(Texts.of("inspector.set", Texts.words(name), bench.document().selected()), edits);
    if (problems.isEmpty()) {
      edits.forEach(
          e -> Optional.ofNullable(editors.get(inside(e.pointer()))).ifPresent(x -> x.tell("")));
    } else {
      pending.putAll(waited);
      boolean own = problems.stream().anyMatch(p -> p.place().endsWith(edit.pointer()));
      if (own) {
        pending.remove(edit.pointer());
      } else {
        pending.put(edit.pointer(), edit);
      }
      editors.get(inside(edit.pointer())).tell(words(problems, edit));
      tell(problems);
    }
    tellWaiting();
  }

  private static String words(List<Problem> problems, Edit edit) {
    return problems.stream()
        .sorted(
            (a, b) ->
                Boolean.compare(
                    b.place().endsWith(edit.pointer()), a.place().endsWith(edit.pointer())))
        .findFirst()
        .map(p -> Texts.of("findings.expected", p.expected()))
        .orElse("");
  }

  private void tellWaiting() {
    waits.setVisible(!pending.isEmpty());
    waits.setBackground(UIManager.getColor(ThemeColors.STALE));
    if (!pending.isEmpty()) {
      String why = words(desk.check(List.copyOf(pending.values())), Edit.removal("?"));
      waiting.setText(Texts.of("inspector.waiting", pending.size(), why));
    }
  }

  private void discard() {
    pending.clear();
    built = List.of();
    show(desk.scenario());
  }

  /** Unfolds, scrolls to and focuses the value at a pointer, or the first one below it. */
  void reveal(String pointer) {
    String inside = inside(pointer);
    String[] parts = inside.split("/");
    if (parts.length < 2) {
      return;
    }
    if (!unbuilt.isEmpty()) {
      finish();
      fillIn();
    }
    String key = parts[1].replaceFirst("_.*", "");
    boolean plain = editors.containsKey(inside) && open.contains(FIRST) && parts.length == 2;
    if (!open.contains(key) && !plain) {
      open.add(bench.document().text().isPresent() && isSection(key) ? key : FIRST);
      show(desk.scenario());
    }
    SwingUtilities.invokeLater(
        () ->
            editors.entrySet().stream()
                .filter(e -> e.getKey().equals(inside) || e.getKey().startsWith(inside + "/"))
                .findFirst()
                .ifPresent(e -> goTo(e.getValue().component())));
  }

  private boolean isSection(String key) {
    for (Component c : page.getComponents()) {
      if (("section." + key).equals(c.getName())) {
        return true;
      }
    }
    return false;
  }

  private static void goTo(JComponent component) {
    Rectangle place = component.getBounds();
    place.grow(0, 80);
    // Asked of its parent: a text field would scroll its own text.
    ((JComponent) component.getParent()).scrollRectToVisible(place);
    component.requestFocusInWindow();
  }

  @Override
  public void close() {
    editors.clear();
    page.removeAll();
  }
}
