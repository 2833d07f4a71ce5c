package org.asmeasured.capture;

import java.util.Optional;
import java.util.function.Consumer;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.SaturatedOutput;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;
import org.asmeasured.linear.StreamFilter;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * Everything that stands between a signal and its stored points. Immutable; each method that is
 * given a value returns another setup.
 *
 * @param frontEnd the analog stages
 * @param vertical the span of the converter, and the errors of gain and offset
 * @param startSeconds the instant of raw sample 0 and the start of the record, -1e12 to 1e12 s
 * @param rateHz raw samples per second, 1e-9 to 1e15 Hz
 * @param points stored points, 1 to 2<sup>28</sup>
 * @param converter which code a sample gets
 * @param decimation how raw samples are reduced to stored points
 * @param ensemble what is done over acquisitions
 * @param sampler when raw samples are taken, and by which core
 * @param converterNoise noise of each raw sample ahead of the converter
 * @param trigger when an acquisition takes place; empty if at the start of the clock
 */
public record Setup(
    FrontEnd frontEnd,
    VerticalScale vertical,
    double startSeconds,
    double rateHz,
    int points,
    Converter converter,
    Decimation decimation,
    Ensemble ensemble,
    Sampler sampler,
    ConverterNoise converterNoise,
    Optional<Trigger> trigger) {
  /** The greatest number of stored points. */
  public static final int MAX_POINTS = 1 << 28;

  /**
   * Checks the values, those that a stage of the user's own reports too.
   *
   * @param frontEnd the analog stages
   * @param vertical the span of the converter, and the errors of gain and offset
   * @param startSeconds the instant of raw sample 0 and the start of the record, -1e12 to 1e12 s
   * @param rateHz raw samples per second, 1e-9 to 1e15 Hz
   * @param points stored points, 1 to 2<sup>28</sup>
   * @param converter which code a sample gets
   * @param decimation how raw samples are reduced to stored points
   * @param ensemble what is done over acquisitions
   * @param sampler when raw samples are taken, and by which core
   * @param converterNoise noise of each raw sample ahead of the converter
   * @param trigger when an acquisition takes place; empty if at the start of the clock
   * @throws IllegalArgumentException if one is out of range
   * @throws NullPointerException if one is missing
   */
  public Setup {
    Require.present("frontEnd", frontEnd);
    Require.present("vertical", vertical);
    Require.instant("startSeconds", startSeconds);
    Require.hertz("rateHz", rateHz);
    Require.inRange("points", points, 1, MAX_POINTS);
    Require.present("converter", converter);
    Require.inRange("converter.bits", converter.bits(), 0, Converter.MAX_BITS);
    Require.present("decimation", decimation);
    Require.inRange("decimation.factor", decimation.factor(), 1, Decimation.MAX_FACTOR);
    Require.inRange("decimation.lead", decimation.lead(), 0, Decimation.MAX_FACTOR);
    if (converter.bits() > 0) {
      Require.inRange(
          "decimation.storedBits", decimation.storedBits(converter.bits()), 1, Converter.MAX_BITS);
    }
    Require.present("ensemble", ensemble);
    Require.present("sampler", sampler);
    Require.present("converterNoise", converterNoise);
    Require.present("trigger", trigger);
    Require.that(
        frontEnd.saturation().isIdeal() || sampler.hasEqualResponses(),
        () ->
            "saturation = "
                + frontEnd.saturation()
                + ", sampler = "
                + sampler
                + ": cores with responses of their own behind an amplifier that saturates are not modelled");
  }

  /**
   * Every stage ideal: the record is the signal at the instants of the clock, from t = 0. The
   * vertical scale, which has no effect before there is a converter, is 1 V per division.
   *
   * @param rateHz samples per second, 1e-9 to 1e15 Hz
   * @param points stored points, 1 to 2<sup>28</sup>
   * @return the setup
   * @throws IllegalArgumentException if either is out of range
   */
  public static Setup ideal(double rateHz, int points) {
    return new Setup(
        FrontEnd.ideal(),
        VerticalScale.of(1),
        0,
        rateHz,
        points,
        Converter.none(),
        new Pick(1),
        Ensemble.single(),
        Sampler.ideal(),
        ConverterNoise.none(),
        Optional.empty());
  }

  /**
   * With another front end.
   *
   * @param value the analog stages
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup frontEnd(FrontEnd value) {
    return with(d -> d.frontEnd = value);
  }

  /**
   * With another source, of resistance alone.
   *
   * @param ohms resistance, 0 to 1e12 ohm
   * @return the setup
   * @throws IllegalArgumentException if it is out of range
   */
  public Setup source(double ohms) {
    return frontEnd(frontEnd.withSource(ohms));
  }

  /**
   * With another source.
   *
   * @param value what the signal comes from
   * @return the setup
   * @throws IllegalArgumentException if its network with probe and input cannot be solved
   * @throws NullPointerException if it is missing
   */
  public Setup source(Source value) {
    return frontEnd(frontEnd.withSource(value));
  }

  /**
   * With another probe.
   *
   * @param value the probe; {@link Probe#direct()} for none
   * @return the setup
   * @throws IllegalArgumentException if its network with source and input cannot be solved
   * @throws NullPointerException if it is missing
   */
  public Setup probe(Probe value) {
    return frontEnd(frontEnd.withProbe(value));
  }

  /**
   * With another rating of the instrument's input.
   *
   * @param value the highest voltage at the connector
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup rating(InputRating value) {
    return frontEnd(frontEnd.withRating(value));
  }

  /**
   * With another termination.
   *
   * @param value what the source drives
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup termination(Termination value) {
    return frontEnd(frontEnd.withTermination(value));
  }

  /**
   * With another coupling.
   *
   * @param value DC or AC
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup coupling(Coupling value) {
    return frontEnd(frontEnd.withCoupling(value));
  }

  /**
   * With one more analog stage, after those of the user's own that are there.
   *
   * @param stage the stage
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup stage(AnalogStage stage) {
    return frontEnd(frontEnd.withStage(stage));
  }

  /**
   * With another bandwidth of the analog path.
   *
   * @param value the bandwidth
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup bandwidth(Bandwidth value) {
    return frontEnd(frontEnd.withBandwidth(value));
  }

  /**
   * With another bandwidth limit.
   *
   * @param value the limit; {@link Bandwidth#unlimited()} switches it off
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup limit(Bandwidth value) {
    return frontEnd(frontEnd.withLimit(value));
  }

  /**
   * With another vertical scale.
   *
   * @param value the scale
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup vertical(VerticalScale value) {
    return with(d -> d.vertical = value);
  }

  /**
   * With another number of volts per division; divisions, offset and errors stay.
   *
   * @param voltsPerDivision 1e-9 to 1e6 V
   * @return the setup
   * @throws IllegalArgumentException if it is out of range
   */
  public Setup scale(double voltsPerDivision) {
    return vertical(vertical.withVoltsPerDivision(voltsPerDivision));
  }

  /**
   * With another start.
   *
   * @param seconds the instant of raw sample 0, -1e12 to 1e12 s
   * @return the setup
   * @throws IllegalArgumentException if it is out of range
   */
  public Setup startingAt(double seconds) {
    return with(d -> d.startSeconds = seconds);
  }

  /**
   * With another raw sample rate.
   *
   * @param value raw samples per second, 1e-9 to 1e15 Hz
   * @return the setup
   * @throws IllegalArgumentException if it is out of range
   */
  public Setup rateHz(double value) {
    return with(d -> d.rateHz = value);
  }

  /**
   * With another number of stored points.
   *
   * @param value 1 to 2<sup>28</sup>
   * @return the setup
   * @throws IllegalArgumentException if it is out of range
   */
  public Setup points(int value) {
    return with(d -> d.points = value);
  }

  /**
   * With another converter.
   *
   * @param value the converter; {@link Converter#none()} stores volts as they are
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup converter(Converter value) {
    return with(d -> d.converter = value);
  }

  /**
   * With an ideal converter.
   *
   * @param bits 1 to 24
   * @return the setup
   * @throws IllegalArgumentException if the number is out of range
   */
  public Setup bits(int bits) {
    return converter(new IdealConverter(bits));
  }

  /**
   * With another decimation.
   *
   * @param value how raw samples are reduced
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup decimation(Decimation value) {
    return with(d -> d.decimation = value);
  }

  /**
   * With another ensemble.
   *
   * @param value what is done over acquisitions
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup ensemble(Ensemble value) {
    return with(d -> d.ensemble = value);
  }

  /**
   * With the mean of several acquisitions.
   *
   * @param count 1 to 65 536
   * @return the setup
   * @throws IllegalArgumentException if the number is out of range
   */
  public Setup averaging(int count) {
    return ensemble(Ensemble.averageOf(count));
  }

  /** All values, one of them about to be another. */
  private static final class Draft {
    private FrontEnd frontEnd;
    private VerticalScale vertical;
    private double startSeconds;
    private double rateHz;
    private int points;
    private Converter converter;
    private Decimation decimation;
    private Ensemble ensemble;
    private Sampler sampler;
    private ConverterNoise converterNoise;
    private Optional<Trigger> trigger;
  }

  private Setup with(Consumer<Draft> change) {
    Draft d = new Draft();
    d.frontEnd = frontEnd;
    d.vertical = vertical;
    d.startSeconds = startSeconds;
    d.rateHz = rateHz;
    d.points = points;
    d.converter = converter;
    d.decimation = decimation;
    d.ensemble = ensemble;
    d.sampler = sampler;
    d.converterNoise = converterNoise;
    d.trigger = trigger;
    change.accept(d);
    return new Setup(
        d.frontEnd,
        d.vertical,
        d.startSeconds,
        d.rateHz,
        d.points,
        d.converter,
        d.decimation,
        d.ensemble,
        d.sampler,
        d.converterNoise,
        d.trigger);
  }

  /**
   * This setup with another sampler.
   *
   * @param value clock error, jitter, cores
   * @return the setup
   * @throws IllegalArgumentException if the amplifier saturates and cores have responses of their
   *     own
   * @throws NullPointerException if it is missing
   */
  public Setup sampler(Sampler value) {
    return with(d -> d.sampler = value);
  }

  /**
   * This setup with noise at the converter.
   *
   * @param value the noise of each raw sample
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup converterNoise(ConverterNoise value) {
    return with(d -> d.converterNoise = value);
  }

  /**
   * This setup with noise of the amplifier.
   *
   * @param value the noise
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup noise(Noise value) {
    return frontEnd(frontEnd.withNoise(value));
  }

  /**
   * This setup with noise of the source.
   *
   * @param value the noise
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup sourceNoise(SourceNoise value) {
    return frontEnd(frontEnd.withSourceNoise(value));
  }

  /**
   * This setup with a source whose edges jitter.
   *
   * @param value the jitter
   * @return the setup
   * @throws IllegalArgumentException if the amplifier saturates
   * @throws NullPointerException if it is missing
   */
  public Setup sourceJitter(SourceJitter value) {
    return frontEnd(frontEnd.withSourceJitter(value));
  }

  /**
   * This setup with an amplifier that saturates.
   *
   * @param value its levels and recovery
   * @return the setup
   * @throws IllegalArgumentException if cores have responses of their own, or the source's edges
   *     jitter
   * @throws NullPointerException if it is missing
   */
  public Setup saturation(Saturation value) {
    return frontEnd(frontEnd.withSaturation(value));
  }

  /**
   * This setup with a trigger: records are placed about its events.
   *
   * @param value the trigger
   * @return the setup
   * @throws NullPointerException if it is missing
   */
  public Setup trigger(Trigger value) {
    Require.present("value", value);
    return with(d -> d.trigger = Optional.of(value));
  }

  /**
   * This setup without a trigger: each record begins at the start of the clock.
   *
   * @return the setup
   */
  public Setup untriggered() {
    return with(d -> d.trigger = Optional.empty());
  }

  /**
   * Whether all acquisitions of a signal are equal, bit for bit: no noise, no jitter, no trigger.
   *
   * @return true if nothing about a capture is random
   */
  public boolean isRepeatable() {
    return frontEnd.noise().isNone()
        && frontEnd.sourceNoise().isNone()
        && frontEnd.sourceJitter().isNone()
        && converterNoise.isIdeal()
        && sampler.maxShiftSeconds() == 0
        && trigger.isEmpty();
  }

  /**
   * Stored points per second.
   *
   * @return raw rate/decimation factor
   */
  public double storedRateHz() {
    return rateHz / decimation.factor();
  }

  /**
   * The time that the record covers.
   *
   * @return points/stored rate
   */
  public double spanSeconds() {
    return (double) points * decimation.factor() / rateHz;
  }

  /**
   * What arrives at the sampler: the signal behind the front end and the errors of the vertical
   * scale, in closed form. An error of the offset enters ahead of the bandwidth, and passes through
   * the direct-current gains of what follows.
   *
   * @param signal the open-circuit voltage of the source
   * @return the signal itself if every analog stage is ideal
   * @throws NullPointerException if the signal is missing
   */
  public Waveform analogOutput(Signal signal) {
    return analogOutput(signal, startSeconds, startSeconds + spanSeconds());
  }

  /**
   * What arrives at the sampler, as above, over a span of its own choice. Where the amplifier
   * saturates and the signal does not repeat, overloads are followed over that span.
   *
   * @param signal the open-circuit voltage of the source
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return the signal itself if every analog stage is ideal
   * @throws NullPointerException if the signal is missing
   * @throws IllegalArgumentException if the span is out of range
   */
  public Waveform analogOutput(Signal signal, double fromSeconds, double toSeconds) {
    Require.present("signal", signal);
    Require.span(fromSeconds, toSeconds);
    Response response = frontEnd.response();
    Waveform output =
        !frontEnd.saturation().isIdeal()
            ? saturatedOutput(signal, fromSeconds, toSeconds)
            : response.isIdentity() ? signal : response.of(signal);
    return vertical.isExact()
        ? output
        : new AffineWaveform(output, 1 + vertical.gainError(), shiftVolts());
  }

  SaturatedOutput saturatedOutput(Signal signal, double fromSeconds, double toSeconds) {
    return frontEnd
        .saturation()
        .of(
            signal,
            frontEnd.aheadOfAmplifier(),
            frontEnd.behindAmplifier(),
            fromSeconds,
            toSeconds);
  }

  /** What the offset error amounts to at the sampler. */
  double shiftVolts() {
    double volts = vertical.offsetError() * vertical.fullScaleVolts();
    return volts * frontEnd.bandwidth().response().dcGain() * frontEnd.limit().response().dcGain();
  }

  /**
   * Captures a signal with seed 0. The result depends on the signal and this setup alone.
   *
   * @param signal the open-circuit voltage of the source
   * @return the stored points
   * @throws NullPointerException if the signal is missing
   * @throws IllegalArgumentException if there is noise that neither bandwidth nor limit bounds, or
   *     edges are to jitter and the signal has none, or none far enough apart
   * @throws IllegalStateException if a stage, converter or decimation of the user's own breaks its
   *     contract
   */
  public Record capture(Signal signal) {
    return capture(signal, 0);
  }

  /**
   * Captures a signal. All that is random (noise, jitter, when the trigger is armed) follows from
   * the seed: the same seed gives the same bits.
   *
   * @param signal the open-circuit voltage of the source
   * @param seed any number
   * @return the stored points; none, with a flag, if the trigger's event does not come
   * @throws NullPointerException if the signal is missing
   * @throws IllegalArgumentException if there is noise that neither bandwidth nor limit bounds, or
   *     edges are to jitter and the signal has none, or none far enough apart
   * @throws IllegalStateException if a stage, converter or decimation of the user's own breaks its
   *     contract
   */
  public Record capture(Signal signal, long seed) {
    Require.present("signal", signal);
    Schedule schedule = schedule(signal, seed).orElse(null);
    return new Acquisition(this, signal, Seeds.of(seed), 0).record(schedule);
  }

  /**
   * When the acquisitions of a capture take place.
   *
   * @param signal the open-circuit voltage of the source
   * @param seed of the capture
   * @return the acquisitions; empty without a trigger, when each starts at the start of the clock
   * @throws IllegalArgumentException if there is noise that neither bandwidth nor limit bounds, or
   *     edges are to jitter and the signal has none, or none far enough apart
   * @throws NullPointerException if the signal is missing
   */
  public Optional<Schedule> schedule(Signal signal, long seed) {
    Require.present("signal", signal);
    return trigger.map(t -> Acquisition.schedule(this, t, signal, seed));
  }

  /**
   * Sets the setup to work on recorded samples, block by block. The stream starts settled at its
   * first sample.
   *
   * @return a new stream
   * @throws IllegalArgumentException if the setup has what a stream cannot: several acquisitions, a
   *     trigger, saturation, a sampler that is not on time
   */
  public CaptureStream stream() {
    return stream(StreamFilter.Start.SETTLED, 0);
  }

  /**
   * Sets the setup to work on recorded samples, block by block.
   *
   * @param start how the stream begins
   * @param seed of its noise
   * @return a new stream
   * @throws IllegalArgumentException if the setup has what a stream cannot: several acquisitions, a
   *     trigger, saturation, a sampler that is not on time
   * @throws NullPointerException if the start is missing
   */
  public CaptureStream stream(StreamFilter.Start start, long seed) {
    return new CaptureStream(this, start, seed);
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder();
    words.append(frontEnd);
    if (!converter.isIdeal() || !vertical.isExact()) {
      words.append("; ").append(vertical);
    }
    words.append("; ").append(Quantity.of(rateHz, "samples/s"));
    if (startSeconds != 0) {
      words.append(" from ").append(Quantity.of(startSeconds, "s"));
    }
    if (!sampler.isIdeal()) {
      words.append("; ").append(sampler);
    }
    if (!converterNoise.isIdeal()) {
      words.append("; ").append(converterNoise);
    }
    words.append("; ").append(converter);
    words.append("; ").append(decimation);
    if (!ensemble.isSingle()) {
      words.append("; ").append(ensemble);
    }
    words.append("; ").append(points).append(points == 1 ? " point" : " points");
    trigger.ifPresent(t -> words.append("; ").append(t));
    return words.toString();
  }
}
