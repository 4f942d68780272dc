package siltwright.closure.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Figure;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.cleanliness.FiltrationRatio;
import siltwright.closure.ClassFit;
import siltwright.closure.ClosureModel;
import siltwright.closure.Errors;
import siltwright.model.Distribution;
import siltwright.model.Fleet;
import siltwright.model.Ingress;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.MachineParameter;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.Uncertainty;
import siltwright.samples.CountErrorParameters;
import siltwright.samples.OilRecord;
import siltwright.samples.OilRecords;

/** Ingress and field efficiency that a table of records implies, machine by machine. */
@Component
@Capability(namespace = "siltwright.command", name = "fit")
public final class FitAnalysis implements Analysis {
  private static final FleetFileParameter FLEET =
      new FleetFileParameter("fleet", "fleet file with the machines of the table; it is only read");
  private static final FleetFileParameter INTO =
      new FleetFileParameter(
          "into",
          "fleet file with the machines of the table, into which what was found is written as"
              + " distributions; instead of --fleet");
  private static final NumberParameter LIFE =
      NumberParameter.of(
          "life-error",
          "1",
          0.01,
          2,
          Errors.STANDARD.life(),
          "standard deviation of ln hours to the indicator from element to element");
  private static final NumberParameter READING =
      NumberParameter.of(
          "reading-error",
          "1",
          0.01,
          2,
          Errors.STANDARD.reading(),
          "standard deviation of ln of the pressure drop over the filter");
  private static final NumberParameter CAPACITY =
      NumberParameter.of(
          "capacity-error",
          "1",
          0,
          2,
          Errors.STANDARD.capacity(),
          "standard deviation of ln capacity, alike in all machines of a class");
  private static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE / 2_000_000, 1, "seed of the draws");

  private static final Description DESCRIPTION =
      Description.of(
          "fit",
          "Closing the balance",
          "Tells which ingress and field efficiency your samples, readings and indicator hours imply.",
          Scope.RECORDS,
          FLEET,
          INTO,
          CountErrorParameters.ALL,
          CountErrorParameters.BOTTLE,
          CountErrorParameters.SIZE,
          CountErrorParameters.VOLUME,
          LIFE,
          READING,
          CAPACITY,
          SEED);

  private static final double ROUND_UM = 10;
  private static final double WORKS_LIKE_NOTHING = 2;
  private static final double CONTRADICTED = 4;
  private static final double NOT_TOLD = 0.8;
  private static final double AGREE = 1.05;
  private static final double Z95 = 1.959963984540054;

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return OilRecords.columns();
  }

  /** A machine with its place in the fit of its class. */
  private record Fitted(Machine machine, FitRecords records, ClassFit fit, int place) {}

  @Override
  public Result run(Context context, Values values, Progress progress) {
    progress.check(0.01, "the table");
    if (values.find(FLEET).isPresent() && values.find(INTO).isPresent()) {
      throw new InputException(new Problem("option", "--fleet and --into", "both", "one of them"));
    }
    Fleet fleet =
        context
            .fleet()
            .orElseThrow(
                () ->
                    new InputException(
                        new Problem(
                            "option",
                            "--fleet",
                            "",
                            "a fleet file with the machines of the table")));
    Errors errors =
        new Errors(
            CountErrorParameters.of(values),
            values.get(LIFE),
            values.get(READING),
            values.get(CAPACITY));
    OilRecords records = OilRecords.of(context.records().orElseThrow());
    Result.Builder result = Result.of(DESCRIPTION, records.kept().source(), values);
    result.records(records.kept());
    List<String> strangers = new ArrayList<>();
    Map<String, List<Machine>> classes = new LinkedHashMap<>();
    Map<String, FitRecords> seen = new LinkedHashMap<>();
    for (String id : records.machines()) {
      Optional<Machine> machine = fleet.machine(id);
      if (machine.isEmpty()) {
        strangers.add(id);
        continue;
      }
      Machine m = machine.get();
      List<OilRecord> rows = records.of(id);
      FitRecords r = FitRecords.of(m, rows, errors.count());
      Ingress in = m.ingress();
      if (Ingress.rateMgPerH(in.reservoir()) + Ingress.rateMgPerH(in.returnLine()) <= 0) {
        result.finding(CAUTION, "The fleet file says that no dirt comes in; left out.", id);
      } else if (r.samples() + r.readings() + r.trips() == 0) {
        result.finding(
            CAUTION, "No sample in running, reading or indicator trip to fit; left out.", id);
      } else {
        seen.put(id, r);
        classes.computeIfAbsent(m.machineClass(), k -> new ArrayList<>()).add(m);
      }
    }
    if (seen.isEmpty()) {
      throw new InputException(
          new Problem(
              records.kept().source(),
              "",
              "no machine to fit",
              "machines of the fleet file with samples, readings or indicator trips"));
    }
    List<Fitted> all = new ArrayList<>();
    int done = 0;
    for (Map.Entry<String, List<Machine>> c : classes.entrySet()) {
      double from = 0.05 + 0.85 * done++ / classes.size();
      List<ClosureModel> models =
          c.getValue().stream().map(m -> new ClosureModel(m, seen.get(m.id()).lives())).toList();
      ClassFit fit =
          ClassFit.of(
              models,
              errors,
              values.get(SEED),
              (share, doing) ->
                  progress.report(from + 0.85 * share / classes.size(), c.getKey() + ": " + doing));
      for (int i = 0; i < models.size(); i++) {
        Machine m = c.getValue().get(i);
        all.add(new Fitted(m, seen.get(m.id()), fit, i));
      }
    }
    result.add(numbers(all));
    result.add(efficiencies(all));
    result.add(told(all));
    result.add(diagnosis(classes, all));
    result.add(figure(all));
    all.forEach(f -> finding(result, f));
    general(result, all, strangers);
    if (values.find(INTO).isPresent()) {
      all.forEach(f -> revise(result, f));
    }
    return result.build();
  }

  private static Cell range(ClassFit.Told t) {
    return new Cell.Range(t.low(), t.high());
  }

  private static Entry.Table numbers(List<Fitted> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Fitted f : all) {
      ClassFit.Told tank = f.fit().told(f.place(), ClosureModel::tankMgPerH);
      ClassFit.Told back = f.fit().told(f.place(), ClosureModel::returnMgPerH);
      ClassFit.Told sum = f.fit().told(f.place(), ClosureModel::ingressMgPerH);
      Ingress in = f.machine().ingress();
      rows.add(
          List.of(
              Cell.of(f.machine().id()),
              Cell.of(Ingress.rateMgPerH(in.reservoir()) + Ingress.rateMgPerH(in.returnLine())),
              Cell.of(sum.median()),
              range(sum),
              Cell.of(tank.median()),
              range(tank),
              Cell.of(back.median()),
              range(back)));
    }
    return new Entry.Table(
        "machines",
        "What the records imply",
        Entry.Use.READ,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("ingressSaid_mg_per_h", "Ingress in file", "mg/h"),
            new Column("ingress_mg_per_h", "All ingress", "mg/h"),
            new Column("ingress90_mg_per_h", "90 % interval", "mg/h"),
            new Column("reservoir_mg_per_h", "Into tank", "mg/h"),
            new Column("reservoir90_mg_per_h", "90 % interval", "mg/h"),
            new Column("returnLine_mg_per_h", "Into return line", "mg/h"),
            new Column("returnLine90_mg_per_h", "90 % interval", "mg/h")),
        rows);
  }

  private static Entry.Table efficiencies(List<Fitted> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Fitted f : all) {
      FiltrationRatio rated = FiltrationRatio.of(f.machine().returnFilter().element().beta());
      ClassFit.Told e = f.fit().told(f.place(), ClosureModel::efficiency);
      rows.add(
          List.of(
              Cell.of(f.machine().id()),
              Cell.of(f.machine().returnFilter().fieldEfficiency()),
              Cell.of(e.median()),
              range(e),
              Cell.of(rated.beta(ROUND_UM)),
              Cell.of(worksAs(rated, e.median()))));
    }
    return new Entry.Table(
        "efficiencies",
        "What elements do in the field",
        Entry.Use.READ,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("efficiencySaid", "Field efficiency in file", "1"),
            new Column("fieldEfficiency", "Field efficiency", "1"),
            new Column("fieldEfficiency90", "90 % interval", "1"),
            new Column("ratedBeta10", "Rated β10", "1"),
            new Column("fieldBeta10", "Works as β10", "1")),
        rows);
  }

  /** Filtration ratio at 10 µm(c) that a field efficiency factor leaves of the rated one. */
  private static double worksAs(FiltrationRatio rated, double fieldEfficiency) {
    return 1 / (1 - fieldEfficiency * rated.efficiency(ROUND_UM));
  }

  /** What the records say, and what they do not. */
  private static Entry.Table told(List<Fitted> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Fitted f : all) {
      rows.add(
          List.of(
              Cell.of(f.machine().id()),
              Cell.of(f.records().lives().size()),
              Cell.of(f.records().samples()),
              Cell.of(f.records().readings()),
              Cell.of(f.records().trips()),
              Cell.of(f.fit().narrowed(f.place(), 0)),
              Cell.of(f.fit().narrowed(f.place(), 1)),
              Cell.of(f.fit().narrowed(f.place(), 2)),
              Cell.of(f.fit().correlation(f.place(), 1, 2)),
              Cell.of(f.fit().misfit(f.place()))));
    }
    return new Entry.Table(
        "told",
        "How much the records tell (spread left of what was open before; 1 is nothing)",
        Entry.Use.READ,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("elements", "Elements", "1"),
            new Column("samples", "Samples", "1"),
            new Column("readings", "Readings", "1"),
            new Column("trips", "Trips", "1"),
            new Column("leftIngress", "All ingress", "1"),
            new Column("leftTank", "Share into tank", "1"),
            new Column("leftEfficiency", "Field efficiency", "1"),
            new Column("tankWithEfficiency", "Correlation of the last two", "1"),
            new Column("misfit", "Mean squared residual", "1")),
        rows);
  }

  private static Entry.Table diagnosis(Map<String, List<Machine>> classes, List<Fitted> all) {
    List<List<Cell>> rows = new ArrayList<>();
    classes.forEach(
        (name, machines) -> {
          ClassFit fit =
              all.stream()
                  .filter(f -> f.machine().equals(machines.get(0)))
                  .findFirst()
                  .orElseThrow()
                  .fit();
          rows.add(
              List.of(
                  Cell.of(name),
                  Cell.of(machines.size()),
                  Cell.of(fit.rHat()),
                  Cell.of(fit.rHat() < AGREE ? "chains agree" : "chains do not agree yet")));
        });
    return new Entry.Table(
        "classes",
        "Machines of a class are pooled in part",
        Entry.Use.READ,
        List.of(
            new Column("class", "Class", ""),
            new Column("machines", "Machines", "1"),
            new Column("rHat", "Largest R-hat", "1"),
            new Column("convergence", "Convergence", "")),
        rows);
  }

  private static Figure figure(List<Fitted> all) {
    int n = all.size();
    double[] xs = new double[n];
    double[][] found = new double[3][n];
    double[] said = new double[n];
    double[][] f = new double[3][n];
    double[] saidF = new double[n];
    for (int i = 0; i < n; i++) {
      Fitted m = all.get(i);
      xs[i] = i + 1;
      ClassFit.Told in = m.fit().told(m.place(), ClosureModel::ingressMgPerH);
      ClassFit.Told e = m.fit().told(m.place(), ClosureModel::efficiency);
      found[0][i] = in.low();
      found[1][i] = in.median();
      found[2][i] = in.high();
      f[0][i] = e.low();
      f[1][i] = e.median();
      f[2][i] = e.high();
      Ingress file = m.machine().ingress();
      said[i] = Ingress.rateMgPerH(file.reservoir()) + Ingress.rateMgPerH(file.returnLine());
      saidF[i] = m.machine().returnFilter().fieldEfficiency();
    }
    return new Figure(
        "closure",
        "What the records imply against the fleet file",
        "Machines in the order of the tables. Where the mark of the file lies outside the band, file"
            + " and records contradict each other.",
        Axis.linear("Machine, by its place in the table", "1"),
        List.of(
            new Panel(Axis.log("All ingress", "mg/h"), layers(xs, found, said)),
            new Panel(Axis.linear("Field efficiency", "1"), layers(xs, f, saidF))));
  }

  private static List<Layer> layers(double[] xs, double[][] found, double[] said) {
    List<Layer> layers = new ArrayList<>();
    if (xs.length > 1) {
      layers.add(new Layer.Band("90 % interval", xs, found[0], found[2]));
    }
    layers.add(new Layer.Points("records", xs, found[1], Layer.Mark.EVENT));
    layers.add(new Layer.Points("fleet file", xs, said, Layer.Mark.CENSORED));
    return layers;
  }

  /** The one sentence that matters, in plain words. */
  private static void finding(Result.Builder result, Fitted f) {
    FiltrationRatio rated = FiltrationRatio.of(f.machine().returnFilter().element().beta());
    ClassFit.Told field = f.fit().told(f.place(), ClosureModel::efficiency);
    double works = worksAs(rated, field.median());
    double low = worksAs(rated, field.low());
    double high = worksAs(rated, field.high());
    String says =
        "This element works as β10 = "
            + Numbers.fixed(works, 1)
            + " ("
            + Numbers.fixed(low, 1)
            + " to "
            + Numbers.fixed(high, 1)
            + "); rated "
            + Numbers.text(Math.rint(rated.beta(ROUND_UM) * 10) / 10)
            + ".";
    ClassFit.Told in = f.fit().told(f.place(), ClosureModel::ingressMgPerH);
    Ingress file = f.machine().ingress();
    double said = Ingress.rateMgPerH(file.reservoir()) + Ingress.rateMgPerH(file.returnLine());
    String dirt = " About " + Numbers.text(Math.rint(in.median())) + " mg of dirt come in an hour";
    dirt +=
        in.low() > said
            ? ", more than the fleet file says: check breather, rod seals, wear."
            : in.high() < said ? ", less than the fleet file says." : ", as the fleet file has it.";
    boolean poor = works < WORKS_LIKE_NOTHING;
    result.finding(
        poor ? CAUTION : NOTE,
        says + (poor ? " Check bypass, fit of the element, sampling point." : "") + dirt,
        f.machine().id());
    if (f.fit().misfit(f.place()) > CONTRADICTED) {
      result.finding(
          WARNING,
          "No ingress and field efficiency explain this record: look for units, samples from another"
              + " point, a machine whose ingress changed.",
          f.machine().id());
    }
  }

  private static void general(Result.Builder result, List<Fitted> all, List<String> strangers) {
    if (!strangers.isEmpty()) {
      result.finding(
          CAUTION,
          "Machines that the fleet file does not know are left out: "
              + String.join(", ", strangers)
              + ".",
          "");
    }
    List<String> ingress = named(all, 0);
    if (!ingress.isEmpty()) {
      result.finding(
          CAUTION,
          "All ingress is not told by the records of "
              + String.join(", ", ingress)
              + ": hours to the indicator or readings of the drop would tell it.",
          "");
    }
    List<String> tank = named(all, 1);
    if (!tank.isEmpty()) {
      result.finding(
          NOTE,
          "How much goes straight into the tank cannot be told from these records (of "
              + String.join(", ", tank)
              + "): the split shown is the fleet file's. One counter in the line would settle it, over a"
              + " spell with the tank as it is and one with a fine breather on it (never a plug);"
              + " more bottles hardly would, upstream of the filter or from the tank.",
          "");
    }
    List<String> efficiency = named(all, 2);
    if (!efficiency.isEmpty()) {
      result.finding(
          CAUTION,
          "Field efficiency is not told by the records of "
              + String.join(", ", efficiency)
              + ": samples in running would tell it.",
          "");
    }
    result.finding(
        NOTE,
        "Field efficiency and the share of the return flow that is filtered act alike in every"
            + " record, and so do ingress and the element's capacity: only their products are told."
            + " A flow measured through the filter, and a spent element weighed, would part them.",
        "");
    all.stream()
        .map(f -> f.machine().id() + ": " + String.join("; ", f.records().passedOver()))
        .filter(s -> !s.endsWith(": "))
        .forEach(s -> result.finding(NOTE, "Not used: " + s + ".", ""));
    if (all.stream().anyMatch(f -> f.fit().rHat() >= AGREE)) {
      result.finding(
          CAUTION,
          "The chains of a class do not agree yet (R-hat of 1.05 or more): take its intervals as"
              + " rough.",
          "");
    }
  }

  private static List<String> named(List<Fitted> all, int number) {
    return all.stream()
        .filter(f -> f.fit().narrowed(f.place(), number) > NOT_TOLD)
        .map(f -> f.machine().id())
        .toList();
  }

  private static void revise(Result.Builder result, Fitted f) {
    List<MachineParameter> parameters = new ArrayList<>();
    List<ClassFit.Number> numbers = new ArrayList<>();
    Ingress in = f.machine().ingress();
    if (Ingress.rateMgPerH(in.reservoir()) > 0) {
      parameters.add(new MachineParameter(MachineParameter.Group.INGRESS, "", "reservoir"));
      numbers.add(ClosureModel::tankMgPerH);
    }
    if (Ingress.rateMgPerH(in.returnLine()) > 0) {
      parameters.add(new MachineParameter(MachineParameter.Group.INGRESS, "", "returnLine"));
      numbers.add(ClosureModel::returnMgPerH);
    }
    parameters.add(
        new MachineParameter(MachineParameter.Group.RETURN_FILTER, "", "fieldEfficiency"));
    numbers.add(ClosureModel::efficiency);
    List<Revision.Value> values = new ArrayList<>();
    for (int i = 0; i < parameters.size(); i++) {
      values.add(
          new Revision.Value(parameters.get(i), f.fit().told(f.place(), numbers.get(i)).median()));
    }
    double[][] covariance = f.fit().logCovariance(f.place(), numbers);
    Distribution d =
        parameters.size() == 1
            ? new Distribution.LogNormal(
                Math.max(1.001, Math.exp(Z95 * Math.sqrt(covariance[0][0]))))
            : new Distribution.JointLogNormal(covariance);
    result.add(new Revision(f.machine().id(), values, Optional.of(new Uncertainty(parameters, d))));
  }
}
