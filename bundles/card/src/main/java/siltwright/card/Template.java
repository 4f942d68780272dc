package siltwright.card;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import siltwright.model.Housing;

/**
 * The words of a card and its steps, as a team edits and versions them. {@link TemplateReader}
 * reads it from a file and refuses one that would leave out a caution or turn the order round.
 *
 * <p>Texts hold placeholders in braces, such as {@code {interval_h}}, which {@link Facts} fills.
 *
 * @param id name, printed on the card
 * @param version version, printed on the card
 * @param language language of its words (BCP 47), such as {@code de}
 * @param decimalMark what stands before decimals
 * @param procedures ids of the procedures whose steps these are; empty for the way that sheds least
 * @param words fixed words by key, as {@link #WORDS} lists them
 * @param cautions a caution for each hazard
 * @param steps steps of all housings, in order
 * @param tools tools and materials
 * @param seals seals and small parts
 * @param inspections what to look at
 * @param otherWay what goes wrong the other way round, by housing
 * @param fields what to write down, in order
 * @param notice what comes before everything: manual, codes, licensed practice
 */
public record Template(
    String id,
    String version,
    String language,
    String decimalMark,
    List<String> procedures,
    Map<String, String> words,
    Map<Hazard, Caution> cautions,
    List<Step> steps,
    List<Line> tools,
    List<Line> seals,
    List<Line> inspections,
    Map<Housing, List<String>> otherWay,
    Map<RecordField, String> fields,
    List<String> notice) {

  /** Keys of the fixed words. */
  public static final List<String> WORDS =
      List.of(
          "title",
          "machine",
          "site",
          "way",
          "changeAfter",
          "flat",
          "today",
          "element",
          "oil",
          "time",
          "tools",
          "seals",
          "steps",
          "why",
          "inspect",
          "record",
          "yes",
          "no",
          "whole",
          "torn",
          "collapsed",
          "loose",
          "missing",
          "otherWay",
          "restartSamples",
          "afterRestart",
          "hourMeter",
          "nextChange",
          "date",
          "doneBy",
          "checkedBy",
          "signature",
          "card",
          "template");

  /**
   * A caution.
   *
   * @param name its name in a word or two
   * @param text what the harm is and how to keep clear of it
   */
  public record Caution(String name, String text) {}

  /**
   * Which machines something is for.
   *
   * @param housing only this housing
   * @param pressurised only a pressurised tank, or only one that is not
   */
  public record When(Optional<Housing> housing, Optional<Boolean> pressurised) {
    boolean holds(Housing other, boolean otherPressurised) {
      return housing.filter(h -> h != other).isEmpty()
          && pressurised.filter(p -> p != otherPressurised).isEmpty();
    }
  }

  /**
   * A step.
   *
   * @param does what it does
   * @param text what to do
   * @param why sentences that say why; one whose placeholder has no value is left out
   * @param hazards hazards that it has besides those of what it does
   * @param when which machines it is for
   */
  public record Step(
      Operation does, String text, List<String> why, Set<Hazard> hazards, When when) {
    public Step {
      why = List.copyOf(why);
      hazards = Set.copyOf(hazards);
    }
  }

  /**
   * A line of a list.
   *
   * @param text the line; left out where a placeholder has no value
   * @param when which machines it is for
   */
  public record Line(String text, When when) {}

  public Template {
    procedures = List.copyOf(procedures);
    words = Map.copyOf(words);
    cautions = Map.copyOf(cautions);
    fields = Collections.unmodifiableMap(new LinkedHashMap<>(fields));
    otherWay = Map.copyOf(otherWay);
    steps = List.copyOf(steps);
    tools = List.copyOf(tools);
    seals = List.copyOf(seals);
    inspections = List.copyOf(inspections);
    notice = List.copyOf(notice);
  }

  /** Returns a fixed word. */
  public String word(String key) {
    return words.get(key);
  }

  /** Returns the steps for a housing and tank, in order. */
  public List<Step> steps(Housing housing, boolean pressurised) {
    return steps.stream().filter(s -> s.when().holds(housing, pressurised)).toList();
  }
}
