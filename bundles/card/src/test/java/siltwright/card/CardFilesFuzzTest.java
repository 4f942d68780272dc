package siltwright.card;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.analysis.FileParameter;
import siltwright.analysis.Records;
import siltwright.exchange.RecordsReader;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;

/** Whatever templates and filled cards hold, they are read or refused. */
class CardFilesFuzzTest {

  @Test
  void anyTemplateMakesACardOrIsRefused() throws Exception {
    Fuzz fuzz = Fuzz.of("template", Mutation.TEXT, CardFilesFuzzTest::template);
    for (String language : TemplateReader.LANGUAGES) {
      fuzz.with(Path.of("src/main/resources/siltwright/card/standard-" + language + ".json"));
    }
    fuzz.run(250);
  }

  private static Optional<String> template(Path file) {
    FileParameter.TextFile text;
    try {
      text = CardRequest.TEMPLATE.read(file.toString());
    } catch (IllegalArgumentException e) {
      return Optional.of(file + ": expected " + e.getMessage()); // as an option's value is refused
    }
    Template template;
    try {
      template = TemplateReader.read(text.text(), text.name());
    } catch (InputException e) {
      return Optional.of(e.getMessage());
    }
    for (String id : List.of("EX-11", "EX-12")) {
      Machine m = DemoFleet.machine(id);
      Card card = Card.of(template, DemoFleet.facts(m));
      assertEquals(card.id(), Card.of(template, DemoFleet.facts(m)).id());
      card.steps().forEach(s -> assertEquals(-1, s.toString().indexOf('\0')));
    }
    return Optional.empty();
  }

  @Test
  void anyFilledCardsAreCheckedOrRefused() throws Exception {
    Fuzz.of("filled", Mutation.TEXT, CardFilesFuzzTest::filled)
        .with(Path.of("../../demo-data/filled-cards.csv"))
        .run(800);
  }

  private static Optional<String> filled(Path file) {
    Records records;
    try {
      records = RecordsReader.read(file, FilledCards.columns());
    } catch (InputException e) {
      return Optional.of(e.getMessage());
    }
    List<CardRecords.Filled> cards = FilledCards.of(records);
    for (Optional<Fleet> fleet : List.of(Optional.of(DemoFleet.FLEET), Optional.<Fleet>empty())) {
      for (CardRecords.Remark remark : new CardRecords(fleet).check(cards)) {
        assertFalse(remark.column().isBlank() || remark.text().isBlank(), remark.toString());
      }
    }
    return Optional.empty();
  }
}
