package siltwright.exchange;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The different words of a column, found by their bytes. */
final class Words {
  private final List<byte[]> words = new ArrayList<>();
  private int[] slots = new int[64]; // a word's number from 1, 0 for none

  /** Returns the number of a word from 0, in the order of first sight. */
  int code(byte[] bytes, int from, int to) {
    int slot = hash(bytes, from, to) & slots.length - 1;
    while (slots[slot] != 0) {
      byte[] word = words.get(slots[slot] - 1);
      if (Arrays.equals(word, 0, word.length, bytes, from, to)) {
        return slots[slot] - 1;
      }
      slot = slot + 1 & slots.length - 1;
    }
    words.add(Arrays.copyOfRange(bytes, from, to));
    slots[slot] = words.size();
    if (2 * words.size() > slots.length) {
      grow();
    }
    return words.size() - 1;
  }

  private void grow() {
    slots = new int[4 * slots.length];
    for (int i = 0; i < words.size(); i++) {
      byte[] word = words.get(i);
      int slot = hash(word, 0, word.length) & slots.length - 1;
      while (slots[slot] != 0) {
        slot = slot + 1 & slots.length - 1;
      }
      slots[slot] = i + 1;
    }
  }

  private static int hash(byte[] bytes, int from, int to) {
    int hash = 0;
    for (int i = from; i < to; i++) {
      hash = 31 * hash + bytes[i];
    }
    return hash ^ hash >>> 15;
  }

  List<String> texts() {
    return words.stream().map(w -> new String(w, StandardCharsets.UTF_8)).toList();
  }
}
