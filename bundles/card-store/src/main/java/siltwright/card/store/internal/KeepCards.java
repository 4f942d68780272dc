package siltwright.card.store.internal;

import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Description;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.card.CardRecords;
import siltwright.card.CardRecords.Fault;
import siltwright.card.CardRecords.Filled;
import siltwright.card.CardRecords.Remark;
import siltwright.card.FilledCards;
import siltwright.card.store.CardKeeping;
import siltwright.exchange.RecordsReader;
import siltwright.model.Fleet;
import siltwright.model.json.FleetReader;
import siltwright.store.StoreOptions;

/** Brings filled cards into a store; what they leave open is told. */
@Component
@Capability(namespace = "siltwright.command", name = "card-keep")
public final class KeepCards implements Action {
  private static final FleetFileParameter FLEET =
      new FleetFileParameter(
          "fleet", "the fleet of the cards, to check machines, procedures and elements; only read");

  private static final Description DESCRIPTION =
      Description.of(
          "card-keep",
          "Filled cards into a store",
          "Brings filled cards into a store as element changes, each with its evidence.",
          Scope.NONE,
          StoreOptions.STORE,
          FLEET,
          StoreOptions.WHO);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Table of filled cards (CSV), as for card-record.";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    progress.check(0, "cards");
    Records records = RecordsReader.read(StoreOptions.path("FILE", file), FilledCards.columns());
    Optional<Fleet> fleet =
        values
            .find(FLEET)
            .map(f -> FleetReader.read(StoreOptions.path("--fleet", f.toString())).fleet());
    List<Filled> cards = FilledCards.of(records);
    List<Remark> remarks = new CardRecords(fleet).check(cards);
    Refusals refusals = records.refusals();
    CardKeeping.Kept done =
        CardKeeping.keep(
            values.get(StoreOptions.STORE),
            StoreOptions.who(values),
            file,
            cards,
            remarks,
            refusals,
            progress);
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    boolean[] kept = new boolean[cards.size()];
    for (int i = 0; i < kept.length; i++) {
      kept[i] = !refusals.refused(cards.get(i).line());
    }
    result.records(records.where(i -> kept[i], refusals));
    result.value("added", "Changes added", "1", done.added());
    result.value("known", "There already", "1", done.known());
    for (Remark r : remarks) {
      if (!refusals.refused(r.line())) {
        result.finding(
            r.fault() == Fault.MISSING ? Severity.CAUTION : Severity.WARNING,
            "Row " + r.line() + ": " + r.text(),
            r.column());
      }
    }
    return result.build();
  }
}
