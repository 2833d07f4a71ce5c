package org.asmeasured.pulse;

import java.util.Arrays;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.MonotonePieces;
import org.asmeasured.signal.Waveform;

/** A waveform from turning point to turning point; a jump is two nodes at one instant. */
final class WaveformTrace extends Trace {
  /** A piece is at most an eighth of a cycle: 16 points integrate it to the last digit. */
  private static final GaussIntegrator UNIT = new GaussIntegratorFactory().legendre(16, 0, 1);

  private final Waveform waveform;
  private final double fromSeconds;
  private final double toSeconds;
  private final MonotonePieces pieces;
  private final double[] seconds;
  private final double[] volts;

  WaveformTrace(Waveform waveform, double fromSeconds, double toSeconds) {
    this(waveform, fromSeconds, toSeconds, MonotonePieces.of(waveform, fromSeconds, toSeconds));
  }

  private WaveformTrace(Waveform waveform, double from, double to, MonotonePieces pieces) {
    volts = values(pieces);
    this.waveform = waveform;
    fromSeconds = from;
    toSeconds = to;
    this.pieces = pieces;
    seconds = new double[volts.length];
    for (int i = 0; i < pieces.size(); i++) {
      seconds[i] = pieces.startSeconds(i);
    }
    seconds[pieces.size()] = pieces.endSeconds(pieces.size() - 1);
  }

  private static double[] values(MonotonePieces pieces) {
    double[] volts = new double[pieces.size() + 1];
    for (int i = 0; i < pieces.size(); i++) {
      volts[i] = pieces.startVolts(i);
    }
    volts[pieces.size()] = pieces.endVolts(pieces.size() - 1);
    return volts;
  }

  @Override
  int size() {
    return volts.length;
  }

  @Override
  double volts(int node) {
    return volts[node];
  }

  @Override
  double seconds(int node) {
    return seconds[node];
  }

  @Override
  double crossing(int node, double level) {
    return pieces.crossing(node, level);
  }

  @Override
  double valueAt(double at) {
    int last = size() - 1;
    return at >= seconds[last] ? volts[last] : waveform.valueAt(fromSeconds, at);
  }

  @Override
  int nodeAt(double at) {
    int found = Arrays.binarySearch(seconds, at);
    if (found < 0) {
      return Math.max(0, -found - 2);
    }
    while (found + 1 < seconds.length && seconds[found + 1] == at) {
      found++;
    }
    return found;
  }

  @Override
  double slope(double from, double to) {
    double length = to - from;
    if (!(length > 0)) {
      return Double.NaN;
    }
    double centre = from + length / 2;
    double level = valueAt(from);
    double product = 0;
    int last = Math.min(nodeAt(to), pieces.size() - 1);
    for (int i = nodeAt(from); i <= last; i++) {
      double a = Math.max(from, seconds[i]);
      double d = Math.min(to, seconds[i + 1]) - a;
      if (d > 0) {
        product +=
            d
                * UNIT.integrate(
                    x -> (a + x * d - centre) * (waveform.valueAt(fromSeconds, a + x * d) - level));
      }
    }
    return product * 12 / (length * length * length);
  }

  @Override
  double mean(double from, double to) {
    return over(Readings.mean(), from, to);
  }

  @Override
  double rms(double from, double to) {
    return over(Readings.rms(), from, to);
  }

  @Override
  double acRms(double from, double to) {
    return over(Readings.acRms(), from, to);
  }

  private double over(Reading reading, double from, double to) {
    double end = Math.min(toSeconds, fromSeconds + to);
    return reading.of(waveform, fromSeconds + from, end).orThrow();
  }

  @Override
  boolean isSampled() {
    return false;
  }
}
