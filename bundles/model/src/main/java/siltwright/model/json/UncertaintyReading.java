package siltwright.model.json;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import siltwright.model.Distribution;
import siltwright.model.Machine;
import siltwright.model.MachineParameter;
import siltwright.model.Uncertainty;
import siltwright.model.json.Shape.Num;

/** Reads how well the numbers of a machine are known, and holds it against the machine. */
final class UncertaintyReading {
  private static final double SYMMETRY_TOLERANCE = 1e-9;

  private final Machine machine;
  private final Complaints complaints;
  private final Set<MachineParameter> before = new HashSet<>();

  UncertaintyReading(Machine machine, Complaints complaints) {
    this.machine = machine;
    this.complaints = complaints;
  }

  List<Uncertainty> read(List<Item> items) {
    List<Uncertainty> all = new ArrayList<>();
    for (Item item : items) {
      all.add(new Uncertainty(parameters(item), distribution(item)));
    }
    return all;
  }

  private List<MachineParameter> parameters(Item item) {
    List<MachineParameter> parameters = new ArrayList<>();
    if (item.has("parameter")) {
      parameter(item, item.text("parameter"), item.at("parameter")).ifPresent(parameters::add);
    }
    List<String> paths = item.texts("parameters");
    for (int i = 0; i < paths.size(); i++) {
      parameter(item, paths.get(i), item.at("parameters") + "/" + i).ifPresent(parameters::add);
    }
    return parameters;
  }

  /** Returns the parameter with a path, checked against the machine and the distribution. */
  private Optional<MachineParameter> parameter(Item item, String path, String pointer) {
    Optional<MachineParameter> parsed = MachineParameter.parse(path);
    if (parsed.isEmpty()) {
      complaints.add(pointer, Words.quoted(path), Words.choice(path, MachineParameter.forms()));
      return parsed;
    }
    MachineParameter parameter = parsed.get();
    Optional<Double> value = parameter.get(machine);
    if (value.isEmpty()) {
      complaints.add(pointer, Words.quoted(path), "the path of a number that the machine has");
    } else if (!before.add(parameter)) {
      complaints.add(pointer, Words.quoted(path), "each number once");
    } else if (item.has("low")) {
      checkEnds(item, parameter, value.get());
    } else if (!(value.get() > 0)) {
      complaints.add(
          pointer, path + " = " + Words.number(value.get()), "a number above 0, to be lognormal");
    }
    return parsed;
  }

  private void checkEnds(Item item, MachineParameter parameter, double value) {
    Num range = FleetForms.range(parameter);
    for (String end : List.of("low", "high")) {
      if (!range.holds(item.number(end))) {
        complaints.add(item.at(end), item.found(end), range.expected());
      }
    }
    double low = item.number("low");
    double high = item.number("high");
    boolean mode = item.text("distribution").equals(FleetForms.TRIANGULAR);
    if (low >= high) {
      complaints.add(item.at("high"), item.found("high"), "more than low, " + item.found("low"));
    } else if (mode && (value < low || value > high)) {
      complaints.add(
          item.pointer(),
          item.found("low") + " to " + item.found("high"),
          "low and high on either side of the machine's own value, " + Words.number(value));
    }
  }

  private Distribution distribution(Item item) {
    return switch (item.text("distribution")) {
      case FleetForms.LOGNORMAL -> new Distribution.LogNormal(item.number("factor95"));
      case FleetForms.TRIANGULAR ->
          new Distribution.Triangular(item.number("low"), item.number("high"));
      case FleetForms.UNIFORM -> new Distribution.Uniform(item.number("low"), item.number("high"));
      default -> joint(item);
    };
  }

  private Distribution joint(Item item) {
    double[][] covariance = item.rows("logCovariance");
    int size = item.texts("parameters").size();
    boolean square = covariance.length == size;
    for (double[] row : covariance) {
      square &= row.length == size;
    }
    if (!square || !isPositiveDefinite(covariance)) {
      complaints.add(
          item.at("logCovariance"),
          square ? "a matrix that is not one" : "a matrix of another size",
          "a symmetric, positive definite matrix with " + size + " rows and columns");
    }
    return new Distribution.JointLogNormal(covariance);
  }

  /** Tries the Cholesky decomposition, which a symmetric matrix has if it is positive definite. */
  private static boolean isPositiveDefinite(double[][] a) {
    double[][] l = new double[a.length][a.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j <= i; j++) {
        if (Math.abs(a[i][j] - a[j][i]) > SYMMETRY_TOLERANCE * Math.abs(a[i][j])) {
          return false;
        }
        double rest = a[i][j];
        for (int k = 0; k < j; k++) {
          rest -= l[i][k] * l[j][k];
        }
        if (i == j && !(rest > 0)) {
          return false;
        }
        l[i][j] = i == j ? Math.sqrt(rest) : rest / l[j][j];
      }
    }
    return true;
  }
}
