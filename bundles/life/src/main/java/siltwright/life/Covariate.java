package siltwright.life;

import java.util.List;

/** A column that may explain life: a number for each row, or one of a few levels. */
public sealed interface Covariate {
  /** Returns the number of rows. */
  int rows();

  /** Returns the column restricted to some rows, in their order. */
  Covariate rows(int[] kept);

  /**
   * Numbers.
   *
   * @param values one finite value a row; not copied
   */
  record Numeric(double[] values) implements Covariate {
    @Override
    public int rows() {
      return values.length;
    }

    @Override
    public Covariate rows(int[] kept) {
      double[] v = new double[kept.length];
      for (int i = 0; i < kept.length; i++) {
        v[i] = values[kept[i]];
      }
      return new Numeric(v);
    }
  }

  /**
   * Levels; the first level is the reference that the others are compared with.
   *
   * @param levels names, the reference first
   * @param codes index into {@code levels} for each row; not copied
   */
  record Categorical(List<String> levels, int[] codes) implements Covariate {
    /** Copies the list of levels. */
    public Categorical {
      levels = List.copyOf(levels);
    }

    @Override
    public int rows() {
      return codes.length;
    }

    @Override
    public Covariate rows(int[] kept) {
      int[] c = new int[kept.length];
      for (int i = 0; i < kept.length; i++) {
        c[i] = codes[kept[i]];
      }
      return new Categorical(levels, c);
    }
  }
}
