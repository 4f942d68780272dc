package siltwright.card.view;

import java.awt.Component;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.stream.Stream;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JTextField;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Numbers;
import siltwright.card.RecordField;
import siltwright.card.Template;
import siltwright.model.Units;
import siltwright.workbench.parts.Typed;

/** A place of a card on the screen: a number with its unit, a choice, or a word. */
final class Entry {
  private static final int CONVERTED_DIGITS = 10;

  private final RecordField field;
  private final JComponent control;
  private final Runnable changed;
  private JComboBox<Choice> choices;
  private Draft draft;
  private Units units = Units.SI;
  private boolean setting;

  /** A word of the records, shown in the words of the card. */
  private record Choice(String word, String text) {
    @Override
    public String toString() {
      return text;
    }
  }

  /**
   * Makes one.
   *
   * @param words words that are offered where any can be written
   * @param changed told after each change by the user
   */
  Entry(RecordField field, Template template, List<String> words, Runnable changed) {
    this.field = field;
    this.changed = changed;
    this.control =
        switch (field.kind()) {
          case NUMBER -> text(new JTextField(8));
          case YES_NO -> choice(template, List.of("yes", "no"));
          case STATE -> choice(template, RecordField.STATES);
          case WORD -> word(words);
        };
    control.setName("card." + field.column());
  }

  private JTextField text(JTextField text) {
    text.getDocument().addDocumentListener(new Typed(this::typed));
    return text;
  }

  private JComponent choice(Template template, List<String> words) {
    choices =
        new JComboBox<>(
            Stream.concat(
                    Stream.of(new Choice("", " ")),
                    words.stream().map(w -> new Choice(w, template.word(w))))
                .toArray(Choice[]::new));
    choices.addActionListener(e -> typed());
    return choices;
  }

  private JComponent word(List<String> words) {
    JComboBox<String> box = new JComboBox<>(words.toArray(String[]::new));
    box.setEditable(true);
    Component editor = box.getEditor().getEditorComponent();
    editor.setName("card." + field.column() + ".text");
    text((JTextField) editor);
    return box;
  }

  JComponent control() {
    return control;
  }

  /** Returns its unit on the screen. */
  String unit() {
    return units.unit(field.unit());
  }

  /** Shows a card. */
  void show(Draft of, Units newUnits) {
    draft = of;
    units = newUnits;
    setting = true;
    if (control instanceof JTextField text) {
      text.setText(shown());
      text.setToolTipText(expected());
    } else if (choices != null) {
      choose(draft.text(field));
    } else if (control instanceof JComboBox<?> box) {
      box.setSelectedItem(draft.text(field));
    }
    setting = false;
  }

  /** A word that is none of the choices stands there all the same: it is told what is wrong. */
  private void choose(String word) {
    for (int i = 0; i < choices.getItemCount(); i++) {
      if (choices.getItemAt(i).word().equalsIgnoreCase(word)) {
        choices.setSelectedIndex(i);
        return;
      }
    }
    choices.addItem(new Choice(word, word));
    choices.setSelectedIndex(choices.getItemCount() - 1);
  }

  private String shown() {
    return draft.number(field).isEmpty()
        ? ""
        : ExactNumber.text(converted(units.shown(draft.number(field).getAsDouble(), field.unit())));
  }

  /** A converted number has as many digits as its source can have meant. */
  private double converted(double value) {
    return units.unit(field.unit()).equals(field.unit())
        ? value
        : new BigDecimal(value).round(new MathContext(CONVERTED_DIGITS)).doubleValue();
  }

  private String expected() {
    return Words.of(
        "expected",
        Numbers.text(units.shown(field.low(), field.unit())),
        Numbers.text(units.shown(field.high(), field.unit())),
        unit());
  }

  private void typed() {
    if (setting || draft == null) {
      return;
    }
    if (control instanceof JTextField text) {
      number(text.getText().strip());
    } else if (choices != null) {
      draft.put(field, ((Choice) choices.getSelectedItem()).word());
    } else if (control instanceof JComboBox<?> box) {
      draft.put(field, ((JTextField) box.getEditor().getEditorComponent()).getText());
    }
    changed.run();
  }

  private void number(String typed) {
    if (typed.isEmpty()) {
      draft.put(field, "");
      return;
    }
    try {
      double value = converted(units.read(Double.parseDouble(typed), field.unit()));
      if (value >= field.low() && value <= field.high()) {
        draft.put(field, value);
        return;
      }
    } catch (NumberFormatException e) {
      // told below, as a number out of range is
    }
    draft.refuse(field, Words.of("refused", typed, expected()));
  }
}
