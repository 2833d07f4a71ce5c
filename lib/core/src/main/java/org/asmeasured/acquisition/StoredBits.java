package org.asmeasured.acquisition;

/** The rule by which means grow bits. */
final class StoredBits {
  static final int MAX = 24;

  private StoredBits() {}

  static int of(int wanted, int length, int converterBits) {
    if (wanted != 0) {
      return wanted;
    }
    int growth = 32 - Integer.numberOfLeadingZeros(length - 1);
    return Math.min(MAX, converterBits + growth);
  }

  static String words(int wanted) {
    return wanted == 0 ? "" : " with " + wanted + (wanted == 1 ? " bit" : " bits");
  }
}
