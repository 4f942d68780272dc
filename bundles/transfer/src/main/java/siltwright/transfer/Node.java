package siltwright.transfer;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackReader;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.Location;
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
  private static final int HEAD = 8192;
  private static final Pattern ENCODING =
      Pattern.compile("[^<]{0,100}<\\?xml[^>]{1,200}?encoding\\s*=\\s*[\"']([A-Za-z0-9._-]{1,40})");

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
      in.mark(HEAD);
      byte[] bytes = in.readNBytes(HEAD);
      in.reset();
      String head = new String(bytes, StandardCharsets.ISO_8859_1);
      if (head.replace("\0", "").contains("<!DOCTYPE")) {
        throw problem(file, "a document type declaration", "plain XML without entities");
      }
      boolean xml = head.replaceAll("[^\\x21-\\x7e]", "").startsWith("<");
      return xml ? xml(file, reader(file, in, head)) : json(file, in);
    }
  }

  /**
   * Reads characters, so that bytes of another encoding are found here: by mark, or as XML says.
   */
  private static Reader reader(Path file, InputStream in, String head) throws IOException {
    Matcher said = ENCODING.matcher(head);
    String name = said.lookingAt() ? said.group(1) : "UTF-8";
    String mark = head.substring(0, Math.min(2, head.length()));
    if (mark.equals("\u00FF\u00FE") || mark.equals("\u00FE\u00FF")) {
      name = "UTF-16";
    } else if (name.toUpperCase(Locale.ROOT).startsWith("UTF-16")) {
      name = "UTF-8"; // it can't be, since that name was read of single bytes
    }
    try {
      PushbackReader reader =
          new PushbackReader(new InputStreamReader(in, Charset.forName(name).newDecoder()));
      int first = reader.read();
      if (first != '\uFEFF' && first >= 0) {
        reader.unread(first);
      }
      return reader;
    } catch (IllegalArgumentException | UnsupportedOperationException e) {
      throw problem(file, "the encoding " + name, "XML in UTF-8");
    }
  }

  private static InputException problem(Path file, String found, String expected) {
    return new InputException(new Problem(file.toString(), "", found, expected));
  }

  private static Node xml(Path file, Reader in) {
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
      Location at = e.getLocation();
      throw problem(
          file,
          "XML that cannot be read" + (at == null ? "" : ", row " + at.getLineNumber()),
          "a well-formed document");
    } catch (InputException e) {
      throw e;
    } catch (RuntimeException e) {
      // what the parser throws where it has no message for a fault
      throw problem(file, "XML that cannot be read", "a well-formed document");
    }
  }

  private static Node json(Path file, InputStream in) throws IOException {
    try {
      Node root = new Node("");
      add(root, "", JSON.readTree(in));
      if (root.isHalved()) {
        throw problem(file, "half of a character", "whole characters");
      }
      return root.children.isEmpty() ? root : root.children.get(0);
    } catch (JsonProcessingException e) {
      throw problem(file, "JSON that cannot be read", "a well-formed document, not too deep");
    }
  }

  private boolean isHalved() {
    return text.codePoints().anyMatch(c -> Character.getType(c) == Character.SURROGATE)
        || name.codePoints().anyMatch(c -> Character.getType(c) == Character.SURROGATE)
        || children.stream().anyMatch(Node::isHalved);
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
