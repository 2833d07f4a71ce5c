package org.asmeasured.examples;

import java.awt.Color;
import java.awt.Font;
import java.util.ArrayList;
import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.advice.BenchComparison;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.Interval;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;

/** Where the readings of each instrument lie, beside the truth and what is allowed: a row each. */
final class ComparePicture {
  private static final int ROW = 44;
  private static final int AROUND = 96;

  /** Of a row, from its lower end: the bar, the middle of the dot, the foot of the name. */
  private static final double BAR_FROM = 0.14;

  private static final double BAR_TO = 0.42;
  private static final double NAME = 0.52;

  /** Where lines run: about the bar, and never through the words above it. */
  private static final double LINE_FROM = 0.04;

  private static final double LINE_TO = 0.5;

  private final BenchComparison comparison;
  private final CompareWords words;
  private final List<Reach> reaches = new ArrayList<>();
  private final List<Double> marks;
  private final double truth;

  /** Where readings lie; not a number where there are none. */
  private record Reach(double lower, double mean, double upper, boolean decides) {
    static final Reach NONE = new Reach(Double.NaN, Double.NaN, Double.NaN, false);

    boolean isThere() {
      return !Double.isNaN(mean);
    }
  }

  private ComparePicture(BenchComparison comparison, CompareWords words) {
    this.comparison = comparison;
    this.words = words;
    double known = Double.NaN;
    for (BenchComparison.Row row : comparison.rows()) {
      reaches.add(reach(row));
      if (row.assessment() instanceof Outcome.Taken<Assessment> taken
          && taken.result().truth() instanceof Measured.Value value) {
        known = value.value();
      }
    }
    truth = known;
    marks = SurenessPicture.limits(comparison.question().tolerance());
  }

  private static Reach reach(BenchComparison.Row row) {
    if (row.assessment() instanceof Outcome.Taken<Assessment> taken
        && taken.result().measured() instanceof Measured.Value mean
        && taken.result().interval() instanceof Outcome.Taken<Interval> interval) {
      Interval readings = interval.result();
      return new Reach(readings.lower(), mean.value(), readings.upper(), row.decides());
    }
    return Reach.NONE;
  }

  /** None where no instrument gives a reading. */
  static List<Picture> of(String file, BenchComparison comparison) {
    CompareWords words = CompareWords.of(comparison);
    ComparePicture picture = new ComparePicture(comparison, words);
    if (picture.reaches.stream().noneMatch(Reach::isThere)) {
      return List.of();
    }
    int height = AROUND + ROW * comparison.rows().size();
    return List.of(
        new Picture(
            file,
            words.heading(),
            "A bar holds 95 % of an instrument's readings, over instruments within their tolerances and over captures, with a"
                + " dot at their mean. An instrument decides where all but the allowed risk lies on one side of the limit,"
                + " whether its reading is taken as it stands or corrected for the bias.",
            new Picture.Size(960, height),
            new Picture.Size(372, height),
            picture::chart));
  }

  private JFreeChart chart(Picture.Size size) {
    double from = Double.POSITIVE_INFINITY;
    double to = Double.NEGATIVE_INFINITY;
    List<Double> shown = new ArrayList<>(marks);
    if (!Double.isNaN(truth)) {
      shown.add(truth);
    }
    for (Reach reach : reaches) {
      if (reach.isThere()) {
        shown.add(reach.lower());
        shown.add(reach.upper());
      }
    }
    for (double one : shown) {
      from = Math.min(from, one);
      to = Math.max(to, one);
    }
    String reading = comparison.question().reading().toString();
    AxisScale value =
        AxisScale.of(
            CompareWords.capitalised(reading), comparison.question().reading().unit(), from, to);
    int rows = reaches.size();
    NumberAxis names = AxisScale.axis("", 0, rows, rows);
    names.setVisible(false);
    XYPlot plot = Charts.plot(value.axis(size.isNarrow() ? 5 : 9), names);
    plot.setRangeGridlinesVisible(false);
    boolean any = false;
    boolean all = true;
    for (int i = 0; i < rows; i++) {
      Reach reach = reaches.get(i);
      if (reach.isThere()) {
        bar(plot, value, reach, rows - 1 - i);
        any |= reach.decides();
        all &= reach.decides();
      }
    }
    if (!Double.isNaN(truth)) {
      upright(plot, value, truth, rows, true);
    }
    marks.forEach(mark -> upright(plot, value, mark, rows, false));
    XYSeries means = new XYSeries("means", false, true);
    for (int i = 0; i < rows; i++) {
      if (reaches.get(i).isThere()) {
        means.add(value.in(reaches.get(i).mean()), rows - 1 - i + 0.5 * (BAR_FROM + BAR_TO));
      }
      name(plot, value, i, rows, size);
    }
    Charts.dots(plot, means, Palette.TEXT, 6);
    if (any) {
      Charts.keyBand(plot, "Readings, limit decided", Palette.RECORD);
    }
    if (!all) {
      Charts.keyBand(plot, "Readings, limit not decided", Palette.RECORD_PALE);
    }
    Charts.keyLine(plot, "True value", Palette.TRUTH, Palette.DASHED);
    Charts.keyLine(plot, marks.size() > 1 ? "Limits" : "Limit", Palette.TEXT, Palette.BOLD);
    return Charts.chart(plot, true);
  }

  private static void bar(XYPlot plot, AxisScale value, Reach reach, double foot) {
    // Two pixels at the least: an exact reading shows too.
    double half = 0.5 * Math.max(value.in(reach.upper()) - value.in(reach.lower()), 0);
    double middle = value.in(0.5 * (reach.lower() + reach.upper()));
    half = Math.max(half, 0.0015 * (value.high() - value.low()));
    double low = foot + BAR_FROM;
    double high = foot + BAR_TO;
    Charts.fill(
        plot,
        new double[] {
          middle - half, low, middle + half, low, middle + half, high, middle - half, high
        },
        reach.decides() ? Palette.RECORD : Palette.RECORD_PALE);
  }

  private static void upright(XYPlot plot, AxisScale value, double at, int rows, boolean isTruth) {
    XYSeries line = new XYSeries("line", false, true);
    for (int row = 0; row < rows; row++) {
      line.add(value.in(at), row + LINE_FROM);
      line.add(value.in(at), row + LINE_TO);
      line.add(value.in(at), Double.NaN);
    }
    Charts.line(
        plot,
        line,
        isTruth ? Palette.TRUTH : Palette.TEXT,
        isTruth ? Palette.DASHED : Palette.BOLD);
  }

  private void name(XYPlot plot, AxisScale value, int row, int rows, Picture.Size size) {
    CompareWords.Row said = words.rows().get(row);
    double pixel = (value.high() - value.low()) / (size.width() - 30);
    double foot = rows - 1 - row + NAME;
    boolean strong = reaches.get(row).decides() && said.beyond().isEmpty();
    Font font = strong ? Palette.STRONG : Palette.TICK;
    text(plot, said.instrument(), value.low() + 6 * pixel, foot, TextAnchor.BOTTOM_LEFT, font);
    if (!size.isNarrow()) {
      String right = said.isTaken() ? said.decision() : "no reading";
      text(plot, right, value.high() - 6 * pixel, foot, TextAnchor.BOTTOM_RIGHT, font);
    }
  }

  private static void text(
      XYPlot plot, String words, double x, double y, TextAnchor anchor, Font font) {
    XYTextAnnotation text = new XYTextAnnotation(words, x, y);
    text.setFont(font);
    text.setPaint(Palette.TEXT);
    text.setTextAnchor(anchor);
    text.setBackgroundPaint(Color.WHITE);
    plot.addAnnotation(text);
  }
}
