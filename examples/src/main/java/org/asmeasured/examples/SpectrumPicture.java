package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.spectrum.HarmonicMethod;
import org.asmeasured.spectrum.Harmonics;
import org.asmeasured.spectrum.Spectrum;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.Tone;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYSeries;

/** The spectrum of the record, with the harmonics where they fold to. */
final class SpectrumPicture {
  private static final Picture.Size WIDE = new Picture.Size(960, 420);
  private static final Picture.Size NARROW = new Picture.Size(372, 372);

  /** What is further below is rounding, and shown as the foot of the picture. */
  private static final double DEEPEST_DB = -200;

  private final Spectrum spectrum;
  private final Optional<Harmonics> harmonics;
  private final double[] decibels;
  private final double referenceSquare;

  private SpectrumPicture(Spectrum spectrum, Optional<Harmonics> harmonics) {
    this.spectrum = spectrum;
    this.harmonics = harmonics;
    double[] squares = new double[spectrum.bins()];
    double strongest = 0;
    for (int b = 0; b < squares.length; b++) {
      squares[b] = spectrum.at(b, org.asmeasured.spectrum.Scale.MEAN_SQUARE);
      strongest = Math.max(strongest, squares[b]);
    }
    double fundamental = harmonics.map(h -> h.fundamental().rmsVolts()).orElse(0.0);
    referenceSquare = fundamental > 0 ? fundamental * fundamental : strongest;
    decibels = new double[squares.length];
    for (int b = 0; b < squares.length; b++) {
      decibels[b] = decibels(squares[b]);
    }
  }

  /** None where there is no spectrum, and where it holds nothing. */
  static List<Picture> of(
      Record record, SpectrumMethod method, Optional<HarmonicMethod> harmonics, String number) {
    if (!(method.of(record) instanceof Outcome.Taken<Spectrum> taken)) {
      return List.of();
    }
    Spectrum spectrum = taken.result();
    Optional<Harmonics> found =
        harmonics.flatMap(
            h ->
                h.of(spectrum) instanceof Outcome.Taken<Harmonics> some
                    ? Optional.of(some.result())
                    : Optional.empty());
    SpectrumPicture picture = new SpectrumPicture(spectrum, found);
    if (!(picture.referenceSquare > 0)) {
      return List.of();
    }
    return List.of(
        new Picture(
            "spectrum" + number,
            "The spectrum of the record",
            picture.caption(),
            WIDE,
            NARROW,
            picture::chart));
  }

  private double decibels(double square) {
    return square > 0
        ? Math.max(DEEPEST_DB, 10 * Math.log10(square / referenceSquare))
        : DEEPEST_DB;
  }

  private String caption() {
    String text =
        "Power in each bin of "
            + Scale.text(spectrum.binHz(), "Hz")
            + ", by a "
            + spectrum.method()
            + (spectrum.segments() > 1 ? ", mean of " + spectrum.segments() + " segments" : "")
            + ".";
    if (harmonics.isEmpty()) {
      return text + " 0 dB is the strongest line.";
    }
    Tone fundamental = harmonics.get().fundamental();
    text +=
        " 0 dB is the fundamental, "
            + Scale.text(fundamental.peakVolts(), "V")
            + " at "
            + Scale.text(fundamental.frequencyHz(), "Hz")
            + ". A number is that of a harmonic, at the place where it folds to.";
    List<String> shared = new ArrayList<>();
    for (Tone tone : harmonics.get().harmonics()) {
      if (!tone.standsAlone()) {
        shared.add("harmonic " + tone.order() + " cannot be told from " + tone.over());
      }
    }
    return shared.isEmpty()
        ? text
        : text + " " + capitalised(String.join("; ", shared)) + ": drawn as open circles.";
  }

  private static String capitalised(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  private JFreeChart chart(Picture.Size size) {
    Polyline line =
        Polyline.ofPoints(
            0, decibels.length - 1, size.width(), spectrum::frequencyHz, b -> decibels[b]);
    double most = Math.max(0, line.greatest());
    double least = Math.max(DEEPEST_DB, line.least());
    Scale hertz = Scale.of(spectrum.rateHz() / 2, "Hz");
    double top = hertz.in(spectrum.rateHz() / 2);
    AxisScale frequency =
        new AxisScale(0, hertz, "Frequency (" + hertz.symbol() + ")", -0.01 * top, 1.01 * top);
    double span = Math.max(20, most - least);
    AxisScale level =
        new AxisScale(
            0,
            new Scale(0, "dB"),
            harmonics.isPresent()
                ? "Relative to the fundamental (dB)"
                : "Relative to the strongest line (dB)",
            most - 1.04 * span,
            most + 0.12 * span);
    XYPlot plot = Charts.plot(frequency.axis(size.isNarrow() ? 5 : 10), level.axis(10));
    Charts.line(plot, line.series("spectrum", frequency, level), Palette.RECORD, Palette.THIN);
    Charts.keyLine(plot, "Record", Palette.RECORD, Palette.LINE);
    harmonics.ifPresent(found -> mark(plot, found, frequency, level, size));
    return Charts.chart(plot, true);
  }

  private void mark(
      XYPlot plot, Harmonics found, AxisScale frequency, AxisScale level, Picture.Size size) {
    if (found.noiseFloor() instanceof Measured.Value floor && floor.value() > 0) {
      double square = floor.value() * floor.value() * spectrum.noiseBandwidthHz();
      Charts.levelInFront(plot, level.in(decibels(square)), Palette.TEXT, Palette.DASHED);
      Charts.keyLine(plot, "Noise floor, in a bin", Palette.TEXT, Palette.DASHED);
    }
    XYSeries alone = new XYSeries("alone", false, true);
    XYSeries shared = new XYSeries("shared", false, true);
    List<Tone> tones = new ArrayList<>(List.of(found.fundamental()));
    tones.addAll(found.harmonics());
    for (Tone tone : tones) {
      double x = frequency.in(tone.foldedHz());
      double y = level.in(decibels(tone.rmsVolts() * tone.rmsVolts()));
      if (y < level.low()) {
        continue;
      }
      (tone.standsAlone() ? alone : shared).add(x, y);
      // some pixels above the dot, in the axis' own numbers
      double above = y + 14 * (level.high() - level.low()) / (0.75 * size.height());
      Charts.note(plot, x, above, Integer.toString(tone.order()));
    }
    Charts.dots(plot, alone, Palette.TRUTH, 7);
    if (shared.getItemCount() > 0) {
      Charts.circles(plot, shared, Palette.TRUTH, 7);
    }
    Charts.keyDots(plot, "Fundamental and harmonics", Palette.TRUTH, null);
    Tone spur = found.spur();
    if (spur.order() == 0 && spur.rmsVolts() > 0) {
      XYSeries one = new XYSeries("spur", false, true);
      one.add(frequency.in(spur.foldedHz()), level.in(decibels(spur.rmsVolts() * spur.rmsVolts())));
      Charts.diamonds(plot, one, Palette.TEXT);
      Charts.keyDiamond(plot, "Strongest spur", Palette.TEXT);
    }
  }
}
