package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Several texts in an order, none unless given. As one text they stand with commas between them; as
 * an option it may be given several times.
 *
 * @param name name
 * @param form what one of them looks like
 * @param meaning meaning
 */
public record ListParameter(String name, String form, String meaning)
    implements Parameter<List<String>> {
  @Override
  public Optional<List<String>> standard() {
    return Optional.empty();
  }

  @Override
  public List<String> read(String text) {
    List<String> all = new ArrayList<>();
    for (String part : text.split(",", -1)) {
      String one = part.strip();
      if (one.isEmpty() || all.contains(one)) {
        throw new IllegalArgumentException(form + ", each once, with commas between them");
      }
      all.add(one);
    }
    return List.copyOf(all);
  }
}
