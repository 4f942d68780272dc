package siltwright.transfer;

import java.io.IOException;
import java.io.InputStream;

/**
 * Looks through a part of a spreadsheet for what its reader takes room for without end: far
 * columns, texts of numbers that are not there; and for document types. It knows as much of XML as
 * that takes. What is no XML is passed over.
 *
 * <p>Source: ECMA-376 part 1, 18.3.1.4 (cells: {@code r} their place, {@code t="s"} a number of a
 * shared text) and 18.4.9 (shared texts, {@code sst}); three letters make the farthest column, XFD.
 */
final class PartScan {
  private static final int END = -1;
  private static final int LONGEST_NAME = 64;
  private static final int LONGEST_COLUMN = 3;

  private final InputStream in;
  private String root = "";
  private String fault = "";
  private boolean cellOfText;
  private boolean value;
  private long texts;
  private long highestText = -1;
  private long number = -1;

  /**
   * Looks through a part.
   *
   * @param in its bytes, buffered; read to the end or to the first fault
   */
  PartScan(InputStream in) throws IOException {
    this.in = in;
    int b = in.read();
    while (b == 0xEF || b == 0xBB || b == 0xBF || blank(b)) {
      b = in.read();
    }
    while (b == '<' && fault.isEmpty()) {
      tag();
      b = text();
    }
    if (b == 0xFE || b == 0xFF || b == 0 || root.isEmpty() && fault.isEmpty() && b == '<') {
      fault = "another encoding than UTF-8";
    }
  }

  /** Returns what is wrong; empty if nothing is. */
  String fault() {
    return fault;
  }

  /** Returns the name of its first element, without its prefix; empty if it is no XML. */
  String root() {
    return root;
  }

  /** Returns how many shared texts are in it. */
  long texts() {
    return texts;
  }

  /** Returns the highest number of a shared text that a cell asks for; -1 if none does. */
  long highestText() {
    return highestText;
  }

  private static boolean blank(int b) {
    return b == ' ' || b == '\t' || b == '\n' || b == '\r';
  }

  /** Reads to the next tag; returns its beginning, or the end. */
  private int text() throws IOException {
    int b;
    while ((b = in.read()) != '<' && b != END) {
      if (b == 0) {
        fault = "another encoding than UTF-8";
        return END;
      }
      if (value && b >= '0' && b <= '9' && number < Integer.MAX_VALUE) {
        number = Math.max(number, 0) * 10 + b - '0';
      } else if (value && !blank(b)) {
        fault = "a number of a text that is none";
        return END;
      }
    }
    return b;
  }

  /** Reads a tag, behind its beginning. */
  private void tag() throws IOException {
    int b = in.read();
    if (b == '?') {
      skip("?>");
      return;
    }
    if (b == '!') {
      declaration();
      return;
    }
    boolean end = b == '/';
    StringBuilder name = new StringBuilder();
    b = name(end ? in.read() : b, name);
    String element = name.toString();
    if (root.isEmpty()) {
      root = element;
    }
    if (element.equals("c")) {
      cellOfText = false;
    }
    while (b != '>' && b != END && fault.isEmpty()) {
      b = attribute(b, element);
    }
    if (element.equals("si") && !end) {
      texts++;
    }
    if (value) {
      highestText = Math.max(highestText, number);
      number = -1;
    }
    value = cellOfText && element.equals("v") && !end;
  }

  /** Reads a name without its prefix; returns what follows. */
  private int name(int first, StringBuilder name) throws IOException {
    int b = first;
    for (; b != END && b != '>' && b != '/' && b != '=' && !blank(b); b = in.read()) {
      if (b == ':') {
        name.setLength(0);
      } else if (name.length() < LONGEST_NAME) {
        name.append((char) b);
      }
    }
    return b;
  }

  /** Reads an attribute, or what else stands in a tag; returns what follows. */
  private int attribute(int first, String element) throws IOException {
    if (blank(first) || first == '/') {
      return in.read();
    }
    StringBuilder name = new StringBuilder();
    int b = name(first, name);
    while (blank(b)) {
      b = in.read();
    }
    if (b != '=') {
      return b == '/' ? in.read() : b;
    }
    do {
      b = in.read();
    } while (blank(b));
    if (b != '"' && b != '\'') {
      return b;
    }
    int quote = b;
    StringBuilder text = new StringBuilder();
    while ((b = in.read()) != quote && b != END) {
      if (text.length() < LONGEST_NAME) {
        text.append((char) b);
      }
    }
    if (element.equals("c")) {
      cell(name.toString(), text.toString());
    }
    return in.read();
  }

  private void cell(String name, String text) {
    if (name.equals("r") || name.equals("t")) {
      int letters = 0;
      while (letters < text.length() && Character.isLetter(text.charAt(letters))) {
        letters++;
      }
      if (text.indexOf('&') >= 0 || name.equals("r") && letters > LONGEST_COLUMN) {
        fault = "a cell that no spreadsheet has";
      }
    }
    if (name.equals("t")) {
      cellOfText = text.equals("s");
    }
  }

  private void declaration() throws IOException {
    int b = in.read();
    if (b == '-') {
      skip("-->");
    } else if (b == '[') {
      if (value) {
        fault = "a number of a text that is none";
      }
      skip("]]>");
    } else {
      fault = "declarations";
    }
  }

  /** Reads to the end of a mark of two or three signs. */
  private void skip(String mark) throws IOException {
    StringBuilder last = new StringBuilder();
    for (int b; (b = in.read()) != END; ) {
      if (last.length() == mark.length()) {
        last.deleteCharAt(0);
      }
      if (last.append((char) b).toString().equals(mark)) {
        return;
      }
    }
  }
}
