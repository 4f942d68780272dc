package siltwright.transfer;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import siltwright.analysis.Progress;
import siltwright.store.Store;

/** A folder with a store, and files to bring into it. */
final class Bench {
  final Path folder;

  Bench(Path folder) {
    this.folder = folder;
  }

  String where() {
    return folder.resolve("fleet.db").toString();
  }

  Path file(String name, String text) {
    try {
      return Files.write(folder.resolve(name), text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static ImportOptions options(Wishes wishes) {
    return new ImportOptions(wishes, "ann", true, "", "", Optional.empty());
  }

  ImportReport bring(Path file) {
    return bring(file, Wishes.NONE);
  }

  ImportReport bring(Path file, Wishes wishes) {
    try (Store store = Store.open(where(), Clock.systemUTC())) {
      return new Importer(file, options(wishes)).run(store, Progress.NONE);
    }
  }

  /** Writes a zip of texts. */
  Path zip(String name, Map<String, String> parts) {
    Path file = folder.resolve(name);
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
      for (Map.Entry<String, String> part : parts.entrySet()) {
        zip.putNextEntry(new ZipEntry(part.getKey()));
        zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return file;
  }

  private static String type(String part, String type) {
    return "<Override PartName='/xl/"
        + part
        + ".xml' ContentType='application/vnd.openxmlformats-officedocument.spreadsheetml."
        + type
        + "+xml'/>";
  }

  /** The least that makes a spreadsheet by ECMA-376, with the rows of its only sheet. */
  static Map<String, String> sheet(String rows, String texts) {
    String main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    String relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    String packages = "http://schemas.openxmlformats.org/package/2006/";
    Map<String, String> parts = new java.util.LinkedHashMap<>();
    parts.put(
        "[Content_Types].xml",
        "<Types xmlns='"
            + packages
            + "content-types'><Default Extension='xml' ContentType='application/xml'/>"
            + "<Default Extension='rels'"
            + " ContentType='application/vnd.openxmlformats-package.relationships+xml'/>"
            + "<Override PartName='/xl/workbook.xml' ContentType='application/vnd.openxmlformats"
            + "-officedocument.spreadsheetml.sheet.main+xml'/>"
            + type("worksheets/sheet1", "worksheet")
            + type("styles", "styles")
            + type("sharedStrings", "sharedStrings")
            + "</Types>");
    parts.put(
        "_rels/.rels",
        "<Relationships xmlns='"
            + packages
            + "relationships'><Relationship Id='r1' Type='"
            + relations
            + "/officeDocument' Target='xl/workbook.xml'/></Relationships>");
    parts.put(
        "xl/workbook.xml",
        "<workbook xmlns='"
            + main
            + "' xmlns:r='"
            + relations
            + "'><sheets><sheet name='Log' sheetId='1' r:id='r1'/></sheets></workbook>");
    parts.put(
        "xl/_rels/workbook.xml.rels",
        "<Relationships xmlns='"
            + packages
            + "relationships'><Relationship Id='r1' Type='"
            + relations
            + "/worksheet' Target='worksheets/sheet1.xml'/><Relationship Id='r2' Type='"
            + relations
            + "/styles' Target='styles.xml'/><Relationship Id='r3' Type='"
            + relations
            + "/sharedStrings' Target='sharedStrings.xml'/></Relationships>");
    parts.put(
        "xl/styles.xml",
        "<styleSheet xmlns='"
            + main
            + "'><numFmts count='1'><numFmt numFmtId='164' formatCode='yyyy\\-mm\\-dd'/></numFmts>"
            + "<cellXfs count='3'><xf numFmtId='0'/><xf numFmtId='14'/><xf numFmtId='164'/>"
            + "</cellXfs></styleSheet>");
    parts.put("xl/sharedStrings.xml", "<sst xmlns='" + main + "'>" + texts + "</sst>");
    parts.put(
        "xl/worksheets/sheet1.xml",
        "<worksheet xmlns='" + main + "'><sheetData>" + rows + "</sheetData></worksheet>");
    return parts;
  }
}
