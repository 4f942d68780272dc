package siltwright.launcher;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.exc.StreamReadException;
import com.fasterxml.jackson.core.io.JsonEOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * What a feature file says: the bundles that make up a product, in the order in which they start.
 *
 * <p>The file is the JSON of the OSGi Feature Service (OSGi Compendium 8.1, chapter 159), comments
 * allowed. Of a bundle's metadata {@code start-order} is read: lower starts first, a bundle without
 * it starts after those that have one, and the order of the file decides between equals. Where the
 * window is all that is asked for, those that have one are started before it is shown, the others
 * beside it. A bundle whose metadata give a {@code stage} is there only once that {@linkplain Stage
 * stage} is reached, one that says {@code "start": false} is never started. The parts of the
 * specification that would change what runs and that this launcher does not carry out ({@code
 * configurations}, {@code extensions}, {@code variables}) are refused, not passed over.
 *
 * @param id identifier of the feature, group:artifact:version
 * @param bundles the bundles in starting order; at least one
 */
public record Feature(String id, List<Artifact> bundles) {

  private static final int LONGEST = 400;

  /** When a bundle is needed. What a run does not need costs it no time. */
  public enum Stage {
    /** From the start. */
    START("start"),
    /** When a report or a document is written. */
    DOCUMENTS("documents"),
    /** When the window is opened, which writes documents too. */
    WINDOW("window");

    private final String word;

    Stage(String word) {
      this.word = word;
    }

    /** Returns the stage's name in feature files. */
    String word() {
      return word;
    }
  }

  /**
   * One bundle of a feature.
   *
   * @param group group of its coordinates
   * @param name artifact name of its coordinates
   * @param version version of its coordinates
   * @param startOrder lower starts first; {@link Integer#MAX_VALUE} when the file gives none
   * @param stage when it is needed
   * @param started whether it is started; of a library that is not, others still use the classes
   */
  public record Artifact(
      String group, String name, String version, int startOrder, Stage stage, boolean started) {

    /** Returns the name of the file that holds this bundle: name-version.jar. */
    public String fileName() {
      return name + "-" + version + ".jar";
    }
  }

  /** Keeps an unmodifiable copy of the list. */
  public Feature {
    bundles = List.copyOf(bundles);
  }

  /** Returns whether there are bundles of a stage. */
  public boolean has(Stage stage) {
    for (Artifact artifact : bundles) {
      if (artifact.stage() == stage) {
        return true;
      }
    }
    return false;
  }

  /**
   * Reads a feature file.
   *
   * @param file the file
   * @return what it says
   * @throws LaunchException if the file is missing, unreadable or not such a file; the message
   *     names the file and, within it, line and column
   */
  public static Feature read(Path file) throws LaunchException {
    JsonFactory json = new JsonFactory();
    json.enable(JsonParser.Feature.ALLOW_COMMENTS);
    json.enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION);
    try (InputStream bytes = Files.newInputStream(file);
        JsonParser in = json.createParser(bytes)) {
      return new Reader(file, in).feature();
    } catch (NoSuchFileException e) {
      throw new LaunchException("there is no feature file " + file, e);
    } catch (JsonEOFException e) {
      throw new LaunchException("feature file " + file + " ends too early; it may be cut off", e);
    } catch (StreamReadException e) {
      String where =
          ", line " + e.getLocation().getLineNr() + ", column " + e.getLocation().getColumnNr();
      throw new LaunchException(
          "feature file " + file + where + ": " + shown(e.getOriginalMessage()), e);
    } catch (IOException e) {
      throw new LaunchException("feature file " + file + " cannot be read: " + e.getMessage(), e);
    }
  }

  /** Returns one line of bearable length, without anything that a terminal would obey. */
  static String shown(String message) {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < message.length() && message.charAt(i) != '\n'; i++) {
      char c = message.charAt(i);
      if (line.length() == LONGEST) {
        return line.append("...").toString();
      }
      line.append(Character.isISOControl(c) || Character.isSurrogate(c) ? '?' : c);
    }
    return line.toString();
  }

  /** One pass over the file. */
  private static final class Reader {

    private final Path file;
    private final JsonParser in;

    Reader(Path file, JsonParser in) {
      this.file = file;
      this.in = in;
    }

    Feature feature() throws IOException, LaunchException {
      String id = null;
      String format = null;
      List<Artifact> bundles = List.of();
      in.nextToken();
      expect(JsonToken.START_OBJECT, "an object");
      while (in.nextToken() != JsonToken.END_OBJECT) {
        String key = in.currentName();
        in.nextToken();
        switch (key) {
          case "id" -> {
            coordinates();
            id = in.getText();
          }
          case "feature-resource-version" -> {
            format = text();
            if (!format.equals("1.0")) {
              throw fault("feature-resource-version is \"" + format + "\", expected \"1.0\"");
            }
          }
          case "bundles" -> bundles = bundles();
          case "name", "description", "docURL", "license", "SCM", "vendor" -> text();
          case "categories", "complete" -> in.skipChildren();
          default -> throw fault("\"" + key + "\" is not supported by this launcher");
        }
      }
      if (in.nextToken() != null) {
        throw fault("something follows the feature");
      }
      if (format == null || id == null || bundles.isEmpty()) {
        String missing =
            format == null ? "feature-resource-version" : id == null ? "id" : "bundles";
        throw new LaunchException("feature file " + file + " has no \"" + missing + "\"");
      }
      return new Feature(id, bundles);
    }

    private List<Artifact> bundles() throws IOException, LaunchException {
      expect(JsonToken.START_ARRAY, "an array of bundles");
      List<Artifact> bundles = new ArrayList<>();
      Set<String> names = new HashSet<>();
      while (in.nextToken() != JsonToken.END_ARRAY) {
        Artifact bundle = bundle();
        if (!names.add(bundle.name())) {
          throw fault("bundle " + bundle.name() + " is listed twice");
        }
        bundles.add(bundle);
      }
      // the sort is stable, so equals keep the order of the file
      Collections.sort(
          bundles,
          new Comparator<>() {
            @Override
            public int compare(Artifact a, Artifact b) {
              return Integer.compare(a.startOrder(), b.startOrder());
            }
          });
      return bundles;
    }

    private Artifact bundle() throws IOException, LaunchException {
      expect(JsonToken.START_OBJECT, "an object for each bundle");
      String[] coordinates = null;
      int startOrder = Integer.MAX_VALUE;
      Stage stage = Stage.START;
      boolean started = true;
      while (in.nextToken() != JsonToken.END_OBJECT) {
        String key = in.currentName();
        in.nextToken();
        switch (key) {
          case "id" -> coordinates = coordinates();
          case "start-order" -> {
            expect(JsonToken.VALUE_NUMBER_INT, "a whole number for start-order");
            startOrder = in.getIntValue();
          }
          case "stage" -> stage = stage();
          case "start" -> started = flag(key);
          default -> in.skipChildren(); // the specification leaves metadata to others
        }
      }
      if (coordinates == null) {
        throw fault("a bundle has no \"id\"");
      }
      return new Artifact(
          coordinates[0], coordinates[1], coordinates[2], startOrder, stage, started);
    }

    private Stage stage() throws IOException, LaunchException {
      String word = text();
      for (Stage stage : Stage.values()) {
        if (stage.word().equals(word)) {
          return stage;
        }
      }
      throw fault("stage is \"" + word + "\", expected start, documents or window");
    }

    private boolean flag(String key) throws IOException, LaunchException {
      if (in.currentToken() != JsonToken.VALUE_TRUE && in.currentToken() != JsonToken.VALUE_FALSE) {
        throw fault("expected true or false for " + key);
      }
      return in.getBooleanValue();
    }

    private String[] coordinates() throws IOException, LaunchException {
      String id = text();
      String[] parts = id.split(":", -1);
      boolean complete = parts.length == 3;
      for (String part : parts) {
        complete &= !part.isEmpty();
        for (int i = 0; i < part.length(); i++) {
          char c = part.charAt(i);
          complete &=
              c >= 'a' && c <= 'z'
                  || c >= 'A' && c <= 'Z'
                  || c >= '0' && c <= '9'
                  || c == '.'
                  || c == '_'
                  || c == '-';
        }
      }
      if (!complete) {
        throw fault(
            "id \""
                + id
                + "\" is not of the form group:artifact:version, each of letters, digits,"
                + " '.', '_' and '-'");
      }
      return parts;
    }

    private String text() throws IOException, LaunchException {
      expect(JsonToken.VALUE_STRING, "a text");
      return in.getText();
    }

    private void expect(JsonToken token, String what) throws LaunchException {
      if (in.currentToken() != token) {
        throw fault("expected " + what);
      }
    }

    private LaunchException fault(String what) {
      int line = in.currentTokenLocation().getLineNr();
      int column = in.currentTokenLocation().getColumnNr();
      return new LaunchException(
          "feature file " + file + ", line " + line + ", column " + column + ": " + shown(what));
    }
  }
}
