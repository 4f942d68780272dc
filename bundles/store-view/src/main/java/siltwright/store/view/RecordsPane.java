package siltwright.store.view;

import java.awt.BorderLayout;
import java.awt.CardLayout;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JTabbedPane;
import javax.swing.SwingConstants;
import net.miginfocom.swing.MigLayout;
import siltwright.store.Action;
import siltwright.store.Store;
import siltwright.store.StoreInUse;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;

/** A store: which one, what was done to it, and files to bring into it. */
final class RecordsPane implements Pane {
  private static final String KEPT = "store";
  private static final int ACTIONS = 500;

  private final Desk desk;
  private final CardLayout cards = new CardLayout();
  private final JPanel component = new JPanel(cards);
  private final JLabel name = new JLabel();
  private final Message fault = new Message("store.fault");
  private final ImportPanel bring;
  private final JournalPanel journal;
  private final StoreInUse inUse;
  private final Runnable follow = this::follow;
  private String where;
  private boolean telling;

  RecordsPane(Desk desk, StoreInUse inUse) {
    this.desk = desk;
    this.inUse = inUse;
    component.setName("store.pane");
    bring = new ImportPanel(desk, this::look);
    journal = new JournalPanel(desk, this::look);
    component.add(invitation(), "empty");
    component.add(full(), "full");
    inUse.where().or(() -> desk.recall(KEPT)).ifPresent(this::open);
    inUse.listen(follow);
  }

  /** Another view took a store, or did something to it. */
  private void follow() {
    if (!telling) {
      inUse.where().ifPresent(this::open);
    }
  }

  private void take(String store) {
    telling = true;
    inUse.use(store);
    telling = false;
  }

  /** What is shown of a store when it is opened, and after each action. */
  record Seen(List<Action> actions, List<String> mappings, Optional<String> note) {}

  static JButton button(String key, Runnable action) {
    JButton button = new JButton(Words.of(key));
    button.setName("store." + key);
    button.addActionListener(e -> action.run());
    return button;
  }

  private void addButtons(JPanel to) {
    to.add(button("open", () -> choose(false)), "split 3");
    to.add(button("make", () -> choose(true)));
    to.add(button("server", this::askServer));
  }

  private JPanel invitation() {
    JPanel panel = new JPanel(new MigLayout("fill, wrap 1", "[center]", "push[]12[]push"));
    panel.add(
        new JLabel(
            "<html><div width=320 align=center>" + Words.of("empty"), SwingConstants.CENTER));
    addButtons(panel);
    return panel;
  }

  private JPanel full() {
    JPanel bar = new JPanel(new MigLayout("insets 8, fillx, hidemode 3", "[][grow]"));
    addButtons(bar);
    name.setName("store.name");
    bar.add(name, "growx, wmin 60, wrap");
    bar.add(fault.component(), "span, growx, wmin 0");
    JTabbedPane tabs = new JTabbedPane();
    tabs.setName("store.tabs");
    tabs.addTab(Words.of("import"), bring.component());
    tabs.addTab(Words.of("journal"), journal.component());
    JPanel all = new JPanel(new BorderLayout());
    all.add(bar, BorderLayout.NORTH);
    all.add(tabs, BorderLayout.CENTER);
    return all;
  }

  private void choose(boolean anew) {
    JFileChooser chooser = new JFileChooser();
    chooser.setDialogTitle(Words.of(anew ? "make" : "open"));
    int answer = anew ? chooser.showSaveDialog(component) : chooser.showOpenDialog(component);
    if (answer == JFileChooser.APPROVE_OPTION) {
      Path file = chooser.getSelectedFile().toPath();
      if (anew && Store.exists(file.toString())) {
        tell(Words.of("exists", file.getFileName()));
      } else {
        show(file.toString(), anew);
      }
    }
  }

  private void askServer() {
    String address =
        JOptionPane.showInputDialog(
            component, Words.of("server.address"), "jdbc:postgresql://HOST/DATABASE?user=NAME");
    if (address != null && !address.isBlank()) {
      show(address.strip(), true);
    }
  }

  /** Opens a store that is there. */
  void open(String store) {
    show(store, false);
  }

  /** Opens a store, or makes it. */
  void show(String store, boolean anew) {
    desk.compute(
        "look",
        Words.of("looking"),
        progress -> {
          try (Store s =
              anew
                  ? Store.open(store, Clock.systemUTC())
                  : Store.openExisting(store, Clock.systemUTC())) {
            return new Seen(s.journal().last(ACTIONS), s.mappings(), s.note());
          }
        },
        seen -> {
          where = store;
          desk.keep(KEPT, store);
          take(store);
          name.setText(shortName(store));
          name.setToolTipText(store);
          fault.clear();
          seen.note().ifPresent(desk::status);
          bring.show(store, seen.mappings());
          journal.show(store, seen.actions());
          cards.show(component, "full");
        },
        this::tell);
  }

  private static String shortName(String store) {
    return store.startsWith("jdbc:") ? store : Path.of(store).getFileName().toString();
  }

  private void tell(String text) {
    cards.show(component, "full");
    fault.tell(text);
  }

  /** Looks at the store again after something was done to it. */
  private void look() {
    show(where, false);
  }

  @Override
  public JComponent component() {
    return component;
  }

  @Override
  public void show(Scenario scenario) {
    // A store is no part of the document.
  }

  @Override
  public void close() {
    inUse.forget(follow);
  }
}
