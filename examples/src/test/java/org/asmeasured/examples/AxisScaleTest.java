package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class AxisScaleTest {

  @Test
  void choosesThePrefixFromTheRange() {
    assertEquals("Voltage (V)", AxisScale.volts("Voltage", -1, 3).label());
    assertEquals("Voltage (mV)", AxisScale.volts("Voltage", -0.01, 0.02).label());
    assertEquals("Time (µs)", AxisScale.time(0, 1e-4).label());
  }

  @Test
  void countsANarrowRangeFromARoundLevel() {
    AxisScale axis = AxisScale.volts("Voltage", 3.29999, 3.30001);
    assertEquals("Voltage above 3.3 V (µV)", axis.label());
    assertEquals(0, axis.in(3.3), 1e-9);
    assertTrue(axis.low() < axis.in(3.29999) && axis.high() > axis.in(3.30001));
  }

  @Test
  void countsALateRecordFromItsStart() {
    AxisScale axis = AxisScale.time(3, 3 + 2e-6);
    assertEquals("Time after 3 s (µs)", axis.label());
    assertEquals(0, axis.in(3));
    assertEquals(0, axis.low(), 0.05);
    assertEquals(2, axis.high(), 0.05);
  }

  @Test
  void hasRoomEvenForAConstant() {
    assertTrue(AxisScale.volts("Voltage", 0, 0).span() > 0);
    assertTrue(AxisScale.volts("Voltage", 5, 5).span() > 0);
  }

  @Test
  void labelsNoTickMinusZero() {
    String label = AxisScale.axis("x", -0.3, 0.3, 6).getTickUnit().valueToString(-1e-17);
    assertEquals("0.0", label);
  }
}
