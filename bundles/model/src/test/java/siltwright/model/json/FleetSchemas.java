package siltwright.model.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;

/** The published JSON Schema of the format, and an independent validator (networknt). */
final class FleetSchemas {
  static final Path DOCS = Path.of("..", "..", "docs");
  static final JsonNode TREE = FleetSamples.tree(text("schema/fleet-1.schema.json"));
  private static final JsonSchema SCHEMA =
      JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(TREE);

  private FleetSchemas() {}

  static String text(String file) {
    try {
      return Files.readString(DOCS.resolve(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Set<ValidationMessage> errors(JsonNode document) {
    return SCHEMA.validate(document);
  }
}
