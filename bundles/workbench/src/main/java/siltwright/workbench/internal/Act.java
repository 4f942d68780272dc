package siltwright.workbench.internal;

import java.awt.Toolkit;
import java.awt.event.ActionEvent;
import javax.swing.AbstractAction;
import javax.swing.Action;
import javax.swing.KeyStroke;

/** An action of the menus: its text with a mnemonic marked by {@code &}, and a key. */
final class Act extends AbstractAction {
  private static final long serialVersionUID = 1;

  private final transient Runnable run;

  /**
   * Makes an action.
   *
   * @param text its text
   * @param key a key such as {@code S} or {@code shift S}, pressed with the system's menu key; one
   *     that begins with {@code F} and a digit, or with {@code alt}, is taken alone; empty for none
   * @param run what it does
   */
  Act(String text, String key, Runnable run) {
    this.run = run;
    setText(text);
    if (!key.isEmpty()) {
      putValue(ACCELERATOR_KEY, stroke(key));
    }
  }

  /** Makes an action whose text is not ours, such as the name of a file: it has no mnemonic. */
  static Act plain(String text, Runnable run) {
    Act act = new Act("", "", run);
    act.putValue(NAME, text);
    return act;
  }

  private static KeyStroke stroke(String key) {
    KeyStroke plain = KeyStroke.getKeyStroke(key);
    if (key.matches("(shift )?F[0-9]+") || key.startsWith("alt ")) {
      return plain;
    }
    int mask = Toolkit.getDefaultToolkit().getMenuShortcutKeyMaskEx();
    return KeyStroke.getKeyStroke(plain.getKeyCode(), plain.getModifiers() | mask);
  }

  /** Sets the text, with its mnemonic. */
  Act setText(String text) {
    int at = text.indexOf('&');
    putValue(NAME, text.replaceFirst("&", ""));
    if (at >= 0) {
      putValue(MNEMONIC_KEY, (int) Character.toUpperCase(text.charAt(at + 1)));
      putValue(DISPLAYED_MNEMONIC_INDEX_KEY, at);
    }
    return this;
  }

  Act selected(boolean on) {
    putValue(Action.SELECTED_KEY, on);
    return this;
  }

  @Override
  public void actionPerformed(ActionEvent e) {
    run.run();
  }
}
