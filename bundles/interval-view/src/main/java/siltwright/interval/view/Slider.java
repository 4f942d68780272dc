package siltwright.interval.view;

import javax.swing.JLabel;
import javax.swing.JSlider;
import siltwright.analysis.Numbers;
import siltwright.model.Units;

/**
 * A slider for a factor, in equal steps of its logarithm, or for a shift of the oil temperature.
 */
final class Slider {
  private static final int HALF = 60;
  private static final double MOST_SHIFT_DEG_C = 30;

  private final double most;
  private final JSlider slider = new JSlider(-HALF, HALF, 0);
  private final JLabel name;
  private final JLabel value = new JLabel();
  private Units units = Units.SI;

  /**
   * Makes a slider.
   *
   * @param key its text's key
   * @param most largest factor, the least being its inverse; 0 for a temperature
   */
  Slider(String key, double most, Runnable changed) {
    this.most = most;
    name = new JLabel(Words.of(key));
    name.setLabelFor(slider);
    slider.getAccessibleContext().setAccessibleName(Words.of(key));
    slider.setMajorTickSpacing(HALF);
    slider.addChangeListener(
        e -> {
          say();
          changed.run();
        });
    say();
  }

  private boolean isShift() {
    return most == 0;
  }

  double get() {
    double share = slider.getValue() / (double) HALF;
    return isShift() ? share * MOST_SHIFT_DEG_C : Math.pow(most, share);
  }

  void set(double x) {
    double share = isShift() ? x / MOST_SHIFT_DEG_C : Math.log(x) / Math.log(most);
    slider.setValue((int) Math.round(share * HALF));
  }

  void show(Units shown) {
    units = shown;
    say();
  }

  private void say() {
    String text;
    if (isShift()) {
      // a difference: the zero of the scale has no say
      double shift = units.shown(get(), "°C") - units.shown(0, "°C");
      text =
          Words.of(
              "slider.shift",
              (shift < 0 ? "\u2212" : "+") + Numbers.text(Math.rint(Math.abs(shift) * 10) / 10),
              units.unit("°C"));
    } else {
      double rounded = Math.rint(get() * 100) / 100;
      text = Words.of("slider.factor", Numbers.text(rounded));
    }
    value.setText(text);
    slider.getAccessibleContext().setAccessibleDescription(text);
  }

  JSlider slider() {
    return slider;
  }

  JLabel name() {
    return name;
  }

  JLabel value() {
    return value;
  }
}
