package siltwright.cleanliness.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.cleanliness.As4059;
import siltwright.cleanliness.CountRange;
import siltwright.cleanliness.Iso4406;
import siltwright.cleanliness.Nas1638;
import siltwright.cleanliness.ParticleCounts;
import siltwright.cleanliness.ReportedCode;
import siltwright.cleanliness.ReportedCode.Kind;
import siltwright.cleanliness.ReportedCode.Place;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.SizeBands;

/** Cleanliness codes and classes of particle counts, and the counts that a code stands for. */
@Component
@Capability(namespace = "siltwright.command", name = "code")
public final class CodeAnalysis implements Analysis {
  private static final TextParameter COUNTS =
      TextParameter.optional(
          "counts",
          CountsOption.FORM,
          "particles per mL at or above each size in µm(c); either this or a code");
  private static final NumberParameter VOLUME =
      NumberParameter.optional(
          "counted-volume-mL",
          "mL",
          0.001,
          100_000,
          "volume in which the particles were counted, so that numbers of fewer than "
              + Iso4406.FEWEST_PARTICLES
              + " particles are marked as lower bounds");
  private static final TextParameter CODE =
      TextParameter.optional(
          "code",
          "a code of ISO 4406 such as 18/16/13, >28/25/20 or -/15/12, with numbers from 0 to 28 that"
              + " do not rise",
          "code whose counts are asked for; either this or counts");
  private static final Description DESCRIPTION =
      Description.of(
          "code",
          "Cleanliness code",
          "Which cleanliness code and classes do counts have, and which counts does a code allow?",
          Scope.NONE,
          COUNTS,
          VOLUME,
          CODE);
  private static final String NOT_ALL_SIZES =
      "%s needs counts at %s µm(c); not all of them were given.";

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Optional<String> counts = values.find(COUNTS);
    Optional<String> code = values.find(CODE);
    if (counts.isPresent() == code.isPresent()) {
      throw refused("--counts, --code", counts.isPresent() ? "both" : "", "exactly one of them");
    }
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    if (code.isPresent()) {
      if (values.find(VOLUME).isPresent()) {
        throw refused("--" + VOLUME.name(), "it beside --code", "it only beside --counts");
      }
      ofCode(read(code.get()), result);
    } else {
      ParticleCounts sample = CountsOption.read("--" + COUNTS.name(), counts.get());
      ofCounts(values.find(VOLUME).map(sample::countedIn).orElse(sample), result);
    }
    return result.build();
  }

  private static ReportedCode read(String text) {
    try {
      return ReportedCode.parse(text);
    } catch (IllegalArgumentException e) {
      throw refused("--" + CODE.name(), text, CODE.form());
    }
  }

  private static void ofCode(ReportedCode code, Result.Builder result) {
    result.value("iso4406", "ISO 4406", code.toString());
    result.add(numbers(code, Optional.empty()));
  }

  private static void ofCounts(ParticleCounts counts, Result.Builder result) {
    ReportedCode code = Iso4406.code(counts);
    result.value("iso4406", "ISO 4406", code.toString());
    result.value("as4059", "SAE AS4059, class at each size", As4059.sizeCode(counts));
    result.value("as4059Worst", "SAE AS4059, worst class", As4059.worstCode(counts));

    boolean allRanges = Nas1638.classes(counts).stream().allMatch(Optional::isPresent);
    Optional<Cell> nas = Nas1638.worst(counts).filter(c -> allRanges).map(c -> Cell.of("" + c));
    result.add(new Entry.Value("nas1638", "NAS 1638 class", "", nas.orElseGet(Cell.None::new)));
    if (nas.isEmpty()) {
      result.finding(
          Severity.NOTE,
          String.format(NOT_ALL_SIZES, "NAS 1638", "6, 14, 21, 38 and 70"),
          "counts");
    }
    result.value(
        "mass_mg_per_L",
        "Mass of the particles",
        "mg/L",
        counts.complete() ? counts.massMgPerL() : Double.NaN);
    if (!counts.complete()) {
      result.finding(
          Severity.NOTE,
          String.format(NOT_ALL_SIZES, "The mass", "4, 6, 14, 21, 38 and 70"),
          "counts");
    }
    if (code.places().stream().anyMatch(p -> p.kind() == Kind.AT_LEAST)) {
      result.finding(
          Severity.CAUTION,
          "A number marked >= stands for fewer than "
              + Iso4406.FEWEST_PARTICLES
              + " particles counted: the true one may be higher.",
          "counts");
    }
    result.add(numbers(code, Optional.of(counts)));
  }

  private static Entry.Table numbers(ReportedCode code, Optional<ParticleCounts> counts) {
    List<Entry.Column> columns = new ArrayList<>();
    columns.add(new Entry.Column("size_um_c", "At or above", "µm(c)"));
    counts.ifPresent(c -> columns.add(new Entry.Column("counted_per_mL", "Counted", "1/mL")));
    columns.add(new Entry.Column("scaleNumber", "Scale number", ""));
    columns.add(new Entry.Column("moreThan_per_mL", "More than", "1/mL"));
    columns.add(new Entry.Column("upTo_per_mL", "Up to", "1/mL"));
    List<List<Cell>> rows =
        IntStream.range(0, code.places().size())
            .mapToObj(i -> row(i, code.places().get(i), counts))
            .toList();
    return new Entry.Table(
        "scaleNumbers", "Counts of each scale number", Entry.Use.READ, columns, rows);
  }

  private static List<Cell> row(int i, Place place, Optional<ParticleCounts> counts) {
    Optional<CountRange> range = place.rangePerMl();
    List<Cell> row = new ArrayList<>();
    row.add(Cell.of(SizeBands.edgeUmC(i)));
    counts.ifPresent(c -> row.add(Cell.of(c.perMl(i))));
    row.add(Cell.of(place.toString()));
    row.add(Cell.of(range.map(CountRange::moreThanPerMl).orElse(Double.NaN)));
    row.add(Cell.of(range.map(CountRange::upToPerMl).orElse(Double.NaN)));
    return row;
  }

  private static InputException refused(String option, String value, String expected) {
    return new InputException(new Problem("option", option, value, expected));
  }
}
