package siltwright.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PagesTest {
  @TempDir Path folder;
  private Path project;
  private Path to;

  @BeforeEach
  void makeProject() throws IOException {
    project = folder.resolve("project");
    to = folder.resolve("pages");
    put("README.md", "# Read me\n\n[guide](docs/user-guide.md#a-part-with-code)\n");
    put("docs/user-guide.md", "# Guide\n\n## A part, with `code`\n\n![p](images/p.png)\n");
    put("docs/images/p.png", "");
    put("docs/decisions/0001-x.md", "# Decision 1: x\n");
    put("demo-data/a b.csv", "");
    put("bundles/seal/README.md", "# Seal\n\n[guide](../../docs/user-guide.md)\n");
    put("bundles/bare/pom.xml", "");
    put("LICENSE", "");
    put("features/src/main/kit/build", "");
  }

  private void put(String file, String text) throws IOException {
    Files.createDirectories(project.resolve(file).getParent());
    Files.writeString(project.resolve(file), text);
  }

  private String page(String file) throws IOException {
    return Files.readString(to.resolve(file));
  }

  @Test
  void linksLeadFromPageToPage() throws IOException {
    put(
        "docs/theory.md",
        "[up](../README.md) [seal](../bundles/seal/README.md) [why](decisions) [l](../LICENSE)"
            + " [k](../features/src/main/kit/build) [d](../demo-data/a%20b.csv) [far](https://example.org/x#y) [here](#one)\n\n# One\n");
    assertEquals(List.of(), Pages.write(project, to));
    assertTrue(page("README.html").contains("\"docs/user-guide.html#a-part-with-code\""));
    assertTrue(page("docs/user-guide.html").contains("<h2 id=\"a-part-with-code\">"));
    assertTrue(page("docs/bundles/seal.html").contains("href=\"../user-guide.html\""));
    assertTrue(page("docs/decisions/index.html").contains(">Decision 1: x</a>"));
    String theory = page("docs/theory.html");
    for (String target :
        List.of(
            "../README.html",
            "bundles/seal.html",
            "decisions/index.html",
            "../LICENSE",
            "../kit/build",
            "../demo-data/a%20b.csv",
            "https://example.org/x#y",
            "#one")) {
      assertTrue(theory.contains("href=\"" + target + "\""), target + "\n" + theory);
    }
  }

  @Test
  void whatLeadsNowhereIsTold() throws IOException {
    put("docs/theory.md", "[a](none.md) [b](user-guide.md#none) [c](#none) ![d](images/no.png)\n");
    put("bundles/seal/README.md", "[build](../../pom.xml)\n");
    put("pom.xml", "");
    List<String> dead = Pages.write(project, to);
    assertEquals(
        List.of(
            "bundles/seal/README.md: ../../pom.xml",
            "docs/theory.md: none.md",
            "docs/theory.md: user-guide.md#none",
            "docs/theory.md: #none",
            "docs/theory.md: images/no.png"),
        dead);
    Exception e =
        assertThrows(
            IllegalStateException.class,
            () -> Pages.main(new String[] {project.toString(), to.toString()}));
    assertTrue(e.getMessage().contains("docs/theory.md: none.md"), e.getMessage());
  }

  @Test
  void markupInATextIsShownAndNotFollowed() throws IOException {
    put(
        "docs/theory.md",
        "# A <b>x</b>\n\n<script>x</script>\n\n[c](javascript:x)\n\n| a | b |\n| --- | ---: |\n| 1 | 2 |\n");
    Pages.write(project, to);
    String page = page("docs/theory.html");
    assertFalse(page.contains("<script") || page.contains("<b>") || page.contains("javascript:"));
    assertTrue(page.contains("<td align=\"right\">2</td>"), page);
  }

  @Test
  void anchorsAreTheSameInEveryLanguage() throws IOException {
    put("README.md", "# Run in an IDE\n");
    Locale before = Locale.getDefault();
    Locale.setDefault(Locale.forLanguageTag("tr"));
    try {
      Pages.write(project, to);
    } finally {
      Locale.setDefault(before);
    }
    assertTrue(page("README.html").contains("<h1 id=\"run-in-an-ide\">"), page("README.html"));
  }
}
