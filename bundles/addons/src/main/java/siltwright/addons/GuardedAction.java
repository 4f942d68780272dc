package siltwright.addons;

import siltwright.analysis.Action;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;

/** An add-on's action; its findings bear the add-on's name and version. */
final class GuardedAction implements Action {
  private final Action action;
  private final Guard.Call call;
  private final Description description;
  private final String file;

  GuardedAction(Action action, Guard.Call call) {
    this.action = action;
    this.call = call;
    this.description = call.of(action::description);
    this.file = call.of(action::file);
  }

  @Override
  public Description description() {
    return description;
  }

  @Override
  public String file() {
    return file;
  }

  @Override
  public Result run(String name, Values values, Progress progress) {
    return GuardedAnalysis.named(call.of(progress, p -> action.run(name, values, p)), call);
  }
}
