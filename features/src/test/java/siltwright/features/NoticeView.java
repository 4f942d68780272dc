package siltwright.features;

import javax.swing.JComponent;
import javax.swing.JLabel;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.Scenario;
import siltwright.workbench.View;

/** A view that a test drops into the add-ons folder. */
public final class NoticeView implements View {
  @Override
  public String id() {
    return "notice";
  }

  @Override
  public String title() {
    return "Notice";
  }

  @Override
  public int rank() {
    return 700;
  }

  @Override
  public Scope scope() {
    return Scope.MACHINE;
  }

  @Override
  public Pane open(Desk desk) {
    return new NoticePane(desk);
  }

  /** Tells the machine, and computes something so that a run holds on to it as well. */
  private static final class NoticePane implements Pane {
    private final JLabel label = new JLabel();
    private final Desk desk;

    NoticePane(Desk desk) {
      this.desk = desk;
      label.setName("notice");
    }

    @Override
    public JComponent component() {
      return label;
    }

    @Override
    public void show(Scenario scenario) {
      String id = scenario.machine().map(m -> m.id()).orElse("none");
      desk.compute("text", "Notice", progress -> "Machine " + id, label::setText, label::setText);
    }

    @Override
    public void close() {
      label.setText("");
    }
  }
}
