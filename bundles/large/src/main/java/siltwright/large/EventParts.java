package siltwright.large;

import java.io.Serializable;
import java.util.ArrayList;
import siltwright.analysis.Progress;
import siltwright.fleet.EventsInParts;
import siltwright.wide.Work;

/** What is done with events in a range of rows. */
final class EventParts {
  private EventParts() {}

  /**
   * The first look.
   *
   * @param by column of the groups
   * @param gridH grid of the risk sets, h
   */
  record First(String by, double gridH) implements Work<RowRange, Looked> {
    @Override
    public Looked of(RowRange part, Progress watching) {
      EventMachines machines = EventMachines.read(part, by);
      ArrayList<EventsInParts.Look> looks = new ArrayList<>();
      machines.groups().forEach((group, data) -> looks.add(EventsInParts.look(group, data, gridH)));
      return new Looked(looks, machines.ids(), machines.openEnded(), machines.faults());
    }
  }

  /**
   * What a range comes to at first.
   *
   * @param looks by group
   * @param ids a number for each machine
   * @param openEnded machines without an end of watching
   * @param faults how the rows fared
   */
  record Looked(ArrayList<EventsInParts.Look> looks, long[] ids, long openEnded, Faults faults)
      implements Serializable {}

  /**
   * What machines add to variances.
   *
   * @param by column of the groups
   * @param tables risk sets of all
   */
  record Spreads(String by, EventsInParts.Tables tables)
      implements Work<RowRange, ArrayList<EventsInParts.Spread>> {
    @Override
    public ArrayList<EventsInParts.Spread> of(RowRange part, Progress watching) {
      ArrayList<EventsInParts.Spread> spreads = new ArrayList<>();
      EventMachines.read(part, by)
          .groups()
          .forEach((group, data) -> spreads.add(EventsInParts.spread(group, data, tables)));
      return spreads;
    }
  }
}
