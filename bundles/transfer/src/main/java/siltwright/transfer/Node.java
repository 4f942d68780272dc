package siltwright.transfer;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * A part of a document, the same from XML and from JSON: attributes are children, members of an
 * array are children of one name, namespaces are left out.
 */
final class Node {
  /** Most parts of a document. */
  private static final int MOST = 2_000_000;

  private static final long LONGEST = 256L << 20;
  private static final int DEEPEST = 50;

  private static final ObjectMapper JSON =
      new ObjectMapper(
          JsonFactory.builder()
              .streamReadConstraints(
                  StreamReadConstraints.builder()
                      .maxNestingDepth(DEEPEST)
                      .maxStringLength(1 << 20)
                      .maxDocumentLength(LONGEST)
                      .build())
              .build());

  private final String name;
  private final StringBuilder text = new StringBuilder();
  private final List<Node> children = new ArrayList<>();

  private Node(String name) {
    this.name = name;
  }

  String name() {
    return name;
  }

  String text() {
    return text.toString().strip();
  }

  List<Node> children() {
    return children;
  }

  /** Returns the children of a name, whatever its capital letters. */
  List<Node> all(String of) {
    return children.stream().filter(c -> c.name.equalsIgnoreCase(of)).toList();
  }

  Optional<Node> find(String of) {
    return children.stream().filter(c -> c.name.equalsIgnoreCase(of)).findFirst();
  }

  /** Returns the text of a child, empty if there is none. */
  String text(String of) {
    return find(of).map(Node::text).orElse("");
  }

  /**
   * Reads a document.
   *
   * @throws InputException if it is neither XML nor JSON, declares a document type, or is too large
   *     or too deep
   */
  static Node read(Path file) throws IOException {
    if (Files.size(file) > LONGEST) {
      throw problem(file, Files.size(file) + " bytes", "a document of at most 256 MiB");
    }
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
      in.mark(64);
      int first;
      do {
        first = in.read();
      } while (first > 0 && (first <= ' ' || first == 0xEF || first == 0xBB || first == 0xBF));
      in.reset();
      return first == '<' ? xml(file, in) : json(file, in);
    }
  }

  private static InputException problem(Path file, String found, String expected) {
    return new InputException(new Problem(file.toString(), "", found, expected));
  }

  private static Node xml(Path file, InputStream in) {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("an external entity");
        });
    try {
      XMLStreamReader reader = factory.createXMLStreamReader(in);
      List<Node> open = new ArrayList<>();
      Node root = null;
      int count = 0;
      while (reader.hasNext()) {
        switch (reader.next()) {
          case XMLStreamConstants.DTD ->
              throw problem(file, "a document type declaration", "plain XML without entities");
          case XMLStreamConstants.ENTITY_REFERENCE ->
              throw problem(file, "an entity", "plain XML without entities");
          case XMLStreamConstants.START_ELEMENT -> {
            Node node = new Node(reader.getLocalName());
            for (int i = 0; i < reader.getAttributeCount(); i++) {
              Node attribute = new Node(reader.getAttributeLocalName(i));
              attribute.text.append(reader.getAttributeValue(i));
              node.children.add(attribute);
            }
            count += 1 + reader.getAttributeCount();
            if (count > MOST || open.size() > DEEPEST) {
              throw problem(
                  file,
                  count > MOST ? "more than " + MOST + " parts" : "parts too deep in each other",
                  "at most " + MOST + " parts, " + DEEPEST + " deep");
            }
            if (open.isEmpty()) {
              root = node;
            } else {
              open.get(open.size() - 1).children.add(node);
            }
            open.add(node);
          }
          case XMLStreamConstants.END_ELEMENT -> open.remove(open.size() - 1);
          case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA -> {
            if (!open.isEmpty() && !reader.isWhiteSpace()) {
              open.get(open.size() - 1).text.append(reader.getText());
            }
          }
          default -> {}
        }
      }
      return root;
    } catch (XMLStreamException e) {
      throw problem(
          file,
          "XML that cannot be read, row " + e.getLocation().getLineNumber(),
          "a well-formed document");
    }
  }

  private static Node json(Path file, InputStream in) throws IOException {
    try {
      Node root = new Node("");
      add(root, "", JSON.readTree(in));
      return root.children.isEmpty() ? root : root.children.get(0);
    } catch (JsonProcessingException e) {
      throw problem(file, "JSON that cannot be read", "a well-formed document, not too deep");
    }
  }

  private static void add(Node to, String name, JsonNode value) {
    if (value.isArray()) {
      if (name.isEmpty()) {
        Node all = new Node("");
        value.forEach(v -> add(all, "Equipment", v));
        to.children.add(all);
      } else {
        value.forEach(v -> add(to, name, v));
      }
      return;
    }
    Node node = new Node(name);
    if (value.isObject()) {
      for (Map.Entry<String, JsonNode> e : value.properties()) {
        add(node, e.getKey(), e.getValue());
      }
    } else if (!value.isNull()) {
      node.text.append(value.asText());
    }
    to.children.add(node);
  }
}
