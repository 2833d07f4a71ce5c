package org.asmeasured.examples;

import java.text.DecimalFormat;
import java.text.FieldPosition;
import java.text.NumberFormat;
import java.text.ParsePosition;

/** Tick labels: a tick that rounding has left a hair below zero reads 0. */
final class NoMinusZero extends NumberFormat {
  private static final long serialVersionUID = 1L;
  private final DecimalFormat format;

  NoMinusZero(DecimalFormat format) {
    this.format = format;
  }

  @Override
  public StringBuffer format(double number, StringBuffer to, FieldPosition position) {
    double least = 0.5 * Math.pow(10, -format.getMaximumFractionDigits());
    return format.format(Math.abs(number) < least ? 0.0 : number, to, position);
  }

  @Override
  public StringBuffer format(long number, StringBuffer to, FieldPosition position) {
    return format.format(number, to, position);
  }

  @Override
  public Number parse(String source, ParsePosition position) {
    return format.parse(source, position);
  }
}
