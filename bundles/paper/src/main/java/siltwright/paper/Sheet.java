package siltwright.paper;

import java.util.ArrayList;
import java.util.List;
import siltwright.report.Html;

/**
 * A sheet while it is written, for one of two media. What is written is the same for both but for
 * drawings: inline SVG on an HTML page, drawn onto the page of a PDF.
 */
public final class Sheet {
  /** What a sheet is written for. */
  public enum Medium {
    /** One self-contained HTML page: nothing fetched, nothing run. */
    HTML,
    /** A PDF file with its font in it. */
    PDF
  }

  private final Html html = new Html();
  private final List<Drawing> drawings = new ArrayList<>();
  private final Medium medium;
  private final String title;

  /**
   * Begins a sheet.
   *
   * @param medium what it is for
   * @param title its title
   * @param language language of its words (BCP 47)
   * @param style its style sheet: CSS 2.1 and page rules, which both media know
   */
  public Sheet(Medium medium, String title, String language, String style) {
    this.medium = medium;
    this.title = title;
    if (medium == Medium.HTML) {
      html.markup("<!DOCTYPE html>").line();
    }
    html.begin("html", "lang", language).line().begin("head").line();
    html.head(style);
    html.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1").line();
    html.empty("meta", "name", "generator", "content", "Siltwright").line();
    html.element("title", title).line();
    html.style(style).end().line().begin("body").line();
  }

  /** Returns where its elements are written. */
  public Html html() {
    return html;
  }

  /**
   * Writes a drawing.
   *
   * @param drawing the drawing
   * @param styleClass class in the style sheet, which gives its size
   */
  public Sheet drawing(Drawing drawing, String styleClass) {
    if (medium == Medium.HTML) {
      html.begin("div", "class", styleClass).markup(drawing.svg()).end();
    } else {
      html.begin(
              "object",
              "type",
              PdfFile.DRAWING,
              "class",
              styleClass,
              "data-index",
              Integer.toString(drawings.size()),
              "alt",
              drawing.title())
          .end();
      drawings.add(drawing);
    }
    return this;
  }

  /** Ends the sheet and returns the HTML page, or the XHTML of the PDF. */
  private String whole() {
    html.end().line().end().line();
    return html.toString();
  }

  /** Ends the sheet and returns its HTML page. */
  public String page() {
    return whole();
  }

  /** Ends the sheet and returns its PDF. */
  public PdfFile pdf() {
    return PdfFile.of(title, whole(), drawings);
  }
}
