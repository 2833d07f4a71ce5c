package org.asmeasured.capture;

import java.util.Optional;
import java.util.OptionalDouble;
import org.asmeasured.signal.Tones;
import org.asmeasured.signal.Waveform;

/** A waveform seen with an error of gain and offset: gain x waveform + shift, the gain positive. */
final class AffineWaveform implements Waveform {
  private final Waveform waveform;
  private final double gain;
  private final double shiftVolts;

  AffineWaveform(Waveform waveform, double gain, double shiftVolts) {
    this.waveform = waveform;
    this.gain = gain;
    this.shiftVolts = shiftVolts;
  }

  @Override
  public double valueAt(double timeSeconds) {
    return waveform.valueAt(timeSeconds) * gain + shiftVolts;
  }

  @Override
  public double valueAt(double hi, double lo) {
    return waveform.valueAt(hi, lo) * gain + shiftVolts;
  }

  @Override
  public double valueBefore(double timeSeconds) {
    return waveform.valueBefore(timeSeconds) * gain + shiftVolts;
  }

  @Override
  public double[] knots(double fromSeconds, double toSeconds) {
    return waveform.knots(fromSeconds, toSeconds);
  }

  @Override
  public OptionalDouble periodSeconds() {
    return waveform.periodSeconds();
  }

  @Override
  public Optional<Tones> asTones() {
    return waveform
        .asTones()
        .map(
            t -> {
              double[] hertz = new double[t.count()];
              double[] cosine = new double[t.count()];
              double[] sine = new double[t.count()];
              for (int i = 0; i < t.count(); i++) {
                hertz[i] = t.frequencyHz(i);
                cosine[i] = t.cosine(i) * gain;
                sine[i] = t.sine(i) * gain;
              }
              return new Tones(t.level() * gain + shiftVolts, hertz, cosine, sine);
            });
  }

  @Override
  public double mean(double fromSeconds, double toSeconds) {
    return waveform.mean(fromSeconds, toSeconds) * gain + shiftVolts;
  }

  /**
   * By way of the variance: the expanded square would cancel where the shift takes most of the mean
   * away.
   */
  @Override
  public double rms(double fromSeconds, double toSeconds) {
    double mean = waveform.mean(fromSeconds, toSeconds);
    double rms = waveform.rms(fromSeconds, toSeconds);
    double variance = Math.max(0, (rms - Math.abs(mean)) * (rms + Math.abs(mean)));
    return Math.hypot(mean * gain + shiftVolts, Math.sqrt(variance) * gain);
  }

  @Override
  public double minimum(double fromSeconds, double toSeconds) {
    return waveform.minimum(fromSeconds, toSeconds) * gain + shiftVolts;
  }

  @Override
  public double maximum(double fromSeconds, double toSeconds) {
    return waveform.maximum(fromSeconds, toSeconds) * gain + shiftVolts;
  }
}
