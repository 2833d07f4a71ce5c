package org.asmeasured.signal;

import org.asmeasured.internal.Quantity;

/** How signals say their quantities. */
final class Words {
  private Words() {}

  static String volts(double value) {
    return Quantity.of(value, "V");
  }

  static String seconds(double value) {
    return Quantity.of(value, "s");
  }

  static String hertz(double value) {
    return Quantity.of(value, "Hz");
  }
}
