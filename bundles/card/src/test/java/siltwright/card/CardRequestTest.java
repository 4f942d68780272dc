package siltwright.card;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.InputException;

/** What a card is asked for with. */
class CardRequestTest {
  private static final Description DESCRIPTION =
      Description.of("card", "", "", Scope.MACHINE, CardRequest.parameters());

  private static Card card(Map<String, String> values) {
    return CardRequest.card(
        Context.of(DemoFleet.FLEET, DemoFleet.machine("EX-11")),
        Values.of(DESCRIPTION, values),
        Progress.NONE);
  }

  @Test
  void theCardIsOfTheWayThatShedsLeast() {
    Card card = card(Map.of("hours", "today"));
    assertEquals("ports-capped", card.facts().way().id());
    assertEquals(500, card.facts().intervalH());
  }

  /** A card must not tell the right steps under the name of a shortcut. */
  @Test
  void anotherWayNeedsATemplateThatTellsIt(@TempDir Path folder) throws Exception {
    InputException e =
        assertThrows(InputException.class, () -> card(Map.of("procedure", "slow-lift")));
    assertTrue(e.problems().get(0).toString().contains("ports-capped"), e.problems().toString());
    Path own = folder.resolve("own.json");
    Files.writeString(
        own,
        TemplateReader.standardText("en")
            .replace("\"words\": {", "\"procedures\": [\"slow-lift\"],\n  \"words\": {")
            .replace("\"id\": \"standard-en\"", "\"id\": \"our-lift\""));
    Map<String, String> values = Map.of("procedure", "slow-lift", "template", own.toString());
    assertEquals("our-lift", card(values).id().template());
    assertThrows(
        InputException.class,
        () -> card(Map.of("procedure", "ports-capped", "template", own.toString())));
  }

  @Test
  void aMeterGivesWhenTheNextIsDue() {
    Card card = card(Map.of("hours", "today", "meter", "4310", "use", "50", "date", "2026-03-02"));
    assertEquals("4310", card.values().get("meter_h"));
    assertEquals("4810", card.values().get("next_h"));
    assertEquals("2026-05-11", card.values().get("nextDate"));
  }
}
