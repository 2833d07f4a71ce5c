package org.asmeasured.examples;

import java.util.List;
import org.asmeasured.characterisation.HistogramLinearity;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.LinearityTest;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;

/** INL and DNL of the converter, as a test found them, beside those that it has. */
final class LinearityPictures {
  private static final Picture.Size WIDE = new Picture.Size(960, 360);
  private static final Picture.Size NARROW = new Picture.Size(372, 340);

  /** Nineteen of twenty lie within. */
  private static final double DEVIATIONS = 2;

  private LinearityPictures() {}

  /** None where the test could not be done. */
  static List<Picture> of(LinearityTest.Result result) {
    if (!(result.found() instanceof Outcome.Taken<HistogramLinearity> taken)) {
      return List.of();
    }
    HistogramLinearity found = taken.result();
    Linearity.Line line = result.test().line();
    Linearity truth = result.truth().orThrow();
    String how =
        result.test()
            + ". The band about what was found is two standard deviations wide on either side, those"
            + " of "
            + result.sampling()
            + "."
            + (result.caveats().isEmpty() ? "" : " " + String.join(" ", result.caveats()));
    return List.of(
        picture(
            "inl",
            "Integral nonlinearity of the converter",
            how,
            new Curve(
                "INL (steps)",
                found.linearity().inl(line),
                found.inlDeviation(line, result.sampling()),
                truth.inl(line))),
        picture(
            "dnl",
            "Differential nonlinearity of the converter",
            "The width of each code, less one step.",
            new Curve(
                "DNL (steps)",
                found.linearity().dnl(line),
                found.dnlDeviation(line, result.sampling()),
                truth.dnl(line))));
  }

  private record Curve(String axis, double[] found, double[] deviation, double[] truth) {
    double lowest(int i) {
      return found[i] - DEVIATIONS * deviation[i];
    }

    double highest(int i) {
      return found[i] + DEVIATIONS * deviation[i];
    }
  }

  private static Picture picture(String file, String title, String caption, Curve curve) {
    return new Picture(file, title, caption, WIDE, NARROW, size -> chart(curve, size));
  }

  private static JFreeChart chart(Curve curve, Picture.Size size) {
    int n = curve.found().length;
    // transitions and inner codes both begin one above the lowest code
    int first = -(n + 1) / 2 + (n % 2 == 0 ? 0 : 1);
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      low[i] = curve.lowest(i);
      high[i] = curve.highest(i);
    }
    Band band = Band.ofPoints(0, n - 1, size.width(), i -> first + i, low, high);
    Polyline found =
        Polyline.ofPoints(0, n - 1, size.width(), i -> first + i, i -> curve.found()[i]);
    Polyline truth =
        Polyline.ofPoints(0, n - 1, size.width(), i -> first + i, i -> curve.truth()[i]);
    double air = 0.01 * n;
    AxisScale code = new AxisScale(0, new Scale(0, ""), "Code", first - air, first + n - 1 + air);
    double least = Math.min(band.lower().least(), truth.least());
    double most = Math.max(band.upper().greatest(), truth.greatest());
    double room = Math.max(0.02, 0.06 * (most - least));
    AxisScale steps =
        new AxisScale(0, new Scale(0, "steps"), curve.axis(), least - room, most + room);
    XYPlot plot = Charts.plot(code.axis(size.isNarrow() ? 5 : 10), steps.axis(6));
    Charts.level(plot, 0, Palette.THIN);
    Charts.fill(plot, band.outline(code, steps), Palette.RECORD_PALE);
    Charts.keyBand(plot, "Two standard deviations either way", Palette.RECORD_PALE);
    Charts.line(plot, found.series("found", code, steps), Palette.RECORD, Palette.LINE);
    Charts.keyLine(plot, "Found", Palette.RECORD, Palette.LINE);
    Charts.line(plot, truth.series("truth", code, steps), Palette.TRUTH, Palette.DASHED);
    Charts.keyLine(plot, "Truth", Palette.TRUTH, Palette.DASHED);
    return Charts.chart(plot, true);
  }
}
