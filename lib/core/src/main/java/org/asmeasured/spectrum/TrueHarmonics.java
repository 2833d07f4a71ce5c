package org.asmeasured.spectrum;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Outcome.NotTaken;
import org.asmeasured.measure.Outcome.Taken;
import org.asmeasured.signal.Tones;
import org.asmeasured.signal.Waveform;

/**
 * The harmonics of a waveform from its Fourier coefficients: nothing folds, and nothing is noise.
 */
final class TrueHarmonics {
  /** A rest below this share of the fundamental, in RMS, is what the closed form leaves. */
  private static final double NOTHING = 1e-12;

  private TrueHarmonics() {}

  static Outcome<Harmonics> of(
      Waveform truth, double fromSeconds, double toSeconds, HarmonicMethod method) {
    Require.present("truth", truth);
    Require.span(fromSeconds, toSeconds);
    Optional<Tones> sines = ToneLines.endless(truth);
    if (sines.isPresent()) {
      return ToneLines.of(sines.get()).then(lines -> lines.harmonics(method));
    }
    try {
      return Lines.of(truth).then(lines -> of(lines, method));
    } catch (IllegalArgumentException e) {
      return new NotTaken<>(e.getMessage());
    }
  }

  private static Outcome<Harmonics> of(Lines lines, HarmonicMethod method) {
    double given = method.fundamentalHz();
    int order = given == 0 ? lines.strongest(0, lines.meanSquare()) : lines.order(given);
    if (order == 0 || !(lines.meanSquare(order) > 1e-24 * lines.meanSquare())) {
      return new NotTaken<>("the waveform has nothing at " + Quantity.of(given, "Hz"));
    }
    double hz = order / lines.periodSeconds();
    int count = method.highestOrder();
    int[] orders = new int[count];
    double[] cosine = new double[count];
    double[] sine = new double[count];
    double[] squares = new double[count];
    for (int n = 1; n <= count; n++) {
      orders[n - 1] = n * order;
      double[] ab = lines.amplitudes(n * order);
      cosine[n - 1] = ab[0];
      sine[n - 1] = ab[1];
      squares[n - 1] = (ab[0] * ab[0] + ab[1] * ab[1]) / 2;
    }
    double least = NOTHING * NOTHING * squares[0];
    List<Tone> harmonics = new ArrayList<>();
    double distortion = 0;
    for (int n = count; n >= 2; n--) {
      double square = squares[n - 1] > least ? squares[n - 1] : 0;
      distortion += square;
      harmonics.add(0, new Tone(n, n * hz, n * hz, Math.sqrt(square), ""));
    }
    double noise = lines.rest(orders, cosine, sine);
    noise = noise > least ? noise : 0;
    Tone fundamental = new Tone(1, hz, hz, Math.sqrt(squares[0]), "");
    return new Taken<>(
        new Harmonics(
            fundamental,
            harmonics,
            distortion,
            new Value(0),
            new Value(noise),
            spur(lines, order, hz, distortion + noise, harmonics)));
  }

  private static Tone spur(
      Lines lines, int order, double hz, double available, List<Tone> harmonics) {
    int strongest = available == 0 ? 0 : lines.strongest(order, available);
    if (strongest == 0) {
      return new Tone(0, 0, 0, 0, "");
    }
    for (Tone harmonic : harmonics) {
      if (harmonic.order() * (long) order == strongest) {
        return harmonic;
      }
    }
    double spurHz = strongest / lines.periodSeconds();
    return new Tone(0, spurHz, spurHz, Math.sqrt(lines.meanSquare(strongest)), "");
  }
}
