package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.PairReading;
import org.asmeasured.measure.PairReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Readings between two channels, and edges that jitter, against NumPy and SciPy:
 * vectors/channels.psv, made by scripts/make_channel_vectors.py.
 */
class ChannelsVectorsTest {
  /** Of apparent power. The Fourier sums end where 1e-14 is left; the integral promises 1e-12. */
  private static final double POWER = 2e-12;

  /** Sums of 240 products in another order. */
  private static final double SUMS = 1e-14;

  /** An interpolated crossing in samples, and what is made of it. */
  private static final double CROSSING = 1e-11;

  /** Standard errors of a mean; passed by chance once in 150 000. */
  private static final double ODDS = 4.5;

  private static List<List<String>> rows(String kind) throws IOException {
    try (InputStream stream =
        ChannelsVectorsTest.class.getResourceAsStream("/vectors/channels.psv")) {
      String text = new String(stream.readAllBytes(), StandardCharsets.UTF_8);
      return text.lines()
          .filter(l -> l.startsWith(kind + "|"))
          .map(l -> List.of(l.split("\\|", -1)))
          .toList();
    }
  }

  static List<List<String>> powers() throws IOException {
    return rows("power");
  }

  static List<List<String>> records() throws IOException {
    return rows("record");
  }

  static List<List<String>> overlaps() throws IOException {
    return rows("overlap");
  }

  @AfterAll
  static void figures() {
    Evidence.figures();
  }

  @Test
  void allRowsAreThere() throws IOException {
    assertEquals(10, powers().size());
    assertEquals(6, records().size());
    assertEquals(30, rows("jitter").size());
    assertEquals(4, overlaps().size());
  }

  private static double number(String text) {
    return Double.parseDouble(text);
  }

  private static Waveform output(String signal, String response) {
    Response through = ResponseExpressions.response(response);
    Signal in = SignalExpressions.signal(signal);
    return through.isIdentity() ? in : through.of(in);
  }

  @ParameterizedTest
  @MethodSource("powers")
  void powerIsTheSumOverHarmonics(List<String> row) {
    Waveform v = output(row.get(1), row.get(2));
    Waveform i = output(row.get(3), row.get(4));
    double period = number(row.get(5));
    double apparent = number(row.get(7));
    for (int periods : new int[] {1, 3}) {
      double to = periods * period;
      near(
          "power.mean",
          number(row.get(6)),
          PairReadings.meanPower().of(v, i, 0, to),
          apparent,
          POWER);
      near(
          "power.apparent",
          apparent,
          PairReadings.apparentPower().of(v, i, 0, to),
          apparent,
          POWER);
      near(
          "power.factor", number(row.get(8)), PairReadings.powerFactor().of(v, i, 0, to), 1, POWER);
    }
  }

  private static void near(
      String check,
      double expected,
      org.asmeasured.measure.Measured actual,
      double scale,
      double tolerance) {
    double value = actual.orThrow();
    Worst.note("channels." + check, Math.abs(value - expected) / scale, tolerance);
    assertEquals(expected, value, tolerance * scale, check);
  }

  @ParameterizedTest
  @MethodSource("records")
  void recordsReadAsNumPyReadsThem(List<String> row) {
    double rate = number(row.get(1));
    Record v = Record.of(0, rate, numbers(row.get(2)));
    Record i = Record.of(0, rate, numbers(row.get(3)));
    double apparent = number(row.get(5));
    near(
        "record.mean power", number(row.get(4)), PairReadings.meanPower().of(v, i), apparent, SUMS);
    near("record.apparent", apparent, PairReadings.apparentPower().of(v, i), apparent, SUMS);
    near(
        "record.energy",
        number(row.get(6)),
        PairReadings.energy().of(v, i),
        apparent * v.spanSeconds(),
        SUMS);
    near("record.delay", number(row.get(7)), PairReadings.delay().of(v, i), 1 / rate, CROSSING);
    near("record.phase", number(row.get(8)), PairReadings.phaseLag().of(v, i), 1, CROSSING);
  }

  private static double[] numbers(String text) {
    return Stream.of(text.split(" ")).mapToDouble(ChannelsVectorsTest::number).toArray();
  }

  @ParameterizedTest
  @MethodSource("overlaps")
  void theOverlapOfTwoRamps(List<String> row) {
    double late = number(row.get(5));
    double fall = number(row.get(3));
    Signal v =
        Signals.constant(number(row.get(1)))
            .minus(Signals.ramp(number(row.get(1)), late, late + fall));
    Signal i = Signals.ramp(number(row.get(2)), 0, number(row.get(4)));
    double expected = number(row.get(6));
    double to = Math.max(late + fall, number(row.get(4)));
    PairReading energy = PairReadings.energy();
    near("overlap", expected, energy.of(v, i, -20e-9, to + 20e-9), expected, 1e-12);
  }

  /** The mean of many acquisitions, each point within its own standard error. */
  @Test
  void theMeanOfAJitteringEdge() throws IOException {
    int count = 2500;
    double at = 5e-9;
    for (List<String> row : rows("jitter")) {
      double sigma = number(row.get(1));
      double tau = number(row.get(2));
      double mean = number(row.get(4));
      double spread = Math.sqrt(Math.max(0, number(row.get(5)) - mean * mean));
      Setup setup =
          Setup.ideal(1e12, 1)
              .startingAt(at + number(row.get(3)))
              .bandwidth(Bandwidth.singlePole(1 / (2 * Math.PI * tau)))
              .sourceJitter(SourceJitter.of(sigma))
              .averaging(count);
      double read = setup.capture(Signals.step(1, at), 11).volts(0);
      // and the weight of one acquisition, where hardly an edge has come and the mean is not normal
      double allowed = ODDS * spread / Math.sqrt(count) + 1.0 / count;
      Worst.note("channels.jitter.mean", Math.abs(read - mean), allowed);
      assertEquals(mean, read, allowed, row.toString());
      assertTrue(spread < 0.51);
    }
  }
}
