package siltwright.pages;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.commonmark.Extension;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.ext.heading.anchor.IdGenerator;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.Heading;
import org.commonmark.node.Image;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.HtmlRenderer;

/**
 * One text.
 *
 * @param from file, from the folder of the project
 * @param root the text, parsed
 * @param anchors id of each heading, as web pages of repositories name them
 */
record Paper(Path from, Node root, Map<Heading, String> anchors) {
  private static final List<Extension> TABLES = List.of(TablesExtension.create());
  private static final int CONTENTS_FROM = 4;

  /** Reads a text. */
  static Paper read(Path project, Path from) throws IOException {
    Node root =
        Parser.builder().extensions(TABLES).build().parse(Files.readString(project.resolve(from)));
    IdGenerator ids = IdGenerator.builder().build();
    Map<Heading, String> anchors = new LinkedHashMap<>();
    root.accept(
        new AbstractVisitor() {
          @Override
          public void visit(Heading heading) {
            // the generator would use the letters of the user's language
            anchors.put(heading, ids.generateId(words(heading).toLowerCase(Locale.ROOT)));
          }
        });
    return new Paper(from, root, anchors);
  }

  /** Returns where its page goes: beside the text, but there is no room for it among the jars. */
  static Path page(Path text) {
    if (text.startsWith("bundles")) {
      return Path.of("docs", "bundles", text.getName(1) + ".html");
    }
    return text.resolveSibling(text.getFileName().toString().replaceFirst("[.]md$", ".html"));
  }

  Path page() {
    return page(from);
  }

  /** A link or a picture in a text. */
  interface Pointer {
    String target();

    void pointTo(String target);
  }

  /** Returns all that points elsewhere. */
  List<Pointer> pointers() {
    List<Pointer> pointers = new ArrayList<>();
    root.accept(
        new AbstractVisitor() {
          @Override
          public void visit(Link link) {
            pointers.add(pointer(link));
            visitChildren(link);
          }

          @Override
          public void visit(Image image) {
            pointers.add(pointer(image));
            visitChildren(image);
          }
        });
    return pointers;
  }

  private static Pointer pointer(Node node) {
    return new Pointer() {
      @Override
      public String target() {
        return node instanceof Link link ? link.getDestination() : ((Image) node).getDestination();
      }

      @Override
      public void pointTo(String target) {
        if (node instanceof Link link) {
          link.setDestination(target);
        } else {
          ((Image) node).setDestination(target);
        }
      }
    };
  }

  /** Returns the words of its first heading. */
  String title() {
    return anchors.keySet().stream().findFirst().map(Paper::words).orElse(from.toString());
  }

  private static String words(Node node) {
    StringBuilder words = new StringBuilder();
    node.accept(
        new AbstractVisitor() {
          @Override
          public void visit(Text text) {
            words.append(text.getLiteral());
          }

          @Override
          public void visit(Code code) {
            words.append(code.getLiteral());
          }
        });
    return words.toString();
  }

  /** Returns the text as HTML. Markup in the Markdown itself is shown, not followed. */
  String body() {
    return HtmlRenderer.builder()
        .extensions(TABLES)
        .escapeHtml(true)
        .sanitizeUrls(true)
        .percentEncodeUrls(true)
        .attributeProviderFactory(
            context ->
                (node, tag, attributes) -> {
                  String anchor = node instanceof Heading h ? anchors.get(h) : null;
                  if (anchor != null) {
                    attributes.put("id", anchor);
                  }
                  attributes.remove("rel"); // it is for what strangers write
                })
        .build()
        .render(root);
  }

  /** Returns its parts as a list of links, if there are enough to look for one. */
  String contents() {
    List<Heading> parts =
        anchors.keySet().stream().filter(heading -> heading.getLevel() == 2).toList();
    if (parts.size() < CONTENTS_FROM) {
      return "";
    }
    StringBuilder list = new StringBuilder("<nav class=\"contents\"><p>On this page</p><ul>\n");
    for (Heading part : parts) {
      list.append("<li><a href=\"#")
          .append(anchors.get(part))
          .append("\">")
          .append(Pages.escaped(words(part)))
          .append("</a></li>\n");
    }
    return list.append("</ul></nav>\n").toString();
  }
}
