package siltwright.samples;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.cleanliness.Iso4406;
import siltwright.model.CleanlinessCode;
import siltwright.model.Machine;

/**
 * A limit of cleanliness and why it lies there.
 *
 * @param kind change, target, caution or alarm
 * @param code code
 * @param reason why it lies there
 */
public record SampleLimit(String kind, CleanlinessCode code, String reason) {
  private static final int SIZES = 3;

  /**
   * Returns the limits of a machine, the gravest last.
   *
   * @param machine the machine in the fleet file, if it is there
   * @param given target where the fleet file has none
   */
  public static List<SampleLimit> of(Optional<Machine> machine, Optional<CleanlinessCode> given) {
    List<SampleLimit> limits = new ArrayList<>();
    // Stricter than the target as a rule: it is to act before that is missed.
    machine
        .flatMap(Machine::sampling)
        .ifPresent(
            s ->
                limits.add(
                    new SampleLimit(
                        "change",
                        s.limit(),
                        "the fleet file's sampling limit, which calls for a change")));
    Optional<CleanlinessCode> target = machine.flatMap(m -> m.limits().target());
    boolean fromFile = target.isPresent();
    target = target.or(() -> given);
    target.ifPresent(
        t -> {
          limits.add(
              new SampleLimit(
                  "target", t, fromFile ? "the fleet file's target" : "given by --target"));
          limits.add(
              new SampleLimit(
                  "caution",
                  higher(t, 1),
                  "twice the target's counts: more than a laboratory's error explains"));
          limits.add(
              new SampleLimit(
                  "alarm",
                  higher(t, 2),
                  "four times the target's counts (common practice, no source)"));
        });
    return limits;
  }

  private static CleanlinessCode higher(CleanlinessCode c, int by) {
    return new CleanlinessCode(
        Math.min(CleanlinessCode.HIGHEST, c.at4() + by),
        Math.min(CleanlinessCode.HIGHEST, c.at6() + by),
        Math.min(CleanlinessCode.HIGHEST, c.at14() + by));
  }

  /** Returns the gravest of some limits, the gravest last, that a sample exceeds in any size. */
  public static Optional<SampleLimit> exceeded(OilRecord sample, List<SampleLimit> limits) {
    SampleLimit gravest = null;
    for (SampleLimit limit : limits) {
      double[] most = Iso4406.upperLimitsPerMl(limit.code());
      for (int i = 0; i < SIZES; i++) {
        if (sample.perMl()[i] > most[i]) {
          gravest = limit;
        }
      }
    }
    return Optional.ofNullable(gravest);
  }
}
