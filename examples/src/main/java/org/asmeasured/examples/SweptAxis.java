package org.asmeasured.examples;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.asmeasured.scenario.SweepAxis;
import org.asmeasured.scenario.SweptValue;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTick;
import org.jfree.chart.axis.TickType;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.TextAnchor;

/**
 * How the swept value lies along a picture: evenly, or by its logarithm where its numbers are
 * spaced by a ratio.
 */
final class SweptAxis {
  private static final int FEW = 10;
  private static final int ROUND_DIGITS = 2;

  private final SweptValue value;
  private final boolean isRatio;
  private final double least;
  private final double most;
  private final AxisScale even;

  SweptAxis(SweepAxis axis) {
    value = axis.values().get(0);
    isRatio = axis.isRatio();
    least = value.numbers().stream().mapToDouble(Double::doubleValue).min().orElseThrow();
    most = value.numbers().stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    even = AxisScale.of(SweepWords.capitalised(value.name()), value.unit(), least, most);
  }

  /** Whether whole values stand side by side, with nothing between them. */
  boolean isCategory() {
    return value.isWhole();
  }

  /** A number in the axis' own measure. */
  double in(double number) {
    if (isCategory()) {
      return number;
    }
    return isRatio ? Math.log10(number) : even.in(number);
  }

  NumberAxis axis(boolean narrow) {
    if (isCategory()) {
      return AxisScale.dressed(
          new LabelAxis(
              SweepWords.capitalised(value.name()),
              value.wholes().stream().map(SweptValue.Whole::label).toList()),
          -0.5,
          value.wholes().size() - 0.5);
    }
    if (!isRatio) {
      return even.axis(narrow ? 5 : 9);
    }
    double low = Math.log10(least);
    double high = Math.log10(most);
    double air = high > low ? 0.03 * (high - low) : 0.1;
    // Each tick bears its own unit: a span of decades has no unit in common.
    NumberAxis axis =
        new LogAxis(SweepWords.capitalised(value.name()), ticks(narrow), value.unit());
    return AxisScale.dressed(axis, low - air, high + air);
  }

  /** The numbers themselves where they are few and round; else decades, or 1, 2 and 5 in each. */
  private List<Double> ticks(boolean narrow) {
    List<Double> numbers = new ArrayList<>(new TreeSet<>(value.numbers()));
    boolean round =
        numbers.stream()
            .allMatch(
                n ->
                    new BigDecimal(Double.toString(n)).stripTrailingZeros().precision()
                        <= ROUND_DIGITS);
    if (round && numbers.size() <= (narrow ? FEW / 2 : FEW)) {
      return numbers;
    }
    double decades = Math.log10(most / least);
    int[] steps = decades > (narrow ? 1.5 : 3) ? new int[] {1} : new int[] {1, 2, 5};
    int every = Math.max(1, (int) Math.ceil(decades / (narrow ? 5 : FEW)));
    List<Double> ticks = new ArrayList<>();
    int first = (int) Math.floor(Math.log10(least) - 1e-9);
    for (int e = first; e <= Math.ceil(Math.log10(most)); e++) {
      for (int step : steps) {
        double tick = Double.parseDouble(step + "e" + e);
        if (Math.floorMod(e, every) == 0
            && tick >= least * (1 - 1e-9)
            && tick <= most * (1 + 1e-9)) {
          ticks.add(tick);
        }
      }
    }
    return ticks.size() >= 2 ? ticks : List.of(least, most);
  }

  /** A label under each place: cut where it is too long, left out where there are too many. */
  private static final class LabelAxis extends NumberAxis {
    private static final long serialVersionUID = 1L;
    private static final int LETTER = 7;
    private final ArrayList<String> labels;

    LabelAxis(String label, List<String> labels) {
      super(label);
      this.labels = new ArrayList<>(labels);
    }

    @Override
    protected List<NumberTick> refreshTicksHorizontal(
        Graphics2D g, Rectangle2D area, RectangleEdge edge) {
      List<NumberTick> ticks = new ArrayList<>();
      int longest = labels.stream().mapToInt(String::length).max().orElse(1);
      double room = Math.max(1, area.getWidth() / labels.size() / LETTER);
      // so far apart that half of the longest label has room, the rest is cut
      int every = Math.max(1, (int) Math.ceil(Math.min(longest, 8) / room));
      int letters = (int) Math.max(3, room * every - 1);
      for (int i = 0; i < labels.size(); i += every) {
        String text = labels.get(i);
        ticks.add(tick(i, text.length() > letters ? text.substring(0, letters - 1) + "…" : text));
      }
      return ticks;
    }

    @Override
    public boolean equals(Object other) {
      return super.equals(other) && other instanceof LabelAxis axis && labels.equals(axis.labels);
    }

    @Override
    public int hashCode() {
      return 31 * super.hashCode() + labels.hashCode();
    }
  }

  private static NumberTick tick(double at, String words) {
    return new NumberTick(
        TickType.MAJOR, at, words, TextAnchor.TOP_CENTER, TextAnchor.TOP_CENTER, 0);
  }

  /** Ticks at stated numbers, laid out by their logarithms. */
  private static final class LogAxis extends NumberAxis {
    private static final long serialVersionUID = 1L;
    private final ArrayList<Double> at;
    private final String unit;

    LogAxis(String label, List<Double> at, String unit) {
      super(label);
      this.at = new ArrayList<>(at);
      this.unit = unit;
    }

    @Override
    protected List<NumberTick> refreshTicksHorizontal(
        Graphics2D g, Rectangle2D area, RectangleEdge edge) {
      List<NumberTick> ticks = new ArrayList<>();
      for (double number : at) {
        ticks.add(tick(Math.log10(number), SweepWords.number(number, unit)));
      }
      return ticks;
    }

    @Override
    public boolean equals(Object other) {
      return super.equals(other)
          && other instanceof LogAxis axis
          && at.equals(axis.at)
          && unit.equals(axis.unit);
    }

    @Override
    public int hashCode() {
      return 31 * super.hashCode() + at.hashCode();
    }
  }
}
