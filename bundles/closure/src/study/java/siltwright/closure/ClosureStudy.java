package siltwright.closure;

import siltwright.model.Machine;
import siltwright.samples.CountError;

/** The tables of docs/closure-study.md. Run by the profile "study". */
public final class ClosureStudy {
  private ClosureStudy() {}

  /** Prints the tables. */
  public static void main(String[] args) {
    Errors e = Errors.STANDARD;
    Machine machine = MadeMachines.machine("EX-12");
    System.out.println(
        "| case | all ingress | field efficiency | into tank | into return line | worst R-hat |");
    long t = System.nanoTime();
    print(
        "500 machines, 100 classes of 5",
        Recovery.of(machine, Integer.getInteger("classes", 100), 5, e, e, 0.2, 1));
    System.out.println((System.nanoTime() - t) / 1e9 + " s");
    if (Integer.getInteger("classes", 100) < 100) {
      Errors z = new Errors(new CountError(0, 0.15, 0.1, 25), 0.12, 0.1, 0);
      print("no common", Recovery.of(machine, 12, 10, z, z, 0.2, 1));
      Errors y = new Errors(new CountError(0, 0.01, 0.01, 2500), 0.01, 0.1, 0);
      print("exact", Recovery.of(machine, 4, 10, y, y, 0.2, 1));
      return;
    }
    print("classes of 1", Recovery.of(machine, 100, 1, e, e, 0.2, 1000));
    print("classes of 3", Recovery.of(machine, 50, 3, e, e, 0.2, 2000));
    print(
        "errors truly twice those assumed", Recovery.of(machine, 15, 10, e.times(2), e, 0.2, 3000));
    print("errors truly half", Recovery.of(machine, 15, 10, e.times(0.5), e, 0.2, 4000));
    print("spread in a class twice that expected", Recovery.of(machine, 15, 10, e, e, 0.4, 5000));
    print("spread in a class half", Recovery.of(machine, 15, 10, e, e, 0.1, 6000));
  }

  private static void print(String name, Recovery r) {
    System.out.println("| " + name + " |" + r.line());
  }
}
