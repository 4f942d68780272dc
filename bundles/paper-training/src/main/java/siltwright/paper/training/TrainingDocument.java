package siltwright.paper.training;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.paper.Drawing;
import siltwright.paper.Sheet;
import siltwright.training.Pack;

/** Fills a folder for a class: handout, deck, and every slide on its own. */
@Component
public final class TrainingDocument implements DocumentWriter {
  private static final Form FORM =
      new Form(
          "training",
          "pack",
          List.of(),
          "a folder for a class: handout (PDF, HTML), deck (PDF), each slide (SVG, PNG)");

  private static final double PNG_SCALE = 2;

  private static final String DECK =
      String.format(
          Locale.ROOT,
          "\n@page { size: %1$dpx %2$dpx; margin: 0; }\n"
              + "body { margin: 0; font-family: Sheet; }\n"
              + ".slide { display: block; width: %1$dpx; height: %2$dpx;"
              + " page-break-inside: avoid; }\n",
          Slides.WIDTH,
          Slides.HEIGHT);

  @Override
  public Form form() {
    return FORM;
  }

  @Override
  public List<Output> write(
      String ending, List<Context> contexts, Values values, Progress progress) {
    progress.check(0, "handout");
    Pack pack = Pack.of(contexts.get(0), values, Progress.NONE);
    String paper = values.get(Pack.PAGE).equals("a4") ? "A4" : "letter";
    Handout handout = new Handout(pack);
    List<Output> files = new ArrayList<>();
    files.add(new Output("handout.pdf", handout.written(Sheet.Medium.PDF, paper).pdf().bytes()));
    files.add(
        new Output(
            "handout.html",
            handout.written(Sheet.Medium.HTML, paper).page().getBytes(StandardCharsets.UTF_8)));
    List<Drawing> slides = new Slides(pack).all();
    Sheet deck =
        new Sheet(Sheet.Medium.PDF, pack.words().text("title"), pack.words().language(), DECK);
    for (int i = 0; i < slides.size(); i++) {
      progress.check(0.2 + 0.8 * i / slides.size(), slides.get(i).title());
      Drawing slide = slides.get(i);
      deck.drawing(slide, "slide");
      String name = String.format(Locale.ROOT, "slides/%02d-%s", i + 1, slide.name());
      files.add(new Output(name + ".svg", slide.svgFile()));
      files.add(new Output(name + ".png", slide.png(PNG_SCALE)));
    }
    files.add(new Output("slides.pdf", deck.pdf().bytes()));
    return files;
  }
}
