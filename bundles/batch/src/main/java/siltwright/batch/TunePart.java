package siltwright.batch;

import java.io.IOException;
import java.io.ObjectInputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Progress;
import siltwright.interval.Tuning;
import siltwright.model.json.Extensions;
import siltwright.model.json.FleetVariants;
import siltwright.wide.Work;

/** Tunes some machines that are like those of a fleet file, and gives the row of each. */
final class TunePart implements Work<ArrayList<MachineRows.Entry>, ArrayList<ArrayList<Object>>> {
  /** What there is without add-ons. */
  static final Extensions BASIC = Extensions.of(List::of, List::of, List::of);

  private static final long serialVersionUID = 1;

  private final byte[] fleet;
  private final String source;
  private final double horizonH;
  private final int draws;
  private final long seed;
  private transient FleetVariants variants;

  private TunePart(byte[] fleet, String source, Extensions extensions, Tuning.Settings settings) {
    this.fleet = fleet;
    this.source = source;
    this.horizonH = settings.horizonH();
    this.draws = settings.draws();
    this.seed = settings.seed();
    variants = new FleetVariants(fleet, source, extensions);
  }

  /**
   * Reads a fleet file.
   *
   * @throws siltwright.model.InputException if it is at fault
   */
  static TunePart of(Path fleet, Extensions extensions, Tuning.Settings settings) {
    return new TunePart(FleetVariants.bytes(fleet), fleet.toString(), extensions, settings);
  }

  private void readObject(ObjectInputStream in) throws IOException, ClassNotFoundException {
    in.defaultReadObject();
    variants = new FleetVariants(fleet, source, BASIC);
  }

  /** Returns the machines of the fleet file. */
  FleetVariants variants() {
    return variants;
  }

  @Override
  public ArrayList<ArrayList<Object>> of(ArrayList<MachineRows.Entry> part, Progress watching) {
    ArrayList<ArrayList<Object>> rows = new ArrayList<>();
    for (MachineRows.Entry entry : part) {
      rows.add(
          Answer.of(entry, variants, new Tuning.Settings(horizonH, draws, seed), watching).cells());
    }
    return rows;
  }
}
