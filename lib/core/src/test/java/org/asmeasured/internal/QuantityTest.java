package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Quantities as a person writes them: up to four digits, an SI prefix (BIPM, SI Brochure). */
class QuantityTest {
  @Test
  void prefixes() {
    assertEquals("1 V", Quantity.of(1, "V"));
    assertEquals("12.5 mV", Quantity.of(0.0125, "V"));
    assertEquals("100 uV", Quantity.of(100e-6, "V"));
    assertEquals("3.3 ns", Quantity.of(3.3e-9, "s"));
    assertEquals("1 ps", Quantity.of(1e-12, "s"));
    assertEquals("2 fs", Quantity.of(2e-15, "s"));
    assertEquals("5 as", Quantity.of(5e-18, "s"));
    assertEquals("1.5 kHz", Quantity.of(1500, "Hz"));
    assertEquals("20 MHz", Quantity.of(20e6, "Hz"));
    assertEquals("1.25 GHz", Quantity.of(1.25e9, "Hz"));
    assertEquals("7 THz", Quantity.of(7e12, "Hz"));
    assertEquals("1 PHz", Quantity.of(1e15, "Hz"));
    assertEquals("2 EHz", Quantity.of(2e18, "Hz"));
  }

  @Test
  void signsAndZero() {
    assertEquals("-12.5 mV", Quantity.of(-0.0125, "V"));
    assertEquals("0 V", Quantity.of(0, "V"));
    assertEquals("0 V", Quantity.of(-0.0, "V"));
  }

  @Test
  void fourDigits() {
    assertEquals("1.235 V", Quantity.of(1.23456, "V"));
    assertEquals("12.35 V", Quantity.of(12.3456, "V"));
    assertEquals("123.5 V", Quantity.of(123.456, "V"));
    assertEquals("333.3 uV", Quantity.of(1e-3 / 3, "V"));
  }

  @Test
  void roundingMayChangeThePrefix() {
    assertEquals("1 V", Quantity.of(0.99999, "V"));
    assertEquals("1 mV", Quantity.of(999.99e-6, "V"));
    assertEquals("999.9 uV", Quantity.of(999.9e-6, "V"));
    assertEquals("1 kHz", Quantity.of(999.96, "Hz"));
    assertEquals("1 ms", Quantity.of(999.95001e-6, "s"));
  }

  @Test
  void beyondThePrefixes() {
    assertEquals("0.001 as", Quantity.of(1e-21, "s"));
    assertEquals("1000 EHz", Quantity.of(1e21, "Hz"));
    assertEquals("NaN V", Quantity.of(Double.NaN, "V"));
    assertEquals("Infinity V", Quantity.of(Double.POSITIVE_INFINITY, "V"));
    assertEquals("-Infinity V", Quantity.of(Double.NEGATIVE_INFINITY, "V"));
  }

  @Test
  void readBackItIsTheSameToFourDigits() {
    String prefixes = "afpnum kMGTPE";
    Cases.check(
        1,
        2000,
        random -> {
          double value = Cases.signed(random, Cases.logUniform(random, 1e-17, 1e18));
          String[] parts = Quantity.of(value, "s").split(" ");
          assertEquals(2, parts.length);
          String prefix = parts[1].substring(0, parts[1].length() - 1);
          int power = 3 * (prefix.isEmpty() ? 0 : prefixes.indexOf(prefix) - 6);
          double mantissa = Double.parseDouble(parts[0]);
          assertTrue(Math.abs(mantissa) >= 1 && Math.abs(mantissa) < 1000, parts[0]);
          assertEquals(value, mantissa * Math.pow(10, power), 0.5001e-3 * Math.abs(value));
        });
  }

  /** 1 V less 0.1 V ten times leaves 1.4e-16 V in doubles. */
  @Test
  void roundingLeavesNothing() {
    double left = 1;
    for (int i = 0; i < 10; i++) {
      left -= 0.1;
    }
    assertTrue(left != 0);
    assertEquals("0 V", Quantity.of(Quantity.orNothing(left, 1), "V"));
    assertEquals("0 V", Quantity.of(Quantity.orNothing(-left, -1), "V"));
    assertEquals(left, Quantity.orNothing(left, left), 0);
    assertEquals(2e-12, Quantity.orNothing(2e-12, 1), 0);
    assertEquals(-2e-12, Quantity.orNothing(-2e-12, 1), 0);
    assertEquals(0, Quantity.orNothing(0, 0), 0);
  }

  @Test
  void sharesDifferByPercentagePoints() {
    assertEquals("-1.9 percentage points", Quantity.ofDifference(-1.9, "%"));
    assertEquals("0 percentage points", Quantity.ofDifference(0, "%"));
    assertEquals("-1.9 mV", Quantity.ofDifference(-0.0019, "V"));
  }
}
