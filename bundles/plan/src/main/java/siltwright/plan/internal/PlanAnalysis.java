package siltwright.plan.internal;

import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.plan.FleetPlan;
import siltwright.plan.PlanRequest;

/** The plan of a fleet's changes. */
@Component
@Capability(namespace = "siltwright.command", name = "plan")
public final class PlanAnalysis implements Analysis {
  private static final Description DESCRIPTION =
      Description.of(
          "plan",
          "Plan of changes",
          "Plans the element changes of a fleet: due days from hour meters, visits, driving, parts.",
          Scope.FLEET,
          PlanRequest.parameters());

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    FleetPlan plan = FleetPlan.of(context, values, progress);
    Result.Builder result = Result.of(DESCRIPTION, plan.fleet().name(), values);
    new PlanTables(plan, values).addTo(result);
    new PlanFigures(plan, values).addTo(result);
    new PlanFindings(plan).addTo(result);
    return result.build();
  }
}
