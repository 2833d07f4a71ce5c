package org.asmeasured.fitting;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.internal.Require;

/**
 * A record, and what it is a record of: a signal that is known but for the unknowns of a fit, and
 * the setup that it went through.
 *
 * <p>The record decides on its own start, rate and number of points: those of the setup, and its
 * trigger, do not count. Its instants are on the time scale of the signal; where they are not known
 * so, {@link org.asmeasured.accuracy.Parameters#start} is one more unknown.
 *
 * <p>What the record is expected to be is the noiseless analog output at its instants, reduced as
 * the setup's decimation does: noise, jitter, converter and averaging are left out. A sampler of
 * the user's own is asked with the key that seed 0 gives.
 *
 * @param record of at least one point, not an envelope; read with {@link
 *     org.asmeasured.capture.Record#of} where it comes from elsewhere
 * @param measurement the signal, and the setup
 * @param noise of the record's points
 */
public record Recording(Record record, Measurement measurement, RecordNoise noise) {

  /**
   * Checks the values.
   *
   * @param record of at least one point, not an envelope
   * @param measurement the signal, and the setup
   * @param noise of the record's points
   * @throws IllegalArgumentException if the record is an envelope or has no points, or the setup
   *     makes one
   * @throws NullPointerException if one is missing
   */
  public Recording {
    Require.present("record", record);
    Require.present("measurement", measurement);
    Require.present("noise", noise);
    Require.inRange("record.size", record.size(), 1, Setup.MAX_POINTS);
    Require.that(!record.isEnvelope(), "record (" + record + "): must not be an envelope");
    Require.that(
        !measurement.setup().decimation().isEnvelope()
            && !measurement.setup().ensemble().isEnvelope(),
        "setup (" + measurement.setup() + "): must not make an envelope");
  }

  /**
   * With the noise that the setup states.
   *
   * @param record of at least one point, not an envelope
   * @param measurement the signal, and the setup
   * @return the recording
   * @throws IllegalArgumentException if the record is an envelope or has no points, or the setup
   *     makes one
   * @throws NullPointerException if one is missing
   */
  public static Recording of(Record record, Measurement measurement) {
    return new Recording(record, measurement, RecordNoise.asStated());
  }

  /**
   * What whoever records this again must be warned of: of the signal that it is taken for and the
   * setup, and of the level that was recorded.
   *
   * @return unmodifiable; empty where there is nothing to warn of
   */
  public List<Caution> cautions() {
    Measurement placed = placed();
    List<Caution> cautions = new ArrayList<>(Caution.asFarAsKnown(placed.signal(), placed.setup()));
    boolean said =
        cautions.stream().anyMatch(c -> c.subject() == Caution.Subject.HAZARDOUS_VOLTAGE);
    if (!said) {
      cautions.addAll(0, Caution.of(record));
    }
    return List.copyOf(cautions);
  }

  /** The measurement with start, rate and number of points of the record. */
  Measurement placed() {
    Setup setup = measurement.setup();
    int factor = setup.decimation().factor();
    double rawRate = record.rateHz() * factor;
    double start = record.timeSeconds(0) - setup.decimation().centre() / rawRate;
    return measurement.withSetup(setup.startingAt(start).rateHz(rawRate).points(record.size()));
  }

  /** Without all that a noiseless prediction has not. */
  static Setup noiseless(Setup setup) {
    Setup still =
        setup
            .untriggered()
            .noise(Noise.none())
            .sourceNoise(SourceNoise.none())
            .sourceJitter(SourceJitter.none())
            .converterNoise(ConverterNoise.none())
            .converter(Converter.none())
            .ensemble(Ensemble.single());
    return setup.sampler() instanceof InterleavedSampler sampler
        ? still.sampler(sampler.withJitter(0))
        : still;
  }

  /** Why it cannot be fitted, if so. */
  Optional<String> reasonAgainst() {
    long clipped = record.clippedLow() + record.clippedHigh();
    if (clipped > 0) {
      return Optional.of(clipped + " raw samples were clipped");
    }
    Setup setup = measurement.setup();
    int bits = setup.converter().bits();
    if (bits == 0) {
      return Optional.empty();
    }
    double half = setup.vertical().fullScaleVolts() / 2;
    double step = Math.scalb(2 * half, -bits);
    double low = setup.vertical().offsetVolts() - half + step / 4;
    double high = setup.vertical().offsetVolts() + half - 1.25 * step;
    int outside = 0;
    for (double volts : record.volts()) {
      outside += volts <= low || volts >= high ? 1 : 0;
    }
    return outside == 0
        ? Optional.empty()
        : Optional.of(
            outside
                + (outside == 1 ? " point lies" : " points lie")
                + " at an end of the converter's range, and may be clipped");
  }
}
