package siltwright.workbench.internal;

import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.UIManager;
import net.miginfocom.swing.MigLayout;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Description;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.FileParameter;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Parameter;
import siltwright.analysis.RecordsParameter;
import siltwright.model.Units;
import siltwright.workbench.Desk;
import siltwright.workbench.parts.ThemeColors;
import siltwright.workbench.parts.Typed;

/** A form made of an analysis' parameters; tells what is wrong while it is typed. */
final class ParameterForm {
  private final Desk desk;
  private final Runnable changed;
  private final JPanel panel =
      new JPanel(
          new MigLayout("insets 0, wrap 3, hidemode 3", "[pref!][grow, fill, 50::][]", "[]4[]"));
  private final Map<Parameter<?>, Input> inputs = new LinkedHashMap<>();
  private Units units = Units.SI;
  private boolean setting;

  /** What a parameter is set by. */
  private interface Input {
    /** Returns the value as a text in the parameter's own unit; empty for the standard one. */
    String text();

    void set(String text);
  }

  /**
   * Makes a form.
   *
   * @param changed called after each change that leaves no fault
   */
  ParameterForm(Description description, Desk desk, Runnable changed) {
    this.desk = desk;
    this.changed = changed;
    for (Parameter<?> p : description.parameters()) {
      add(p);
    }
  }

  JComponent component() {
    return panel;
  }

  boolean isEmpty() {
    return inputs.isEmpty();
  }

  private void add(Parameter<?> p) {
    JLabel label = new JLabel(Texts.words(p.name()));
    JLabel unit = new JLabel();
    unit.putClientProperty("FlatLaf.styleClass", "small");
    JLabel fault = new JLabel();
    fault.setVisible(false);
    fault.setForeground(UIManager.getColor(ThemeColors.FAULT));
    String tip = "<html><p width=320>" + escaped(p.meaning()) + "<br>" + escaped(p.form());
    String kept = desk.recall("value-" + p.name()).orElse("");
    if (p instanceof FlagParameter || p instanceof FleetFileParameter) {
      String text =
          p instanceof FleetFileParameter
              ? Texts.of("form.openFleet", Texts.words(p.name()))
              : Texts.words(p.name());
      JCheckBox box = new JCheckBox(text);
      box.setToolTipText(tip);
      box.setName("parameter." + p.name());
      String on = p instanceof FlagParameter ? "true" : Texts.of("form.thisFleet");
      box.setSelected(!kept.isEmpty() && !kept.equals("false"));
      box.addActionListener(e -> changed(p));
      panel.add(box, "span 3");
      inputs.put(
          p,
          new Input() {
            @Override
            public String text() {
              return box.isSelected() ? on : "";
            }

            @Override
            public void set(String value) {
              box.setSelected(!value.isEmpty());
            }
          });
      return;
    }
    label.setToolTipText(tip);
    panel.add(label, "wmin 40");
    JComponent control;
    if (p instanceof ChoiceParameter choice) {
      JComboBox<String> combo = new JComboBox<>(choice.choices().toArray(String[]::new));
      combo.setSelectedItem(kept.isEmpty() ? choice.standardValue() : kept);
      combo.addActionListener(e -> changed(p));
      control = combo;
      inputs.put(
          p,
          new Input() {
            @Override
            public String text() {
              return String.valueOf(combo.getSelectedItem());
            }

            @Override
            public void set(String value) {
              combo.setSelectedItem(value);
            }
          });
    } else {
      JTextField field = new JTextField(5);
      control = field;
      TextInput input = new TextInput(p, field, unit, fault);
      inputs.put(p, input);
      input.set(kept);
      field.getDocument().addDocumentListener(new Typed(() -> input.check()));
      field.addActionListener(e -> changed(p));
      field.addFocusListener(
          new FocusAdapter() {
            @Override
            public void focusLost(FocusEvent e) {
              changed(p);
            }
          });
    }
    control.setToolTipText(tip);
    control.setName("parameter." + p.name());
    control.getAccessibleContext().setAccessibleName(label.getText());
    control.getAccessibleContext().setAccessibleDescription(p.meaning() + ", " + p.form());
    label.setLabelFor(control);
    panel.add(control, "wmin 40");
    if (p instanceof FileParameter || p instanceof RecordsParameter) {
      panel.add(chooser((JTextField) control, () -> changed(p)));
    } else {
      panel.add(unit);
    }
    panel.add(fault, "skip 1, span 2, wmin 0");
  }

  /** Returns a button that lets the user choose the file whose name stands in a field. */
  private static JButton chooser(JTextField field, Runnable chosen) {
    JButton button = new JButton("…");
    button.getAccessibleContext().setAccessibleName(Texts.of("form.choose"));
    button.setToolTipText(Texts.of("form.choose"));
    button.addActionListener(
        e -> {
          JFileChooser files = new JFileChooser();
          if (files.showOpenDialog(field) == JFileChooser.APPROVE_OPTION) {
            field.setText(files.getSelectedFile().getPath());
            chosen.run();
          }
        });
    return button;
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;");
  }

  private void changed(Parameter<?> p) {
    if (setting || fault(p).isPresent()) {
      return;
    }
    String text = inputs.get(p).text();
    if (!desk.recall("value-" + p.name()).orElse("").equals(text)) {
      desk.keep("value-" + p.name(), text);
      changed.run();
    }
  }

  private Optional<String> fault(Parameter<?> p) {
    String text = inputs.get(p).text();
    if (text.isEmpty()) {
      return p.required() ? Optional.of(Texts.of("form.required", p.form())) : Optional.empty();
    }
    try {
      p.read(text);
      return Optional.empty();
    } catch (IllegalArgumentException e) {
      return Optional.of(Texts.of("form.expected", e.getMessage()));
    }
  }

  /** Returns what is still missing or wrong, one line a parameter. */
  List<String> faults() {
    return inputs.keySet().stream()
        .flatMap(p -> fault(p).map(f -> Texts.words(p.name()) + ": " + f).stream())
        .toList();
  }

  /** Returns the values that are set, in the parameters' own units. */
  Map<String, String> texts() {
    Map<String, String> texts = new LinkedHashMap<>();
    inputs.forEach(
        (p, input) -> {
          if (!input.text().isEmpty()) {
            texts.put(p.name(), input.text());
          }
        });
    return texts;
  }

  /** Shows numbers in other units. */
  void show(Units now) {
    if (now != units) {
      setting = true;
      Map<Parameter<?>, String> kept = new LinkedHashMap<>();
      inputs.forEach((p, input) -> kept.put(p, input.text()));
      units = now;
      kept.forEach((p, text) -> inputs.get(p).set(text));
      setting = false;
    }
  }

  /** A field for a number or a text; numbers are shown in the units of the screen. */
  private final class TextInput implements Input {
    private final Parameter<?> parameter;
    private final JTextField field;
    private final JLabel unit;
    private final JLabel fault;

    TextInput(Parameter<?> parameter, JTextField field, JLabel unit, JLabel fault) {
      this.parameter = parameter;
      this.field = field;
      this.unit = unit;
      this.fault = fault;
    }

    @Override
    public String text() {
      String typed = field.getText().strip();
      if (parameter instanceof NumberParameter n && !typed.isEmpty()) {
        try {
          return ExactNumber.text(units.read(Double.parseDouble(typed), n.unit()));
        } catch (NumberFormatException e) {
          return typed;
        }
      }
      return typed;
    }

    @Override
    public void set(String text) {
      String shown = text;
      String standard = parameter.standard().map(Object::toString).orElse("");
      if (parameter instanceof NumberParameter n) {
        unit.setText(Numbers.shown(units.unit(n.unit())));
        standard = n.standard().map(v -> number(units.shown(v, n.unit()))).orElse("");
        try {
          shown = text.isEmpty() ? "" : number(units.shown(Double.parseDouble(text), n.unit()));
        } catch (NumberFormatException e) {
          shown = text;
        }
      }
      field.putClientProperty("JTextField.placeholderText", standard);
      field.setText(shown);
      check();
    }

    private static String number(double value) {
      return ExactNumber.text(Math.round(value * 1e9) / 1e9);
    }

    void check() {
      Optional<String> what = inputs.containsKey(parameter) ? fault(parameter) : Optional.empty();
      boolean wrong = what.isPresent() && !field.getText().isBlank();
      field.putClientProperty("JComponent.outline", wrong ? "error" : null);
      fault.setText(wrong ? what.get() : "");
      fault.setToolTipText(wrong ? what.get() : null);
      fault.setVisible(wrong);
    }
  }
}
