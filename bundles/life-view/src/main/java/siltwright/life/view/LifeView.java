package siltwright.life.view;

import java.util.List;
import java.util.Optional;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferencePolicy;
import siltwright.analysis.Analysis;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/** Component lives from a table of records: fits, pictures, and records left out with a reason. */
@Component
public final class LifeView implements View {
  private static final String LIFE = "life";

  @Reference(policy = ReferencePolicy.DYNAMIC)
  private volatile List<Analysis> analyses = List.of();

  @Override
  public String id() {
    return "component-life";
  }

  @Override
  public String title() {
    return Words.of("title");
  }

  @Override
  public int rank() {
    return 300;
  }

  @Override
  public Scope scope() {
    return Scope.RECORDS;
  }

  @Override
  public Pane open(Desk desk) {
    return new LifePane(desk, this::life);
  }

  private Optional<Analysis> life() {
    return analyses.stream().filter(a -> a.description().id().equals(LIFE)).findFirst();
  }
}
