package org.asmeasured.spectrum;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.asmeasured.internal.Quantity;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Outcome.NotTaken;
import org.asmeasured.measure.Outcome.Taken;
import org.asmeasured.signal.Tones;
import org.asmeasured.signal.Waveform;

/**
 * The lines of sines that have been there for ever: they themselves, whether they repeat together
 * or not. What {@link Lines} finds of a waveform that repeats.
 */
final class ToneLines {
  /** Frequencies this near to one another are one. */
  private static final double EQUAL = 1e-9;

  /** Lines below this share of the strongest, in RMS, are rounding. */
  private static final double NOTHING = 1e-12;

  private record Line(double hz, double cosine, double sine) {
    double meanSquare() {
      return (cosine * cosine + sine * sine) / 2;
    }
  }

  /** By frequency. */
  private final List<Line> lines = new ArrayList<>();

  private ToneLines(Tones tones) {
    List<Line> all = new ArrayList<>();
    for (int i = 0; i < tones.count(); i++) {
      all.add(new Line(tones.frequencyHz(i), tones.cosine(i), tones.sine(i)));
    }
    all.sort(Comparator.comparingDouble(Line::hz));
    for (Line line : all) {
      int last = lines.size() - 1;
      if (last >= 0 && isAt(lines.get(last), line.hz())) {
        Line same = lines.get(last);
        lines.set(
            last, new Line(same.hz(), same.cosine() + line.cosine(), same.sine() + line.sine()));
      } else {
        lines.add(line);
      }
    }
  }

  /** The sines of a waveform that is nothing else and does not repeat, so far as can be told. */
  static Optional<Tones> endless(Waveform waveform) {
    return waveform.periodSeconds().isPresent()
        ? Optional.empty()
        : waveform.asTones().filter(tones -> tones.count() > 0);
  }

  /** The lines, or why there are none. */
  static Outcome<ToneLines> of(Tones tones) {
    ToneLines lines = new ToneLines(tones);
    Line strongest = lines.strongestBut(null);
    return strongest == null || !(strongest.meanSquare() > 1e-280)
        ? new NotTaken<>("the waveform is constant")
        : new Taken<>(lines);
  }

  private static boolean isAt(Line line, double hz) {
    return Math.abs(line.hz() - hz) <= EQUAL * hz;
  }

  private Line at(double hz) {
    for (Line line : lines) {
      if (isAt(line, hz)) {
        return line;
      }
    }
    return null;
  }

  /** Of equally strong ones the lowest. */
  private Line strongestBut(Line one) {
    Line best = null;
    for (Line line : lines) {
      if (line != one && (best == null || line.meanSquare() > best.meanSquare() * (1 + EQUAL))) {
        best = line;
      }
    }
    return best;
  }

  /** The mean square at a frequency. */
  double meanSquare(double hz) {
    Line line = at(hz);
    return line == null ? 0 : line.meanSquare();
  }

  /** What there is by a method, as of a waveform that repeats. */
  Outcome<Harmonics> harmonics(HarmonicMethod method) {
    double given = method.fundamentalHz();
    Line strongest = strongestBut(null);
    Line fundamental = given == 0 ? strongest : at(given);
    if (fundamental == null
        || !(fundamental.meanSquare() > NOTHING * NOTHING * strongest.meanSquare())) {
      return new NotTaken<>("the waveform has nothing at " + Quantity.of(given, "Hz"));
    }
    double least = NOTHING * NOTHING * fundamental.meanSquare();
    List<Line> left = new ArrayList<>(lines);
    left.remove(fundamental);
    Line spur = strongestBut(fundamental);
    Tone strongestOther = new Tone(0, 0, 0, 0, "");
    if (spur != null && spur.meanSquare() > least) {
      strongestOther = new Tone(0, spur.hz(), spur.hz(), Math.sqrt(spur.meanSquare()), "");
    }
    List<Tone> harmonics = new ArrayList<>();
    double distortion = 0;
    for (int n = 2; n <= method.highestOrder(); n++) {
      double hz = n * fundamental.hz();
      Line line = at(hz);
      double square = line == null || line.meanSquare() <= least ? 0 : line.meanSquare();
      Tone tone = new Tone(n, hz, hz, Math.sqrt(square), "");
      harmonics.add(tone);
      distortion += square;
      left.remove(line);
      if (line != null && line == spur && square > 0) {
        strongestOther = tone;
      }
    }
    double noise = left.stream().mapToDouble(Line::meanSquare).sum();
    Tone first =
        new Tone(1, fundamental.hz(), fundamental.hz(), Math.sqrt(fundamental.meanSquare()), "");
    return new Taken<>(
        new Harmonics(
            first,
            harmonics,
            distortion,
            new Value(0),
            new Value(noise > least ? noise : 0),
            strongestOther));
  }
}
