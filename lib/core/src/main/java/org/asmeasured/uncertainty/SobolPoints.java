package org.asmeasured.uncertainty;

/** Placeholder of the number of dimensions. */
final class SobolPoints {
  static final int MAX_DIMENSIONS = 1000;

  private SobolPoints() {}
}
