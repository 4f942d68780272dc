package siltwright.model.history;

import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.osgi.annotation.versioning.ProviderType;

/**
 * The records of a fleet, read as of one moment: what others write meanwhile is not seen.
 *
 * <p>Records of a machine come one at a time in the order of time, so that a million of them need
 * no memory; whoever wants to keep some keeps them. A consumer may read other records meanwhile; an
 * exception that it throws ends the reading and comes out. Not for several threads at once.
 */
@ProviderType
public interface FleetHistory extends AutoCloseable {
  /** Returns the machines in the order of their ids. */
  List<KnownMachine> machines();

  /** Returns how many records of a kind a machine has; of all machines if the id is empty. */
  long count(RecordKind kind, String machine);

  /** Returns where the meter of a machine does not go on as it must, in the order of time. */
  List<MeterMend> mends(String machine);

  /**
   * Returns where the meter of any machine does not go on as it must, by machine in the order of
   * ids. Reads all records once, which for many machines is much quicker than one after the other.
   */
  List<MeterMend> mends();

  /** Reads the meter readings of a machine. */
  void readings(String machine, Consumer<? super MeterReading> each);

  /** Reads the element changes of a machine. */
  void changes(String machine, Consumer<? super ElementChange> each);

  /** Reads the oil samples of a machine. */
  void samples(String machine, Consumer<? super OilSample> each);

  /** Reads the pressure drops of a machine. */
  void drops(String machine, Consumer<? super DropReading> each);

  /** Reads the component replacements of a machine. */
  void replacements(String machine, Consumer<? super ComponentReplacement> each);

  /** Reads the faults that a machine reported. */
  void faults(String machine, Consumer<? super FaultReport> each);

  /** Reads when anything was recorded of a machine, kind by kind. */
  default void moments(String machine, Consumer<? super Moment> each) {
    readings(machine, r -> each.accept(r.moment()));
    changes(machine, r -> each.accept(r.moment()));
    samples(machine, r -> each.accept(r.moment()));
    drops(machine, r -> each.accept(r.moment()));
    replacements(machine, r -> each.accept(r.moment()));
    faults(machine, r -> each.accept(r.moment()));
  }

  /**
   * Reads the records of a machine of any kind, for whoever treats all kinds alike.
   *
   * @param each told the moment, and the values of {@link RecordKind#fields()}: a {@link Double}, a
   *     {@link String}, or null where nothing was recorded
   */
  void records(RecordKind kind, String machine, BiConsumer<? super Moment, Object[]> each);

  @Override
  void close();
}
