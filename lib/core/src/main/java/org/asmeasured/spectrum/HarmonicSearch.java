package org.asmeasured.spectrum;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.internal.Quantity;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Outcome.NotTaken;
import org.asmeasured.measure.Outcome.Taken;
import org.asmeasured.spectrum.Spectrum.Line;

/** Finds a fundamental and its harmonics among the lines of a spectrum. */
final class HarmonicSearch {
  /** Below this share of the largest value there is nothing but rounding. */
  private static final double ROUNDING = 1e-15;

  /** Below this, in V^2, squares lose their digits. */
  private static final double LEAST_MEAN_SQUARE = 1e-280;

  /** With more, a double does not say to a thousandth of a bin where they end. */
  private static final double MOST_CYCLES = 0x1p43;

  /** From fewer of its lines than this share, the noise of all of them is not inferred. */
  private static final double LEAST_FREE = 0.25;

  private final Spectrum spectrum;
  private final int highestOrder;
  private final double givenHz;
  private final int points;

  /** Half the main lobe of a tone: two tones nearer than this cannot be told apart. */
  private final int lobe;

  HarmonicSearch(Spectrum spectrum, int highestOrder, double givenHz) {
    this.spectrum = spectrum;
    this.highestOrder = highestOrder;
    this.givenHz = givenHz;
    points = spectrum.segmentPoints();
    lobe = spectrum.method().window().halfLobeBins();
  }

  Outcome<Harmonics> harmonics() {
    if (spectrum.bins() <= lobe) {
      return new NotTaken<>(
          points + " points leave no line that a window \"" + window() + "\" tells from the mean");
    }
    double rounding = ROUNDING * spectrum.largestVolts();
    double least = Math.max(LEAST_MEAN_SQUARE, rounding * rounding);
    if (givenHz > 0) {
      double cycles = givenHz / spectrum.binHz();
      if (highestOrder * cycles > MOST_CYCLES) {
        return new NotTaken<>(
            Quantity.of(givenHz, "Hz")
                + " makes "
                + cycles
                + " cycles: where the harmonics fold to cannot be told");
      }
      if (!(spectrum.at(fold(cycles)).meanSquare() > least)) {
        return new NotTaken<>("nothing stands at " + Quantity.of(givenHz, "Hz"));
      }
      return reason(fold(cycles))
          .<Outcome<Harmonics>>map(NotTaken::new)
          .orElseGet(() -> around(cycles, spectrum.at(fold(cycles))));
    }
    int top = strongest(lobe, -1);
    double level = spectrum.line(top);
    if (!(level > least)) {
      return new NotTaken<>(
          "the record is constant, or slower than it can show: no line stands out");
    }
    for (int k = 1; k < lobe; k++) {
      if (spectrum.line(k) > level) {
        return new NotTaken<>(
            "the strongest line has fewer than "
                + lobe
                + " cycles in "
                + (spectrum.segments() == 1 ? "the record" : "a segment")
                + ": a window \""
                + window()
                + "\" does not tell it from the mean");
      }
    }
    Line line = spectrum.interpolated(top);
    return reason(line.place())
        .<Outcome<Harmonics>>map(NotTaken::new)
        .orElseGet(() -> around(line.place(), line));
  }

  private String window() {
    return spectrum.method().window().toString();
  }

  /** The strongest line from a bin on, but for those within the lobe of a tone. */
  private int strongest(int from, double tone) {
    int top = from;
    double most = -1;
    for (int k = from; k < spectrum.bins(); k++) {
      if (spectrum.line(k) > most && !(tone >= 0 && Math.abs(k - tone) < lobe)) {
        most = spectrum.line(k);
        top = k;
      }
    }
    return most < 0 ? -1 : top;
  }

  private Optional<String> reason(double place) {
    String over = overEnds(place);
    return over.isEmpty()
        ? Optional.empty()
        : Optional.of(
            "the fundamental stands at "
                + Quantity.of(place * spectrum.binHz(), "Hz")
                + ", where it cannot be told from "
                + over);
  }

  private String overEnds(double place) {
    if (place < lobe) {
      return "the mean (fewer than " + lobe + " bins from zero)";
    }
    if (points / 2.0 - place < lobe / 2.0) {
      return "its own image at half the rate";
    }
    return "";
  }

  /** Where so many cycles a segment stand between zero and half the rate. */
  private double fold(double cycles) {
    double rest = cycles - points * Math.floor(cycles / points);
    return Math.min(rest, points - rest);
  }

  private Outcome<Harmonics> around(double cycles, Line line) {
    double place = line.place();
    Tone fundamental = tone(1, cycles, line, "");
    List<Tone> harmonics = new ArrayList<>();
    double[] places = new double[highestOrder + 1];
    places[1] = place;
    boolean[] taken = new boolean[spectrum.bins()];
    occupy(taken, 0);
    occupy(taken, place);
    double leaked = leaked(line);
    for (int n = 2; n <= highestOrder; n++) {
      places[n] = fold(n * cycles);
    }
    double distortion = 0;
    for (int n = 2; n <= highestOrder; n++) {
      Line here = spectrum.at(places[n]);
      int other = sharer(places, n);
      // of harmonics that share a line, the power of that line counts once
      if (overEnds(places[n]).isEmpty() && (other == 0 || other > n)) {
        distortion += here.meanSquare();
        leaked += leaked(here);
      }
      occupy(taken, places[n]);
      harmonics.add(tone(n, n * cycles, here, over(places, n)));
    }
    return new Taken<>(
        new Harmonics(
            fundamental,
            harmonics,
            distortion,
            noiseDensity(taken, leaked),
            spectrum.rateHz() / 2,
            spur(place, harmonics)));
  }

  private Tone tone(int order, double cycles, Line line, String over) {
    return new Tone(
        order,
        cycles * spectrum.binHz(),
        line.place() * spectrum.binHz(),
        Math.sqrt(line.meanSquare()),
        over);
  }

  private String over(double[] places, int n) {
    String ends = overEnds(places[n]);
    if (!ends.isEmpty()) {
      return ends;
    }
    int other = sharer(places, n);
    return other == 0 ? "" : other == 1 ? "the fundamental" : "harmonic " + other;
  }

  /** The lowest order that stands where harmonic n does; 0 if there is none. */
  private int sharer(double[] places, int n) {
    for (int m = 1; m < places.length; m++) {
      if (m != n && Math.abs(places[n] - places[m]) < lobe) {
        return m;
      }
    }
    return 0;
  }

  private void occupy(boolean[] taken, double place) {
    int last = Math.min(taken.length - 1, last(place));
    for (int k = Math.max(0, first(place)); k <= last; k++) {
      taken[k] = true;
    }
  }

  private int first(double place) {
    return (int) Math.floor(place - lobe) + 1;
  }

  private int last(double place) {
    return (int) Math.ceil(place + lobe) - 1;
  }

  /**
   * What a tone leaves in lines outside its lobe: all of it together is the noise bandwidth times
   * its mean square (Parseval's theorem), less what is within.
   */
  private double leaked(Line line) {
    Window window = spectrum.method().window();
    double outside = window.noiseBandwidthBins();
    for (int k = first(line.place()); k <= last(line.place()); k++) {
      double share = window.modulus(k - line.place(), points);
      outside -= share * share;
    }
    return outside * line.meanSquare();
  }

  /** The mean density of the lines that no tone occupies, less what tones leak into them. */
  private Measured noiseDensity(boolean[] taken, double leaked) {
    double sum = 0;
    double free = 0;
    for (int k = 1; k < taken.length; k++) {
      if (!taken[k]) {
        sum += spectrum.line(k);
        free += 2 * k == points ? 0.5 : 1;
      }
    }
    if (free < LEAST_FREE * points / 2) {
      return new Measured.NotTaken(
          "the tones and their harmonics occupy all but "
              + (int) free
              + " of "
              + points / 2
              + " lines: too few are left for the noise");
    }
    return new Measured.Value(Math.max(0, sum - leaked) / free / spectrum.noiseBandwidthHz());
  }

  /** The strongest tone beside the fundamental; a harmonic, if it is one. */
  private Tone spur(double place, List<Tone> harmonics) {
    int top = strongest(lobe, place);
    if (top < 0) {
      return new Tone(0, 0, 0, 0, "");
    }
    Line line = spectrum.interpolated(top);
    Tone best =
        new Tone(
            0,
            line.place() * spectrum.binHz(),
            line.place() * spectrum.binHz(),
            Math.sqrt(line.meanSquare()),
            "");
    for (Tone harmonic : harmonics) {
      if (Math.abs(harmonic.foldedHz() - best.foldedHz()) < spectrum.binHz()) {
        return harmonic;
      }
    }
    return best;
  }
}
