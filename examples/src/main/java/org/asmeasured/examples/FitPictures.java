package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.capture.Record;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.signal.Waveform;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;

/** A record, the fitted chain through it, and what it leaves over. */
final class FitPictures {
  private static final Picture.Size WIDE = new Picture.Size(960, 380);
  private static final Picture.Size NARROW = new Picture.Size(372, 340);
  private static final int CLOSE = 30;

  private final ChainFit fit;
  private final int index;
  private final Record record;
  private final double[] fitted;
  private final double[] left;

  private FitPictures(ChainFit fit, int index) {
    this.fit = fit;
    this.index = index;
    record = fit.recordings().get(index).record();
    fitted = fit.fittedVolts(index);
    left = fit.residualVolts(index);
  }

  static List<Picture> of(ChainFit fit) {
    List<Picture> pictures = new ArrayList<>();
    for (int i = 0; i < fit.recordings().size(); i++) {
      pictures.addAll(new FitPictures(fit, i).all());
    }
    return pictures;
  }

  private List<Picture> all() {
    String number = "-" + (index + 1);
    String which = fit.recordings().size() == 1 ? "" : " " + (index + 1);
    int last = record.size() - 1;
    List<Picture> pictures = new ArrayList<>();
    pictures.add(
        new Picture(
            "fit" + number,
            "Recording" + which + " and the fitted chain",
            record.size() + " points and what the chain makes of the signal at the estimates.",
            WIDE,
            NARROW,
            size -> chart(0, last, size)));
    if (record.size() > 4 * CLOSE) {
      int at = steepest();
      int from = Math.max(0, at - CLOSE);
      int to = Math.min(last, at + CLOSE);
      pictures.add(
          new Picture(
              "close-fit" + number,
              "Where recording" + which + " is steepest",
              "The same about its fastest change.",
              WIDE,
              NARROW,
              size -> chart(from, to, size)));
    }
    pictures.add(
        new Picture(
            "left-over" + number,
            "What the chain leaves over of recording" + which,
            "Record less fitted chain: "
                + Scale.text(fit.residualRmsVolts(index), "V")
                + " RMS, where the noise is stated as "
                + Scale.text(fit.expectedRmsVolts(index), "V")
                + ". What is not noise would show as a shape.",
            WIDE,
            NARROW,
            this::residuals));
    return pictures;
  }

  private int steepest() {
    int at = 0;
    double most = -1;
    for (int k = 1; k < fitted.length; k++) {
      double rise = Math.abs(fitted[k] - fitted[k - 1]);
      if (rise > most) {
        most = rise;
        at = k;
      }
    }
    return at;
  }

  private JFreeChart chart(int from, int to, Picture.Size size) {
    double[] volts = record.volts();
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (int k = from; k <= to; k++) {
      least = Math.min(least, Math.min(volts[k], fitted[k]));
      greatest = Math.max(greatest, Math.max(volts[k], fitted[k]));
    }
    AxisScale time = AxisScale.time(record.timeSeconds(from), record.timeSeconds(to));
    AxisScale level = AxisScale.volts("Voltage", least, greatest);
    XYPlot plot = Charts.plot(time.axis(size.isNarrow() ? 5 : 10), level.axis(6));
    points(plot, from, to, volts, time, level, size);
    Charts.line(
        plot, curve(from, to, size).series("fitted", time, level), Palette.TRUTH, Palette.BOLD);
    Charts.keyLine(plot, "Fitted chain", Palette.TRUTH, Palette.BOLD);
    return Charts.chart(plot, true);
  }

  private void points(
      XYPlot plot,
      int from,
      int to,
      double[] values,
      AxisScale time,
      AxisScale level,
      Picture.Size size) {
    Band band = Band.ofPoints(from, to, size.width(), record::timeSeconds, values, values);
    if (to - from < 2 * size.width()) {
      Charts.dots(
          plot,
          band.lower().series("record", time, level),
          Palette.RECORD,
          Charts.diameter(to - from + 1, size.width()));
      Charts.keyDots(plot, "Stored points", Palette.RECORD, null);
    } else {
      Charts.fill(plot, band.outline(time, level), Palette.RECORD_PALE);
      Charts.line(plot, band.lower().series("least", time, level), Palette.RECORD, Palette.THIN);
      Charts.line(plot, band.upper().series("greatest", time, level), Palette.RECORD, Palette.THIN);
      Charts.keyBand(plot, "Stored points, least to greatest", Palette.RECORD_PALE);
    }
  }

  /** Between the points too, where a point is a sample of the analog output. */
  private Polyline curve(int from, int to, Picture.Size size) {
    Measurement m = fit.measurement(index);
    boolean samples = m.setup().decimation().isIdeal(0) && m.setup().sampler().isIdeal();
    if (!samples || to - from > size.width()) {
      return Polyline.ofPoints(from, to, size.width(), record::timeSeconds, k -> fitted[k]);
    }
    Waveform output = m.setup().analogOutput(m.signal());
    // the instants of the record are those of its file; the fit may have moved them
    double moved = m.setup().startSeconds() - record.timeSeconds(0);
    double start = record.timeSeconds(from);
    double span = record.timeSeconds(to) - start;
    Polyline line = new Polyline();
    for (int i = 0; i <= size.width(); i++) {
      double t = start + span * i / size.width();
      line.add(t, output.valueAt(t + moved));
    }
    return line;
  }

  private JFreeChart residuals(Picture.Size size) {
    double expected = fit.expectedRmsVolts(index);
    double most = 1.5 * expected;
    for (double r : left) {
      most = Math.max(most, Math.abs(r));
    }
    int last = record.size() - 1;
    AxisScale time = AxisScale.time(record.timeSeconds(0), record.timeSeconds(last));
    AxisScale level = AxisScale.volts("Record less fitted chain", -most, most);
    XYPlot plot = Charts.plot(time.axis(size.isNarrow() ? 5 : 10), level.axis(6));
    Charts.level(plot, level.in(0), Palette.THIN);
    points(plot, 0, last, left, time, level, size);
    Charts.levelInFront(plot, level.in(expected), Palette.TRUTH, Palette.DASHED);
    Charts.levelInFront(plot, level.in(-expected), Palette.TRUTH, Palette.DASHED);
    Charts.keyLine(
        plot, "Standard deviation of the noise as stated", Palette.TRUTH, Palette.DASHED);
    return Charts.chart(plot, true);
  }
}
