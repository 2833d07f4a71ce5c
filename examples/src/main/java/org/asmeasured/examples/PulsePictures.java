package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured;
import org.asmeasured.pulse.PulseAnalysis;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.States;
import org.asmeasured.pulse.Transition;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYSeries;

/**
 * What readings of pulses rest on: the states, the reference levels, and where the record crosses
 * them.
 */
final class PulsePictures {
  private static final Picture.Size WIDE = new Picture.Size(960, 420);
  private static final Picture.Size NARROW = new Picture.Size(372, 372);

  /** An edge that fills less than this of a picture deserves one of its own. */
  private static final double NARROW_EDGE = 0.06;

  private static final double BEFORE_DURATIONS = 4;
  private static final double AFTER_DURATIONS = 14;

  private final Record record;
  private final PulseAnalysis analysis;
  private final States states;
  private final String unit;

  private PulsePictures(Record record, PulseAnalysis analysis, States states, String unit) {
    this.record = record;
    this.analysis = analysis;
    this.states = states;
    this.unit = unit;
  }

  /** None of an envelope, or where nothing was recorded. */
  static List<Picture> of(Record record, PulseMethod method, String number, String unit) {
    if (record.size() == 0 || record.isEnvelope()) {
      return List.of();
    }
    PulseAnalysis analysis = PulseAnalysis.of(record, method);
    Optional<States> states = analysis.states();
    if (states.isEmpty()) {
      return List.of();
    }
    return new PulsePictures(record, analysis, states.get(), unit).all(number);
  }

  private List<Picture> all(String number) {
    List<Transition> transitions = analysis.transitions();
    double last = Math.max(1, record.size() - 1) / record.rateHz();
    List<Picture> pictures = new ArrayList<>();
    double from = 0;
    double to = last;
    if (transitions.size() > 1) {
      double start = transitions.get(0).midSeconds();
      double end = transitions.get(Math.min(2, transitions.size() - 1)).midSeconds();
      from = Math.max(0, start - 0.35 * (end - start));
      to = Math.min(last, end + 0.35 * (end - start));
    }
    pictures.add(picture("levels" + number, "States and reference levels", from, to));
    double left = from;
    double right = to;
    transitions.stream()
        .filter(t -> t.duration() instanceof Measured.Value)
        .findFirst()
        .ifPresent(
            t -> {
              double duration = t.duration().orThrow();
              if (duration < NARROW_EDGE * (right - left) && duration * record.rateHz() > 0.2) {
                double least = 4 / record.rateHz();
                pictures.add(
                    picture(
                        "transition" + number,
                        "The first transition",
                        Math.max(0, t.midSeconds() - Math.max(least, BEFORE_DURATIONS * duration)),
                        Math.min(
                            last, t.midSeconds() + Math.max(least, AFTER_DURATIONS * duration))));
              }
            });
    return pictures;
  }

  private Picture picture(String file, String title, double from, double to) {
    return new Picture(file, title, caption(), WIDE, NARROW, size -> chart(from, to, size));
  }

  private String caption() {
    String text =
        "States by "
            + analysis.method().levels()
            + ": low "
            + Scale.text(states.lowVolts(), unit)
            + ", high "
            + Scale.text(states.highVolts(), unit)
            + ", amplitude "
            + Scale.text(states.amplitudeVolts(), unit)
            + ". ";
    if (analysis.referenceVolts().length == 0) {
      return text + "There are no two states, and no reference levels between them.";
    }
    int count = analysis.transitions().size();
    return text
        + "Reference levels at "
        + analysis.method().references()
        + "; each dot is an instant at which the record passes one. The record has "
        + (count == 0 ? "no transition." : count + (count == 1 ? " transition." : " transitions."));
  }

  private JFreeChart chart(double from, double to, Picture.Size size) {
    double origin = analysis.originSeconds();
    int first = (int) Math.max(0, Math.floor(from * record.rateHz()));
    int last = (int) Math.min(record.size() - 1, Math.ceil(to * record.rateHz()));
    Polyline line =
        Polyline.ofPoints(
            first, last, size.width(), i -> origin + i / record.rateHz(), record::volts);
    double[] references = analysis.referenceVolts();
    double least = Math.min(states.lowVolts(), line.least());
    double most = Math.max(states.highVolts(), line.greatest());
    AxisScale time = AxisScale.time(origin + from, origin + to);
    AxisScale volts = AxisScale.of(unit.equals("A") ? "Current" : "Voltage", unit, least, most);
    NumberAxis left = volts.axis(6);
    XYPlot plot = Charts.plot(time.axis(size.isNarrow() ? 4 : 9), left);
    LevelAxis names = new LevelAxis(left);
    state(plot, names, volts, states.highVolts(), "high state");
    if (states.highVolts() > states.lowVolts()) {
      state(plot, names, volts, states.lowVolts(), "low state");
    }
    for (int r = 0; r < references.length; r++) {
      Charts.level(plot, volts.in(references[r]), Palette.DOTTED);
      names.name(volts.in(references[r]), reference(r));
    }
    plot.setRangeAxis(1, names);
    plot.setRangeAxisLocation(1, AxisLocation.BOTTOM_OR_RIGHT);
    boolean dots = last - first + 1 <= size.width() / 6;
    Charts.line(
        plot,
        line.series("record", time, volts),
        dots ? Palette.RECORD_PALE : Palette.RECORD,
        dots ? Palette.LINE : Palette.BOLD);
    if (dots) {
      Charts.dots(
          plot,
          line.series("points", time, volts),
          Palette.RECORD,
          0.7 * Charts.diameter(last - first + 1, size.width()));
      Charts.keyDots(plot, "Record, stored points", Palette.RECORD, Palette.RECORD_PALE);
    } else {
      Charts.keyLine(plot, "Record", Palette.RECORD, Palette.BOLD);
    }
    Charts.keyLine(plot, "States", Palette.GUIDE, Palette.LINE);
    if (references.length > 0) {
      Charts.keyLine(plot, "Reference levels", Palette.GUIDE, Palette.DOTTED);
    }
    XYSeries crossings = crossings(from, to, time, volts, references);
    if (crossings.getItemCount() > 0) {
      Charts.dots(plot, crossings, Palette.TRUTH, 8);
      Charts.keyDots(plot, "Where the record crosses them", Palette.TRUTH, null);
    }
    return Charts.chart(plot, true);
  }

  private static void state(
      XYPlot plot, LevelAxis names, AxisScale volts, double level, String words) {
    Charts.level(plot, volts.in(level), Palette.LINE);
    names.name(volts.in(level), words);
  }

  private String reference(int index) {
    var levels = analysis.method().references();
    double value = index == 0 ? levels.low() : index == 1 ? levels.mid() : levels.high();
    return levels.inVolts()
        ? Scale.text(value, unit)
        : Double.toString(value).replaceFirst("\\.0$", "") + " %";
  }

  private XYSeries crossings(
      double from, double to, AxisScale time, AxisScale volts, double[] references) {
    XYSeries series = new XYSeries("crossings", false, true);
    for (Transition t : analysis.transitions()) {
      Measured[] instants = {t.low(), new Measured.Value(t.midSeconds()), t.high()};
      for (int r = 0; r < references.length; r++) {
        if (instants[r] instanceof Measured.Value at && at.value() >= from && at.value() <= to) {
          series.add(time.in(analysis.originSeconds() + at.value()), volts.in(references[r]));
        }
      }
    }
    return series;
  }
}
