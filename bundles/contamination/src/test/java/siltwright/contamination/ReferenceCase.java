package siltwright.contamination;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import siltwright.model.Loading;
import siltwright.model.SizeBands;

/** A row of {@code reference/balance.csv}; its columns are told in src/test/reference/README.md. */
record ReferenceCase(Map<String, String> columns) {
  /** Read once: a test of one row alone would else read them all. */
  private static final List<ReferenceCase> ALL = read();

  static List<ReferenceCase> all() {
    return ALL;
  }

  private static List<ReferenceCase> read() {
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                ReferenceCase.class.getResourceAsStream("reference/balance.csv"),
                StandardCharsets.UTF_8))) {
      List<String> lines = in.lines().filter(l -> !l.startsWith("#")).toList();
      String[] names = lines.get(0).split(",");
      List<ReferenceCase> cases = new ArrayList<>();
      for (String line : lines.subList(1, lines.size())) {
        String[] cells = line.split(",", -1);
        Map<String, String> columns = new HashMap<>();
        for (int i = 0; i < names.length; i++) {
          columns.put(names[i], cells[i]);
        }
        cases.add(new ReferenceCase(columns));
      }
      return List.copyOf(cases);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  double get(String name) {
    return Double.parseDouble(columns.get(name));
  }

  /** Numbers of the six bands; the name has # where the band stands. */
  double[] bands(String name) {
    double[] values = new double[SizeBands.COUNT];
    for (int j = 0; j < values.length; j++) {
      values[j] = get(name.replace("#", Integer.toString(j)));
    }
    return values;
  }

  /** Numbers of the duty states; the name has # where the state stands. */
  double[] states(String name) {
    double[] values = new double[(int) get("states")];
    for (int k = 0; k < values.length; k++) {
      values[k] = get(name.replace("#", Integer.toString(k + 1)));
    }
    return values;
  }

  Circuit circuit() {
    return builder().build();
  }

  /** The circuit, with nothing but the element to take dirt out. */
  Circuit.Builder elementAlone() {
    Circuit.Builder b = builder();
    b.pressureCapture = new double[SizeBands.COUNT];
    b.offlineEfficiency = new double[SizeBands.COUNT];
    b.settlingPerH = new double[SizeBands.COUNT];
    return b;
  }

  Circuit.Builder builder() {
    Circuit.Builder b = new Circuit.Builder();
    b.volumeL = get("volume_L");
    b.share = states("share_#");
    b.flowLPerMin = states("flow_#_L_per_min");
    b.viscosityMm2PerS = states("viscosity_#_mm2_per_s");
    b.housingKPa = new double[b.share.length];
    b.filteredShare = get("filtered_share");
    b.fieldEfficiency = get("field_factor");
    b.elementEfficiency = bands("efficiency_#");
    b.pressureCapture = bands("pressure_efficiency_#");
    b.offlineLPerMin = get("offline_flow_L_per_min");
    b.offlineEfficiency = bands("offline_efficiency_#");
    b.settlingPerH = bands("settling_#_per_h");
    b.reservoirPerH = bands("tank_ingress_#_per_h");
    b.returnPerH = bands("return_ingress_#_per_h");
    b.capacityG = get("capacity_g");
    b.cleanDropKPa = get("clean_kPa");
    b.ratedFlowLPerMin = get("rated_flow_L_per_min");
    b.ratedViscosityMm2PerS = get("rated_viscosity_mm2_per_s");
    b.loading = Loading.blocking(get("exponent"), get("terminal_kPa") / get("clean_kPa"));
    b.crackingKPa = get("crack_kPa");
    b.fullFlowKPa = get("full_kPa");
    b.finesShare = get("fines_share");
    return b;
  }

  List<Wear> wear() {
    double[] weight = bands("wear_weight_#");
    for (int j = 0; j < weight.length; j++) {
      weight[j] /= get("wear_reference_per_mL");
    }
    return List.of(new Wear(weight, get("wear_power"), get("wear_floor")));
  }

  @Override
  public String toString() {
    return columns.get("case") + " " + columns.get("tag");
  }
}
