package siltwright.closure;

import siltwright.model.Machine;

/**
 * The tables of docs/closure-study.md. Run by the profile "study"; with -Dcases=misstated only the
 * second, with -Dcases=tank what records can tell of ingress into the tank.
 */
public final class ClosureStudy {
  private static final Machine MACHINE = MadeMachines.machine("EX-12");

  private ClosureStudy() {}

  /** Prints the tables. */
  public static void main(String[] args) {
    if (System.getProperty("cases", "").equals("tank")) {
      TankShareStudy.print(MACHINE);
      return;
    }
    Errors e = Errors.STANDARD;
    System.out.println(
        "| case | all ingress | field efficiency | into tank | into return line | worst R-hat |");
    if (!System.getProperty("cases", "").equals("misstated")) {
      print("500 machines, 100 classes of 5", Recovery.of(MACHINE, 100, 5, e, e, 0.2, 1));
      print("classes of 1", Recovery.of(MACHINE, 100, 1, e, e, 0.2, 1000));
      print("classes of 3", Recovery.of(MACHINE, 50, 3, e, e, 0.2, 2000));
      print("errors truly twice", Recovery.of(MACHINE, 15, 10, e.times(2), e, 0.2, 3000));
      print("errors truly half", Recovery.of(MACHINE, 15, 10, e.times(0.5), e, 0.2, 4000));
      print("spread in a class twice", Recovery.of(MACHINE, 15, 10, e, e, 0.4, 5000));
      print("spread in a class half", Recovery.of(MACHINE, 15, 10, e, e, 0.1, 6000));
    }
    double two = Math.log(2);
    print("file's ingress half the truth", off(two, 0, 1));
    print("file's ingress twice the truth", off(-two, 0, 1));
    print("file's efficiency far too high", off(0, -two, 1));
    print("instrument counts twice too many", off(0, 0, 2));
    print("instrument counts half", off(0, 0, 0.5));
  }

  private static Recovery off(double ingress, double efficiency, double instrument) {
    return Recovery.of(
        MACHINE,
        12,
        5,
        Errors.STANDARD,
        Errors.STANDARD,
        0.2,
        7000,
        new double[] {ingress, 0, efficiency},
        instrument);
  }

  private static void print(String name, Recovery r) {
    System.out.println("| " + name + " |" + r.line());
  }
}
