package siltwright.features.hostile;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;

/** Add-ons that do what an add-on must not, each in its own way; the good one is for comparison. */
public abstract class Hostile implements Analysis {
  private final Description description;

  Hostile(String id) {
    description = Description.of(id, "Hostile: " + id, "What does it do?", Scope.NONE);
  }

  @Override
  public Description description() {
    return description;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    act();
    return Result.of(description, "", values)
        .value("done", "Done", "yes")
        .finding(Finding.Severity.NOTE, "All is well.", "")
        .build();
  }

  abstract void act();

  /** Does nothing wrong. */
  public static final class Good extends Hostile {
    public Good() {
      super("good");
    }

    @Override
    void act() {}
  }

  /** Does nothing wrong either, where two are needed. */
  public static final class Fine extends Hostile {
    public Fine() {
      super("fine");
    }

    @Override
    void act() {}
  }

  /** Fails when it is made. */
  public static final class ThrowsEarly extends Hostile {
    public ThrowsEarly() {
      super("throws-early");
      throw new IllegalStateException("made to fail");
    }

    @Override
    void act() {}
  }

  /** Never gets made. */
  public static final class LoopsEarly extends Hostile {
    public LoopsEarly() {
      super("loops-early");
      spin();
    }

    @Override
    void act() {}
  }

  /** Ends the program when it is made. */
  public static final class ExitsEarly extends Hostile {
    public ExitsEarly() {
      super("exits-early");
      System.exit(3);
    }

    @Override
    void act() {}
  }

  /** Prints when it is made, and more when it runs. */
  public static final class Prints extends Hostile {
    public Prints() {
      super("prints");
      System.out.println("{ printed while it was made }");
    }

    @Override
    void act() {
      for (int i = 0; i < 100_000; i++) {
        System.out.println("line " + i);
      }
    }
  }

  /** Fails when it runs. */
  public static final class Throws extends Hostile {
    public Throws() {
      super("throws");
    }

    @Override
    void act() {
      throw new IllegalStateException("asked to fail");
    }
  }

  /** Never ends, and does not listen. */
  public static final class Loops extends Hostile {
    public Loops() {
      super("loops");
    }

    @Override
    void act() {
      spin();
    }
  }

  /** Ends the program when it runs, in three ways. */
  public static final class Exits extends Hostile {
    public Exits() {
      super("exits");
    }

    @Override
    void act() {
      for (Runnable way :
          List.<Runnable>of(
              () -> Runtime.getRuntime().halt(4),
              () -> Runtime.getRuntime().addShutdownHook(new Thread(Hostile::spin)),
              () -> ((java.util.function.IntConsumer) System::exit).accept(5))) {
        try {
          way.run();
        } catch (NullPointerException e) {
          continue;
        }
        throw new AssertionError("it was let do it");
      }
      System.exit(6);
    }
  }

  /** Leaves threads running that the program would have to wait for. */
  public static final class LeaksThreads extends Hostile {
    public LeaksThreads() {
      super("leaks");
    }

    @Override
    void act() {
      for (int i = 0; i < 4; i++) {
        Thread thread = new Thread(Hostile::spin);
        thread.setDaemon(false);
        thread.start();
      }
    }
  }

  /** Takes all the memory there is. */
  public static final class Floods extends Hostile {
    public Floods() {
      super("floods");
    }

    @Override
    void act() {
      List<byte[]> kept = new ArrayList<>();
      while (true) {
        kept.add(new byte[10_000_000]);
      }
    }
  }

  /** Calls itself until its stack is full. */
  public static final class Recurses extends Hostile {
    public Recurses() {
      super("recurses");
    }

    @Override
    void act() {
      act();
    }
  }

  /** Does not listen, but ends some time, for the sake of the tests that come after. */
  private static void spin() {
    long end = System.nanoTime() + 7_000_000_000L;
    while (System.nanoTime() < end) {
      Thread.onSpinWait();
    }
  }
}
