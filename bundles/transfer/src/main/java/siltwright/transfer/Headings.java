package siltwright.transfer;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/**
 * What the headings of columns mean. The words are plain words of the trade, English and German;
 * common practice, no source. A field's own name always counts.
 */
final class Headings {
  static final String MACHINE = "machine";
  static final String DATE = "date";
  static final String TIME = "time";

  /** Columns of a list of machines. */
  static final Set<String> MACHINE_FIELDS =
      Set.of("serial", "name", "class", "site", "site_name", "zone");

  /** Longer ones mean nothing: to look for their parts takes the longer the more often. */
  private static final int LONGEST = 300;

  private static final Pattern BRACKETS = Pattern.compile("[\\[(]([^\\])]*)[\\])]\\s*$");
  private static final Pattern COUNT =
      Pattern.compile(
          "(?:particles?|partikel|counts?|cnt|anzahl|p)?\\s*(?:>=|≥|>|from|ab)?\\s*"
              + "(4|6|14|21|38|70)\\s*(?:µm|um|mic|micron|microns|mu)?(?:\\s*\\(?c\\)?)?");

  private static final Map<String, List<String>> WORDS = words();

  private Headings() {}

  private static Map<String, List<String>> words() {
    Map<String, List<String>> w = new HashMap<>();
    w.put(
        MACHINE,
        split(
            "machine|machine id|machine no|unit|unit id|unit no|equipment|equipment id|equipment"
                + " no|asset|asset id|fleet no|fleet number|vehicle|plant no|maschine|maschinen"
                + " nr|maschinennummer|gerät|geräte nr|inventar nr|serial|serial no|serial"
                + " number|s n|pin|seriennummer|serien nr"));
    w.put(
        DATE,
        split(
            "date|datetime|date time|timestamp|time stamp|at|day|when|date read|reading"
                + " date|sample date|date sampled|sampled|drawn|date drawn|date taken|change"
                + " date|date changed|changed on|replaced on|date replaced|datum|probe"
                + " vom|probenahme|entnahme|entnahmedatum|wechsel am|zeitpunkt|utc|local time"));
    w.put(TIME, split("time|time of day|clock|uhrzeit|zeit"));
    w.put(
        "meter_h",
        split(
            "meter|hours|hrs|hour meter|hourmeter|smu|meter reading|meter hours|machine"
                + " hours|operating hours|unit hours|equipment hours|service meter|h|reading|betriebsstunden"
                + "|bstd|zählerstand|stunden|bh"));
    w.put("source", split("source|read by|origin|quelle|abgelesen von"));
    w.put("filter", split("filter|filter position|filter location|which filter|filterort"));
    w.put(
        "element",
        split("element|element fitted|element type|filter element|element no|filterelement"));
    w.put("procedure", split("procedure|method|way|how|change method|verfahren|art des wechsels"));
    w.put("reason", split("reason|why|trigger|grund|anlass"));
    w.put("person", split("person|fitter|mechanic|crew|by|done by|technician|monteur|name"));
    w.put(
        "drop_kPa",
        split(
            "drop|pressure drop|dp|delta p|δp|differential pressure|diff pressure|drop"
                + " before|indicator reading|differenzdruck|druckverlust"));
    w.put("note", split("note|notes|remark|remarks|comment|comments|bemerkung|notiz"));
    w.put(
        "sample_no",
        split(
            "sample no|sample number|sample id|sample|lab no|lab number|lab id|bottle"
                + " no|probe nr|probennummer|labor nr|proben nr"));
    w.put(
        "point",
        split("point|sample point|sampling point|drawn from|location|probenstelle|entnahmestelle"));
    w.put("oil_h", split("oil hours|hours on oil|oil age|h oil|fluid hours|ölstunden|öl h"));
    w.put(
        "code",
        split(
            "iso code|iso|iso 4406|cleanliness|cleanliness code|code|particle"
                + " code|reinheitsklasse|reinheit|iso4406"));
    w.put("water_ppm", split("water|water content|h2o|wasser|wassergehalt|kf water"));
    w.put(
        "viscosity40_mm2_per_s",
        split(
            "viscosity|viscosity 40|visc 40|v40|kv40|viscosity at 40|viscosity 40 c|viscosity at 40 c|visc 40 c|kv 40|visc|viskosität|viskosität 40"));
    w.put("iron_ppm", split("iron|fe|eisen"));
    w.put("silicon_ppm", split("silicon|si|silizium"));
    w.put(
        "oil_degC",
        split("oil temperature|oil temp|temperature|temp|t oil|öltemperatur|temperatur"));
    w.put("flow_L_per_min", split("flow|return flow|q|durchfluss|volumenstrom"));
    w.put("indicator", split("indicator|lamp|warning|flag|anzeige"));
    w.put(
        "component",
        split("component|part|part replaced|component replaced|komponente|bauteil|assembly"));
    w.put("cause", split("cause|failure|failed|failure mode|reason|why|ursache|grund"));
    w.put("part_no", split("part no|part number|teilenummer|teile nr"));
    w.put("fault_code", split("fault code|fault|dtc|error code|fehlercode|code identifier"));
    w.put("severity", split("severity|level|code severity|schwere"));
    w.put("origin", split("origin|source|code source|controller|module|quelle"));
    w.put("description", split("description|text|code description|beschreibung"));
    w.put("serial", split("serial|serial no|serial number|s n|pin|seriennummer|serien nr"));
    w.put("name", split("name|machine name|bezeichnung|description"));
    w.put("class", split("class|machine class|type|kind|klasse|typ"));
    w.put("site", split("site|site id|location|depot|pit|quarry|standort|werk"));
    w.put("site_name", split("site name|standort name"));
    w.put("zone", split("zone|time zone|timezone|zeitzone"));
    return w;
  }

  private static List<String> split(String words) {
    return List.of(words.split("\\|"));
  }

  /** A heading in its parts: the words, and the unit if it ends with one. */
  record Parts(String words, String unit) {}

  static Parts parts(String heading) {
    String text = heading.strip();
    if (text.length() > LONGEST) {
      return new Parts("", "");
    }
    Matcher m = BRACKETS.matcher(text);
    if (m.find() && m.start() > 0 && !m.group(1).equalsIgnoreCase("c")) {
      return new Parts(plain(text.substring(0, m.start())), m.group(1).strip());
    }
    for (String between : new String[] {", ", " in ", " / ", " "}) {
      int at = text.lastIndexOf(between);
      if (at > 0 && Units.isUnit(text.substring(at + between.length()))) {
        String unit = text.substring(at + between.length()).strip();
        if (unit.length() > 1 || between.equals(", ")) {
          return new Parts(plain(text.substring(0, at)), unit);
        }
      }
    }
    return new Parts(plain(text), "");
  }

  private static String plain(String text) {
    return text.toLowerCase(Locale.ROOT)
        .replace('μ', 'µ')
        .replaceAll("[^\\p{L}\\p{N}>≥=µ()]+", " ")
        .strip();
  }

  /** Returns whether a heading means a field. */
  static boolean means(String heading, String field) {
    if (heading.strip().equalsIgnoreCase(field)) {
      return true;
    }
    if (heading.isBlank() || heading.length() > LONGEST) {
      return false;
    }
    Parts parts = parts(heading);
    if (field.startsWith("count") && field.endsWith("_per_mL")) {
      Matcher m = COUNT.matcher(parts.words());
      boolean marked = parts.words().matches(".*(>|≥|µm|um|mic|count|cnt|part|anz|p\\d).*");
      return marked && m.matches() && field.equals("count" + m.group(1) + "_per_mL");
    }
    // "machine hours" is the meter, not a machine in hours
    String whole = plain(heading);
    boolean isWord = WORDS.values().stream().anyMatch(w -> w.contains(whole));
    return WORDS.getOrDefault(field, List.of()).contains(isWord ? whole : parts.words());
  }

  /** Returns the field of a kind that a heading means; the hour meter last. */
  static Optional<RecordField> field(RecordKind kind, String heading) {
    List<RecordField> fields = new ArrayList<>(kind.fields());
    fields.add(RecordKind.METER_H);
    // the name itself counts before any word
    for (RecordField f : fields) {
      if (heading.strip().equalsIgnoreCase(f.name())) {
        return Optional.of(f);
      }
    }
    return fields.stream().filter(f -> means(heading, f.name())).findFirst();
  }

  /** Returns whether a heading is known in any table. */
  static boolean isKnown(String heading) {
    if (heading.isBlank()) {
      return false;
    }
    for (String word : List.of(MACHINE, DATE, TIME)) {
      if (means(heading, word)) {
        return true;
      }
    }
    for (RecordKind kind : RecordKind.values()) {
      if (field(kind, heading).isPresent()) {
        return true;
      }
    }
    return MACHINE_FIELDS.stream().anyMatch(f -> means(heading, f));
  }
}
