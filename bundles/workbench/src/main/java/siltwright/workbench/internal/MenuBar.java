package siltwright.workbench.internal;

import java.awt.event.InputEvent;
import java.awt.event.KeyEvent;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javax.swing.ButtonGroup;
import javax.swing.JMenu;
import javax.swing.JMenuBar;
import javax.swing.JMenuItem;
import javax.swing.JOptionPane;
import javax.swing.JRadioButtonMenuItem;
import javax.swing.KeyStroke;
import javax.swing.MenuElement;
import siltwright.model.Units;
import siltwright.workbench.View;
import siltwright.workbench.parts.Wrapped;

/** The menus. All that the window can do stands in them, each with its key. */
final class MenuBar {
  private final Bench bench;
  private final JMenuBar bar = new JMenuBar();
  private final JMenu recent = menu("menu.recent");
  private final JMenu views = menu("menu.views");
  private final JMenu analyses = menu("menu.analyses");
  private final JMenu arrangements = menu("menu.arrangements");
  private final Act undo;
  private final Act redo;
  private final Act save;
  private final Act saveAs;
  private final Act close;

  MenuBar(Bench bench) {
    this.bench = bench;
    undo = new Act(Texts.of("menu.undo"), "Z", () -> bench.document().undo());
    redo = new Act(Texts.of("menu.redo"), "shift Z", () -> bench.document().redo());
    save = new Act(Texts.of("menu.save"), "S", () -> bench.window().save());
    saveAs = new Act(Texts.of("menu.saveAs"), "shift S", () -> bench.window().saveAs());
    close = new Act(Texts.of("menu.close"), "shift W", () -> bench.window().closeDocument());
    bar.add(fileMenu());
    bar.add(editMenu());
    bar.add(views);
    bar.add(analyses);
    bar.add(windowMenu());
    bar.add(lookMenu());
    bar.add(helpMenu());
    viewsChanged();
    documentChanged();
  }

  JMenuBar bar() {
    return bar;
  }

  private static JMenu menu(String key) {
    Act named = new Act(Texts.of(key), "", () -> {});
    JMenu menu = new JMenu(named);
    menu.setName(key);
    return menu;
  }

  private static JMenuItem item(JMenu menu, Act act) {
    return menu.add(act);
  }

  private JMenu fileMenu() {
    JMenu menu = menu("menu.file");
    item(menu, new Act(Texts.of("menu.open"), "O", () -> bench.window().open()));
    item(menu, new Act(Texts.of("menu.demo"), "D", () -> bench.window().openDemo()));
    menu.add(recent);
    item(menu, new Act(Texts.of("menu.records"), "I", () -> bench.window().importRecords()));
    menu.addSeparator();
    item(menu, save);
    item(menu, saveAs);
    item(menu, close);
    menu.addSeparator();
    item(menu, new Act(Texts.of("menu.exit"), "Q", bench::close));
    return menu;
  }

  private JMenu editMenu() {
    JMenu menu = menu("menu.edit");
    item(menu, undo);
    item(menu, redo);
    menu.addSeparator();
    item(menu, new Act(Texts.of("menu.find"), "F", this::find));
    return menu;
  }

  private void find() {
    open(BuiltIn.FLEET);
    bench
        .panes()
        .pane(BuiltIn.FLEET)
        .flatMap(Docked::pane)
        .ifPresent(
            pane -> {
              if (pane instanceof FleetPane fleet) {
                fleet.focusSearch();
              }
            });
  }

  private void open(String id) {
    bench.views().stream()
        .filter(v -> v.id().equals(id))
        .findFirst()
        .ifPresent(v -> bench.panes().open(v));
  }

  private JMenu windowMenu() {
    JMenu menu = menu("menu.window");
    menu.add(arrangements);
    menu.addSeparator();
    item(menu, new Act(Texts.of("menu.next"), "F6", () -> bench.panes().next(1)));
    item(menu, new Act(Texts.of("menu.previous"), "shift F6", () -> bench.panes().next(-1)));
    item(menu, new Act(Texts.of("menu.tearOff"), "T", this::tearOff));
    item(menu, new Act(Texts.of("menu.closePane"), "W", this::closePane));
    return menu;
  }

  private void tearOff() {
    bench.panes().current().ifPresent(bench.panes()::tearOff);
  }

  private void closePane() {
    bench.panes().current().ifPresent(bench.panes()::close);
  }

  private JMenu lookMenu() {
    JMenu menu = menu("menu.look");
    ButtonGroup themes = new ButtonGroup();
    for (Themes theme : Themes.values()) {
      String text = Texts.of("theme." + theme.name());
      Act act = new Act(text, "", () -> bench.setTheme(theme)).selected(theme == bench.theme());
      JRadioButtonMenuItem item = new JRadioButtonMenuItem(act);
      themes.add(item);
      menu.add(item);
    }
    menu.addSeparator();
    ButtonGroup units = new ButtonGroup();
    for (Units each : Units.values()) {
      String text = Texts.of("units.menu." + each.name());
      Act act =
          new Act(text, "", () -> bench.setUnits(each)).selected(each == bench.scenario().units());
      JRadioButtonMenuItem item = new JRadioButtonMenuItem(act);
      units.add(item);
      menu.add(item);
    }
    return menu;
  }

  private JMenu helpMenu() {
    JMenu menu = menu("menu.help");
    item(menu, new Act(Texts.of("menu.keys"), "F1", this::tellKeys));
    item(menu, new Act(Texts.of("menu.about"), "", this::tellAbout));
    return menu;
  }

  private void tellKeys() {
    StringBuilder text = new StringBuilder(Texts.of("help.keys")).append("\n\n");
    items(bar)
        .filter(item -> item.getAccelerator() != null)
        .forEach(
            item ->
                text.append(keys(item.getAccelerator()))
                    .append("  ")
                    .append(item.getText())
                    .append('\n'));
    JOptionPane.showMessageDialog(
        bench.window().frame(),
        Wrapped.text(text.toString()),
        Texts.of("help.keysTitle"),
        JOptionPane.PLAIN_MESSAGE);
  }

  private static String keys(KeyStroke key) {
    String modifiers = InputEvent.getModifiersExText(key.getModifiers());
    String name = KeyEvent.getKeyText(key.getKeyCode());
    return modifiers.isEmpty() ? name : modifiers + "+" + name;
  }

  private void tellAbout() {
    JOptionPane.showMessageDialog(
        bench.window().frame(),
        new AboutPage(bench.distribution()),
        Texts.of("about.title"),
        JOptionPane.PLAIN_MESSAGE);
  }

  /** Does what a key stands for in the menus; returns whether there is such a key. */
  boolean perform(KeyStroke key) {
    Optional<JMenuItem> item =
        items(bar).filter(i -> key.equals(i.getAccelerator()) && i.isEnabled()).findFirst();
    item.ifPresent(JMenuItem::doClick);
    return item.isPresent();
  }

  /** Returns the items of all menus, those of menus in menus too. */
  private static Stream<JMenuItem> items(MenuElement of) {
    return Stream.of(of.getSubElements())
        .flatMap(
            each ->
                each instanceof JMenuItem item && !(each instanceof JMenu)
                    ? Stream.of(item)
                    : items(each));
  }

  /** Lists the views and arrangements that there are now. */
  void viewsChanged() {
    views.removeAll();
    analyses.removeAll();
    int key = 1;
    for (View view : bench.views()) {
      boolean analysis = view instanceof AnalysisView;
      String keyOf = analysis || key > 9 ? "" : String.valueOf(key);
      JMenuItem item =
          item(
              analysis ? analyses : views,
              new Act(view.title(), keyOf, () -> bench.panes().open(view)));
      item.setName("open." + view.id());
      key += analysis ? 0 : 1;
    }
    JMenu another = menu("menu.another");
    bench.views().stream()
        .filter(View::several)
        .forEach(
            v -> {
              Act act = new Act(v.title(), "", () -> bench.panes().openAnother(v));
              item(another, act).setName("another." + v.id());
            });
    if (another.getItemCount() > 0) {
      views.addSeparator();
      views.add(another);
    }
    analyses.setEnabled(analyses.getItemCount() > 0);
    arrangements.removeAll();
    for (String id : Arrangement.IDS) {
      item(arrangements, new Act(Texts.of("arrangement." + id), "", () -> bench.arrange(id)));
    }
    List<String> own = bench.ownArrangements();
    if (!own.isEmpty()) {
      arrangements.addSeparator();
      own.forEach(name -> item(arrangements, Act.plain(name, () -> bench.arrange(name))));
    }
    arrangements.addSeparator();
    item(arrangements, new Act(Texts.of("arrangement.save"), "", this::saveArrangement));
    JMenu delete = menu("arrangement.delete");
    own.forEach(name -> item(delete, Act.plain(name, () -> bench.deleteArrangement(name))));
    delete.setEnabled(!own.isEmpty());
    arrangements.add(delete);
  }

  private void saveArrangement() {
    bench
        .window()
        .ask(Texts.of("arrangement.saveTitle"), Texts.of("arrangement.name"), "")
        .map(name -> name.strip().replaceAll("[^\\p{L}\\p{N} ._-]", "_"))
        .filter(name -> !Arrangement.IDS.contains(name))
        .ifPresent(bench::saveArrangement);
  }

  /** Says what undo and redo would do, and what can be done now. */
  void documentChanged() {
    Document document = bench.document();
    boolean open = document.text().isPresent();
    undo.setText(
        document.undoLabel().map(l -> Texts.of("menu.undoOf", l)).orElse(Texts.of("menu.undo")));
    redo.setText(
        document.redoLabel().map(l -> Texts.of("menu.redoOf", l)).orElse(Texts.of("menu.redo")));
    undo.setEnabled(document.undoLabel().isPresent());
    redo.setEnabled(document.redoLabel().isPresent());
    save.setEnabled(open && (document.isDirty() || document.file().isEmpty()));
    saveAs.setEnabled(open);
    close.setEnabled(open);
    arrangements.setEnabled(open);
    recent.removeAll();
    for (Path file : bench.settings().recent()) {
      item(recent, Act.plain(file.toString(), () -> bench.openAny(file)));
    }
    recent.setEnabled(recent.getItemCount() > 0);
  }
}
