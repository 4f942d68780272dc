package siltwright.workbench.parts;

import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;

/**
 * Does the same after every change of a text field.
 *
 * @param action what it does
 */
public record Typed(Runnable action) implements DocumentListener {
  @Override
  public void insertUpdate(DocumentEvent e) {
    action.run();
  }

  @Override
  public void removeUpdate(DocumentEvent e) {
    action.run();
  }

  @Override
  public void changedUpdate(DocumentEvent e) {
    action.run();
  }
}
