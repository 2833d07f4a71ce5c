package org.asmeasured.examples;

import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.asmeasured.capture.Record;
import org.asmeasured.characterisation.SineFit;
import org.asmeasured.measure.Outcome;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.plot.XYPlot;

/** What the best sine leaves over, in the order of the record and in the order of its phase. */
final class ResidualPictures {
  private static final Picture.Size WIDE = new Picture.Size(960, 360);
  private static final Picture.Size NARROW = new Picture.Size(372, 340);
  private static final double TURN_DEGREES = 360;
  private static final String PHASE = "Phase, from the crest (°)";
  private static final NumberTickUnit QUARTER_TURN =
      new NumberTickUnit(
          TURN_DEGREES / 4, new DecimalFormat("0", DecimalFormatSymbols.getInstance(Locale.ROOT)));

  private final Record record;
  private final SineFit fit;
  private final double[] residuals;
  private final String unit;

  private ResidualPictures(Record record, SineFit fit, String unit) {
    this.record = record;
    this.fit = fit;
    this.residuals = fit.residuals(record);
    this.unit = unit;
  }

  /** None where no sine can be fitted. */
  static List<Picture> of(Record record, String unit) {
    if (!(SineFit.fourParameters(record) instanceof Outcome.Taken<SineFit> taken)) {
      return List.of();
    }
    return new ResidualPictures(record, taken.result(), unit).all();
  }

  private List<Picture> all() {
    String sine =
        "Record less the best sine of four parameters: "
            + Scale.text(fit.amplitudeVolts(), unit)
            + " amplitude, "
            + Scale.text(fit.frequencyHz(), "Hz")
            + ", offset "
            + Scale.text(fit.offsetVolts(), unit)
            + ". It leaves "
            + Scale.text(fit.residualVolts(), unit)
            + " RMS.";
    List<Picture> pictures = new ArrayList<>();
    pictures.add(
        new Picture(
            "residuals",
            "What the best sine leaves over",
            sine,
            WIDE,
            NARROW,
            size -> chart(byTime(size), time(), size)));
    pictures.add(
        new Picture(
            "residuals-by-phase",
            "The same by the phase of the sine",
            "All cycles laid over one another: what comes back in every cycle is distortion, what"
                + " scatters is noise.",
            WIDE,
            NARROW,
            size -> chart(byPhase(size), phase(), size)));
    return pictures;
  }

  private AxisScale time() {
    return AxisScale.time(record.timeSeconds(0), record.timeSeconds(record.size() - 1));
  }

  private static AxisScale phase() {
    return new AxisScale(0, new Scale(0, "°"), PHASE, -5, TURN_DEGREES + 5);
  }

  private Band byTime(Picture.Size size) {
    return Band.ofPoints(
        0, residuals.length - 1, size.width(), record::timeSeconds, residuals, residuals);
  }

  private Band byPhase(Picture.Size size) {
    double[] degrees = new double[residuals.length];
    for (int i = 0; i < degrees.length; i++) {
      double turns = fit.frequencyHz() / record.rateHz() * i + fit.phaseRadians() / (2 * Math.PI);
      degrees[i] = TURN_DEGREES * (turns - Math.floor(turns));
    }
    int[] order =
        IntStream.range(0, degrees.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> degrees[i]))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] sorted = new double[order.length];
    for (int i = 0; i < order.length; i++) {
      sorted[i] = residuals[order[i]];
    }
    return Band.ofPoints(
        0, sorted.length - 1, size.width(), i -> degrees[order[i]], sorted, sorted);
  }

  private JFreeChart chart(Band band, AxisScale across, Picture.Size size) {
    double rms = fit.residualVolts();
    AxisScale volts =
        AxisScale.of(
            "Record less sine",
            unit,
            Math.min(-1.2 * rms, band.lower().least()),
            Math.max(1.2 * rms, band.upper().greatest()));
    NumberAxis below = across.axis(size.isNarrow() ? 5 : 10);
    if (across.label().equals(PHASE)) {
      below.setTickUnit(QUARTER_TURN);
    }
    XYPlot plot = Charts.plot(below, volts.axis(6));
    Charts.level(plot, volts.in(0), Palette.THIN);
    if (residuals.length <= 2 * size.width()) {
      // one point a column: the lower line holds them all
      Charts.dots(
          plot,
          band.lower().series("residuals", across, volts),
          Palette.RECORD,
          Charts.diameter(residuals.length, size.width()));
      Charts.keyDots(plot, "Stored points", Palette.RECORD, null);
    } else {
      Charts.fill(plot, band.outline(across, volts), Palette.RECORD_PALE);
      Charts.line(plot, band.lower().series("least", across, volts), Palette.RECORD, Palette.THIN);
      Charts.line(
          plot, band.upper().series("greatest", across, volts), Palette.RECORD, Palette.THIN);
      Charts.keyBand(plot, "Stored points, least to greatest", Palette.RECORD_PALE);
    }
    Charts.levelInFront(plot, volts.in(rms), Palette.TRUTH, Palette.DASHED);
    Charts.levelInFront(plot, volts.in(-rms), Palette.TRUTH, Palette.DASHED);
    Charts.keyLine(plot, "RMS of what is left", Palette.TRUTH, Palette.DASHED);
    return Charts.chart(plot, true);
  }
}
