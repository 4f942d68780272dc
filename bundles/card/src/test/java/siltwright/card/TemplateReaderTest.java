package siltwright.card;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.model.InputException;

/** Templates are read strictly: what would hurt someone is refused. */
class TemplateReaderTest {
  private static final String TEXT = TemplateReader.standardText("en");

  @ParameterizedTest
  @ValueSource(strings = {"en", "de"})
  void theStandardTemplateIsRead(String language) {
    Template t = TemplateReader.standard(language);
    assertEquals("standard-" + language, t.id());
    assertEquals(language, t.language());
    assertEquals(Hazard.values().length, t.cautions().size());
  }

  @Test
  void bothLanguagesHaveTheSameSteps() {
    Template en = TemplateReader.standard("en");
    Template de = TemplateReader.standard("de");
    assertEquals(
        en.steps().stream().map(Template.Step::does).toList(),
        de.steps().stream().map(Template.Step::does).toList());
    assertEquals(en.fields().keySet(), de.fields().keySet());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"does\": \"lock-out\"|\"does\": \"other\"|lock-out",
        "\"does\": \"cap-ports\"|\"does\": \"other\"|cap-ports",
        "\"does\": \"uncap-ports\"|\"does\": \"other\"|uncap-ports",
        "\"does\": \"shut-canister\"|\"does\": \"other\"|shut-canister",
        "\"does\": \"open-canister\"|\"does\": \"other\"|open-canister",
        "\"does\": \"release-energy\"|\"does\": \"other\"|release-energy",
        "\"does\": \"inspect\"|\"does\": \"look\"|/steps/",
        "\"tank-pressure\": {|\"tank-presure\": {|tank-pressure",
        "\"version\": \"1\"|\"version\": 1|/version",
        "\"decimalMark\": \".\"|\"decimalMark\": \";\"|/decimalMark",
        "{cracking_kPa}|{crackingKPa}|{crackingKPa}",
        "Let the oil cool.|Let it cool to {wrong_g}.|{wrong_g}",
        "\"title\"|\"titel\"|titel",
        "siltwright-card/1|siltwright-card/2|/schema",
        "\"field\": \"meter_h\"|\"field\": \"spilled_L\"|meter_h",
        "\"housing\": \"open-bowl\"|\"housing\": \"bowl\"|/housing",
      })
  void aTemplateAtFaultIsRefused(String from, String to, String said) {
    String text = TEXT.replaceFirst(java.util.regex.Pattern.quote(from), to.replace("$", "\\$"));
    assertTrue(!text.equals(TEXT), from);
    InputException e =
        assertThrows(InputException.class, () -> TemplateReader.read(text, "own.json"));
    assertTrue(e.problems().toString().contains(said), e.problems().toString());
    assertTrue(e.problems().get(0).toString().startsWith("own.json"), e.problems().toString());
  }

  /** The wrong way round: first lift, then cap. */
  @Test
  void liftingBeforeCappingIsRefused() {
    String text =
        TEXT.replace("\"does\": \"cap-ports\"", "\"does\": \"XX\"")
            .replace("\"does\": \"lift-out\"", "\"does\": \"cap-ports\"")
            .replace("\"does\": \"XX\"", "\"does\": \"lift-out\"");
    InputException e =
        assertThrows(InputException.class, () -> TemplateReader.read(text, "own.json"));
    assertTrue(
        e.problems().toString().contains("cap-ports before lift-out"), e.problems().toString());
  }

  @Test
  void aSiteAddsStepsOfItsOwnWithTheirHazards() {
    String own =
        "{\"does\": \"other\", \"hazards\": [\"working-height\"], \"text\": \"Put up the platform.\","
            + " \"why\": [\"Rule of this pit.\"]},";
    Template t =
        TemplateReader.read(TEXT.replace("\"steps\": [", "\"steps\": [" + own), "own.json");
    Card card = Card.of(t, DemoFleet.facts(DemoFleet.machine("EX-11")));
    Card.Step first = card.steps().get(0);
    assertEquals("Put up the platform.", first.text());
    assertEquals(Hazard.WORKING_HEIGHT, first.cautions().get(0).hazard());
    assertTrue(first.cautions().get(0).first());
  }
}
