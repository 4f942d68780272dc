package siltwright.addons;

import java.util.List;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Values;

/** An add-on's analysis; its findings bear the add-on's name and version. */
final class GuardedAnalysis implements Analysis {
  private final Analysis analysis;
  private final Guard.Call call;
  private final Description description;

  GuardedAnalysis(Analysis analysis, Guard.Call call) {
    this.analysis = analysis;
    this.call = call;
    this.description = call.of(analysis::description);
  }

  @Override
  public Description description() {
    return description;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return call.of(() -> analysis.columns(values));
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    return named(call.of(progress, p -> analysis.run(context, values, p)), call);
  }

  /** Returns a result with the name of the add-on on its findings. */
  static Result named(Result result, Guard.Call call) {
    List<Finding> findings = withName(result.findings(), call);
    return new Result(
        result.description(),
        result.subject(),
        result.name(),
        result.values(),
        result.entries(),
        () -> call.<List<Figure>>of(result::figures),
        findings,
        result.rows(),
        result.revisions());
  }

  /** Returns findings with the name of the add-on on them. */
  static List<Finding> withName(List<Finding> findings, Guard.Call call) {
    return findings.stream()
        .map(
            f ->
                new Finding(f.severity(), f.text() + " (add-on " + call.name() + ")", f.pointsAt()))
        .toList();
  }
}
