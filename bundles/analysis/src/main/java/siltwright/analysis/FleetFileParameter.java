package siltwright.analysis;

/**
 * A fleet file into which the result may be written. Whoever runs the analysis reads the file into
 * {@link Context#fleet()} and, once the run is done, makes the {@link Result#revisions()} in it;
 * the analysis itself writes nothing.
 *
 * @param name name
 * @param meaning meaning
 */
public record FleetFileParameter(String name, String meaning) implements Parameter<String> {
  @Override
  public String form() {
    return "a fleet file (JSON)";
  }

  @Override
  public String read(String text) {
    return text;
  }
}
