package siltwright.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Source of every expected number: {@link Double#parseDouble}. */
class DecimalTest {
  private final Decimal decimal = new Decimal(false);
  private int left;

  private void check(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
    double v = decimal.read(bytes, 0, bytes.length);
    assertEquals(bytes.length, decimal.end, text);
    if (Double.isNaN(v)) {
      left++;
    } else {
      assertEquals(Double.parseDouble(text), v, 0, text);
    }
  }

  @Test
  void whatIsReadIsTheNearestNumber() {
    SplittableRandom random = new SplittableRandom(1);
    for (int i = 0; i < 300_000; i++) {
      check(Double.toString(random.nextDouble(1e-3, 9e6)));
      String digits = Long.toString(random.nextLong(1L << random.nextInt(1, 60)));
      if (digits.length() <= Decimal.MOST_DIGITS) {
        int point = random.nextInt(digits.length() + 1);
        check((i % 2 == 0 ? "-" : "") + digits.substring(0, point) + "." + digits.substring(point));
        check(digits);
      }
    }
    assertTrue(left < 9000, left + " left"); // one in a hundred; most are whole, halfway
  }

  @Test
  void halfwayBetweenTwoNumbersItIsLeftOrRight() {
    SplittableRandom random = new SplittableRandom(2);
    for (int i = 0; i < 100_000; i++) {
      double a = 1 + random.nextInt(1 << 30) * 0x1p-3;
      BigDecimal half = new BigDecimal(a).add(new BigDecimal(Math.nextUp(a)));
      String text = half.divide(BigDecimal.valueOf(2)).toPlainString();
      for (int digits = 15; digits <= Decimal.MOST_DIGITS; digits++) {
        check(text.substring(0, Math.min(text.length(), digits + 1)));
      }
      long whole = (1L << 53) + random.nextInt(1 << 20);
      check(Long.toString(whole));
      check(whole + ".5");
    }
  }

  @Test
  void whatIsNoPlainNumberIsLeft() {
    for (String text : new String[] {"", ".", "-", "x", "+1", "1234567890123456789"}) {
      byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
      assertTrue(Double.isNaN(decimal.read(bytes, 0, bytes.length)), text);
    }
    byte[] comma = "1,234".getBytes(StandardCharsets.US_ASCII);
    assertEquals(1, decimal.read(comma, 0, 5));
    assertEquals(1, decimal.end);
    assertTrue(Double.isNaN(new Decimal(true).read(comma, 0, 5)), "it may be thousands");
    assertEquals(1.23, new Decimal(true).read(comma, 0, 4));
  }
}
