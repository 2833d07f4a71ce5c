package org.asmeasured.frontend;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Optional;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.NoiseFlicker;
import org.asmeasured.linear.NoiseProcess;
import org.asmeasured.linear.Response;

/**
 * The instrument's own noise, referred to the tip. It enters at the amplifier, so what follows the
 * amplifier shapes it: the bandwidth and the bandwidth limit, and neither the source nor the
 * coupling.
 *
 * <p>Ahead of these its one-sided density is, at the frequency f,
 *
 * <pre>e^2 (1 + cornerHz/f) + (share x full scale)^2 / B</pre>
 *
 * where B is the integral of the squared gain of the bandwidth over frequency, with the limit off:
 * so with the limit off the last part alone is {@code share x full scale} rms, and the limit takes
 * from it what it takes from the rest. Where only the limit bounds the noise, B is that of both.
 *
 * <p>The 1/f part ends at a thousand times the frequency at which it is as strong as all of the
 * rest, where it is 0.1 % of it; see {@link NoiseFlicker}.
 *
 * <p>Noise of the converter, white from one raw sample to the next, is another value's, and so is
 * {@link SourceNoise noise of the source}.
 *
 * @param densityVoltsPerRootHz e, the white part, 0 to 1e3 V/sqrt(Hz)
 * @param cornerHz where the 1/f part is as strong as the white part, 1e-6 to 1e12 Hz; 0 for none
 * @param lowestHz where the 1/f part ends, 1e-9 to 1e12 Hz, from 1e-12 of the corner up to 50 times
 *     the corner; 0 for one over the time observed
 * @param shareOfFullScale rms of the part that grows with full scale, as a fraction of it, 0 to 0.1
 */
public record Noise(
    double densityVoltsPerRootHz, double cornerHz, double lowestHz, double shareOfFullScale) {
  /** Above this multiple of the corner the 1/f part is less than 2 % of the white part. */
  private static final double TOO_FAST = 50;

  private static final Noise NONE = new Noise(0, 0, 0, 0);

  /**
   * Checks the values.
   *
   * @param densityVoltsPerRootHz e, the white part, 0 to 1e3 V/sqrt(Hz)
   * @param cornerHz where the 1/f part is as strong as the white part, 1e-6 to 1e12 Hz; 0 for none
   * @param lowestHz where the 1/f part ends, 1e-9 to 1e12 Hz, from 1e-12 of the corner up to 50
   *     times the corner; 0 for one over the time observed
   * @param shareOfFullScale rms of the part that grows with full scale, as a fraction of it, 0 to
   *     0.1
   * @throws IllegalArgumentException if one is out of range, or a corner is given without a white
   *     part, or a lowest frequency without a corner
   */
  public Noise {
    Require.inRange("densityVoltsPerRootHz", densityVoltsPerRootHz, "V/sqrt(Hz)", 0, 1e3);
    if (cornerHz != 0) {
      Require.inRange("cornerHz", cornerHz, "Hz", 1e-6, 1e12);
      Require.that(
          densityVoltsPerRootHz > 0,
          "cornerHz = "
              + cornerHz
              + " Hz: needs a densityVoltsPerRootHz above 0 to be a corner of");
    }
    if (lowestHz != 0) {
      Require.inRange("lowestHz", lowestHz, "Hz", 1e-9, 1e12);
      Require.that(
          lowestHz <= TOO_FAST * cornerHz && lowestHz >= 1e-12 * cornerHz,
          "lowestHz = "
              + lowestHz
              + " Hz: must be from 1e-12 of cornerHz = "
              + cornerHz
              + " Hz up to 50 times cornerHz");
    }
    Require.inRange("shareOfFullScale", shareOfFullScale, "", 0, 0.1);
  }

  /**
   * No noise at all.
   *
   * @return the value
   */
  public static Noise none() {
    return NONE;
  }

  /**
   * White noise.
   *
   * @param densityVoltsPerRootHz one-sided, 0 to 1e3 V/sqrt(Hz)
   * @return the noise
   * @throws IllegalArgumentException if it is out of range
   */
  public static Noise white(double densityVoltsPerRootHz) {
    return new Noise(densityVoltsPerRootHz, 0, 0, 0);
  }

  /**
   * The same noise with a 1/f part down to one over the time observed.
   *
   * @param hertz where it is as strong as the white part, 1e-6 to 1e12 Hz; 0 for none
   * @return the noise
   * @throws IllegalArgumentException if it is out of range, or there is no white part
   */
  public Noise withCorner(double hertz) {
    return new Noise(densityVoltsPerRootHz, hertz, 0, shareOfFullScale);
  }

  /**
   * The same noise with a 1/f part down to a stated frequency.
   *
   * @param hertz where it is as strong as the white part, 1e-6 to 1e12 Hz
   * @param lowest where it ends, Hz, from 1e-12 of the corner up to 50 times the corner
   * @return the noise
   * @throws IllegalArgumentException if one is out of range, or there is no white part
   */
  public Noise withCorner(double hertz, double lowest) {
    return new Noise(densityVoltsPerRootHz, hertz, lowest, shareOfFullScale);
  }

  /**
   * The same noise with another part that grows with full scale.
   *
   * @param fraction its rms as a fraction of full scale with the limit off, 0 to 0.1
   * @return the noise
   * @throws IllegalArgumentException if it is out of range
   */
  public Noise withShareOfFullScale(double fraction) {
    return new Noise(densityVoltsPerRootHz, cornerHz, lowestHz, fraction);
  }

  /**
   * Whether there is no noise.
   *
   * @return true if both the density and the share are 0
   */
  public boolean isNone() {
    return densityVoltsPerRootHz == 0 && shareOfFullScale == 0;
  }

  /**
   * This noise at the sampler.
   *
   * @param frontEnd whose bandwidth and limit shape it
   * @param fullScaleVolts the span of the converter, above 0 and at most 1e9 V
   * @param rateHz raw samples a second, 1e-9 to 1e15 Hz
   * @param observedSeconds the time observed, 1e-18 to 1e12 s: the 1/f part ends at one over it,
   *     unless a lowest frequency is given; where that lies above 50 times the corner, the 1/f part
   *     is less than 2 % of the white part and left out
   * @param tolerance of the sampled autocovariance, as a share of the variance, 1e-7 to 0.1; see
   *     {@link NoiseProcess}
   * @return the process, or nothing if there is no noise
   * @throws IllegalArgumentException if a value is out of range, or neither the bandwidth nor the
   *     limit bounds the noise
   */
  public Optional<NoiseProcess> process(
      FrontEnd frontEnd,
      double fullScaleVolts,
      double rateHz,
      double observedSeconds,
      double tolerance) {
    Require.present("frontEnd", frontEnd);
    Require.positiveVolts("fullScaleVolts", fullScaleVolts);
    Require.hertz("rateHz", rateHz);
    Require.duration("observedSeconds", observedSeconds);
    if (isNone()) {
      return Optional.empty();
    }
    Response path = frontEnd.bandwidth().response();
    Response shape = path.times(frontEnd.limit().response());
    Require.that(
        bounds(shape),
        () ->
            "frontEnd ("
                + frontEnd
                + "): must have a bandwidth or a limit, or white noise of its amplifier has no bound");
    double full = shareOfFullScale * fullScaleVolts;
    double proportional =
        full == 0 ? 0 : full / Math.sqrt((bounds(path) ? path : shape).squaredGainIntegralHz());
    double density = Math.hypot(densityVoltsPerRootHz, proportional);
    // the 1/f part belongs to e alone
    double corner =
        cornerHz * (densityVoltsPerRootHz / density) * (densityVoltsPerRootHz / density);
    double lowest = lowestHz != 0 ? lowestHz : 1 / observedSeconds;
    if (corner >= 1e-6 && lowest <= TOO_FAST * corner) {
      shape = shape.times(NoiseFlicker.response(corner, lowest));
    }
    return Optional.of(NoiseProcess.of(shape, density, rateHz, tolerance));
  }

  /**
   * This noise at the sampler, to the usual tolerance of 1e-4 of the variance.
   *
   * @param frontEnd whose bandwidth and limit shape it
   * @param fullScaleVolts the span of the converter, above 0 and at most 1e9 V
   * @param rateHz raw samples a second, 1e-9 to 1e15 Hz
   * @param observedSeconds the time observed, 1e-18 to 1e12 s
   * @return the process, or nothing if there is no noise
   * @throws IllegalArgumentException if a value is out of range, or neither the bandwidth nor the
   *     limit bounds the noise
   */
  public Optional<NoiseProcess> process(
      FrontEnd frontEnd, double fullScaleVolts, double rateHz, double observedSeconds) {
    return process(
        frontEnd, fullScaleVolts, rateHz, observedSeconds, NoiseProcess.DEFAULT_TOLERANCE);
  }

  private static boolean bounds(Response response) {
    return response.zeros().size() < response.poles().size();
  }

  @Override
  public String toString() {
    if (isNone()) {
      return "no noise";
    }
    StringBuilder words = new StringBuilder();
    if (densityVoltsPerRootHz > 0) {
      words.append(Quantity.of(densityVoltsPerRootHz, "V")).append("/sqrt(Hz)");
    }
    if (cornerHz > 0) {
      words.append(", 1/f below ").append(Quantity.of(cornerHz, "Hz"));
      words
          .append(" down to ")
          .append(lowestHz > 0 ? Quantity.of(lowestHz, "Hz") : "one over the time observed");
    }
    if (shareOfFullScale > 0) {
      words.append(words.isEmpty() ? "" : ", ");
      BigDecimal percent = new BigDecimal(100 * shareOfFullScale).round(new MathContext(4));
      words.append(percent.stripTrailingZeros().toPlainString()).append(" % of full scale");
    }
    return words.toString();
  }
}
