package org.asmeasured.examples;

import java.awt.Color;
import java.awt.Stroke;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.asmeasured.uncertainty.Interval;
import org.asmeasured.uncertainty.Simulated;
import org.asmeasured.uncertainty.Tolerance;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYSeries;

/** Where readings lie over instruments and captures, beside the truth and what is allowed. */
final class SurenessPicture {
  private static final Picture.Size WIDE = new Picture.Size(960, 320);
  private static final Picture.Size NARROW = new Picture.Size(372, 320);
  private static final int BINS = 90;
  private static final int NARROW_BINS = 40;

  private final Sureness sureness;
  private final Tolerance limit;
  private final String unit;

  private SurenessPicture(Sureness sureness, Tolerance limit, String unit) {
    this.sureness = sureness;
    this.limit = limit;
    this.unit = unit;
  }

  /**
   * A picture of a reading that has an uncertainty.
   *
   * @param limit null where none is stated
   */
  static Picture of(String file, Sureness sureness, Tolerance limit, String unit) {
    SurenessPicture picture = new SurenessPicture(sureness, limit, unit);
    return new Picture(
        file,
        capitalised(sureness.name()) + ": how sure",
        "How a reading is spread over "
            + sureness.trials().trials()
            + " trials, each with another instrument within the tolerances and another capture. Dark: "
            + Math.round(100 * sureness.trials().probability())
            + " % of them, as many beyond either end.",
        WIDE,
        NARROW,
        picture::chart);
  }

  private static String capitalised(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  private JFreeChart chart(Picture.Size size) {
    Simulated trials = sureness.trials();
    double truth = sureness.assessment().truth().orThrow();
    double least = trials.quantile(0.0005);
    double most = trials.quantile(0.9995);
    double span = Math.max(most - least, 1e-9 * Math.max(Math.abs(truth), 1e-9));
    int bins = size.isNarrow() ? NARROW_BINS : BINS;
    double width = span / bins;
    double[] shares = new double[bins];
    double top = 0;
    for (int b = 0; b < bins; b++) {
      shares[b] =
          100
              * (trials.cumulative(least + (b + 1) * width)
                  - (b == 0 ? 0 : trials.cumulative(least + b * width)));
      top = Math.max(top, shares[b]);
    }
    double from = Math.min(truth, truth + least);
    double to = Math.max(truth, truth + least + bins * width);
    List<Double> limits = limits(limit);
    for (double one : limits) {
      from = Math.min(from, one);
      to = Math.max(to, one);
    }
    double margin = 0.03 * (to - from);
    AxisScale value = AxisScale.of(capitalised(sureness.name()), unit, from - margin, to + margin);
    XYPlot plot =
        Charts.plot(
            value.axis(size.isNarrow() ? 5 : 9),
            AxisScale.axis("Share of the trials (%)", 0, 1.08 * top, 5));
    Interval inside = sureness.interval();
    bars(plot, value, shares, truth + least, width, null, Palette.RECORD_PALE);
    bars(plot, value, shares, truth + least, width, inside, Palette.RECORD);
    Charts.keyBand(plot, "Readings", Palette.RECORD_PALE);
    Charts.keyBand(plot, Math.round(100 * trials.probability()) + " % of them", Palette.RECORD);
    upright(plot, value, truth, top, Palette.TRUTH, Palette.DASHED);
    Charts.keyLine(plot, "True value", Palette.TRUTH, Palette.DASHED);
    for (double one : limits) {
      upright(plot, value, one, top, Palette.TEXT, Palette.BOLD);
    }
    if (!limits.isEmpty()) {
      Charts.keyLine(plot, limits.size() > 1 ? "Limits" : "Limit", Palette.TEXT, Palette.BOLD);
    }
    return Charts.chart(plot, true);
  }

  /** The ends that a tolerance has; none if it is missing. */
  static List<Double> limits(Tolerance limit) {
    List<Double> limits = new ArrayList<>();
    if (limit != null) {
      for (double one : new double[] {limit.lower(), limit.upper()}) {
        if (Math.abs(one) < Double.POSITIVE_INFINITY) {
          limits.add(one);
        }
      }
    }
    return limits;
  }

  /** All bars as one outline, or those parts of them that lie within an interval. */
  private static void bars(
      XYPlot plot,
      AxisScale value,
      double[] shares,
      double start,
      double width,
      Interval within,
      Color paint) {
    List<Double> outline = new ArrayList<>();
    for (int b = 0; b < shares.length; b++) {
      double left = start + b * width;
      double right = left + width;
      if (within != null) {
        left = Math.max(left, within.lower());
        right = Math.min(right, within.upper());
      }
      if (right > left) {
        if (outline.isEmpty()) {
          outline.add(value.in(left));
          outline.add(0.0);
        }
        outline.add(value.in(left));
        outline.add(shares[b]);
        outline.add(value.in(right));
        outline.add(shares[b]);
      }
    }
    if (outline.isEmpty()) {
      return;
    }
    outline.add(outline.get(outline.size() - 2));
    outline.add(0.0);
    Charts.fill(plot, outline.stream().mapToDouble(Double::doubleValue).toArray(), paint);
  }

  private static void upright(
      XYPlot plot, AxisScale value, double at, double top, Color paint, Stroke stroke) {
    XYSeries line = new XYSeries("line", false, true);
    line.add(value.in(at), 0);
    line.add(value.in(at), 1.08 * top);
    Charts.line(plot, line, paint, stroke);
  }
}
