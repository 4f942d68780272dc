package siltwright.paper.card;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.card.Card;
import siltwright.card.CardRequest;

/** Writes service cards for those who change the element, a page each. */
@Component
public final class CardDocument implements DocumentWriter {
  private static final Form FORM =
      new Form(
          "card", "card", List.of("pdf", "html"), "the card to this file, a page for each machine");

  @Override
  public Form form() {
    return FORM;
  }

  @Override
  public List<Output> write(
      String ending, List<Context> contexts, Values values, Progress progress) {
    List<Card> cards = new ArrayList<>();
    for (Context context : contexts) {
      progress.check(0.5 * cards.size() / contexts.size(), context.machine().id());
      cards.add(CardRequest.card(context, values, Progress.NONE));
    }
    progress.check(0.5, "pages");
    String paper = values.get(CardRequest.PAGE).equals("a4") ? "A4" : "letter";
    CardSheet sheet = new CardSheet(cards, paper);
    return List.of(
        new Output(
            "",
            ending.equals("pdf")
                ? sheet.pdf().bytes()
                : sheet.page().getBytes(StandardCharsets.UTF_8)));
  }
}
