package org.asmeasured.frontend;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * The analog chain from the source to the sampler, without the vertical scale.
 *
 * @param loading source, probe and termination, with the coupling
 * @param rating the highest voltage at the instrument's connector
 * @param own further stages, after the coupling and ahead of the bandwidth; none is ideal
 * @param bandwidth of the analog path
 * @param limit the bandwidth limit; unlimited when it is switched off
 * @param saturation the levels between which the amplifier stays, ahead of its roll-off
 * @param noise of the amplifier, shaped by bandwidth and limit
 * @param sourceNoise the source's own noise, shaped by the whole chain
 * @param sourceJitter the source's own edge jitter
 */
public record FrontEnd(
    Loading loading,
    InputRating rating,
    List<AnalogStage> own,
    Bandwidth bandwidth,
    Bandwidth limit,
    Saturation saturation,
    Noise noise,
    SourceNoise sourceNoise,
    SourceJitter sourceJitter) {
  private static final FrontEnd IDEAL =
      new FrontEnd(
          new Loading(0, Termination.oneMegohm()),
          InputRating.unstated(),
          List.of(),
          Bandwidth.unlimited(),
          Bandwidth.unlimited());

  /**
   * Checks and copies the values.
   *
   * @param loading source, probe and termination, with the coupling
   * @param rating the highest voltage at the instrument's connector
   * @param own further stages, after the coupling and ahead of the bandwidth; none is ideal
   * @param bandwidth of the analog path
   * @param limit the bandwidth limit; unlimited when it is switched off
   * @param saturation the levels between which the amplifier stays, ahead of its roll-off
   * @param noise of the amplifier, shaped by bandwidth and limit
   * @param sourceNoise the source's own noise, shaped by the whole chain
   * @param sourceJitter the source's own edge jitter
   * @throws IllegalArgumentException if the chain has more poles than a response can have, or the
   *     amplifier saturates and the source's edges jitter
   * @throws NullPointerException if a value, or one of the user's own stages, is missing
   */
  public FrontEnd {
    Require.present("loading", loading);
    Require.present("rating", rating);
    Require.present("own", own);
    for (int i = 0; i < own.size(); i++) {
      Require.present("own[" + i + "]", own.get(i));
      Require.present("own[" + i + "].name", own.get(i).name());
      Require.present("own[" + i + "].response", own.get(i).response());
    }
    own = List.copyOf(own);
    Require.present("bandwidth", bandwidth);
    Require.present("limit", limit);
    Require.present("saturation", saturation);
    Require.present("noise", noise);
    Require.present("sourceNoise", sourceNoise);
    Require.present("sourceJitter", sourceJitter);
    Require.that(
        sourceJitter.isNone() || saturation.isIdeal(),
        () ->
            "sourceJitter = "
                + sourceJitter
                + ", saturation = "
                + saturation
                + ": displaced edges behind an amplifier that saturates are not modelled");
    // A chain of more poles than a response can have is refused here, not at the first capture.
    int poles = loading.response().poles().size() + loading.coupling().response().poles().size();
    for (AnalogStage stage : own) {
      poles += stage.response().poles().size();
    }
    poles += bandwidth.response().poles().size() + limit.response().poles().size();
    if (poles > Response.MAX_POLES) {
      product(loading, own, bandwidth, limit);
    }
  }

  /**
   * A linear front end without noise.
   *
   * @param loading source, probe and termination, with the coupling
   * @param rating the highest voltage at the instrument's connector
   * @param own further stages, after the coupling and ahead of the bandwidth; none is ideal
   * @param bandwidth of the analog path
   * @param limit the bandwidth limit; unlimited when it is switched off
   * @throws IllegalArgumentException if the chain has more poles than a response can have
   * @throws NullPointerException if a value, or one of the user's own stages, is missing
   */
  public FrontEnd(
      Loading loading,
      InputRating rating,
      List<AnalogStage> own,
      Bandwidth bandwidth,
      Bandwidth limit) {
    this(
        loading,
        rating,
        own,
        bandwidth,
        limit,
        Saturation.none(),
        Noise.none(),
        SourceNoise.none(),
        SourceJitter.none());
  }

  /**
   * Every stage ideal: an ideal source joined directly to 1 Mohm, direct coupling, unlimited
   * bandwidth.
   *
   * @return the front end
   */
  public static FrontEnd ideal() {
    return IDEAL;
  }

  /**
   * What the signal comes from.
   *
   * @return the source
   */
  public Source source() {
    return loading.source();
  }

  /**
   * What stands between source and input.
   *
   * @return the probe
   */
  public Probe probe() {
    return loading.probe();
  }

  /**
   * The input.
   *
   * @return the termination
   */
  public Termination termination() {
    return loading.termination();
  }

  /**
   * Direct or AC coupling.
   *
   * @return the coupling
   */
  public Coupling coupling() {
    return loading.coupling();
  }

  /** All values, some of them about to be others. */
  private static final class Draft {
    private Loading loading;
    private InputRating rating;
    private List<AnalogStage> own;
    private Bandwidth bandwidth;
    private Bandwidth limit;
    private Saturation saturation;
    private Noise noise;
    private SourceNoise sourceNoise;
    private SourceJitter sourceJitter;
  }

  private FrontEnd with(Consumer<Draft> change) {
    Draft d = new Draft();
    d.loading = loading;
    d.rating = rating;
    d.own = own;
    d.bandwidth = bandwidth;
    d.limit = limit;
    d.saturation = saturation;
    d.noise = noise;
    d.sourceNoise = sourceNoise;
    d.sourceJitter = sourceJitter;
    change.accept(d);
    return new FrontEnd(
        d.loading,
        d.rating,
        d.own,
        d.bandwidth,
        d.limit,
        d.saturation,
        d.noise,
        d.sourceNoise,
        d.sourceJitter);
  }

  /**
   * The same chain behind another source, probe, termination and coupling.
   *
   * @param value all of them
   * @return the front end
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withLoading(Loading value) {
    return with(d -> d.loading = value);
  }

  /**
   * The same chain behind another source, of resistance alone.
   *
   * @param ohms 0 to 1e12 ohm
   * @return the front end
   * @throws IllegalArgumentException if the value is out of range
   */
  public FrontEnd withSource(double ohms) {
    return withSource(Source.ofOhms(ohms));
  }

  /**
   * The same chain behind another source.
   *
   * @param value the source
   * @return the front end
   * @throws IllegalArgumentException if the network cannot be solved, see {@link Loading}
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withSource(Source value) {
    return withLoading(new Loading(value, probe(), termination(), coupling()));
  }

  /**
   * The same chain with another probe.
   *
   * @param value the probe; {@link Probe#direct()} for none
   * @return the front end
   * @throws IllegalArgumentException if the network cannot be solved, see {@link Loading}
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withProbe(Probe value) {
    return withLoading(new Loading(source(), value, termination(), coupling()));
  }

  /**
   * The same chain with another termination.
   *
   * @param value the termination
   * @return the front end
   * @throws IllegalArgumentException if the network cannot be solved, see {@link Loading}
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withTermination(Termination value) {
    return withLoading(new Loading(source(), probe(), value, coupling()));
  }

  /**
   * The same chain with another coupling.
   *
   * @param value the coupling
   * @return the front end
   * @throws IllegalArgumentException if the network cannot be solved, see {@link Loading}
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withCoupling(Coupling value) {
    return withLoading(new Loading(source(), probe(), termination(), value));
  }

  /**
   * The same chain with another rating of the instrument's input.
   *
   * @param value the highest voltage at the connector
   * @return the front end
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withRating(InputRating value) {
    return with(d -> d.rating = value);
  }

  /**
   * The same chain with one more stage of the user's own, after those that are there.
   *
   * @param stage the stage
   * @return the front end
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withStage(AnalogStage stage) {
    Require.present("stage", stage);
    List<AnalogStage> longer = new ArrayList<>(own);
    longer.add(stage);
    return with(d -> d.own = longer);
  }

  /**
   * The same chain with another bandwidth.
   *
   * @param value the bandwidth of the analog path
   * @return the front end
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withBandwidth(Bandwidth value) {
    return with(d -> d.bandwidth = value);
  }

  /**
   * The same chain with another bandwidth limit.
   *
   * @param value the limit; {@link Bandwidth#unlimited()} switches it off
   * @return the front end
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withLimit(Bandwidth value) {
    return with(d -> d.limit = value);
  }

  /**
   * The front end with an amplifier that saturates.
   *
   * @param value its levels and recovery
   * @return another front end
   * @throws IllegalArgumentException if it saturates and the source's edges jitter
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withSaturation(Saturation value) {
    return with(d -> d.saturation = value);
  }

  /**
   * The front end with noise of its amplifier.
   *
   * @param value the noise
   * @return another front end
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withNoise(Noise value) {
    return with(d -> d.noise = value);
  }

  /**
   * The front end with noise of the source.
   *
   * @param value the noise
   * @return another front end
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withSourceNoise(SourceNoise value) {
    return with(d -> d.sourceNoise = value);
  }

  /**
   * The front end behind a source whose edges jitter.
   *
   * @param value the jitter
   * @return another front end
   * @throws IllegalArgumentException if the amplifier saturates
   * @throws NullPointerException if it is missing
   */
  public FrontEnd withSourceJitter(SourceJitter value) {
    return with(d -> d.sourceJitter = value);
  }

  /**
   * What lies ahead of the amplifier: loading, coupling and own stages.
   *
   * @return the product of their responses
   */
  public Response aheadOfAmplifier() {
    return ahead(loading, own);
  }

  /**
   * What lies behind the amplifier: bandwidth and limit.
   *
   * @return the product of their responses
   */
  public Response behindAmplifier() {
    return times(times(Response.identity(), bandwidth), limit);
  }

  /**
   * Every stage, ideal ones too, from the source to the sampler. The errors of the vertical scale,
   * which belong to another value, stand ahead of the last two.
   *
   * @return loading, coupling, the user's own stages, bandwidth, bandwidth limit
   */
  public List<AnalogStage> stages() {
    List<AnalogStage> stages = new ArrayList<>();
    stages.add(loading);
    stages.add(loading.coupling());
    stages.addAll(own);
    stages.add(bandwidth);
    stages.add(limit.asLimit());
    return List.copyOf(stages);
  }

  /**
   * What the whole chain does to a signal: the product of the stages that are not ideal.
   *
   * @return the identity if every stage is ideal
   */
  public Response response() {
    return product(loading, own, bandwidth, limit);
  }

  private static Response product(
      Loading loading, List<AnalogStage> own, Bandwidth bandwidth, Bandwidth limit) {
    return times(times(ahead(loading, own), bandwidth), limit);
  }

  private static Response ahead(Loading loading, List<AnalogStage> own) {
    Response product = times(times(Response.identity(), loading), loading.coupling());
    for (AnalogStage stage : own) {
      product = times(product, stage);
    }
    return product;
  }

  private static Response times(Response before, AnalogStage stage) {
    if (stage.isIdeal()) {
      return before;
    }
    return before.isIdentity() ? stage.response() : before.times(stage.response());
  }

  @Override
  public String toString() {
    String words =
        stages().stream()
            .filter(stage -> !stage.isIdeal())
            .map(Object::toString)
            .collect(Collectors.joining("; "));
    words += saturation.isIdeal() ? "" : "; " + saturation;
    words += noise.isNone() ? "" : "; " + noise;
    words += sourceNoise.isNone() ? "" : "; " + sourceNoise;
    words += sourceJitter.isNone() ? "" : "; " + sourceJitter;
    return words.isEmpty()
        ? "ideal front end"
        : words.startsWith("; ") ? words.substring(2) : words;
  }
}
