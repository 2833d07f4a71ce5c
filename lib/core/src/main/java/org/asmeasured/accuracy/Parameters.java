package org.asmeasured.accuracy;

import java.util.function.DoubleFunction;
import java.util.function.ToDoubleFunction;
import java.util.function.UnaryOperator;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.frontend.Termination;
import org.asmeasured.internal.Require;

/** The usual parameters of signals and setups. */
public final class Parameters {
  private Parameters() {}

  /** A figure of a setup, and the setup with another one. */
  @FunctionalInterface
  private interface SetupChange {
    Setup of(Setup setup, double value);
  }

  private static Parameter ofSetup(
      String name, String unit, ToDoubleFunction<Setup> stated, SetupChange change) {
    return Parameter.of(
        name,
        unit,
        m -> stated.applyAsDouble(m.setup()),
        (m, value) -> m.withSetup(change.of(m.setup(), value)));
  }

  /**
   * The same parameter by its relative error d: the figure is (1 + d) times that stated.
   *
   * @param parameter one whose stated figure is not 0
   * @return a plain number, stated 0
   * @throws NullPointerException if it is missing
   */
  public static Parameter relative(Parameter parameter) {
    Require.present("parameter", parameter);
    return Parameter.of(
        parameter.name(),
        "",
        m -> {
          nonZero(parameter, m);
          return 0;
        },
        (m, d) -> parameter.with(m, nonZero(parameter, m) * (1 + d)));
  }

  private static double nonZero(Parameter parameter, Measurement m) {
    double stated = parameter.of(m);
    Require.that(stated != 0, parameter.name() + " = 0: has no relative error");
    return stated;
  }

  /**
   * A factor on the whole signal.
   *
   * @return a plain number, stated 1
   */
  public static Parameter signalFactor() {
    return Parameter.of("signal factor", "", m -> 1, (m, v) -> m.withSignal(m.signal().times(v)));
  }

  /**
   * By how much the whole signal is late.
   *
   * @return in s, stated 0
   */
  public static Parameter signalDelay() {
    return Parameter.of(
        "signal delay", "s", m -> 0, (m, v) -> m.withSignal(m.signal().delayedBy(v)));
  }

  /**
   * The instant at which the record starts on the signal's time scale: a rectangular distribution
   * over a period is a record that knows nothing of the signal's phase.
   *
   * @return in s
   */
  public static Parameter start() {
    return ofSetup("start of the record", "s", Setup::startSeconds, Setup::startingAt);
  }

  /**
   * The relative error of the vertical gain.
   *
   * @return a plain number
   */
  public static Parameter gainError() {
    return ofSetup(
        "gain error",
        "",
        s -> s.vertical().gainError(),
        (s, v) -> s.vertical(s.vertical().withGainError(v)));
  }

  /**
   * The error of the vertical offset, as a fraction of full scale.
   *
   * @return a plain number
   */
  public static Parameter offsetError() {
    return ofSetup(
        "offset error",
        "",
        s -> s.vertical().offsetError(),
        (s, v) -> s.vertical(s.vertical().withOffsetError(v)));
  }

  /**
   * The half-power frequency of the analog path; the shape stays.
   *
   * @return in Hz; a setup of unlimited bandwidth, or with a shape of the user's own, has none
   */
  public static Parameter bandwidth() {
    return ofSetup(
        "bandwidth",
        "Hz",
        s -> hertz("bandwidth", s.frontEnd().bandwidth()),
        (s, v) -> s.bandwidth(moved("bandwidth", s.frontEnd().bandwidth(), v)));
  }

  /**
   * The half-power frequency of the bandwidth limit; the shape stays.
   *
   * @return in Hz; a setup without a limit, or with a shape of the user's own, has none
   */
  public static Parameter limit() {
    return ofSetup(
        "bandwidth limit",
        "Hz",
        s -> hertz("bandwidth limit", s.frontEnd().limit()),
        (s, v) -> s.limit(moved("bandwidth limit", s.frontEnd().limit(), v)));
  }

  private static double hertz(String name, Bandwidth bandwidth) {
    return bandwidth
        .bandwidthHz()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    name + " = " + bandwidth + ": has no stated half-power frequency"));
  }

  private static Bandwidth moved(String name, Bandwidth bandwidth, double hertz) {
    hertz(name, bandwidth);
    return bandwidth.withBandwidthHz(hertz);
  }

  /**
   * The corner of AC coupling by a filter.
   *
   * @return in Hz; a setup with another coupling has none
   */
  public static Parameter couplingCorner() {
    return ofSetup(
        "coupling corner",
        "Hz",
        s -> filter(s).cornerHz(),
        (s, v) -> {
          filter(s);
          return s.coupling(Coupling.ac(v));
        });
  }

  private static Coupling filter(Setup setup) {
    Coupling coupling = setup.frontEnd().coupling();
    Require.that(
        !coupling.isDc() && !coupling.isCapacitor(),
        "coupling = " + coupling + ": has no corner of its own");
    return coupling;
  }

  /**
   * The resistance of the source.
   *
   * @return in ohm
   */
  public static Parameter sourceOhms() {
    return ofSetup(
        "source resistance",
        "ohm",
        s -> s.frontEnd().source().ohms(),
        (s, v) ->
            s.frontEnd(
                s.frontEnd()
                    .withSource(
                        new Source(
                            v,
                            s.frontEnd().source().farads(),
                            s.frontEnd().source().referenceVolts()))));
  }

  /**
   * The capacitance of the source.
   *
   * @return in F
   */
  public static Parameter sourceFarads() {
    return ofSetup(
        "source capacitance",
        "F",
        s -> s.frontEnd().source().farads(),
        (s, v) ->
            s.frontEnd(
                s.frontEnd()
                    .withSource(
                        new Source(
                            s.frontEnd().source().ohms(),
                            v,
                            s.frontEnd().source().referenceVolts()))));
  }

  /**
   * The resistance of the instrument's input.
   *
   * @return in ohm
   */
  public static Parameter inputOhms() {
    return ofSetup(
        "input resistance",
        "ohm",
        s -> s.frontEnd().termination().ohms(),
        (s, v) -> s.termination(new Termination(v, s.frontEnd().termination().farads())));
  }

  /**
   * The capacitance of the instrument's input.
   *
   * @return in F
   */
  public static Parameter inputFarads() {
    return ofSetup(
        "input capacitance",
        "F",
        s -> s.frontEnd().termination().farads(),
        (s, v) -> s.termination(new Termination(s.frontEnd().termination().ohms(), v)));
  }

  /**
   * The error of the trimmer of a passive divider, as a fraction of C<sub>1</sub>.
   *
   * @return a plain number; a setup with another probe has none
   */
  public static Parameter trimmerError() {
    return ofSetup(
        "trimmer error",
        "",
        s -> divider(s).trimmerError(),
        (s, v) -> s.probe(divider(s).withTrimmerError(v)));
  }

  /**
   * The resistance R1 in series of a passive divider, which sets its ratio: with an input of R2,
   * the gain is (R1 + R2)/(R1' + R2) of the stated one. C1 stays trimmed to it.
   *
   * @return in ohm; a setup with another probe has none
   */
  public static Parameter dividerOhms() {
    return ofSetup(
        "probe series resistance",
        "ohm",
        s -> divider(s).seriesOhms(),
        (s, v) -> s.probe(divider(s).withSeriesOhms(v)));
  }

  /**
   * The half-power frequency of a passive divider; the shape stays.
   *
   * @return in Hz; a setup with another probe, or a divider of unlimited bandwidth, has none
   */
  public static Parameter dividerBandwidth() {
    return ofSetup(
        "probe bandwidth",
        "Hz",
        s -> hertz("probe bandwidth", divider(s).bandwidth()),
        (s, v) ->
            s.probe(divider(s).withBandwidth(moved("probe bandwidth", divider(s).bandwidth(), v))));
  }

  /**
   * The capacitance of the cable of a passive divider.
   *
   * @return in F; a setup with another probe has none
   */
  public static Parameter cableFarads() {
    return ofSetup(
        "cable capacitance",
        "F",
        s -> divider(s).cableFarads(),
        (s, v) -> s.probe(divider(s).withCable(v)));
  }

  /**
   * The inductance of the ground lead of a passive divider.
   *
   * @return in H; a setup with another probe has none
   */
  public static Parameter groundLeadHenries() {
    return ofSetup(
        "ground lead inductance",
        "H",
        s -> divider(s).groundLead().henries(),
        (s, v) -> {
          GroundLead lead = divider(s).groundLead();
          return s.probe(
              divider(s).withGroundLead(new GroundLead(v, lead.ohms(), lead.strayFarads())));
        });
  }

  private static PassiveDivider divider(Setup setup) {
    if (setup.frontEnd().probe() instanceof PassiveDivider divider) {
      return divider;
    }
    throw new IllegalArgumentException(
        "probe = " + setup.frontEnd().probe() + ": must be a passive divider");
  }

  /**
   * The level that the amplifier does not go below.
   *
   * @return in V; a setup whose amplifier has no such level has none
   */
  public static Parameter saturationLowVolts() {
    return ofSetup(
        "low saturation level",
        "V",
        s -> level("low saturation level", s.frontEnd().saturation().lowVolts()),
        (s, v) -> {
          Saturation at = s.frontEnd().saturation();
          level("low saturation level", at.lowVolts());
          return s.saturation(
              new Saturation(v, at.highVolts(), at.recoveryFraction(), at.recoverySeconds()));
        });
  }

  /**
   * The level that the amplifier does not go above.
   *
   * @return in V; a setup whose amplifier has no such level has none
   */
  public static Parameter saturationHighVolts() {
    return ofSetup(
        "high saturation level",
        "V",
        s -> level("high saturation level", s.frontEnd().saturation().highVolts()),
        (s, v) -> {
          Saturation at = s.frontEnd().saturation();
          level("high saturation level", at.highVolts());
          return s.saturation(
              new Saturation(at.lowVolts(), v, at.recoveryFraction(), at.recoverySeconds()));
        });
  }

  private static double level(String name, double volts) {
    Require.that(
        Double.isFinite(volts), name + " = " + volts + " V: the amplifier has no such level");
    return volts;
  }

  /**
   * The white density of the amplifier's noise.
   *
   * @return in V/sqrt(Hz)
   */
  public static Parameter noiseDensity() {
    return ofSetup(
        "amplifier noise density",
        "V/sqrt(Hz)",
        s -> s.frontEnd().noise().densityVoltsPerRootHz(),
        (s, v) -> {
          Noise n = s.frontEnd().noise();
          return s.noise(new Noise(v, n.cornerHz(), n.lowestHz(), n.shareOfFullScale()));
        });
  }

  /**
   * The part of the amplifier's noise that grows with full scale, rms as a fraction of it.
   *
   * @return a plain number
   */
  public static Parameter noiseShareOfFullScale() {
    return ofSetup(
        "amplifier noise share",
        "",
        s -> s.frontEnd().noise().shareOfFullScale(),
        (s, v) -> s.noise(s.frontEnd().noise().withShareOfFullScale(v)));
  }

  /**
   * The density of the source's own noise.
   *
   * @return in V/sqrt(Hz)
   */
  public static Parameter sourceNoiseDensity() {
    return ofSetup(
        "source noise density",
        "V/sqrt(Hz)",
        s -> s.frontEnd().sourceNoise().densityVoltsPerRootHz(),
        (s, v) -> s.sourceNoise(new SourceNoise(v)));
  }

  /**
   * The edge jitter of the source, rms.
   *
   * @return in s
   */
  public static Parameter sourceJitter() {
    return ofSetup(
        "source jitter",
        "s",
        s -> s.frontEnd().sourceJitter().rmsSeconds(),
        (s, v) ->
            s.sourceJitter(SourceJitter.of(v).ofDevice(s.frontEnd().sourceJitter().device())));
  }

  /**
   * The noise of the converter, rms as a fraction of full scale.
   *
   * @return a plain number
   */
  public static Parameter converterNoise() {
    return ofSetup(
        "converter noise",
        "",
        s -> s.converterNoise().rmsOfFullScale(),
        (s, v) -> s.converterNoise(new ConverterNoise(v)));
  }

  /**
   * The relative error of the sample clock.
   *
   * @return a plain number; a setup with a sampler of the user's own has none
   */
  public static Parameter clockError() {
    return ofSampler(
        "clock error", "", InterleavedSampler::clockError, v -> s -> s.withClockError(v));
  }

  /**
   * The aperture jitter, rms.
   *
   * @return in s; a setup with a sampler of the user's own has none
   */
  public static Parameter apertureJitter() {
    return ofSampler(
        "aperture jitter", "s", InterleavedSampler::jitterSeconds, v -> s -> s.withJitter(v));
  }

  /**
   * The gain error of one of several cores that take turns.
   *
   * @param core its place, 1 to 64
   * @return a plain number; a setup with fewer cores, or a sampler of the user's own, has none
   * @throws IllegalArgumentException if the place is out of range
   */
  public static Parameter coreGainError(int core) {
    return ofCore(core, "gain error", "", Core::gainError, Core::withGainError);
  }

  /**
   * The offset error of one of several cores that take turns, as a fraction of full scale.
   *
   * @param core its place, 1 to 64
   * @return a plain number; a setup with fewer cores, or a sampler of the user's own, has none
   * @throws IllegalArgumentException if the place is out of range
   */
  public static Parameter coreOffsetError(int core) {
    return ofCore(core, "offset error", "", Core::offsetError, Core::withOffsetError);
  }

  /**
   * The skew of one of several cores that take turns.
   *
   * @param core its place, 1 to 64
   * @return in s, positive = sampled later; a setup with fewer cores, or a sampler of the user's
   *     own, has none
   * @throws IllegalArgumentException if the place is out of range
   */
  public static Parameter coreSkew(int core) {
    return ofCore(core, "skew", "s", Core::skewSeconds, Core::withSkew);
  }

  /** A core with another figure. */
  @FunctionalInterface
  private interface CoreChange {
    Core of(Core core, double value);
  }

  private static Parameter ofCore(
      int core, String name, String unit, ToDoubleFunction<Core> stated, CoreChange change) {
    Require.inRange("core", core, 1, Sampler.MAX_CORES);
    return ofSetup(
        name + " of core " + core,
        unit,
        s -> stated.applyAsDouble(cores(s, core)[core - 1]),
        (s, v) -> {
          Core[] cores = cores(s, core);
          cores[core - 1] = change.of(cores[core - 1], v);
          return s.sampler(interleaved(s).withCores(cores));
        });
  }

  private static Core[] cores(Setup setup, int least) {
    InterleavedSampler sampler = interleaved(setup);
    Require.that(
        sampler.cores() >= least,
        "cores = " + sampler.cores() + ": the sampler has no core " + least);
    Core[] cores = new Core[sampler.cores()];
    for (int c = 0; c < cores.length; c++) {
      cores[c] = sampler.core(c);
    }
    return cores;
  }

  private static Parameter ofSampler(
      String name,
      String unit,
      ToDoubleFunction<InterleavedSampler> stated,
      DoubleFunction<UnaryOperator<InterleavedSampler>> change) {
    return ofSetup(
        name,
        unit,
        s -> stated.applyAsDouble(interleaved(s)),
        (s, v) -> s.sampler(change.apply(v).apply(interleaved(s))));
  }

  private static InterleavedSampler interleaved(Setup setup) {
    if (setup.sampler() instanceof InterleavedSampler sampler) {
      return sampler;
    }
    throw new IllegalArgumentException(
        "sampler = "
            + setup.sampler()
            + ": has neither clock error nor jitter nor cores of its own");
  }

  /**
   * The trigger level.
   *
   * @return in V; a setup without a trigger has none
   */
  public static Parameter triggerLevel() {
    return ofTrigger("trigger level", "V", Trigger::levelVolts, (t, v) -> t.level(v));
  }

  /**
   * The hysteresis of the trigger.
   *
   * @return in V; a setup without a trigger has none
   */
  public static Parameter triggerHysteresis() {
    return ofTrigger(
        "trigger hysteresis", "V", Trigger::hysteresisVolts, (t, v) -> t.hysteresis(v));
  }

  /**
   * The standard deviation of the error of a trigger event's instant.
   *
   * @return in s; a setup without a trigger has none
   */
  public static Parameter triggerJitter() {
    return ofTrigger("trigger jitter", "s", Trigger::jitterSeconds, (t, v) -> t.jitter(v));
  }

  /** A trigger with another figure. */
  @FunctionalInterface
  private interface TriggerChange {
    Trigger of(Trigger trigger, double value);
  }

  private static Parameter ofTrigger(
      String name, String unit, ToDoubleFunction<Trigger> stated, TriggerChange change) {
    return ofSetup(
        name,
        unit,
        s -> stated.applyAsDouble(trigger(s)),
        (s, v) -> s.trigger(change.of(trigger(s), v)));
  }

  private static Trigger trigger(Setup setup) {
    return setup
        .trigger()
        .orElseThrow(() -> new IllegalArgumentException("trigger: the setup has none"));
  }
}
