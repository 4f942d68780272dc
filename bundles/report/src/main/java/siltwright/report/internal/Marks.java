package siltwright.report.internal;

import siltwright.analysis.Finding;

/** Severities by word, shape and colour, so that none of them is needed alone. */
final class Marks {
  private Marks() {}

  static String word(Finding.Severity severity) {
    return switch (severity) {
      case NOTE -> "Note";
      case CAUTION -> "Caution";
      case WARNING -> "Warning";
    };
  }

  static String style(Finding.Severity severity) {
    return switch (severity) {
      case NOTE -> "note";
      case CAUTION -> "caution";
      case WARNING -> "warning";
    };
  }

  /** Returns the shape: a disc, a diamond, a triangle; its title is the word. */
  static String of(Finding.Severity severity) {
    String shape =
        switch (severity) {
          case NOTE -> "<circle cx=\"8\" cy=\"8\" r=\"5.5\"/>";
          case CAUTION -> "<path d=\"M8 1L15 8L8 15L1 8Z\"/>";
          case WARNING -> "<path d=\"M8 1L15.5 15L0.5 15Z\"/>";
        };
    return "<svg class=\"mark "
        + style(severity)
        + "\" width=\"13\" height=\"13\" viewBox=\"0 0 16 16\" role=\"img\" aria-label=\""
        + word(severity)
        + "\">"
        + shape
        + "</svg>";
  }
}
