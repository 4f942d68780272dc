package siltwright.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class NumbersTest {
  @Test
  void fourSignificantDigitsWithoutTrailingZeros() {
    assertEquals("0.1235", Numbers.text(0.123456));
    assertEquals("1.5", Numbers.text(1.5));
    assertEquals("12.35", Numbers.text(12.3456));
    assertEquals("0", Numbers.text(0));
    assertEquals("0", Numbers.text(-0.0));
    assertEquals("-3.25", Numbers.text(-3.25));
  }

  @Test
  void hoursAndMoneyHaveThreeDigits() {
    assertEquals("627", Numbers.text(626.6, "h"));
    assertEquals("12346", Numbers.text(12345.6, "h"));
    assertEquals("9.38", Numbers.text(9.3766, "h"));
    assertEquals("1.54", Numbers.text(1.5412, "EUR/h"));
    assertEquals("0.0458", Numbers.text(0.04578, "NOK"));
    assertEquals("626.6", Numbers.text(626.6, "kPa"));
    assertEquals(0, Numbers.decimals("h", 626.6, 79.24));
    assertEquals(2, Numbers.decimals("EUR/h", 1.8921, 0.3277));
  }

  @Test
  void unitOfABareRatioIsNotShown() {
    assertEquals("", Numbers.shown("1"));
    assertEquals("1/mL", Numbers.shown("1/mL"));
  }

  @Test
  void wholeDigitsAreKept() {
    assertEquals("123457", Numbers.text(123456.7));
    assertEquals("1000000", Numbers.text(1e6));
  }

  @Test
  void veryLargeAndVerySmallOnesHaveAnExponent() {
    assertEquals("1.235e9", Numbers.text(1.23456e9));
    assertEquals("1e7", Numbers.text(1e7));
    assertEquals("-2.5e-6", Numbers.text(-2.5e-6));
    assertEquals("1.798e308", Numbers.text(Double.MAX_VALUE));
    assertEquals("4.9e-324", Numbers.text(Double.MIN_VALUE));
  }

  @Test
  void noNumberIsADash() {
    assertEquals("–", Numbers.text(Double.NaN));
    assertEquals("–", Numbers.text(Double.NEGATIVE_INFINITY));
    assertEquals("–", Numbers.fixed(Double.POSITIVE_INFINITY, 2));
  }

  @Test
  void aColumnSharesItsDigits() {
    double[] column = {12.3456, 1.5, 0.123456, Double.NaN};
    int decimals = Numbers.decimals(column);
    assertEquals(2, decimals);
    assertEquals("12.35", Numbers.fixed(column[0], decimals));
    assertEquals("1.50", Numbers.fixed(column[1], decimals));
    assertEquals(0, Numbers.decimals(820, 1500, 4000));
    assertEquals(0, Numbers.decimals());
    assertEquals(1, Numbers.decimals(123456.7, 0.5));
    assertEquals(0, Numbers.decimals(971.8, 1276.9));
    assertEquals(3, Numbers.decimals(3.208, 0.05344));
    assertEquals(3, Numbers.decimals(123.4, 0.004));
    assertEquals(4, Numbers.decimals(0.0016));
    assertEquals(1, Numbers.decimals(0, 0.5));
    assertEquals(0, Numbers.decimals(1e12, Double.NaN));
    assertEquals("0", Numbers.fixed(-0.4, 0));
  }

  @Test
  void groupsFromFiveDigitsOn() {
    assertEquals("1234.5678", Numbers.grouped("1234.5678"));
    assertEquals("12\u202f345.678", Numbers.grouped("12345.678"));
    assertEquals("-1\u202f234\u202f567", Numbers.grouped("-1234567"));
    assertEquals("–", Numbers.grouped("–"));
    assertEquals("1.235e9", Numbers.grouped("1.235e9"));
  }
}
