package siltwright.life.view;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JComboBox;
import siltwright.analysis.Records;
import siltwright.workbench.parts.Bar;

/** What the user chooses of a fit: its law, and the columns and mode that it goes by. */
final class FitChoices {
  /** Columns that the analysis reads itself. */
  private static final Set<String> OWN =
      Set.of("hours", "event", "entry_hours", "lower_hours", "upper_hours", "count", "mode");

  private final JComboBox<String> law = box("law", "all", "weibull", "lognormal", "exponential");
  private final JComboBox<String> covariate = box("covariate");
  private final JComboBox<String> clean = box("clean");
  private final JComboBox<String> mode = box("mode");
  private boolean filling;

  /**
   * Makes choices of no table.
   *
   * @param changed called when the user chooses
   */
  FitChoices(Runnable changed) {
    for (JComboBox<String> box : boxes()) {
      box.addActionListener(
          e -> {
            if (!filling) {
              changed.run();
            }
          });
    }
  }

  /** Returns a box with the name and the text of a key. */
  static JComboBox<String> box(String key, String... choices) {
    JComboBox<String> box = new JComboBox<>(choices);
    box.setName("life." + key);
    box.getAccessibleContext().setAccessibleName(Words.of(key));
    return box;
  }

  private List<JComboBox<String>> boxes() {
    return List.of(law, covariate, clean, mode);
  }

  /** Puts the boxes with their labels into a bar. */
  void addTo(Bar bar) {
    for (JComboBox<String> box : boxes()) {
      bar.addLabelled(box.getAccessibleContext().getAccessibleName(), box);
    }
  }

  /** Offers the columns and failure modes of a table; none of them is chosen. */
  void fill(Records records) {
    List<String> others =
        records.columns().stream().map(Records.Column::name).filter(n -> !OWN.contains(n)).toList();
    List<String> modes =
        records
            .find("mode")
            .filter(Records.Words.class::isInstance)
            .map(c -> ((Records.Words) c).words())
            .orElse(List.of());
    filling = true;
    fill(covariate, Words.of("none"), others);
    fill(clean, Words.of("none"), others);
    fill(mode, Words.of("all"), modes);
    filling = false;
  }

  private static void fill(JComboBox<String> box, String first, List<String> others) {
    List<String> all = new ArrayList<>(List.of(first));
    all.addAll(others);
    box.setModel(new DefaultComboBoxModel<>(all.toArray(String[]::new)));
    box.setEnabled(!others.isEmpty());
  }

  /** Returns what is chosen, by the names of the analysis' parameters. */
  Map<String, String> options() {
    Map<String, String> options = new LinkedHashMap<>();
    options.put("distribution", (String) law.getSelectedItem());
    put(options, "covariate", covariate);
    put(options, "clean-column", clean);
    put(options, "mode", mode);
    return options;
  }

  private static void put(Map<String, String> options, String name, JComboBox<String> box) {
    if (box.getSelectedIndex() > 0) {
      options.put(name, (String) box.getSelectedItem());
    }
  }
}
