package siltwright.model.testing;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

/** Ways to spoil a file. */
public enum Mutation {
  /** Words, numbers, quotes, lines of a text; sometimes its bytes. */
  TEXT {
    @Override
    byte[] of(byte[] bytes, List<byte[]> others, SplittableRandom random) {
      if (random.nextInt(8) == 0) {
        return BYTES.of(bytes, others, random);
      }
      String text = new String(bytes, StandardCharsets.UTF_8);
      if (random.nextInt(40) == 0) {
        return encoded(text, random);
      }
      for (int i = 1 << random.nextInt(3) / 2; i > 0; i--) {
        text = random.nextInt(4) == 0 ? lines(text, random) : tokens(text, others, random);
      }
      return text.getBytes(StandardCharsets.UTF_8);
    }
  },
  /** Bytes, one at a time or in pieces. */
  BYTES {
    @Override
    byte[] of(byte[] bytes, List<byte[]> others, SplittableRandom random) {
      byte[] now = bytes;
      for (int i = 1 << random.nextInt(3); i > 0; i--) {
        now = spoilt(now, others, random);
      }
      return now;
    }
  },
  /** The parts of a zip, as texts; sometimes its bytes. */
  ZIP {
    @Override
    byte[] of(byte[] bytes, List<byte[]> others, SplittableRandom random) {
      if (random.nextInt(6) == 0) {
        return BYTES.of(bytes, others, random);
      }
      try {
        Map<String, byte[]> parts = parts(bytes);
        List<String> names = new ArrayList<>(parts.keySet());
        if (names.isEmpty()) {
          return BYTES.of(bytes, others, random);
        }
        String name = names.get(random.nextInt(names.size()));
        switch (random.nextInt(12)) {
          case 0 -> parts.remove(name);
          case 1 -> parts.put(name, new byte[0]);
          case 2 -> parts.put(name, parts.get(names.get(random.nextInt(names.size()))));
          default -> parts.put(name, TEXT.of(parts.get(name), List.of(), random));
        }
        return zip(parts);
      } catch (IOException | IllegalArgumentException e) {
        return BYTES.of(bytes, others, random);
      }
    }
  };

  private static final Pattern TOKEN =
      Pattern.compile("[-+]?[0-9][0-9.eE+-]*|\"[^\"\n]*\"|[\\p{L}_][\\p{L}\\p{N}_]*|[^\\s\\p{L}]");

  /** What readers trip over: numbers, texts, dates, pieces of JSON, CSV and XML. */
  private static final List<String> STUMBLES =
      List.of(
              "NaN Infinity -Infinity -0 -0.0 0 -1 1e308 1e309 -1e999 1e-400 4.9e-324 0x1F 1_000 07 .5"
                  + " 5. 1e 2147483647 2147483648 -2147483649 9223372036854775808 1E+2147483648"
                  + " 1e999999999 1,5 1.234,5 1'234 <0.01 >100 null true false {} [] {{ ]] [[[["
                  + " \"\" \" \"\"\" \"a \\ / ' , ; | : < > & # % = @ + -- ~ ` $ *",
              " 1970-01-01 0000-00-00 2023-02-29 2024-02-29 2024-02-30 2024-13-01 9999-12-31"
                  + " 10000-01-01 -0001-01-01 31.12.24 12/31/2024 2024-03-31T02:30:00"
                  + " 2024-10-27T02:30:00 2024-01-01T24:00:00Z 2024-06-30T23:59:60Z"
                  + " 2024-01-01T00:00:00+19:00 24:00 PT9223372036854775807H PT1E9H P999999999D"
                  + " -PT1S PT-5H",
              " &a; &amp; &#0; &#xD800; &#x110000; <![CDATA[ ]]> <!--x --> <?x <!DOCTYPE"
                  + " </Fleet> <a/> <a> xmlns=\"\" x:y \\u0000 \\ud800 \\udc00\\ud800 =1+1 '=1 #REF!"
                  + " __proto__ ../x CON NUL id schema machine date hours")
          .stream()
          .flatMap(s -> Arrays.stream(s.strip().split(" ")))
          .toList();

  private static final List<String> LETTERS =
      List.of(
          "\u0000",
          "\uFEFF",
          "\u0130",
          "\u0131",
          "\u0663",
          "\u066B",
          "\u2028",
          "\u202E",
          "\u00A0",
          "\u3000",
          "\u200B",
          "\uFFFD",
          "\uFFFF",
          "\uD83D\uDE00",
          "e\u0301",
          "\u00DF",
          "\u001B[2J",
          "\u0085",
          "\r",
          "\t",
          "\u000B",
          "\u007F");

  /**
   * Returns a spoilt file.
   *
   * @param bytes a file; not modified
   * @param others files to take pieces of
   * @param random what decides
   */
  abstract byte[] of(byte[] bytes, List<byte[]> others, SplittableRandom random);

  private static byte[] encoded(String text, SplittableRandom random) {
    return switch (random.nextInt(5)) {
      case 0 -> text.getBytes(StandardCharsets.UTF_16);
      case 1 -> text.getBytes(StandardCharsets.UTF_16LE);
      case 2 -> text.getBytes(StandardCharsets.ISO_8859_1);
      case 3 -> ("\uFEFF\uFEFF" + text).getBytes(StandardCharsets.UTF_8);
      default -> ("\uFEFF" + text).getBytes(StandardCharsets.UTF_8);
    };
  }

  private static String lines(String text, SplittableRandom random) {
    List<String> lines = new ArrayList<>(List.of(text.split("(?<=\n)", -1)));
    int at = random.nextInt(lines.size());
    int to = random.nextInt(lines.size());
    switch (random.nextInt(5)) {
      case 0 -> lines.remove(at);
      case 1 -> lines.add(to, lines.get(at));
      case 2 -> lines.set(at, lines.set(to, lines.get(at)));
      case 3 -> lines.set(at, lines.get(at).replace("\n", random.nextBoolean() ? "\r\n" : "\r"));
      default -> lines.subList(Math.min(at, to), Math.max(at, to)).clear();
    }
    return String.join("", lines);
  }

  private static String tokens(String text, List<byte[]> others, SplittableRandom random) {
    List<int[]> tokens = new ArrayList<>();
    Matcher m = TOKEN.matcher(text);
    while (m.find() && tokens.size() < 20_000) {
      tokens.add(new int[] {m.start(), m.end()});
    }
    if (tokens.isEmpty()) {
      return stumble(random);
    }
    int[] one = tokens.get(random.nextInt(tokens.size()));
    int[] two = tokens.get(random.nextInt(tokens.size()));
    for (int i = 0; i < 8 && kind(text, one) != kind(text, two); i++) {
      two = tokens.get(random.nextInt(tokens.size()));
    }
    String a = text.substring(one[0], one[1]);
    String b = text.substring(two[0], two[1]);
    return switch (random.nextInt(12)) {
      case 0, 1 -> text.substring(0, one[0]) + stumble(random) + text.substring(one[1]);
      case 2 -> {
        // within quotes, so that the text goes on to be one
        String inner = a.length() > 1 && a.startsWith("\"") ? '"' + stumble(random) + '"' : b;
        yield text.substring(0, one[0]) + inner + text.substring(one[1]);
      }
      case 3 -> text.substring(0, one[0]) + text.substring(one[1]);
      case 4, 9, 10 -> text.substring(0, one[0]) + b + text.substring(one[1]);
      case 5 -> {
        int from = Math.min(one[0], two[0]);
        int to = Math.min(Math.max(one[1], two[1]), from + 4000);
        yield text.substring(0, to) + text.substring(from, to) + text.substring(to);
      }
      case 6 ->
          text.substring(0, one[0])
              + a.repeat(Math.min(1 << random.nextInt(12), 1 + 40_000 / a.length()))
              + text.substring(one[1]);
      case 7 ->
          text.substring(0, one[1])
              + LETTERS.get(random.nextInt(LETTERS.size()))
              + text.substring(one[1]);
      default ->
          text.substring(0, one[0])
              + (others.isEmpty() ? stumble(random) : piece(others, random))
              + text.substring(one[0]);
    };
  }

  /** What a token can stand for without spoiling more than itself: a number, a text, a sign. */
  private static int kind(String text, int[] token) {
    char c = text.charAt(token[0]);
    return Character.isLetter(c) ? 'x' : Character.isDigit(c) || c == '-' ? '0' : c;
  }

  private static String stumble(SplittableRandom random) {
    return random.nextInt(6) == 0
        ? LETTERS.get(random.nextInt(LETTERS.size()))
        : STUMBLES.get(random.nextInt(STUMBLES.size()));
  }

  private static String piece(List<byte[]> others, SplittableRandom random) {
    byte[] other = others.get(random.nextInt(others.size()));
    int from = random.nextInt(other.length + 1);
    int to = Math.min(other.length, from + random.nextInt(400));
    return new String(other, from, to - from, StandardCharsets.UTF_8);
  }

  private static byte[] spoilt(byte[] bytes, List<byte[]> others, SplittableRandom random) {
    if (bytes.length == 0) {
      return new byte[] {(byte) random.nextInt(256)};
    }
    int at = random.nextInt(bytes.length);
    int length = 1 + random.nextInt(Math.min(64, bytes.length - at));
    byte[] now = bytes.clone();
    return switch (random.nextInt(8)) {
      case 0 -> {
        now[at] ^= (byte) (1 << random.nextInt(8));
        yield now;
      }
      case 1, 2 -> {
        now[at] = (byte) random.nextInt(256);
        yield now;
      }
      case 3 -> {
        int[] ends = {0, -1, 0x7F, 0x80};
        Arrays.fill(now, at, at + Math.min(length, 8), (byte) ends[random.nextInt(ends.length)]);
        yield now;
      }
      case 4 -> joined(bytes, 0, at, bytes, at + length, bytes.length);
      case 5 -> joined(bytes, 0, at + length, bytes, at, bytes.length);
      case 6 -> random.nextInt(4) == 0 ? Arrays.copyOf(bytes, at) : now;
      default -> {
        byte[] other = others.isEmpty() ? bytes : others.get(random.nextInt(others.size()));
        int from = random.nextInt(other.length + 1);
        yield joined(bytes, 0, at, other, from, other.length);
      }
    };
  }

  private static byte[] joined(byte[] a, int aFrom, int aTo, byte[] b, int bFrom, int bTo) {
    byte[] all = new byte[aTo - aFrom + bTo - bFrom];
    System.arraycopy(a, aFrom, all, 0, aTo - aFrom);
    System.arraycopy(b, bFrom, all, aTo - aFrom, bTo - bFrom);
    return all;
  }

  private static Map<String, byte[]> parts(byte[] bytes) throws IOException {
    Map<String, byte[]> parts = new LinkedHashMap<>();
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(bytes))) {
      for (ZipEntry e; (e = in.getNextEntry()) != null; ) {
        parts.put(e.getName(), in.readNBytes(4 << 20));
      }
    }
    return parts;
  }

  private static byte[] zip(Map<String, byte[]> parts) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream out = new ZipOutputStream(bytes)) {
      for (Map.Entry<String, byte[]> part : parts.entrySet()) {
        out.putNextEntry(new ZipEntry(part.getKey()));
        out.write(part.getValue());
      }
    }
    return bytes.toByteArray();
  }
}
