package org.asmeasured.characterisation;

/**
 * What is read of a fit.
 *
 * @param amplitude volts
 * @param frequency Hz
 * @param offset volts
 * @param residual volts RMS
 */
record SineFigures(double amplitude, double frequency, double offset, double residual) {

  static SineFigures of(SineFit fit) {
    return new SineFigures(
        fit.amplitudeVolts(), fit.frequencyHz(), fit.offsetVolts(), fit.residualVolts());
  }

  /** Whether more is left over than rounding leaves. */
  boolean leavesSomething() {
    return residual > 1e-14 * (amplitude + Math.abs(offset));
  }
}
