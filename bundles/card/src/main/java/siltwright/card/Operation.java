package siltwright.card;

import static siltwright.card.Hazard.FLUID_INJECTION;
import static siltwright.card.Hazard.HOT_OIL;
import static siltwright.card.Hazard.LIFTING;
import static siltwright.card.Hazard.MACHINE_MOVES;
import static siltwright.card.Hazard.SPILL;
import static siltwright.card.Hazard.STORED_ENERGY;
import static siltwright.card.Hazard.TANK_PRESSURE;
import static siltwright.card.Hazard.WORKING_HEIGHT;

import java.util.Arrays;
import java.util.List;

/**
 * What a step does. It decides which hazards a step has at least, whatever a template says of it,
 * so that no template can print the step without the caution before it.
 *
 * <p>Source: common practice, no source. The order that {@link StepOrder} asks for follows from it.
 */
public enum Operation {
  /** Card read, parts and tools laid out. */
  PREPARE("prepare"),
  /** Reading taken with the machine running warm. */
  READ("read", MACHINE_MOVES),
  /** Machine parked, loads lowered, engine off. */
  PARK("park", STORED_ENERGY, MACHINE_MOVES),
  /** Locked and tagged out, tried. */
  LOCK_OUT("lock-out", MACHINE_MOVES),
  /** Shut-in pressure worked off, accumulators let off. */
  RELEASE_ENERGY("release-energy", STORED_ENERGY, FLUID_INJECTION),
  /** Pressure of the tank let off. */
  RELEASE_TANK("release-tank", TANK_PRESSURE, HOT_OIL),
  /** Housing reached and its surroundings cleaned. */
  CLEAN("clean", WORKING_HEIGHT),
  /** Cover of the housing taken off. */
  OPEN_HOUSING("open-housing", TANK_PRESSURE, HOT_OIL, SPILL),
  /** Canister turned until it seals. */
  SHUT_CANISTER("shut-canister", HOT_OIL),
  /** Ports to the tank capped. */
  CAP_PORTS("cap-ports", HOT_OIL),
  /** Canister or element lifted out. */
  LIFT_OUT("lift-out", HOT_OIL, SPILL, LIFTING),
  /** Element drawn out of the canister on the bench. */
  DRAW_ELEMENT("draw-element", SPILL),
  /** Old element, bowl and seals looked at. */
  INSPECT("inspect"),
  /** Bowl or canister wiped out. */
  WIPE("wipe"),
  /** New seals and new element fitted. */
  FIT_ELEMENT("fit-element"),
  /** Canister let down and turned open. */
  OPEN_CANISTER("open-canister", LIFTING),
  /** Caps taken off the ports. */
  UNCAP_PORTS("uncap-ports"),
  /** Cover put on and tightened. */
  CLOSE_HOUSING("close-housing"),
  /** Oil topped up. */
  TOP_UP("top-up", SPILL),
  /** Lock taken off, machine started without load. */
  RESTART("restart", MACHINE_MOVES, FLUID_INJECTION),
  /** Looked for leaks. */
  LEAK_CHECK("leak-check", FLUID_INJECTION, HOT_OIL),
  /** Oil samples taken. */
  SAMPLE("sample", FLUID_INJECTION, HOT_OIL),
  /** Card filled and signed, waste handed in. */
  FINISH("finish", SPILL),
  /** Something of the site's own; its hazards are those that the template names. */
  OTHER("other");

  private final String word;
  private final List<Hazard> hazards;

  Operation(String word, Hazard... hazards) {
    this.word = word;
    this.hazards = List.of(hazards);
  }

  /** Returns the word that templates use. */
  public String word() {
    return word;
  }

  /** Returns the hazards that it always has. */
  public List<Hazard> hazards() {
    return hazards;
  }

  /** Returns all words, in order. */
  public static List<String> words() {
    return Arrays.stream(values()).map(Operation::word).toList();
  }

  /**
   * Returns the operation with a word.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Operation of(String word) {
    return Arrays.stream(values())
        .filter(o -> o.word.equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException(word));
  }
}
