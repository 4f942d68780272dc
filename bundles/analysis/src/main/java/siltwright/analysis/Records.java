package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;

/**
 * A table of the user's records as columns of primitive values, without an object a row.
 *
 * <p>Rows that could not be read are not in it but among its {@link #refusals()}. Immutable: arrays
 * are handed out as they are and modified by nobody.
 */
public final class Records {
  private final String source;
  private final int[] lines;
  private final List<Column> columns;
  private final Refusals refusals;
  private final List<String> notes;

  /**
   * Makes a table.
   *
   * @param source name of the file in messages
   * @param lines line of each row in the file, from 1, rising
   * @param columns columns, each as long as {@code lines}
   * @param refusals rows that were refused while it was read
   * @param notes what the user should know of how it was read, a sentence each
   */
  public Records(
      String source, int[] lines, List<Column> columns, Refusals refusals, List<String> notes) {
    this.source = source;
    this.lines = lines;
    this.columns = List.copyOf(columns);
    this.refusals = refusals.copy();
    this.notes = List.copyOf(notes);
    for (Column c : columns) {
      if (c.rows() != lines.length) {
        throw new IllegalArgumentException(
            "column " + c.name() + " has " + c.rows() + " rows, expected " + lines.length);
      }
    }
  }

  /** A column. */
  public sealed interface Column {
    /** Returns its name. */
    String name();

    /** Returns the number of rows. */
    int rows();

    /** Returns whether a cell is empty. */
    boolean missing(int row);

    /** Returns a cell as a text, for messages; empty if it is missing. */
    String text(int row);
  }

  /**
   * Numbers.
   *
   * @param name name
   * @param values a number a row; not a number where the cell is empty
   */
  public record Numbers(String name, double[] values) implements Column {
    @Override
    public int rows() {
      return values.length;
    }

    @Override
    public boolean missing(int row) {
      return Double.isNaN(values[row]);
    }

    @Override
    public String text(int row) {
      double v = values[row];
      return Double.isNaN(v)
          ? ""
          : v == Math.rint(v) && Math.abs(v) < 1e15 ? Long.toString((long) v) : Double.toString(v);
    }
  }

  /**
   * Words.
   *
   * @param name name
   * @param words each word once
   * @param codes index into the words a row; -1 where the cell is empty
   */
  public record Words(String name, List<String> words, int[] codes) implements Column {
    public Words {
      words = List.copyOf(words);
    }

    @Override
    public int rows() {
      return codes.length;
    }

    @Override
    public boolean missing(int row) {
      return codes[row] < 0;
    }

    @Override
    public String text(int row) {
      return codes[row] < 0 ? "" : words.get(codes[row]);
    }
  }

  /** Returns the name of the file in messages. */
  public String source() {
    return source;
  }

  /** Returns the number of rows. */
  public int rows() {
    return lines.length;
  }

  /** Returns the line of a row in the file, from 1. */
  public int line(int row) {
    return lines[row];
  }

  /** Returns the column with a name, if the table has it. */
  public Optional<Column> find(String name) {
    return columns.stream().filter(c -> c.name().equals(name)).findFirst();
  }

  /** Returns the numbers of a column, or nothing if the table has no such column of numbers. */
  public Optional<double[]> numbers(String name) {
    return find(name).filter(Numbers.class::isInstance).map(c -> ((Numbers) c).values());
  }

  /** Returns the columns in the file's order. */
  public List<Column> columns() {
    return columns;
  }

  /** Returns a copy of the rows refused so far, to which an analysis can add its own. */
  public Refusals refusals() {
    return refusals.copy();
  }

  /** Returns what the user should know of how the table was read. */
  public List<String> notes() {
    return notes;
  }

  /** Returns the rows that a condition keeps, with the refusals that are to stand beside them. */
  public Records where(IntPredicate keep, Refusals now) {
    int[] kept = new int[rows()];
    int n = 0;
    for (int i = 0; i < kept.length; i++) {
      if (keep.test(i)) {
        kept[n++] = i;
      }
    }
    if (n == kept.length) {
      return new Records(source, lines, columns, now, notes);
    }
    List<Column> picked = new ArrayList<>();
    for (Column c : columns) {
      if (c instanceof Numbers numbers) {
        double[] values = new double[n];
        for (int i = 0; i < n; i++) {
          values[i] = numbers.values()[kept[i]];
        }
        picked.add(new Numbers(c.name(), values));
      } else if (c instanceof Words words) {
        picked.add(new Words(c.name(), words.words(), pick(words.codes(), kept, n)));
      }
    }
    return new Records(source, pick(lines, kept, n), picked, now, notes);
  }

  private static int[] pick(int[] from, int[] kept, int n) {
    int[] to = new int[n];
    for (int i = 0; i < n; i++) {
      to[i] = from[kept[i]];
    }
    return to;
  }
}
