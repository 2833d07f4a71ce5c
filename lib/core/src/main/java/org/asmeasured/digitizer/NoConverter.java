package org.asmeasured.digitizer;

/** Infinite resolution. */
enum NoConverter implements Converter {
  INSTANCE;

  @Override
  public int bits() {
    return 0;
  }

  @Override
  public void convert(double[] levels, int offset, int count) {
    // Infinite resolution: every level is its own code.
  }

  @Override
  public String toString() {
    return "no converter: infinite resolution";
  }
}
