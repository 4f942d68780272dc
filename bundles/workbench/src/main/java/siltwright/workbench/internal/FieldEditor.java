package siltwright.workbench.internal;

import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JTextField;
import javax.swing.UIManager;
import siltwright.analysis.ExactNumber;
import siltwright.model.Units;
import siltwright.model.json.Edit;
import siltwright.model.json.Field;
import siltwright.model.json.Field.Kind;
import siltwright.workbench.parts.ThemeColors;
import siltwright.workbench.parts.Typed;

/** Edits one value: a number, text, choice, flag, or a list of numbers or texts on one line. */
final class FieldEditor {
  private static final String ABSENT = "";

  private final JComponent control;
  private final JLabel unit = new JLabel();
  private final JLabel fault = new JLabel();
  private final Consumer<Edit> commit;
  private final Consumer<Edit> check;
  private Field field;
  private Units units = Units.SI;
  private boolean setting;
  private boolean forgotten;

  /**
   * Makes an editor.
   *
   * @param field the value
   * @param commit given an edit when it is to be made
   * @param check given an edit while it is typed
   */
  FieldEditor(Field field, Consumer<Edit> commit, Consumer<Edit> check) {
    this.field = field;
    this.commit = commit;
    this.check = check;
    this.control = control();
    String name = Texts.words(field.key());
    control.setName(field.pointer());
    control.getAccessibleContext().setAccessibleName(name);
    control.getAccessibleContext().setAccessibleDescription(field.expected());
    control.setToolTipText(field.expected());
    fault.setForeground(UIManager.getColor(ThemeColors.FAULT));
    fault.setVisible(false);
    unit.setForeground(UIManager.getColor(ThemeColors.QUIET));
  }

  /** Returns whether a field is one that this class edits. */
  static boolean canEdit(Field field) {
    return field.kind() != Kind.GROUP
        && (field.kind() != Kind.LIST || !field.parts().isEmpty() && isPlain(field.parts().get(0)));
  }

  private static boolean isPlain(Field field) {
    return field.kind() == Kind.NUMBER || field.kind() == Kind.TEXT;
  }

  private JComponent control() {
    if (field.kind() == Kind.FLAG) {
      JCheckBox box = new JCheckBox();
      box.addActionListener(e -> committed());
      return box;
    }
    if (!field.choices().isEmpty() && field.kind() == Kind.TEXT) {
      JComboBox<String> combo = new JComboBox<>();
      if (!field.required()) {
        combo.addItem(ABSENT);
      }
      field.choices().forEach(combo::addItem);
      combo.addActionListener(e -> committed());
      return combo;
    }
    JTextField text = new JTextField(6);
    text.getDocument().addDocumentListener(new Typed(this::typed));
    text.addActionListener(e -> committed());
    text.addFocusListener(
        new FocusAdapter() {
          @Override
          public void focusLost(FocusEvent e) {
            committed();
          }
        });
    return text;
  }

  JComponent component() {
    return control;
  }

  JLabel unit() {
    return unit;
  }

  JLabel fault() {
    return fault;
  }

  Field field() {
    return field;
  }

  /** Forgets what was typed: another machine is shown. */
  void forget() {
    forgotten = true;
  }

  /** Shows a value, unless the user is typing another one there. */
  void show(Field now, Units newUnits, String currency, boolean pending) {
    boolean typing =
        !forgotten && control.isFocusOwner() && edit().isPresent() && newUnits == units;
    boolean stays = pending || typing && now.value().equals(field.value());
    forgotten = false;
    field = now;
    units = newUnits;
    control.setName(now.pointer());
    unit.setText(units.unit(field.unit()).replace("money", currency));
    fault.setForeground(UIManager.getColor(ThemeColors.FAULT));
    unit.setForeground(UIManager.getColor(ThemeColors.QUIET));
    if (stays) {
      return;
    }
    setting = true;
    if (control instanceof JCheckBox box) {
      box.setSelected(now.value().orElse("false").equals("true"));
    } else if (control instanceof JComboBox<?> combo) {
      String value = now.value().orElse(ABSENT);
      combo.setSelectedItem(value);
    } else if (control instanceof JTextField text) {
      text.setText(shown(now));
      text.putClientProperty(
          "JTextField.placeholderText",
          now.standard().map(v -> ExactNumber.text(v)).orElse(Texts.of("inspector.notSet")));
      text.setCaretPosition(0);
    }
    setting = false;
    tell("");
  }

  private String shown(Field of) {
    if (of.kind() == Kind.LIST) {
      return String.join(", ", of.parts().stream().map(p -> p.value().orElse("")).toList());
    }
    if (of.kind() == Kind.NUMBER && of.value().isPresent()) {
      return number(units.shown(Double.parseDouble(of.value().get()), of.unit()));
    }
    return of.value().orElse("");
  }

  /** A converted number is shown with as many digits as its source can have meant. */
  private static String number(double value) {
    return ExactNumber.text(new BigDecimal(value).round(new MathContext(10)).doubleValue());
  }

  /** Returns the edit that what stands in the control asks for, if it differs from the value. */
  Optional<Edit> edit() {
    if (control instanceof JCheckBox box) {
      return changed(Edit.flag(field.pointer(), box.isSelected()));
    }
    if (control instanceof JComboBox<?> combo) {
      String value = String.valueOf(combo.getSelectedItem());
      return value.equals(ABSENT) ? removal() : changed(Edit.text(field.pointer(), value));
    }
    String typed = ((JTextField) control).getText().strip();
    if (typed.equals(shown(field))) {
      return Optional.empty();
    }
    if (typed.isEmpty() && !field.required()) {
      return removal();
    }
    return switch (field.kind()) {
      case NUMBER -> Optional.of(Edit.json(field.pointer(), numberJson(typed)));
      case LIST -> Optional.of(Edit.json(field.pointer(), listJson(typed)));
      default -> Optional.of(Edit.text(field.pointer(), typed));
    };
  }

  private Optional<Edit> removal() {
    return field.value().isPresent()
        ? Optional.of(Edit.removal(field.pointer()))
        : Optional.empty();
  }

  private Optional<Edit> changed(Edit edit) {
    String now = field.value().orElse(field.kind() == Kind.FLAG ? "false" : "");
    String json = field.kind() == Kind.FLAG ? now : Edit.text("", now).json().orElseThrow();
    return edit.json().orElseThrow().equals(json) ? Optional.empty() : Optional.of(edit);
  }

  /** What is no number goes on as a text, which the reader refuses with what it expected. */
  private String numberJson(String typed) {
    try {
      double value = units.read(Double.parseDouble(typed), field.unit());
      return Edit.number("", units.unit(field.unit()).equals(field.unit()) ? value : rounded(value))
          .json()
          .orElseThrow();
    } catch (NumberFormatException e) {
      return Edit.text("", typed).json().orElseThrow();
    }
  }

  private static double rounded(double value) {
    return new BigDecimal(value).round(new MathContext(10)).doubleValue();
  }

  private String listJson(String typed) {
    boolean numbers = field.parts().get(0).kind() == Kind.NUMBER;
    List<String> items = new ArrayList<>();
    for (String part : typed.split("[,;\\s]+")) {
      items.add(numbers ? numberJson(part) : Edit.text("", part).json().orElseThrow());
    }
    return "[" + String.join(", ", items) + "]";
  }

  private void typed() {
    if (!setting) {
      Optional<Edit> edit = edit();
      if (edit.isPresent()) {
        check.accept(edit.get());
      } else {
        tell("");
      }
    }
  }

  private void committed() {
    if (!setting) {
      edit().ifPresent(commit);
    }
  }

  /** Shows what is wrong; an empty text clears it. */
  void tell(String what) {
    control.putClientProperty("JComponent.outline", what.isEmpty() ? null : "error");
    fault.setText(what);
    fault.setToolTipText(what.isEmpty() ? null : what);
    fault.setVisible(!what.isEmpty());
  }
}
