package org.asmeasured.examples;

import java.awt.Paint;
import java.awt.Stroke;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;

/**
 * The pictures of one record: all of it beside the truth, parts of it from nearer by, and the error
 * over time.
 */
final class RecordPictures {
  private static final Picture.Size WIDE = new Picture.Size(960, 420);
  private static final Picture.Size NARROW = new Picture.Size(372, 372);

  private final Comparison comparison;
  private final String filePrefix;
  private final String channel;
  private final double[] errorLow;
  private final double[] errorHigh;
  private final int worst;

  RecordPictures(Comparison comparison) {
    this(comparison, "", "");
  }

  /** Of one channel among several. */
  RecordPictures(Comparison comparison, String filePrefix, String channel) {
    this.comparison = comparison;
    this.filePrefix = filePrefix;
    this.channel = channel;
    double[][] errors = comparison.errors();
    errorLow = errors[0];
    errorHigh = errors[1];
    int at = 0;
    double greatest = -1;
    for (int i = 0; i < errorLow.length; i++) {
      double size = Math.max(Math.abs(errorLow[i]), Math.abs(errorHigh[i]));
      if (size > greatest) {
        greatest = size;
        at = i;
      }
    }
    worst = at;
  }

  List<Picture> all() {
    Window whole = new Window(0, comparison.size() - 1);
    Window cycles = Window.cycles(comparison, worst);
    Window closeUp = Window.closeUp(comparison, worst);
    List<Picture> pictures = new ArrayList<>();
    pictures.add(
        picture(
            "record",
            "The record beside the truth",
            "All " + count(comparison.size()) + " stored points." + removed(),
            whole));
    if (!cycles.isWhole(comparison) && cycles.points() > closeUp.points()) {
      pictures.add(
          picture(
              "cycles",
              "A few cycles",
              "Three cycles around the greatest error." + removed(),
              cycles));
    }
    if (!closeUp.isWhole(comparison) || comparison.size() > 2 * closeUp.points()) {
      pictures.add(
          picture(
              "close-up",
              "Where the error is greatest",
              "Each dot is a stored point; the largest error is "
                  + greatestError()
                  + "."
                  + removed(),
              closeUp));
    }
    pictures.add(
        new Picture(
            filePrefix + "error",
            titled("The error over time"),
            errorCaption(),
            WIDE,
            NARROW,
            this::errorChart));
    return pictures;
  }

  private Picture picture(String file, String title, String caption, Window window) {
    return new Picture(
        filePrefix + file, titled(title), caption, WIDE, NARROW, size -> recordChart(window, size));
  }

  private String titled(String title) {
    return channel.isEmpty() ? title : title + ": " + channel;
  }

  private static String count(int points) {
    return String.format(Locale.ROOT, "%,d", points).replace(',', ' ');
  }

  private String removed() {
    return comparison.removedVolts() == 0
        ? ""
        : " AC coupling takes off the mean of the signal, "
            + Scale.text(comparison.removedVolts(), comparison.unit())
            + "; the truth is drawn without it.";
  }

  private String greatestError() {
    double low = errorLow[worst];
    double high = errorHigh[worst];
    double error = Math.abs(low) > Math.abs(high) ? low : high;
    String text = Scale.signedText(error, comparison.unit());
    if (comparison.stepVolts() > 0) {
      double steps = Math.abs(error) / comparison.stepVolts();
      text += ", " + Scale.text(steps, "") + " steps of the converter";
    }
    return text;
  }

  private String errorCaption() {
    String text = "Record less truth at every stored point." + removed();
    if (comparison.stepVolts() > 0) {
      text +=
          " One step of the converter is " + Scale.text(comparison.stepVolts(), comparison.unit());
      text +=
          isHalfStepVisible()
              ? "; between the dotted lines, half a step either way, rounding alone explains the error."
              : ".";
    }
    return text;
  }

  private JFreeChart recordChart(Window window, Picture.Size size) {
    double from = comparison.startSeconds();
    double to = comparison.endSeconds();
    if (!window.isWhole(comparison)) {
      from = comparison.timeSeconds(window.first());
      to = comparison.timeSeconds(window.last());
    }
    TruthColumns truth =
        new TruthColumns(comparison.truth(), comparison.removedVolts(), from, to, size.width());
    boolean solid = truth.band().isDense();
    int smooth = solid ? columnsOfOneCycle(from, to, size) : 1;
    Band truthBand = truth.band().widened(smooth);
    boolean crowded = window.points() > 2 * size.width();
    boolean banded = comparison.isEnvelope() || (solid && crowded);
    Band recordBand =
        Band.ofPoints(
                window.first(),
                window.last(),
                size.width(),
                comparison::timeSeconds,
                comparison.lower(),
                comparison.upper())
            .widened(solid && crowded ? smooth : 1);

    AxisScale time = AxisScale.time(from, to);
    AxisScale volts =
        AxisScale.of(
            comparison.quantity(),
            comparison.unit(),
            Math.min(recordBand.lower().least(), truthBand.lower().least()),
            Math.max(recordBand.upper().greatest(), truthBand.upper().greatest()));
    XYPlot plot = Charts.plot(time.axis(size.isNarrow() ? 5 : 10), volts.axis(6));
    boolean dots = window.points() <= size.width() / 2;

    if (banded) {
      fill(plot, time, volts, recordBand);
      line(plot, recordBand.lower(), time, volts, size, Palette.RECORD, Palette.THIN);
      line(plot, recordBand.upper(), time, volts, size, Palette.RECORD, Palette.THIN);
      Charts.keyBand(plot, "Record, least to greatest", Palette.RECORD_PALE);
    } else {
      Polyline record = points(window, size, comparison.lower());
      line(
          plot,
          record,
          time,
          volts,
          size,
          dots ? Palette.RECORD_PALE : Palette.RECORD,
          dots ? Palette.LINE : Palette.BOLD);
      if (dots) {
        Charts.keyDots(plot, "Record, stored points", Palette.RECORD, Palette.RECORD_PALE);
      } else {
        Charts.keyLine(plot, "Record", Palette.RECORD, Palette.BOLD);
      }
    }
    if (solid) {
      line(plot, truthBand.lower(), time, volts, size, Palette.TRUTH, Palette.DASHED);
      line(plot, truthBand.upper(), time, volts, size, Palette.TRUTH, Palette.DASHED);
      Charts.keyLine(plot, "Truth, least and greatest", Palette.TRUTH, Palette.DASHED);
    } else {
      line(plot, truth.line(), time, volts, size, Palette.TRUTH, Palette.LINE);
      Charts.keyLine(plot, "Truth", Palette.TRUTH, Palette.LINE);
    }
    if (comparison.range() != null) {
      Charts.level(plot, volts.in(comparison.range().low()), Palette.DOTTED);
      Charts.level(plot, volts.in(comparison.range().high()), Palette.DOTTED);
      Charts.keyLine(plot, "Ends of the converter's range", Palette.GUIDE, Palette.DOTTED);
    }
    if (dots) {
      double diameter = Charts.diameter(window.points(), size.width());
      Charts.dots(plot, recordBand.lower().series("points", time, volts), Palette.RECORD, diameter);
      if (comparison.isEnvelope()) {
        Charts.dots(
            plot, recordBand.upper().series("upper points", time, volts), Palette.RECORD, diameter);
      }
    }
    return Charts.chart(plot, true);
  }

  /** So that the outline of a solid patch does not follow single cycles. */
  private int columnsOfOneCycle(double from, double to, Picture.Size size) {
    double column = (to - from) / size.width();
    double period = comparison.truth().periodSeconds().orElse(4 * column);
    return (int) Math.max(3, Math.min(size.width() / 10.0, Math.ceil(period / column) + 1));
  }

  private Polyline points(Window window, Picture.Size size, double[] values) {
    return Polyline.ofPoints(
        window.first(), window.last(), size.width(), comparison::timeSeconds, i -> values[i]);
  }

  private static void line(
      XYPlot plot,
      Polyline line,
      AxisScale time,
      AxisScale volts,
      Picture.Size size,
      Paint paint,
      Stroke stroke) {
    // A tenth of a pixel, in the line's own units.
    Polyline seen =
        line.simplified(0.1 * time.span() / size.width(), 0.1 * volts.span() / size.height());
    Charts.line(plot, seen.series("line", time, volts), paint, stroke);
  }

  private static void fill(XYPlot plot, AxisScale time, AxisScale volts, Band band) {
    Charts.fill(plot, band.outline(time, volts), Palette.RECORD_PALE);
  }

  private boolean isHalfStepVisible() {
    double largest = Math.max(Math.abs(errorLow[worst]), Math.abs(errorHigh[worst]));
    return comparison.stepVolts() > 0.02 * largest;
  }

  private JFreeChart errorChart(Picture.Size size) {
    int last = comparison.size() - 1;
    Polyline low =
        Polyline.ofPoints(0, last, size.width(), comparison::timeSeconds, i -> errorLow[i]);
    Polyline high =
        comparison.isEnvelope()
            ? Polyline.ofPoints(0, last, size.width(), comparison::timeSeconds, i -> errorHigh[i])
            : low;
    double step = comparison.stepVolts();
    double min = Math.min(low.least(), high.least());
    double max = Math.max(low.greatest(), high.greatest());
    double largest = Math.max(Math.abs(min), Math.abs(max));
    if (largest <= 50 * (max - min) || largest < 2 * step) {
      min = Math.min(min, -0.6 * step);
      max = Math.max(max, 0.6 * step);
    }
    AxisScale time = AxisScale.time(comparison.startSeconds(), comparison.endSeconds());
    AxisScale volts = AxisScale.of("Record less truth", comparison.unit(), min, max);
    XYPlot plot = Charts.plot(time.axis(size.isNarrow() ? 5 : 10), volts.axis(6));
    if (step > 0) {
      NumberAxis steps =
          AxisScale.axis("Steps of the converter", volts.from() / step, volts.to() / step, 6);
      plot.setRangeAxis(1, steps);
      plot.setRangeAxisLocation(1, AxisLocation.BOTTOM_OR_RIGHT);
      if (isHalfStepVisible()) {
        Charts.level(plot, volts.in(step / 2), Palette.DOTTED);
        Charts.level(plot, volts.in(-step / 2), Palette.DOTTED);
      }
    }
    Charts.level(plot, volts.in(0), Palette.THIN);
    boolean dots = comparison.size() <= size.width() / 4;
    if (comparison.isEnvelope()) {
      line(plot, low, time, volts, size, Palette.RECORD, Palette.LINE);
      line(plot, high, time, volts, size, Palette.TRUTH, Palette.DASHED);
      Charts.keyLine(plot, "Error of the least values", Palette.RECORD, Palette.LINE);
      Charts.keyLine(plot, "Error of the greatest values", Palette.TRUTH, Palette.DASHED);
    } else {
      line(plot, low, time, volts, size, dots ? Palette.RECORD_PALE : Palette.RECORD, Palette.LINE);
      if (dots) {
        Charts.dots(
            plot,
            low.series("error", time, volts),
            Palette.RECORD,
            Charts.diameter(comparison.size(), size.width()));
      }
    }
    return Charts.chart(plot, comparison.isEnvelope());
  }
}
