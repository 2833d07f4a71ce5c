package org.asmeasured.spectrum;

import java.util.List;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;

/**
 * A fundamental, its harmonics, and what is left: of a record, by a {@link HarmonicMethod}, or of a
 * waveform in closed form. Immutable. The definitions stand at the head of this package.
 */
public final class Harmonics {
  private final Tone fundamental;
  private final List<Tone> harmonics;

  /** The mean square of the harmonics that can be told from the fundamental and the mean. */
  private final double distortion;

  private final Measured noiseDensity;
  private final Measured noiseMeanSquare;
  private final Tone spur;

  /** With noise by its density up to a frequency. */
  Harmonics(
      Tone fundamental,
      List<Tone> harmonics,
      double distortion,
      Measured noiseDensity,
      double bandHz,
      Tone spur) {
    this(
        fundamental,
        harmonics,
        distortion,
        noiseDensity,
        noiseDensity instanceof Value v ? new Value(v.value() * bandHz) : noiseDensity,
        spur);
  }

  Harmonics(
      Tone fundamental,
      List<Tone> harmonics,
      double distortion,
      Measured noiseDensity,
      Measured noiseMeanSquare,
      Tone spur) {
    this.fundamental = fundamental;
    this.harmonics = List.copyOf(harmonics);
    this.distortion = distortion;
    this.noiseDensity = noiseDensity;
    this.noiseMeanSquare = noiseMeanSquare;
    this.spur = spur;
  }

  /**
   * The fundamental.
   *
   * @return the tone of order 1
   */
  public Tone fundamental() {
    return fundamental;
  }

  /**
   * The harmonics from order 2 on, each at its alias. One that cannot be told from something else
   * says from what: {@link Tone#over}.
   *
   * @return unmodifiable, in the order of their orders
   */
  public List<Tone> harmonics() {
    return harmonics;
  }

  /**
   * The strongest tone beside the fundamental and the mean: a harmonic or another.
   *
   * @return the tone; of 0 V if there is none
   */
  public Tone spur() {
    return spur;
  }

  /**
   * Total harmonic distortion: the root of the sum of the mean squares of the harmonics, as a share
   * of the RMS value of the fundamental.
   *
   * @return a plain number, 0 for none; not taken if a harmonic cannot be told from something else
   */
  public Measured thd() {
    for (Tone harmonic : harmonics) {
      if (!harmonic.standsAlone()) {
        return new NotTaken(
            "harmonic "
                + harmonic.order()
                + " folds to "
                + Quantity.of(harmonic.foldedHz(), "Hz")
                + " and cannot be told from "
                + harmonic.over());
      }
    }
    return new Value(Math.sqrt(distortion) / fundamental.rmsVolts());
  }

  /**
   * Noise alone: the root of the density beside all tones times half the rate.
   *
   * @return volts RMS; not taken if too few lines are free of tones
   */
  public Measured noiseVolts() {
    return root(noiseMeanSquare);
  }

  /**
   * Noise and distortion: everything but the fundamental and the mean.
   *
   * @return volts RMS; not taken if too few lines are free of tones
   */
  public Measured noiseAndDistortionVolts() {
    return root(noiseAndDistortion());
  }

  private Measured noiseAndDistortion() {
    return noiseMeanSquare instanceof Value noise
        ? new Value(noise.value() + distortion)
        : noiseMeanSquare;
  }

  /**
   * The noise floor: the root of the mean density of the lines that belong to no tone.
   *
   * @return V/sqrt(Hz); not taken if too few lines are free of tones
   */
  public Measured noiseFloor() {
    return root(noiseDensity);
  }

  private static Measured root(Measured meanSquare) {
    return meanSquare instanceof Value v ? new Value(Math.sqrt(v.value())) : meanSquare;
  }

  /**
   * Signal to noise and distortion.
   *
   * @return dB, 20 lg of the ratio of RMS values; not taken if there is nothing beside the
   *     fundamental
   */
  public Measured sinadDb() {
    return above(noiseAndDistortion());
  }

  /**
   * Signal to noise, without the harmonics.
   *
   * @return dB; not taken if there is no noise
   */
  public Measured snrDb() {
    return above(noiseMeanSquare);
  }

  /**
   * Spurious-free dynamic range: fundamental to the strongest other tone.
   *
   * @return dB; not taken if there is none
   */
  public Measured sfdrDb() {
    return above(new Value(spur.meanSquare()));
  }

  private Measured above(Measured meanSquare) {
    if (!(meanSquare instanceof Value v)) {
      return meanSquare;
    }
    double ratio = fundamental.meanSquare() / v.value();
    if (v.value() == 0 || ratio == Double.POSITIVE_INFINITY) {
      return new NotTaken("there is nothing beside the fundamental: the ratio has no bound");
    }
    return new Value(10 * Math.log10(ratio));
  }

  /**
   * Effective bits as SINAD says them: those of the ideal converter that the same sine, filling its
   * range, leaves as far above its quantisation.
   *
   * @return bits, (SINAD - 10 lg 1.5 dB)/(20 lg 2 dB); not taken if there is nothing beside the
   *     fundamental
   */
  public Measured effectiveBits() {
    return sinadDb() instanceof Value v
        ? new Value((v.value() - 10 * Math.log10(1.5)) / (20 * Math.log10(2)))
        : sinadDb();
  }

  /**
   * Effective bits of a converter with a given range, however much of it the sine fills.
   *
   * @param fullScaleVolts the range, above 0 V, at most 1e9 V
   * @return bits, lb(full scale/(root of 12 x noise and distortion)); not taken if there is nothing
   *     beside the fundamental
   * @throws IllegalArgumentException if the range is out of range
   */
  public Measured effectiveBits(double fullScaleVolts) {
    Require.positiveVolts("fullScaleVolts", fullScaleVolts);
    Measured nad = noiseAndDistortion();
    if (!(nad instanceof Value v) || v.value() == 0) {
      return nad instanceof Value ? above(nad) : nad;
    }
    return new Value(Math.log(fullScaleVolts / Math.sqrt(12 * v.value())) / Math.log(2));
  }

  @Override
  public String toString() {
    return fundamental + "; THD " + thd().in("") + "; SINAD " + sinadDb().in("dB");
  }
}
