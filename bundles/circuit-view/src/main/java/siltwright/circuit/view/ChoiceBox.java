package siltwright.circuit.view;

import java.awt.Dimension;
import java.awt.FlowLayout;
import java.util.List;
import java.util.Optional;
import java.util.ResourceBundle;
import java.util.function.Consumer;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;

/** A list to choose from, by ids. Filling it is not choosing. */
final class ChoiceBox extends JComboBox<ChoiceBox.Choice> {
  private static final long serialVersionUID = 1;
  private static final int WIDEST = 236;

  private final transient ResourceBundle texts;
  private final String key;
  private boolean filling;

  /**
   * A thing to choose.
   *
   * @param id what it is known by
   * @param label words for it
   */
  record Choice(String id, String label) {
    @Override
    public String toString() {
      return label;
    }
  }

  /**
   * Makes an empty list.
   *
   * @param key what it is called in the words, and its name
   */
  ChoiceBox(String key, ResourceBundle texts) {
    this.key = key;
    this.texts = texts;
    setName(key);
    getAccessibleContext().setAccessibleName(texts.getString(key));
  }

  /** Names of procedures are long: the list that unfolds shows them whole. */
  @Override
  public Dimension getPreferredSize() {
    Dimension size = super.getPreferredSize();
    return new Dimension(Math.min(size.width, WIDEST), size.height);
  }

  /** Returns the list with its label before it. */
  JComponent labelled() {
    JLabel label = new JLabel(texts.getString(key));
    label.setLabelFor(this);
    label.setDisplayedMnemonic(texts.getString(key + ".key").charAt(0));
    JPanel both = new JPanel(new FlowLayout(FlowLayout.LEADING, 4, 0));
    both.add(label);
    both.add(this);
    return both;
  }

  /** Calls back with the id that the user chose. */
  void onChoice(Consumer<String> chosen) {
    addActionListener(
        e -> {
          if (!filling) {
            id().ifPresent(chosen);
          }
        });
  }

  /** Fills the list anew and selects an id, or the first choice if there is no such id. */
  void fill(List<Choice> choices, String selected) {
    filling = true;
    removeAllItems();
    choices.forEach(this::addItem);
    for (Choice c : choices) {
      if (c.id().equals(selected)) {
        setSelectedItem(c);
      }
    }
    filling = false;
  }

  /** Returns the id of what is selected. */
  Optional<String> id() {
    return Optional.ofNullable((Choice) getSelectedItem()).map(Choice::id);
  }
}
