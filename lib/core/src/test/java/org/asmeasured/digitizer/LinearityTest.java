package org.asmeasured.digitizer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.asmeasured.digitizer.Linearity.Line;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LinearityTest {

  /** A converter that hides its table. */
  private record Hidden(Converter inner) implements Converter {
    @Override
    public int bits() {
      return inner.bits();
    }

    @Override
    public void convert(double[] levels, int offset, int count) {
      inner.convert(levels, offset, count);
    }
  }

  private record Falls(int bits) implements Converter {
    @Override
    public void convert(double[] levels, int offset, int count) {
      for (int i = offset; i < offset + count; i++) {
        double code = Math.min(highestCode(), Math.max(lowestCode(), Math.rint(levels[i])));
        levels[i] = code == 0 ? 1 : code == 1 ? 0 : code;
      }
    }
  }

  /** INL put in as a table comes out again, whatever gain and offset are laid over it. */
  @Test
  void whatWasPutInIsReadBack() {
    Cases.check(
        20250320,
        40,
        random -> {
          int bits = random.nextInt(2, 13);
          int n = (1 << bits) - 1;
          double[] inl = new double[n];
          double[] levels = new double[n];
          double low = -Math.scalb(1.0, bits - 1);
          for (int i = 0; i < n; i++) {
            // widths stay above zero: |INL| < 1/2
            inl[i] = i == 0 || i == n - 1 ? 0 : 0.49 * (2 * random.nextDouble() - 1);
            levels[i] = low + i + 0.5 + inl[i];
          }
          double gain = 0.2 * (random.nextDouble() - 0.5);
          double offset = 10 * (random.nextDouble() - 0.5) / 10;
          TransitionConverter converter =
              TransitionConverter.of(bits, levels).withGainError(gain).withOffsetError(offset);
          Linearity linearity = Linearity.of(converter);
          assertArrayEquals(inl, linearity.inl(Line.END_POINTS), 1e-12 * (n + 1));
          double[] dnl = linearity.dnl(Line.END_POINTS);
          assertEquals(n - 1, dnl.length);
          for (int i = 0; i < dnl.length; i++) {
            assertEquals(inl[i + 1] - inl[i], dnl[i], 1e-12 * (n + 1));
          }
          assertEquals(gain, linearity.gainError(Line.END_POINTS), 1e-13);
          assertEquals(offset, linearity.offsetErrorSteps(Line.END_POINTS), 1e-12 * (n + 1));
        });
  }

  /**
   * Gain and offset of IEEE Std 1241 (from memory) are a regression of the places on the levels.
   */
  @Test
  void leastSquaresAgreesWithALibrary() {
    TransitionConverter converter =
        TransitionConverter.of(10)
            .withBow(3, 1)
            .withRandomWalk(0.3, 8)
            .withGainError(0.03)
            .withOffsetError(-7);
    SimpleRegression regression = new SimpleRegression();
    double[] t = converter.transitionLevels();
    for (int i = 0; i < t.length; i++) {
      regression.addData(t[i], i + 0.5 - 512);
    }
    Linearity linearity = Linearity.of(converter);
    assertEquals(regression.getSlope() - 1, linearity.gainError(Line.LEAST_SQUARES), 1e-13);
    assertEquals(regression.getIntercept(), linearity.offsetErrorSteps(Line.LEAST_SQUARES), 1e-11);
    double[] inl = linearity.inl(Line.LEAST_SQUARES);
    double sum = 0;
    double moment = 0;
    double square = 0;
    for (int i = 0; i < inl.length; i++) {
      // a positive INL is a transition that lies too high
      assertEquals(regression.predict(t[i]) - (i + 0.5 - 512), inl[i], 1e-10);
      sum += inl[i];
      moment += inl[i] * t[i];
      square += inl[i] * inl[i];
    }
    assertEquals(0, sum, 1e-9);
    assertEquals(0, moment, 1e-6);
    // the library takes the difference of two sums near 1e8
    assertEquals(regression.getSumSquaredErrors(), square, 1e-6);
  }

  /** A parabola b0 (1 - u^2): its mean 2/3 b0 is offset by least squares, its gain zero. */
  @Test
  void leastSquaresOfABowIsItsMean() {
    Linearity linearity = Linearity.of(TransitionConverter.of(16).withBow(1.5));
    double[] inl = linearity.inl(Line.LEAST_SQUARES);
    // the sum over a lattice misses the integral by one part in 2^16
    assertEquals(0.5, inl[32767], 1e-3);
    assertEquals(-1, inl[0], 1e-3);
    assertEquals(-1, linearity.offsetErrorSteps(Line.LEAST_SQUARES), 1e-3);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 8, 13})
  void findsTheTransitionsOfAnyConverter(int bits) {
    double[] ideal = Linearity.of(new IdealConverter(bits)).inl(Line.END_POINTS);
    for (double inl : ideal) {
      assertEquals(0, inl, 1e-12);
    }
    TransitionConverter bent =
        bits == 1
            ? TransitionConverter.of(1).withOffsetError(0.2)
            : TransitionConverter.of(bits)
                .withRandomWalk(0.3, 2)
                .withBow(0.2)
                .withGainError(0.01)
                .withMissingCodes(0);
    Linearity known = Linearity.of(bent);
    Linearity found = Linearity.of(new Hidden(bent));
    for (Line line : Line.values()) {
      assertArrayEquals(known.inl(line), found.inl(line), 1e-11);
      assertArrayEquals(known.dnl(line), found.dnl(line), 1e-11);
      assertEquals(known.gainError(line), found.gainError(line), 1e-12);
      assertEquals(known.offsetErrorSteps(line), found.offsetErrorSteps(line), 1e-11);
    }
    assertArrayEquals(known.missingCodes(), found.missingCodes());
  }

  @Test
  void oneBitHasAnOffsetOnly() {
    Linearity linearity = Linearity.of(TransitionConverter.of(1).withOffsetError(0.25));
    for (Line line : Line.values()) {
      assertEquals(0, linearity.gainError(line));
      assertEquals(0.25, linearity.offsetErrorSteps(line));
      assertArrayEquals(new double[] {0}, linearity.inl(line));
      assertEquals(0, linearity.dnl(line).length);
    }
    assertEquals(0, linearity.missingCodes().length);
    assertFalse(linearity.toString().contains("@"));
  }

  @Test
  void refusesWhatHasNoLinearity() {
    Refused.missing("converter", () -> Linearity.of(null));
    Refused.message("converter.bits", "0", () -> Linearity.of(Converter.none()));
    Refused.message("code falls", "Falls", () -> Linearity.of(new Falls(4)));
    Linearity linearity = Linearity.of(new IdealConverter(4));
    Refused.missing("line", () -> linearity.inl(null));
    Refused.missing("line", () -> linearity.dnl(null));
    Refused.missing("line", () -> linearity.gainError(null));
    Refused.missing("line", () -> linearity.offsetErrorSteps(null));
  }
}
