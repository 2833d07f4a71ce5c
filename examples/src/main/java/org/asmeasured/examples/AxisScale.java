package org.asmeasured.examples;

import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.Locale;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;

/**
 * How an axis counts: from which origin and in which unit, both chosen from the range that it
 * shows.
 *
 * <p>A range that is narrow beside its distance from zero is counted from a round origin that the
 * axis names, so that tick labels stay short: "Voltage above 3.3 V (µV)".
 *
 * @param origin what the axis shows as 0
 * @param scale the unit
 * @param label name of the axis, with its unit in brackets
 * @param low lower end of the range, in the axis' own numbers
 * @param high upper end of the range, in the axis' own numbers
 */
record AxisScale(double origin, Scale scale, String label, double low, double high) {

  /** A range of volts with some air at both ends. */
  static AxisScale volts(String name, double min, double max) {
    return of(name, "V", min, max);
  }

  /** A range of a quantity with some air at both ends. */
  static AxisScale of(String name, String unit, double min, double max) {
    double span = max - min;
    double largest = Math.max(Math.abs(min), Math.abs(max));
    if (!(span > 0)) {
      span = largest > 0 ? largest * 0.2 : 1e-3;
    }
    double air = 0.06 * span;
    double low = (max + min) / 2 - span / 2 - air;
    double high = (max + min) / 2 + span / 2 + air;
    double origin = 0;
    String words = name;
    if (span < 2e-3 * largest) {
      double grain = Math.pow(10, Math.ceil(Math.log10(span)));
      origin = Math.rint((min + max) / 2 / grain) * grain;
      Scale whole = Scale.of(origin, unit);
      String text = whole.number(origin, 12).replaceFirst("\\.?0+$", "");
      words = name + (origin > 0 ? " above " : " from ") + whole.withUnit(text);
    }
    Scale scale = Scale.of(Math.max(Math.abs(low - origin), Math.abs(high - origin)), unit);
    return new AxisScale(
        origin,
        scale,
        words + " (" + scale.symbol() + ")",
        scale.in(low - origin),
        scale.in(high - origin));
  }

  /**
   * A span of time, with room for the dots at its ends. A span far from zero is counted from its
   * start.
   */
  static AxisScale time(double from, double to) {
    double span = to - from;
    double largest = Math.max(Math.abs(from), Math.abs(to));
    double origin = span < 2e-2 * largest ? from : 0;
    Scale scale = Scale.of(origin == 0 ? largest : span, "s");
    String words =
        origin == 0 ? "Time" : "Time after " + Scale.of(origin, "s").withUnit(plain(origin));
    double air = 0.008 * span;
    return new AxisScale(
        origin,
        scale,
        words + " (" + scale.symbol() + ")",
        scale.in(from - origin - air),
        scale.in(to - origin + air));
  }

  private static String plain(double seconds) {
    Scale scale = Scale.of(seconds, "s");
    return scale.number(seconds, 9).replaceFirst("\\.?0+$", "");
  }

  /** Lower end of the range, in the data's SI unit. */
  double from() {
    return out(low);
  }

  /** Upper end of the range, in the data's SI unit. */
  double to() {
    return out(high);
  }

  /** Length of the range, in the data's SI unit. */
  double span() {
    return to() - from();
  }

  private double out(double shown) {
    return shown * Math.pow(10, scale.exponent()) + origin;
  }

  /** A value in the axis' own numbers. */
  double in(double value) {
    return scale.in(value - origin);
  }

  /** An axis with ticks at 1, 2 or 5 times a power of ten, at most so many of them. */
  NumberAxis axis(int atMostTicks) {
    return axis(label, low, high, atMostTicks);
  }

  static NumberAxis axis(String label, double low, double high, int atMostTicks) {
    NumberAxis axis = dressed(new NumberAxis(label), low, high);
    axis.setTickUnit(ticks(high - low, atMostTicks));
    return axis;
  }

  /** The look that all axes share. */
  static NumberAxis dressed(NumberAxis axis, double low, double high) {
    axis.setAutoRangeIncludesZero(false);
    axis.setRange(low, high);
    axis.setLabelFont(Palette.LABEL);
    axis.setTickLabelFont(Palette.TICK);
    axis.setLabelPaint(Palette.TEXT);
    axis.setTickLabelPaint(Palette.TEXT);
    axis.setAxisLinePaint(Palette.FRAME);
    axis.setTickMarkPaint(Palette.FRAME);
    return axis;
  }

  private static NumberTickUnit ticks(double span, int atMost) {
    double least = span / atMost;
    double decade = Math.pow(10, Math.floor(Math.log10(least)));
    double size = decade;
    for (double factor : new double[] {1, 2, 5, 10}) {
      size = factor * decade;
      if (size >= least * (1 - 1e-9)) {
        break;
      }
    }
    int decimals = Math.max(0, (int) -Math.floor(Math.log10(size) + 1e-9));
    DecimalFormat format = new DecimalFormat("0." + "0".repeat(decimals), symbols());
    if (decimals == 0) {
      format = new DecimalFormat("0", symbols());
    }
    return new NumberTickUnit(size, new NoMinusZero(format));
  }

  private static DecimalFormatSymbols symbols() {
    DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(Locale.ROOT);
    symbols.setMinusSign('−');
    return symbols;
  }
}
