package siltwright.card.view;

import java.awt.BorderLayout;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.SwingConstants;
import javax.swing.UIManager;
import javax.swing.filechooser.FileNameExtensionFilter;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.Finding.Severity;
import siltwright.card.Card;
import siltwright.card.CardRecords.Fault;
import siltwright.card.CardRecords.Remark;
import siltwright.card.CardRequest;
import siltwright.card.RecordField;
import siltwright.card.Template;
import siltwright.card.TemplateReader;
import siltwright.model.ChangeProcedure;
import siltwright.model.Element;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Units;
import siltwright.workbench.Desk;
import siltwright.workbench.parts.Bar;
import siltwright.workbench.parts.SeverityIcon;
import siltwright.workbench.parts.ThemeColors;
import siltwright.workbench.parts.Typed;
import siltwright.workbench.parts.Wrapped;

/** The form of one card: whose it is, and what was written into its places. */
final class CardForm {
  private static final List<String> HEAD = List.of("date", "doneBy", "checkedBy");

  private final Desk desk;
  private final Runnable changed;
  private final Consumer<String> fault;
  private final JPanel component = new JPanel(new BorderLayout());
  private final JPanel places =
      new JPanel(new MigLayout("insets 0 8 8 8, fillx, hidemode 3", "[][fill][][grow,fill]"));
  private final JTextField id = new JTextField();
  private final Map<String, JTextField> head = new LinkedHashMap<>();
  private final JComboBox<String> machine = new JComboBox<>();
  private final JComboBox<String> procedure = new JComboBox<>();
  private final JComboBox<String> template = new JComboBox<>();
  private final JButton take = new JButton(Words.of("take"));
  private final JTextArea note = Wrapped.area("");
  private final Map<String, Template> templates = new LinkedHashMap<>();
  private final Map<RecordField, Entry> entries = new EnumMap<>(RecordField.class);
  private final Map<String, Mark> marks = new LinkedHashMap<>();
  private Optional<Fleet> fleet = Optional.empty();
  private Units units = Units.SI;
  private Draft draft;
  private Printed printed = Printed.everything();
  private String described = "";
  private boolean setting;

  /** Where a remark stands: a sign behind the control, and the sentence under it. */
  private record Mark(JComponent control, JLabel sign, JTextArea text) {}

  /**
   * Makes a form.
   *
   * @param changed told after each change by the user
   * @param fault given what cannot be opened
   */
  CardForm(Desk desk, Runnable changed, Consumer<String> fault) {
    this.desk = desk;
    this.changed = changed;
    this.fault = fault;
    TemplateReader.LANGUAGES.forEach(l -> know(TemplateReader.standard(l)));
    note.setName("card.note");
    for (String key : HEAD) {
      head.put(key, new JTextField(14));
    }
    head.get("date").putClientProperty("JTextField.placeholderText", Words.of("day.form"));
    listen(
        id,
        text -> {
          draft.setCard(text);
          describe();
        });
    listen(head.get("date"), text -> draft.setDate(text));
    listen(head.get("doneBy"), text -> draft.setDoneBy(text));
    listen(head.get("checkedBy"), text -> draft.setCheckedBy(text));
    name(machine, "machine");
    name(procedure, "procedure");
    name(template, "template");
    take.setName("card.take");
    machine.addActionListener(e -> offerWays());
    template.addActionListener(e -> offerWays());
    take.addActionListener(e -> take());
    component.add(top(), BorderLayout.NORTH);
    component.add(places, BorderLayout.CENTER);
    build();
  }

  private static void name(JComponent control, String key) {
    control.setName("card." + key);
    control.getAccessibleContext().setAccessibleName(Words.of(key));
  }

  private void listen(JTextField field, Consumer<String> to) {
    field
        .getDocument()
        .addDocumentListener(
            new Typed(
                () -> {
                  if (!setting) {
                    to.accept(field.getText());
                    changed.run();
                  }
                }));
  }

  private JPanel top() {
    id.setName("card.id");
    id.setToolTipText(Words.of("id.tip"));
    id.putClientProperty("JTextField.placeholderText", Words.of("id.tip"));
    JPanel top = new JPanel(new MigLayout("insets 8 8 4 8, fillx, hidemode 3", "[][grow,fill][]"));
    Mark mark = mark("card", id);
    JLabel label = label(Words.of("id"), id);
    top.add(label);
    top.add(id, "wmin 80");
    top.add(mark.sign(), "wrap");
    top.add(mark.text(), "skip 1, span 2, growx, wmin 0, wrap");
    Bar pick = Bar.flush();
    pick.add(new JLabel(Words.of("pick")));
    pick.addLabelled(Words.of("machine"), machine);
    pick.addLabelled(Words.of("procedure"), procedure);
    pick.addLabelled(Words.of("template"), template);
    JButton open = new JButton(Words.of("template.open"));
    open.addActionListener(e -> chooseTemplate());
    pick.add(open);
    pick.add(take);
    top.add(pick, "span, growx, wmin 0, wrap");
    top.add(note, "span, growx, wmin 0");
    note.setVisible(false);
    return top;
  }

  private static JLabel label(String text, JComponent of) {
    JLabel label = new JLabel(text);
    label.setLabelFor(of);
    of.getAccessibleContext().setAccessibleName(text);
    return label;
  }

  private Mark mark(String column, JComponent control) {
    JTextArea text = Wrapped.area("");
    text.setName("card.fault." + column);
    text.setVisible(false);
    JLabel sign = new JLabel(new SeverityIcon(null), SwingConstants.LEADING);
    sign.setName("card.sign." + column);
    Mark mark = new Mark(control, sign, text);
    marks.put(column, mark);
    return mark;
  }

  JComponent component() {
    return component;
  }

  /** Builds the places of the card. */
  private void build() {
    places.removeAll();
    entries.clear();
    for (String key : HEAD) {
      head.get(key).setName("card." + key);
      row(key, Words.of(key.equals("date") ? "day" : key), head.get(key), "");
    }
    JLabel title = new JLabel(Words.of("record"));
    title.putClientProperty("FlatLaf.styleClass", "h4");
    places.add(title, "span, gaptop 8, wrap");
    List<String> elements = elements();
    printed
        .fields()
        .forEach(
            (field, text) -> {
              Entry entry = new Entry(field, printed.template(), elements, changed);
              entries.put(field, entry);
              if (draft != null) {
                entry.show(draft, units);
              }
              row(
                  field.column(),
                  Printed.label(field, text),
                  entry.control(),
                  units.unit(field.unit()));
            });
    places.revalidate();
    places.repaint();
  }

  private void row(String column, String text, JComponent control, String unit) {
    Mark mark = mark(column, control);
    JLabel of = new JLabel(unit);
    of.setForeground(UIManager.getColor(ThemeColors.QUIET));
    places.add(label(text, control));
    places.add(control);
    places.add(of);
    places.add(mark.sign(), "wmin 0, wrap");
    places.add(mark.text(), "skip 1, span 3, growx, wmin 0, wrap");
  }

  private List<String> elements() {
    return machineOf(draft == null ? Optional.empty() : draft.id())
        .map(
            m ->
                Stream.concat(
                        Stream.of(m.returnFilter().element()), m.alternatives().elements().stream())
                    .map(Element::id)
                    .distinct()
                    .toList())
        .orElse(List.of());
  }

  private Optional<Machine> machineOf(Optional<Card.Id> of) {
    return of.flatMap(i -> fleet.flatMap(f -> f.machine(i.machine())));
  }

  /** Shows a card, in a fleet and units. */
  void show(Draft of, Optional<Fleet> newFleet, Optional<Machine> selected, Units newUnits) {
    boolean sameFleet = fleet.equals(newFleet);
    boolean sameUnits = newUnits == units;
    boolean sameDraft = of == draft;
    fleet = newFleet;
    units = newUnits;
    draft = of;
    if (!sameFleet || machine.getItemCount() == 0) {
      offerMachines(selected);
    }
    if (!sameDraft) {
      setting = true;
      id.setText(draft.card());
      head.get("date").setText(draft.date());
      head.get("doneBy").setText(draft.doneBy());
      head.get("checkedBy").setText(draft.checkedBy());
      setting = false;
      entries.values().forEach(e -> e.show(draft, units));
    }
    if (!sameFleet) {
      described = "";
    }
    describe();
    if (!sameUnits) {
      build();
    }
  }

  private void offerMachines(Optional<Machine> selected) {
    List<String> ids = fleet.stream().flatMap(f -> f.machines().stream()).map(Machine::id).toList();
    machine.setModel(new DefaultComboBoxModel<>(ids.toArray(String[]::new)));
    selected.map(Machine::id).filter(ids::contains).ifPresent(machine::setSelectedItem);
    offerWays();
  }

  /** Offers the procedures of the machine that the template tells. */
  private void offerWays() {
    Optional<Template> t = Optional.ofNullable(templates.get(template.getSelectedItem()));
    List<String> ways =
        chosenMachine().flatMap(m -> t.map(of -> Printed.ways(m, of))).orElse(List.of()).stream()
            .map(ChangeProcedure::id)
            .toList();
    procedure.setModel(new DefaultComboBoxModel<>(ways.toArray(String[]::new)));
    for (JComponent c : List.of(machine, procedure, take)) {
      c.setEnabled(!ways.isEmpty());
    }
    machine.setEnabled(machine.getItemCount() > 0);
  }

  private Optional<Machine> chosenMachine() {
    return fleet.flatMap(
        f -> Optional.ofNullable((String) machine.getSelectedItem()).flatMap(f::machine));
  }

  private void know(Template t) {
    String name = name(t.id(), t.version());
    if (templates.put(name, t) == null) {
      template.addItem(name);
    }
  }

  private static String name(String template, String version) {
    return template + " " + version;
  }

  private void chooseTemplate() {
    JFileChooser chooser = new JFileChooser();
    chooser.setFileFilter(new FileNameExtensionFilter(Words.of("template.kind"), "json"));
    if (chooser.showOpenDialog(component) == JFileChooser.APPROVE_OPTION) {
      openTemplate(chooser.getSelectedFile().toPath());
    }
  }

  /** Takes a template of the team's own among those known here. */
  void openTemplate(Path file) {
    desk.compute(
        "template",
        Words.of("opening", file.getFileName()),
        progress -> read(file),
        t -> {
          know(t);
          template.setSelectedItem(name(t.id(), t.version()));
          described = "";
          describe();
        },
        fault);
  }

  private static Template read(Path file) {
    try {
      return TemplateReader.read(
          CardRequest.TEMPLATE.read(file.toString()).text(), file.toString());
    } catch (IllegalArgumentException e) {
      throw new InputException(
          new Problem(file.toString(), "", Words.of("template.file"), e.getMessage()));
    }
  }

  /** Puts the id of the card as it would be printed now into its place. */
  private void take() {
    Machine m = chosenMachine().orElseThrow();
    ChangeProcedure way = m.procedure((String) procedure.getSelectedItem()).orElseThrow();
    compute(
        m,
        way,
        templates.get(template.getSelectedItem()),
        now -> id.setText(now.id().orElseThrow().toString()));
  }

  private void compute(Machine m, ChangeProcedure way, Template t, Consumer<Printed> done) {
    Fleet of = fleet.orElseThrow();
    desk.compute(
        "card",
        Words.of("taking", m.id()),
        progress -> Printed.of(of, m, way, t, progress),
        done,
        fault);
  }

  /** Shows the places of the card whose id stands there. */
  private void describe() {
    if (draft == null) {
      return;
    }
    Optional<Card.Id> card = draft.id();
    String of = card.map(c -> c.machine() + "/" + c.procedure() + "/" + template(c)).orElse("");
    if (of.equals(described)) {
      return;
    }
    described = of;
    tell(card.map(this::unknown).orElse(""));
    Optional<Machine> m = machineOf(card);
    Optional<ChangeProcedure> way = m.flatMap(x -> x.procedure(card.orElseThrow().procedure()));
    Optional<Template> t = card.map(c -> templates.get(template(c)));
    if (way.isPresent() && t.isPresent()) {
      machine.setSelectedItem(m.get().id());
      compute(m.get(), way.get(), t.get(), this::show);
    } else {
      show(Printed.everything());
    }
  }

  private static String template(Card.Id id) {
    return name(id.template(), id.version());
  }

  private String unknown(Card.Id c) {
    List<String> texts = new ArrayList<>();
    if (!templates.containsKey(template(c))) {
      texts.add(Words.of("unknown", c.template(), c.version()));
    }
    if (fleet.isPresent() && machineOf(Optional.of(c)).isEmpty()) {
      texts.add(Words.of("elsewhere", c.machine()));
    }
    return String.join(" ", texts);
  }

  private void tell(String text) {
    note.setText(text);
    note.setVisible(!text.isEmpty());
  }

  private void show(Printed now) {
    printed = now;
    build();
    changed.run();
  }

  /** Shows what is wrong with the card, each where it is. */
  void mark(List<Remark> remarks) {
    marks.forEach(
        (column, mark) -> {
          List<Remark> of = remarks.stream().filter(r -> r.column().equals(column)).toList();
          List<Remark> told = of.stream().filter(r -> r.fault() != Fault.MISSING).toList();
          boolean missing = told.isEmpty() && !of.isEmpty();
          Severity severity = of.isEmpty() ? null : missing ? Severity.CAUTION : Severity.WARNING;
          mark.sign().setIcon(new SeverityIcon(severity));
          mark.sign().setText(missing ? Words.of("missing") : "");
          mark.sign().setForeground(UIManager.getColor(ThemeColors.QUIET));
          mark.sign().setToolTipText(missing ? of.get(0).text() : null);
          String text = String.join(" ", told.stream().map(Remark::text).toList());
          mark.text().setText(text);
          mark.text().setForeground(UIManager.getColor(ThemeColors.FAULT));
          mark.text().setVisible(!text.isEmpty());
          mark.control()
              .getAccessibleContext()
              .setAccessibleDescription(of.isEmpty() ? null : of.get(0).text());
          mark.control()
              .putClientProperty(
                  "JComponent.outline",
                  told.stream().anyMatch(r -> r.fault() == Fault.CONTRADICTION) ? "error" : null);
        });
  }
}
