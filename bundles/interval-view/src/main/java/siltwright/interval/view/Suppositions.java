package siltwright.interval.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import siltwright.interval.Option;
import siltwright.interval.Trial;
import siltwright.model.Breather;
import siltwright.model.ChangeProcedure;
import siltwright.model.Element;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;
import siltwright.model.Units;

/** The form of a trial. */
final class Suppositions {
  private static final double MOST_PRICE = 4;
  private static final double MOST_INGRESS = 10;

  private final JPanel panel =
      new JPanel(new MigLayout("insets 8 8 8 18, fillx, wrap 2", "[grow][right]"));
  private final Choice<ChangeProcedure> procedure;
  private final Choice<Optional<Element>> element;
  private final Choice<Optional<Breather>> breather;
  private final Choice<Optional<OfflineFilter>> offline;
  private final Slider price;
  private final Slider downtime;
  private final Slider failure;
  private final Slider ingress;
  private final Slider oil;
  private final Runnable changed;
  private boolean filling;

  /** A combo box of records, by their texts. */
  private static final class Choice<T> {
    private final JComboBox<String> box = new JComboBox<>();
    private final JLabel label;
    private List<T> values = List.of();

    Choice(String key, Runnable changed) {
      label = new JLabel(Words.of(key));
      label.setLabelFor(box);
      box.getAccessibleContext().setAccessibleName(Words.of(key));
      box.addActionListener(e -> changed.run());
    }

    /** Puts choices in; the one with the text of the last one stays chosen where it is there. */
    void fill(List<T> choices, Function<T, String> text, String chosen) {
      values = choices;
      List<String> texts = choices.stream().map(text).toList();
      box.setModel(new DefaultComboBoxModel<>(texts.toArray(String[]::new)));
      box.setSelectedIndex(Math.max(0, texts.indexOf(chosen)));
      box.setEnabled(choices.size() > 1);
    }

    T get() {
      return values.get(Math.max(0, box.getSelectedIndex()));
    }

    String text() {
      return (String) box.getSelectedItem();
    }
  }

  Suppositions(Runnable whenChanged) {
    changed =
        () -> {
          if (!filling) {
            whenChanged.run();
          }
        };
    procedure = new Choice<>("procedure", changed);
    element = new Choice<>("element", changed);
    breather = new Choice<>("breather", changed);
    offline = new Choice<>("offline", changed);
    price = new Slider("elementPrice", MOST_PRICE, changed);
    downtime = new Slider("downtime", MOST_PRICE, changed);
    failure = new Slider("failure", MOST_PRICE, changed);
    ingress = new Slider("ingress", MOST_INGRESS, changed);
    oil = new Slider("oil", 0, changed);
    panel.getAccessibleContext().setAccessibleName(Words.of("controls"));
    for (Choice<?> c : List.of(procedure, element, breather, offline)) {
      panel.add(c.label, "split 2, span 2");
      panel.add(c.box, "growx, pushx, w 120:130");
    }
    for (Slider s : sliders()) {
      panel.add(s.name(), "gaptop 6");
      panel.add(s.value(), "gaptop 6");
      panel.add(s.slider(), "span 2, growx, wmin 120");
    }
  }

  private List<Slider> sliders() {
    return List.of(price, downtime, failure, ingress, oil);
  }

  JPanel panel() {
    return panel;
  }

  /** Offers what a machine allows; choices that it has too are kept, unless it is another one. */
  void show(Machine machine, boolean another, Units units) {
    filling = true;
    try {
      procedure.fill(
          machine.procedures(),
          ChangeProcedure::id,
          another ? machine.today().procedure() : procedure.text());
      element.fill(
          choices(machine.alternatives().elements()),
          e -> e.orElse(machine.returnFilter().element()).id(),
          another ? null : element.text());
      breather.fill(
          choices(machine.alternatives().breathers()),
          b -> b.map(Breather::id).orElse(Words.of("asToday")),
          another ? null : breather.text());
      offline.fill(
          choices(machine.alternatives().offlineFilters()),
          o -> o.map(OfflineFilter::id).orElse(Words.of("asToday")),
          another ? null : offline.text());
      sliders().forEach(s -> s.show(units));
      if (another) {
        level();
      }
    } finally {
      filling = false;
    }
  }

  private void level() {
    for (Slider s : sliders()) {
      s.slider().setValue(0);
    }
  }

  private static <T> List<Optional<T>> choices(List<T> others) {
    List<Optional<T>> all = new ArrayList<>();
    all.add(Optional.empty());
    others.forEach(o -> all.add(Optional.of(o)));
    return all;
  }

  /** Puts everything back to what a machine's file says. */
  void reset(Machine machine, Units units) {
    show(machine, true, units);
    changed.run();
  }

  Trial trial() {
    return new Trial(
        procedure.get().id(),
        new Option(element.get(), breather.get(), offline.get()),
        price.get(),
        downtime.get(),
        failure.get(),
        ingress.get(),
        oil.get());
  }
}
