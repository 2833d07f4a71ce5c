package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Record;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYSeries;

/** How often each level was stored: what levels of states and percentiles rest on. */
final class HistogramPicture {
  private static final Picture.Size WIDE = new Picture.Size(960, 360);
  private static final Picture.Size NARROW = new Picture.Size(372, 340);
  private static final int BINS = 256;
  private static final int NARROW_BINS = 64;

  /** A level to mark, and what it is. */
  record Mark(double volts, String words) {}

  private final double[] volts;
  private final double stepVolts;
  private final List<Mark> marks;
  private final String unit;

  private HistogramPicture(double[] volts, double stepVolts, List<Mark> marks, String unit) {
    this.volts = volts;
    this.stepVolts = stepVolts;
    this.marks = List.copyOf(marks);
    this.unit = unit;
  }

  /** None of an envelope, or where nothing was recorded. */
  static List<Picture> of(Record record, List<Mark> marks, String unit) {
    if (record.size() == 0 || record.isEnvelope()) {
      return List.of();
    }
    HistogramPicture histogram =
        new HistogramPicture(record.volts(), record.stepVolts(), marks, unit);
    return List.of(
        new Picture(
            "histogram",
            "The levels of the record",
            "How large a share of the stored points lies at each level."
                + (record.stepVolts() > 0
                    ? " One step of the record is " + Scale.text(record.stepVolts(), unit) + "."
                    : ""),
            WIDE,
            NARROW,
            histogram::chart));
  }

  private JFreeChart chart(Picture.Size size) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (double v : volts) {
      least = Math.min(least, v);
      most = Math.max(most, v);
    }
    int atMost = size.isNarrow() ? NARROW_BINS : BINS;
    double width = (most - least) / atMost;
    if (stepVolts > 0) {
      // whole steps, or bars would beat against the codes
      width = stepVolts * Math.max(1, Math.ceil((most - least) / stepVolts / atMost));
    }
    if (!(width > 0)) {
      width = Math.max(Math.abs(least) * 1e-3, 1e-12);
    }
    double low = stepVolts > 0 ? least - stepVolts / 2 : least;
    int bins = (int) Math.max(1, Math.ceil((most - low) / width * (1 - 1e-12)));
    double[] shares = new double[bins];
    for (double v : volts) {
      shares[(int) Math.min(bins - 1, Math.floor((v - low) / width))] += 100.0 / volts.length;
    }
    double top = 0;
    for (double share : shares) {
      top = Math.max(top, share);
    }
    double from = low;
    double to = low + bins * width;
    for (Mark mark : marks) {
      from = Math.min(from, mark.volts());
      to = Math.max(to, mark.volts());
    }
    AxisScale level = AxisScale.of(unit.equals("A") ? "Current" : "Voltage", unit, from, to);
    XYPlot plot =
        Charts.plot(
            level.axis(size.isNarrow() ? 5 : 9),
            AxisScale.axis("Share of the points (%)", 0, 1.08 * top, 5));
    List<Double> outline = new ArrayList<>();
    double lowest = level.in(low);
    outline.add(lowest);
    outline.add(0.0);
    for (int b = 0; b < bins; b++) {
      for (int side = 0; side < 2; side++) {
        outline.add(level.in(low + (b + side) * width));
        outline.add(shares[b]);
      }
    }
    outline.add(level.in(low + bins * width));
    outline.add(0.0);
    double[] corners = outline.stream().mapToDouble(Double::doubleValue).toArray();
    Charts.fill(plot, corners, Palette.RECORD_PALE);
    XYSeries edge = new XYSeries("edge", false, true);
    for (int i = 0; i < corners.length; i += 2) {
      edge.add(corners[i], corners[i + 1]);
    }
    Charts.line(plot, edge, Palette.RECORD, Palette.THIN);
    Charts.keyBand(plot, "Record", Palette.RECORD_PALE);
    for (int m = 0; m < marks.size(); m++) {
      XYSeries line = new XYSeries("mark", false, true);
      line.add(level.in(marks.get(m).volts()), 0);
      line.add(level.in(marks.get(m).volts()), 1.08 * top);
      var stroke = m % 2 == 0 ? Palette.DASHED : Palette.DOTTED;
      var paint = m % 2 == 0 ? Palette.TRUTH : Palette.TEXT;
      Charts.line(plot, line, paint, stroke);
      Charts.keyLine(plot, marks.get(m).words(), paint, stroke);
    }
    return Charts.chart(plot, true);
  }
}
