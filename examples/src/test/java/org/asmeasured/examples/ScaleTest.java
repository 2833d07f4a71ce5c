package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Numbers as people read them: SI prefixes (the SI brochure, 9th edition, table 7) and four
 * significant digits.
 */
class ScaleTest {

  @ParameterizedTest
  @CsvSource({
    "0, V, 0 V",
    "0.02, V, 20.00 mV",
    "0.0471, V, 47.10 mV",
    "3.3, V, 3.300 V",
    "-3.3, V, -3.300 V",
    "0.99994, V, 999.9 mV",
    "0.99996, V, 1.000 V",
    "9.9996, V, 10.00 V",
    "999.94, V, 999.9 V",
    "1e9, Hz, 1.000 GHz",
    "1.2e-9, s, 1.200 ns",
    "1.5e-6, s, 1.500 µs",
    "4.2e-21, V, 0.004200 aV",
    "2e18, Hz, 2000 PHz",
    "0.25, '', 0.2500",
    "0.25, V^2, 0.2500 V^2",
    "12.5, %, 12.50 %",
    "12345, '', 12345"
  })
  void readsAsAPersonWouldSayIt(double value, String unit, String expected) {
    assertEquals(expected, Scale.text(value, unit));
  }

  @ParameterizedTest
  @CsvSource({"0.0142, +14.20 mV", "-0.0003, -300.0 µV", "0, 0 V"})
  void showsSigns(double value, String expected) {
    assertEquals(expected, Scale.signedText(value, "V"));
  }

  @Test
  void tellsAnExactZeroFromARoundedOne() {
    Scale millivolts = Scale.of(0.01, "V");
    assertEquals("0", millivolts.signed(0, 2));
    assertEquals("0.00", millivolts.signed(1e-9, 2));
    assertEquals("0.00", millivolts.signed(-1e-9, 2));
  }

  @Test
  void saysWhatIsNoNumber() {
    assertEquals("NaN V", Scale.text(Double.NaN, "V"));
    assertEquals("-Infinity V", Scale.text(Double.NEGATIVE_INFINITY, "V"));
  }
}
