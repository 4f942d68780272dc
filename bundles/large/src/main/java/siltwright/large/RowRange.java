package siltwright.large;

import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.parquet.ParquetRows;

/**
 * Some rows of a Parquet file.
 *
 * @param file the file, by a name that all who work have for it
 * @param from the first, from 0
 * @param to the one after the last
 */
public record RowRange(String file, long from, long to) implements Serializable {
  private static final String END = ".parquet";

  /**
   * Cuts a file, or the files of a folder in the order of their names, into ranges.
   *
   * @param source the file or folder
   * @param rows most rows of a range
   * @param needed columns that each file must have
   * @throws InputException if there is no such file, or one lacks a column
   */
  public static List<RowRange> of(Path source, long rows, List<String> needed) {
    List<RowRange> ranges = new ArrayList<>();
    for (Path file : files(source)) {
      try (ParquetRows in = open(file, null)) {
        for (String name : needed) {
          if (!in.columns().contains(name)) {
            throw refusal(file.toString(), "no column " + name, "one of that name");
          }
        }
        for (long from = 0; from < in.count(); from += rows) {
          ranges.add(
              new RowRange(
                  file.toAbsolutePath().toString(), from, Math.min(in.count(), from + rows)));
        }
      }
    }
    return ranges;
  }

  private static List<Path> files(Path source) {
    if (!Files.isDirectory(source)) {
      return List.of(source);
    }
    try (Stream<Path> all = Files.list(source)) {
      List<Path> files =
          all.filter(f -> f.getFileName().toString().endsWith(END)).sorted().toList();
      if (files.isEmpty()) {
        throw refusal(source.toString(), "no such file in it", "Parquet files (" + END + ")");
      }
      return files;
    } catch (IOException e) {
      throw refusal(source.toString(), "a folder that cannot be read", "a folder of Parquet files");
    }
  }

  private static ParquetRows open(Path file, List<String> columns) {
    try {
      return ParquetRows.open(file, columns);
    } catch (NoSuchFileException e) {
      throw refusal(file.toString(), "no such file", "a Parquet file");
    } catch (IOException e) {
      throw refusal(file.toString(), "a file that cannot be read", "a Parquet file");
    }
  }

  private static InputException refusal(String source, String found, String expected) {
    return new InputException(new Problem(source, "", found, expected));
  }

  /**
   * Opens the file for some of its columns.
   *
   * @param before rows before the first of the range that are wanted too, 0 or 1
   */
  ParquetRows open(List<String> columns, int before) {
    ParquetRows rows = open(Path.of(file), columns);
    rows.skip(from - before);
    return rows;
  }
}
