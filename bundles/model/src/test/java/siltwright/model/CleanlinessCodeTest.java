package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Codes of ISO 4406: scale numbers 0 to 28, which cannot rise with size. */
class CleanlinessCodeTest {
  @ParameterizedTest
  @CsvSource({"18/16/13, 18, 16, 13", "28/28/28, 28, 28, 28", "0/0/0, 0, 0, 0", "9/7/4, 9, 7, 4"})
  void aCodeIsReadAndWritten(String text, int at4, int at6, int at14) {
    CleanlinessCode code = CleanlinessCode.parse(text);
    assertEquals(new CleanlinessCode(at4, at6, at14), code);
    assertEquals(text, code.toString());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "29/28/28",
        "18/19/13",
        "18/16/17",
        "18/16",
        "18/16/13/1",
        "-1/0/0",
        "18-16-13",
        "",
        "a/b/c"
      })
  void noOtherTextIsACode(String text) {
    assertThrows(IllegalArgumentException.class, () -> CleanlinessCode.parse(text));
  }

  @Test
  void noScaleNumberIsBelowZero() {
    assertThrows(IllegalArgumentException.class, () -> new CleanlinessCode(-1, -1, -1));
    assertThrows(IllegalArgumentException.class, () -> new CleanlinessCode(0, 0, -1));
  }
}
