package siltwright.features;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import siltwright.analysis.Context;
import siltwright.analysis.Figure;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.charts.ChartTheme;
import siltwright.charts.Charts;
import siltwright.exchange.RecordsReader;
import siltwright.features.Installation.Outcome;
import siltwright.fleet.internal.CompareAnalysis;
import siltwright.interval.internal.TuneAnalysis;
import siltwright.model.Fleet;
import siltwright.model.json.FleetReader;

/**
 * Makes the pictures of README and guide that are not of the window: charts, a card, a slide.
 * {@code mvn -q -Ppictures -DskipTests verify} runs it. A page of a report is none of them, since
 * only a browser draws it.
 */
public final class GuidePictures {
  private static final Path DOCUMENTS = Path.of("../docs/images");
  private static final Path DEMO = Path.of("../demo-data").toAbsolutePath().normalize();
  private static final String FLEET = DEMO.resolve("three-pits.json").toString();
  private static final int WIDTH = 760;
  private static final double SCALE = 1.5;
  private static final float DPI = 100;

  private GuidePictures() {}

  /** Runs. */
  public static void main(String[] arguments) throws Exception {
    charts();
    documents();
  }

  private static void charts() throws IOException {
    Fleet fleet = FleetReader.read(Path.of(FLEET)).fleet();
    TuneAnalysis tune = new TuneAnalysis();
    Context excavator = Context.of(fleet, fleet.machine("EX-11").orElseThrow());
    Result cost = tune.run(excavator, Values.of(tune.description(), Map.of()), Progress.NONE);
    chart(cost, "cost", 400, "cost");
    CompareAnalysis compare = new CompareAnalysis();
    Values values = Values.of(compare.description(), Map.of("by", "pit", "adjust", "class,duty"));
    Context events =
        Context.of(
            RecordsReader.read(DEMO.resolve("pit-events.csv"), compare.columns(values)),
            Optional.empty());
    Result pits = compare.run(events, values, Progress.NONE);
    chart(pits, "forest", 320, "ratio");
    chart(pits, "funnel", 440, "funnel");
  }

  private static void chart(Result result, String figure, int heightPx, String file)
      throws IOException {
    Figure f =
        result.figures().stream().filter(g -> g.name().equals(figure)).findFirst().orElseThrow();
    byte[] png = Charts.png(f, ChartTheme.LIGHT, WIDTH, heightPx, SCALE);
    write(ImageIO.read(new ByteArrayInputStream(png)), file);
  }

  private static void documents() throws IOException, InterruptedException {
    Path folder = Files.createTempDirectory("siltwright-pictures");
    Path card = folder.resolve("card.pdf");
    command("card", FLEET, "--machine", "EX-11", "--card", card.toString());
    try (PDDocument pdf = Loader.loadPDF(card.toFile())) {
      write(halved(new PDFRenderer(pdf).renderImageWithDPI(0, 2 * DPI)), "card");
    }
    Path pack = folder.resolve("class");
    command("training", FLEET, "--use", "2000", "--pack", pack.toString());
    try (Stream<Path> slides = Files.list(pack.resolve("slides"))) {
      Path wrong =
          slides
              .filter(s -> s.toString().endsWith("open-bowl-wrong.png"))
              .findFirst()
              .orElseThrow();
      write(ImageIO.read(wrong.toFile()), "slide");
    }
    try (Stream<Path> files = Files.walk(folder)) {
      files.sorted(java.util.Comparator.reverseOrder()).forEach(f -> f.toFile().delete());
    }
  }

  /** Thin lines of a page are lost unless they are drawn fine first. */
  private static BufferedImage halved(BufferedImage fine) {
    int width = fine.getWidth() / 2;
    int height = fine.getHeight() / 2;
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g2 = image.createGraphics();
    g2.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    g2.drawImage(fine, 0, 0, width, height, null);
    g2.dispose();
    return image;
  }

  private static void command(String... words) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(Installation.quickJava());
    command.add("-jar");
    command.add(Installation.BUILT.resolve("siltwright.jar").toString());
    command.addAll(List.of(words));
    Outcome outcome = Installation.run(new ProcessBuilder(command));
    if (outcome.code() != 0) {
      throw new IOException(String.join(" ", words) + ": " + outcome.err());
    }
  }

  private static void write(BufferedImage image, String name) throws IOException {
    ImageIO.write(Palette.reduce(image), "png", DOCUMENTS.resolve(name + ".png").toFile());
  }
}
