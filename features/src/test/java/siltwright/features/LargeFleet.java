package siltwright.features;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The demo's machines again and again, under ids of their own. */
final class LargeFleet {
  private LargeFleet() {}

  static void write(Path from, Path to, int machines) throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    ObjectNode fleet = (ObjectNode) mapper.readTree(from.toFile());
    List<JsonNode> models = new ArrayList<>();
    fleet.get("machines").forEach(models::add);
    ArrayNode all = mapper.createArrayNode();
    for (int i = 0; i < machines; i++) {
      ObjectNode machine = models.get(i % models.size()).deepCopy();
      machine.put("id", machine.get("id").asText() + "-" + i / models.size());
      all.add(machine);
    }
    fleet.set("machines", all);
    mapper.writerWithDefaultPrettyPrinter().writeValue(to.toFile(), fleet);
  }
}
