package siltwright.features;

import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Pictures of few colours, which take few bytes. */
final class Palette {
  private static final int COLOURS = 256;
  private static final int NEAR = 60;

  private Palette() {}

  /** Returns a picture in the colours that it has most of; others become the nearest of them. */
  static BufferedImage reduce(BufferedImage image) {
    int width = image.getWidth();
    int height = image.getHeight();
    int[] pixels = image.getRGB(0, 0, width, height, null, 0, width);
    Map<Integer, Integer> counts = new HashMap<>();
    for (int p : pixels) {
      counts.merge(p & 0xffffff, 1, Integer::sum);
    }
    List<Integer> all =
        counts.entrySet().stream()
            .sorted(
                Map.Entry.<Integer, Integer>comparingByValue()
                    .reversed()
                    .thenComparing(Map.Entry.comparingByKey()))
            .map(Map.Entry::getKey)
            .toList();
    List<Integer> most = apart(all);
    byte[][] parts = new byte[3][most.size()];
    for (int i = 0; i < most.size(); i++) {
      for (int k = 0; k < 3; k++) {
        parts[k][i] = (byte) (most.get(i) >> 16 - 8 * k);
      }
    }
    IndexColorModel model = new IndexColorModel(8, most.size(), parts[0], parts[1], parts[2]);
    BufferedImage reduced =
        new BufferedImage(width, height, BufferedImage.TYPE_BYTE_INDEXED, model);
    Map<Integer, Integer> nearest = new HashMap<>();
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        int colour = pixels[y * width + x] & 0xffffff;
        int index = nearest.computeIfAbsent(colour, c -> nearest(most, c));
        reduced.getRaster().setSample(x, y, 0, index);
      }
    }
    return reduced;
  }

  /** Returns the first colours of a list that are not near to one before them. */
  private static List<Integer> apart(List<Integer> colours) {
    List<Integer> kept = new ArrayList<>();
    for (int colour : colours) {
      if (kept.size() < COLOURS && kept.stream().allMatch(k -> distance(k, colour) > NEAR)) {
        kept.add(colour);
      }
    }
    return kept;
  }

  private static int distance(int a, int b) {
    int distance = 0;
    for (int shift = 0; shift <= 16; shift += 8) {
      int d = (a >> shift & 255) - (b >> shift & 255);
      distance += d * d;
    }
    return distance;
  }

  private static int nearest(List<Integer> colours, int colour) {
    int best = 0;
    int least = Integer.MAX_VALUE;
    for (int i = 0; i < colours.size(); i++) {
      int distance = distance(colours.get(i), colour);
      if (distance < least) {
        least = distance;
        best = i;
      }
    }
    return best;
  }
}
