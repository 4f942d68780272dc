package siltwright.transfer;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import siltwright.cleanliness.Iso4406;

/**
 * Writes the invented years as three sites and two laboratories would have: each in a form of its
 * own, with the slips that such files have. What is wrong on purpose stands in {@code
 * demo-data/five-years/README.md}.
 */
final class PitYearsFiles {
  static final Path FOLDER = Path.of("../../demo-data/five-years");

  private static final Charset WINDOWS = Charset.forName("windows-1252");
  private static final DateTimeFormatter GERMAN = DateTimeFormatter.ofPattern("dd.MM.yyyy");
  private static final DateTimeFormatter MONTH_FIRST = DateTimeFormatter.ofPattern("MM/dd/yyyy");
  private static final DateTimeFormatter NAMED =
      DateTimeFormatter.ofPattern("dd-MMM-yyyy", Locale.ENGLISH);
  private static final String LF = "\n";
  private static final String CRLF = "\r\n";

  /** EX-13's meter is replaced on this day of the records. */
  private static final int NEW_METER_DAY = 861;

  private final PitYears years = new PitYears(2025);
  private final SplittableRandom random = new SplittableRandom(5);
  private final Map<String, byte[]> files = new LinkedHashMap<>();

  static Map<String, byte[]> all() {
    PitYearsFiles f = new PitYearsFiles();
    f.machines();
    f.dusthollowMeters();
    f.frostmarrowMeters();
    f.loamquellMeters();
    f.dusthollowChanges();
    f.frostmarrowChanges();
    f.loamquellChanges();
    f.drops();
    f.laboratory();
    f.secondLaboratory();
    f.renewals();
    f.telematics();
    return f.files;
  }

  private void put(String name, Charset charset, String end, List<String> lines) {
    files.put(name, (String.join(end, lines) + end).getBytes(charset));
  }

  private List<PitYears.Year> at(String site) {
    return years.machines.stream().filter(y -> y.machine().site().equals(site)).toList();
  }

  private static LocalDate date(int day) {
    return PitYears.FIRST.plusDays(day);
  }

  private static String number(double v, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", v);
  }

  private static String comma(double v, int decimals) {
    return number(v, decimals).replace('.', ',');
  }

  private static String grouped(double v, String group) {
    return String.format(Locale.ROOT, "%,.1f", v).replace(",", group);
  }

  private static String serial(PitYears.Year y) {
    return "SN" + (40_000 + 37 * (y.machine().id().hashCode() & 0xff) + y.machine().id().charAt(1));
  }

  /** What the meter shows: EX-13's begins again when it is replaced. */
  private static double meterH(PitYears.Year y, int day) {
    boolean anew = y.machine().id().equals("EX-13") && day >= NEW_METER_DAY;
    return anew ? y.hoursAt(day) - y.hoursAt(NEW_METER_DAY) + 3 : y.firstMeterH() + y.hoursAt(day);
  }

  private void machines() {
    List<String> lines = new ArrayList<>(List.of("machine,serial,name,class,site,site_name,zone"));
    for (PitYears.Year y : years.machines) {
      var m = y.machine();
      String name = m.name().replace("\"", "\"\"");
      lines.add(
          String.join(
              ",",
              m.id(),
              serial(y),
              '"' + name + '"',
              m.machineClass(),
              m.site(),
              '"' + m.site().substring(0, 1).toUpperCase(Locale.ROOT) + m.site().substring(1) + '"',
              m.site().equals("frostmarrow") ? "CET" : "WET"));
    }
    put("machines.csv", StandardCharsets.UTF_8, LF, lines);
  }

  /** A day in each month, the same for no two machines. */
  private int day(int month) {
    return Math.min(1820, (int) (30.4 * month) + 1 + (int) (26 * random.nextDouble()));
  }

  private void dusthollowMeters() {
    List<String> lines = new ArrayList<>();
    lines.add("Zählerstände Grube Dusthollow;;;");
    lines.add(";;;");
    lines.add("Maschinen-Nr.;Datum;Betriebsstunden [h];Abgelesen von");
    for (int month = 0; month < 60; month++) {
      for (PitYears.Year y : at("dusthollow")) {
        int day = day(month);
        String id = y.machine().id();
        double h = meterH(y, day);
        if (id.equals("DR-16") && month == 22) {
          h *= 10; // a digit too many
        }
        lines.add(
            String.join(
                ";",
                id.replace('-', ' '),
                date(day).format(GERMAN),
                month % 3 == 0 ? grouped(h, " ").replace('.', ',').replace(' ', '.') : comma(h, 1),
                month < 30 ? "Schicht A" : "\"Schicht B; Spät\""));
      }
    }
    // pasted a second time, as happens
    lines.addAll(lines.subList(100, 112));
    lines.add("EX 11;31.02.2022;9999,0;Schicht A");
    lines.add("EX 19;14.03.2022;8120,5;Schicht A");
    lines.add("HT 14;02.05.2022;Zähler defekt;Schicht A");
    String[] again = lines.get(60).split(";");
    lines.add(String.join(";", again[0], again[1], "12,5", again[3]));
    lines.add(";;;");
    put("dusthollow-meters.csv", WINDOWS, CRLF, lines);
  }

  private void frostmarrowMeters() {
    List<String> lines = new ArrayList<>(List.of("Unit,Date Read,SMU,Read By"));
    for (int month = 0; month < 60; month++) {
      for (PitYears.Year y : at("frostmarrow")) {
        int day = day(month);
        double h = meterH(y, day);
        if (y.machine().id().equals("WL-32") && month == 40) {
          h -= 900; // two digits the wrong way round
        }
        lines.add(
            String.join(
                ",",
                y.machine().id().replace("-", "").toLowerCase(Locale.ROOT),
                date(day).format(MONTH_FIRST),
                '"' + grouped(h, ",") + '"',
                "\"Depot, north\""));
      }
    }
    lines.add("ex31,13/14/2023,\"9,000.0\",\"Depot, north\"");
    lines.add("ex31,06/14/2023,-5,\"Depot, north\"");
    put("frostmarrow-meters.csv", StandardCharsets.UTF_8, LF, lines);
  }

  private void loamquellMeters() {
    List<String> lines = new ArrayList<>(List.of("\uFEFFmachine\tdate\tmeter_h\tsource"));
    for (int month = 0; month < 60; month++) {
      for (PitYears.Year y : at("loamquell")) {
        int day = day(month);
        lines.add(
            String.join(
                "\t",
                y.machine().id(),
                date(day) + " 06:30",
                number(meterH(y, day), 1),
                month % 7 == 3 ? "" : "walk-round"));
      }
    }
    lines.add("WL-21\t2024-07-09 06:30\t\twalk-round");
    lines.add("\t\t\t");
    put("loamquell-meters.csv", StandardCharsets.UTF_8, LF, lines);
  }

  private static String element(PitYears.Year y) {
    return y.machine().returnFilter().element().id();
  }

  private void dusthollowChanges() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "Maschine;Datum;Bstd;Filter;Element;Verfahren;Grund;Monteur;Druckverlust [bar];Bemerkung");
    String[] crews = {"D1", "D2", "D3"};
    for (PitYears.Year y : at("dusthollow")) {
      int slips = 0;
      for (PitYears.Change c : y.changes()) {
        boolean kPa =
            date(c.day()).getYear() == 2022 && c.dropKPa() > 101 && slips++ < 1; // typed in kPa
        String crew = crews[(int) (3 * random.nextDouble())];
        lines.add(
            String.join(
                ";",
                y.machine().id(),
                date(c.day()).format(GERMAN),
                comma(meterH(y, c.day()), 0),
                "return",
                element(y),
                c.procedure(),
                c.indicator() ? "indicator" : "hours",
                crew,
                kPa ? number(c.dropKPa(), 0) : comma(c.dropKPa() / 100, 2),
                note(c.day())));
      }
    }
    put("dusthollow-changes.csv", WINDOWS, CRLF, lines);
  }

  private static String note(int day) {
    return switch (day % 23) {
      case 3 -> "\"Deckel verkantet; neu gesetzt\"";
      case 7 -> "\"Öl nachgefüllt,\n4 l\"";
      case 11 -> "\"=Dichtring \"\"neu\"\"\"";
      default -> "";
    };
  }

  private void frostmarrowChanges() {
    List<String> lines =
        new ArrayList<>(
            List.of("Unit,Date Changed,SMU,Filter,Element,Method,Reason,By,Pressure Drop (psi)"));
    for (PitYears.Year y : at("frostmarrow")) {
      for (PitYears.Change c : y.changes()) {
        lines.add(
            String.join(
                ",",
                y.machine().id(),
                date(c.day()).format(MONTH_FIRST),
                number(meterH(y, c.day()), 0),
                "return",
                element(y),
                c.procedure(),
                c.indicator() ? "indicator" : "hours",
                random.nextDouble() < 0.5 ? "F1" : "F2",
                number(c.dropKPa() / 6.894757, 1)));
      }
    }
    put("frostmarrow-changes.csv", StandardCharsets.UTF_8, LF, lines);
  }

  private void loamquellChanges() {
    List<String> lines =
        new ArrayList<>(
            List.of("machine,date,meter_h,filter,element,procedure,reason,person,drop_kPa,note"));
    for (PitYears.Year y : at("loamquell")) {
      for (PitYears.Change c : y.changes()) {
        lines.add(
            String.join(
                ",",
                y.machine().id(),
                date(c.day()).toString(),
                number(meterH(y, c.day()), 0),
                "return",
                element(y),
                c.procedure(),
                c.indicator() ? "indicator" : "hours",
                random.nextDouble() < 0.5 ? "L1" : "L2",
                number(c.dropKPa(), 0),
                c.day() % 19 == 5 ? "\"bowl <b>not</b> wiped\"" : ""));
      }
    }
    put("loamquell-changes.csv", StandardCharsets.UTF_8, LF, lines);
  }

  private void drops() {
    List<String> lines =
        new ArrayList<>(List.of("machine,date,drop_kPa,oil_degC,flow_L_per_min,indicator"));
    for (PitYears.Year y : years.machines) {
      double trips = y.machine().returnFilter().indicatorKPa().orElse(Double.POSITIVE_INFINITY);
      for (PitYears.Drop d : y.drops()) {
        lines.add(
            String.join(
                ",",
                y.machine().id(),
                date(d.day()) + "T13:00Z",
                number(d.dropKPa(), 1),
                number(d.oilC(), 0),
                number(d.flowLPerMin(), 0),
                d.dropKPa() > trips ? "red" : "green"));
      }
    }
    put("drops.csv", StandardCharsets.UTF_8, LF, lines);
  }

  private static String code(double[] perMl) {
    return Iso4406.scaleNumber(perMl[0])
        + "/"
        + Iso4406.scaleNumber(perMl[1])
        + "/"
        + Iso4406.scaleNumber(perMl[2]);
  }

  private static boolean second(PitYears.Sample s) {
    return date(s.day()).getYear() == 2023;
  }

  private void laboratory() {
    List<String> lines = new ArrayList<>();
    lines.add("Report of results");
    lines.add("Customer: three pits (invented)");
    lines.add("");
    lines.add(
        "Lab No,Serial No,Date Sampled,Machine Hours,Hours on Oil,>4µm(c),>6µm(c),>14µm(c),ISO Code,"
            + "Fe,Si,Water,Visc 40,Remarks");
    lines.add("-,-,-,h,h,/mL,/mL,/mL,-,ppm,ppm,ppm,cSt,-");
    int no = 1000;
    for (PitYears.Year y : years.machines) {
      for (PitYears.Sample s : y.samples()) {
        no += 1 + (int) (3 * random.nextDouble());
        if (!second(s)) {
          lines.add(row(y, s, no));
        }
      }
    }
    String twice = lines.get(40);
    lines.add(50, twice);
    lines.add(lines.get(60).replaceFirst("(L\\d+,[^,]+,[^,]+,[^,]+,[^,]+),[^,]+", "$1,1"));
    lines.add("L9001,,11-May-2024,8100,900,812,140,9.1,17/14/10,12,5,110,45.6,bottle not labelled");
    lines.add("L9002,SN99999,12-May-2024,8110,900,640,120,8,16/14/10,11,4,100,45.7,");
    put("laboratory.csv", StandardCharsets.UTF_8, CRLF, lines);
  }

  private static String row(PitYears.Year y, PitYears.Sample s, int no) {
    double[] n = s.countsPerMl();
    boolean water = s.waterPpm() < 100;
    return String.join(
        ",",
        "L" + no,
        serial(y),
        date(s.day()).format(NAMED),
        number(meterH(y, s.day()), 0),
        number(s.oilH(), 0),
        number(n[0], 1),
        number(n[1], 1),
        n[2] < 1 ? "<1" : number(n[2], 1),
        code(n),
        number(s.ironPpm(), 1),
        number(s.siliconPpm(), 1),
        water ? "<100" : number(s.waterPpm(), 0),
        number(s.viscosity(), 1),
        "");
  }

  /** For a year another laboratory did it: counts per 100 mL, water in percent. */
  private void secondLaboratory() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "Proben-Nr;Maschine;Entnahmedatum;Bstd;Ölstunden;>4 (1/100 mL);>6 (1/100 mL);>14 (1/100 mL);"
            + "Reinheitsklasse;Fe;Si;Wasser [%]");
    int no = 300;
    for (PitYears.Year y : years.machines) {
      for (PitYears.Sample s : y.samples()) {
        if (second(s)) {
          double[] n = s.countsPerMl();
          lines.add(
              String.join(
                  ";",
                  "23-" + ++no,
                  y.machine().id(),
                  date(s.day()).format(GERMAN),
                  comma(meterH(y, s.day()), 0),
                  comma(s.oilH(), 0),
                  comma(100 * n[0], 0),
                  comma(100 * n[1], 0),
                  comma(100 * n[2], 0),
                  code(n),
                  comma(s.ironPpm(), 1),
                  comma(s.siliconPpm(), 1),
                  comma(s.waterPpm() / 10_000, 4)));
        }
      }
    }
    put("laboratory-2023.csv", WINDOWS, CRLF, lines);
  }

  private void renewals() {
    List<String> lines =
        new ArrayList<>(List.of("machine,date replaced,hours,component replaced,cause,part no"));
    for (PitYears.Year y : years.machines) {
      for (PitYears.Renewal r : y.renewals()) {
        lines.add(
            String.join(
                ",",
                y.machine().id(),
                date(r.day()).toString(),
                number(meterH(y, r.day()), 0),
                r.component(),
                "failed",
                "P-" + (1000 + Math.abs(r.component().hashCode() % 9000))));
      }
    }
    put("components.csv", StandardCharsets.UTF_8, LF, lines);
  }

  private void telematics() {
    List<String> lines = new ArrayList<>();
    lines.add("<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
    lines.add("<Fleet version=\"1\" snapshotTime=\"2025-12-31T18:00:00Z\">");
    for (PitYears.Year y : years.machines) {
      if (y.machine().id().startsWith("HT")) {
        lines.add("  <Equipment>");
        lines.add("    <EquipmentHeader>");
        lines.add("      <SerialNumber>" + serial(y) + "</SerialNumber>");
        lines.add("    </EquipmentHeader>");
        lines.add("    <CumulativeOperatingHours datetime=\"2025-12-31T17:55:00Z\">");
        lines.add("      <Hour>" + number(meterH(y, 1822), 1) + "</Hour>");
        lines.add("    </CumulativeOperatingHours>");
        if (y.machine().id().equals("HT-14")) {
          lines.add("    <FaultCode datetime=\"2025-12-30T09:12:00Z\">");
          lines.add("      <CodeIdentifier>H-210</CodeIdentifier>");
          lines.add("      <CodeDescription>return filter restricted</CodeDescription>");
          lines.add("      <CodeSeverity>medium</CodeSeverity>");
          lines.add("    </FaultCode>");
        }
        lines.add("  </Equipment>");
      }
    }
    lines.add("</Fleet>");
    put("telematics.xml", StandardCharsets.UTF_8, LF, lines);
  }
}
