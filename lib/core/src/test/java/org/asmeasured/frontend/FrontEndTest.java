package org.asmeasured.frontend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.asmeasured.linear.Response;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FrontEndTest {

  /**
   * Rs, R, C; direct error -Rs/(Rs + R); half-power frequency 1/(2 pi (Rs||R) C); 10-90 % time ln 9
   * (Rs||R) C. The closed forms are elementary; the figures were computed with mpmath.
   */
  @ParameterizedTest
  @CsvSource({
    "50, 1e6, 15e-12, -4.9997500125e-5, 212217201.119, 1.6478360412e-9",
    "1000, 1e6, 15e-12, -0.000999000999001, 10620939.869, 3.29254432168e-8",
    "50, 1e7, 10e-12, -4.99997500012e-6, 318311477.733, 1.09860679563e-9",
    "100000, 1e7, 10e-12, -0.00990099009901, 160746.492523, 2.17546987855e-6",
    "50, 50, 15e-12, -0.5, 424413181.578, 8.23959216501e-10"
  })
  void loadingIsADivider(double rs, double r, double c, double error, double f3, double rise) {
    Response response = new Loading(rs, new Termination(r, c)).response();
    assertEquals(1 + error, response.dcGain(), 1e-12);
    assertEquals(f3, response.halfPowerHz(), 1e-11 * f3);
    assertEquals(rise, response.riseTimeSeconds(), 1e-11 * rise);
  }

  @Test
  void withoutCapacitanceLoadingIsAGain() {
    Response response = new Loading(50, Termination.fiftyOhm()).response();
    assertEquals(0.5, response.dcGain());
    assertTrue(response.poles().isEmpty());
    assertTrue(new Loading(0, Termination.oneMegohm()).isIdeal());
  }

  /**
   * |H| = 1/sqrt(1 + (fc/f)^2), lead = atan(fc/f): Millman and Halkias, Integrated Electronics
   * (from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "10, 0.7071067811865475, 45",
    "20, 0.8944271909999159, 26.565051177078",
    "100, 0.9950371902099891, 5.71059313749964",
    "1000, 0.9999500037496875, 0.572938697683486"
  })
  void acCouplingIsAHighPass(double f, double magnitude, double leadDegrees) {
    Response response = Coupling.ac().response();
    assertEquals(magnitude, response.magnitude(f), 1e-14);
    assertEquals(leadDegrees, Math.toDegrees(response.phaseRadians(f)), 1e-11);
    assertEquals(0, response.dcGain());
  }

  @Test
  void chainIsInOrderAndMultiplies() {
    AnalogStage own = stage("own", Response.gain(0.25));
    FrontEnd chain =
        FrontEnd.ideal()
            .withSource(1e6)
            .withTermination(new Termination(1e6, 0))
            .withCoupling(Coupling.ac(1000))
            .withStage(own)
            .withBandwidth(Bandwidth.singlePole(1e6))
            .withLimit(Bandwidth.singlePole(1e3));
    assertEquals(
        List.of("source and termination", "coupling", "own", "bandwidth", "bandwidth limit"),
        chain.stages().stream().map(AnalogStage::name).toList());
    double expected = 0.5 * 0.25 * Math.sqrt(0.5) * Math.sqrt(0.5) / Math.hypot(1, 1e-3);
    assertEquals(expected, chain.response().magnitude(1000), 1e-12);
  }

  @Test
  void withersKeepTheRest() {
    PassiveDivider probe = PassiveDivider.times10();
    Source source = new Source(100, 1e-12);
    FrontEnd chain =
        FrontEnd.ideal()
            .withBandwidth(Bandwidth.singlePole(1e8))
            .withRating(InputRating.ofPeak(50))
            .withProbe(probe)
            .withCoupling(Coupling.capacitor())
            .withSource(source)
            .withTermination(new Termination(1e6, 20e-12));
    assertEquals(probe, chain.probe());
    assertEquals(source, chain.source());
    assertEquals(Coupling.capacitor(), chain.coupling());
    assertEquals(new Termination(1e6, 20e-12), chain.termination());
    assertEquals(InputRating.ofPeak(50), chain.rating());
    assertEquals("single pole, -3 dB at 100 MHz", chain.bandwidth().toString());
    assertEquals(
        List.of("source, probe and termination", "coupling", "bandwidth", "bandwidth limit"),
        chain.stages().stream().map(AnalogStage::name).toList());
    assertTrue(chain.stages().get(1).isIdeal(), "the capacitor is part of the network");
    Response expected = chain.loading().response().times(chain.bandwidth().response());
    assertEquals(expected.at(1e7), chain.response().at(1e7));
  }

  private static AnalogStage stage(String name, Response response) {
    return new AnalogStage() {
      @Override
      public String name() {
        return name;
      }

      @Override
      public Response response() {
        return response;
      }
    };
  }

  @Test
  void idealChainIsTheIdentity() {
    assertTrue(FrontEnd.ideal().response().isIdentity());
    assertTrue(FrontEnd.ideal().stages().stream().allMatch(AnalogStage::isIdeal));
    assertFalse(FrontEnd.ideal().withSource(50).response().isIdentity());
  }

  @Test
  void ownStagesAreCopied() {
    List<AnalogStage> own = new ArrayList<>();
    FrontEnd ideal = FrontEnd.ideal();
    FrontEnd chain =
        new FrontEnd(ideal.loading(), ideal.rating(), own, ideal.bandwidth(), ideal.limit());
    own.add(stage("late", Response.gain(2)));
    assertTrue(chain.own().isEmpty());
  }

  @Test
  void verticalScaleCountsDivisions() {
    VerticalScale scale = VerticalScale.of(0.5);
    assertEquals(4, scale.fullScaleVolts());
    assertTrue(scale.isExact());
    assertEquals(5, scale.withDivisions(10).fullScaleVolts());
    VerticalScale off = scale.withOffset(3.3).withGainError(0.01).withOffsetError(-0.002);
    assertFalse(off.isExact());
    assertEquals(new VerticalScale(0.5, 8, 3.3, 0.01, -0.002), off);
    assertEquals(scale.withOffset(3.3), off.withoutErrors());
    assertEquals(0.1, off.withVoltsPerDivision(0.1).voltsPerDivision());
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals("1 Mohm in parallel with 15 pF", Termination.oneMegohm().toString());
    assertEquals("50 ohm", Termination.fiftyOhm().toString());
    assertEquals(
        "source of 50 ohm into 50 ohm", new Loading(50, Termination.fiftyOhm()).toString());
    assertEquals("AC coupling, high-pass at 10 Hz", Coupling.ac().toString());
    assertEquals("DC coupling", Coupling.dc().toString());
    assertEquals("single pole, -3 dB at 200 MHz", Bandwidth.singlePole(200e6).toString());
    assertEquals("Bessel of order 4, -3 dB at 20 MHz", Bandwidth.bessel(4, 20e6).toString());
    assertEquals(
        "500 mV per division, 8 divisions, offset 3.3 V, gain error +1 %, offset error -0.2 % of full scale",
        new VerticalScale(0.5, 8, 3.3, 0.01, -0.002).toString());
    assertEquals(
        "500 mV per division, 8 divisions",
        new VerticalScale(0.5, 8, -8.674e-19, 0, 0).toString(),
        "what rounding left of no offset");
    assertEquals(
        "500 mV per division, 8 divisions, offset 1 nV",
        new VerticalScale(0.5, 8, 1e-9, 0, 0).toString());
    assertEquals("ideal front end", FrontEnd.ideal().toString());
    assertEquals(
        "AC coupling, high-pass at 10 Hz; limit: single pole, -3 dB at 20 MHz",
        FrontEnd.ideal()
            .withCoupling(Coupling.ac())
            .withLimit(Bandwidth.singlePole(20e6))
            .toString());
  }

  @Test
  void couplingsAreEqualByTheirCorner() {
    assertEquals(Coupling.ac(), Coupling.ac(10));
    assertEquals(Coupling.ac().hashCode(), Coupling.ac(10).hashCode());
    assertFalse(Coupling.ac().equals(Coupling.dc()));
    assertSame(Coupling.dc(), Coupling.dc());
    assertTrue(Coupling.dc().isDc());
    assertFalse(Coupling.capacitor().isDc());
    assertTrue(Coupling.capacitor().isCapacitor());
    assertFalse(Coupling.ac().isCapacitor());
    assertEquals(0, Coupling.capacitor().cornerHz());
    assertEquals(0, Coupling.ac().farads());
    assertEquals(1.591549430918953e-8, Coupling.capacitor().farads(), 1e-22);
    assertFalse(Coupling.capacitor(1e-9).equals(Coupling.capacitor(2e-9)));
    assertEquals(10, Coupling.ac().cornerHz());
  }

  @Test
  void refusesBadTerminations() {
    Refused.values("ohms", v -> new Termination(v, 0), 0, -50, 1e-9, 1e13);
    Refused.values("farads", v -> new Termination(50, v), -1e-12, 1e-19, 1);
    Refused.values("sourceOhms", v -> new Loading(v, Termination.fiftyOhm()), -50, 1e13);
    Refused.missing("termination", () -> new Loading(50, null));
    Refused.message("sourceOhms", "1.0E-9", () -> new Loading(1e-9, Termination.oneMegohm()));
  }

  @Test
  void refusesBadCouplingsAndBandwidths() {
    Refused.values("cornerHz", Coupling::ac, 0, -10, 1e-9, 1e13);
    Refused.values("bandwidthHz", Bandwidth::singlePole, 0, -1, 1e16);
    Refused.values("bandwidthHz", v -> Bandwidth.butterworth(3, v), 0, -1, 1e16);
    Refused.values("bandwidthHz", v -> Bandwidth.bessel(3, v), 0, -1, 1e16);
    Refused.values("bandwidthHz", v -> Bandwidth.gaussian(3, v), 0, -1, 1e16);
    Refused.wholes("order", n -> Bandwidth.butterworth(n, 1e6), 0, -1, 11);
    Refused.wholes("order", n -> Bandwidth.bessel(n, 1e6), 0, -1, 11);
    Refused.wholes("order", n -> Bandwidth.gaussian(n, 1e6), 0, -1, 11);
    Refused.missing("words", () -> Bandwidth.of(null, Response.identity()));
    Refused.missing("response", () -> Bandwidth.of("any", null));
    Refused.message("words", "\" \"", () -> Bandwidth.of(" ", Response.identity()));
  }

  @Test
  void refusesBadScales() {
    VerticalScale scale = VerticalScale.of(1);
    Refused.values("voltsPerDivision", VerticalScale::of, 0, -1, 1e-12, 1e7);
    Refused.values("voltsPerDivision", scale::withVoltsPerDivision, 0, -1, 1e-12, 1e7);
    Refused.wholes("divisions", scale::withDivisions, 0, -8, 101);
    Refused.values("offsetVolts", scale::withOffset, 1e10, -1e10);
    Refused.values("gainError", scale::withGainError, -0.51, 0.51, -1);
    Refused.values("offsetError", scale::withOffsetError, -1.01, 1.01);
  }

  @Test
  void refusesBadFrontEnds() {
    FrontEnd ideal = FrontEnd.ideal();
    Refused.values("sourceOhms", ideal::withSource, -1, 1e13);
    Refused.missing("source", () -> ideal.withSource(null));
    Refused.missing("probe", () -> ideal.withProbe(null));
    Refused.missing("rating", () -> ideal.withRating(null));
    Refused.missing("loading", () -> ideal.withLoading(null));
    Refused.missing("termination", () -> ideal.withTermination(null));
    Refused.missing("coupling", () -> ideal.withCoupling(null));
    Refused.missing("stage", () -> ideal.withStage(null));
    Refused.missing("bandwidth", () -> ideal.withBandwidth(null));
    Refused.missing("limit", () -> ideal.withLimit(null));
    Refused.missing("own[0].response", () -> ideal.withStage(stage("empty", null)));
    Refused.missing("own[0].name", () -> ideal.withStage(stage(null, Response.identity())));
    Refused.missing(
        "own[1]",
        () ->
            new FrontEnd(
                ideal.loading(),
                ideal.rating(),
                Arrays.asList(Coupling.ac(), null),
                Bandwidth.unlimited(),
                Bandwidth.unlimited()));
    Refused.missing(
        "own",
        () ->
            new FrontEnd(
                ideal.loading(),
                ideal.rating(),
                null,
                Bandwidth.unlimited(),
                Bandwidth.unlimited()));
    FrontEnd full = ideal;
    for (int i = 0; i < 4; i++) {
      full = full.withStage(Bandwidth.bessel(10, 1e6 + i));
    }
    FrontEnd chain = full;
    assertThrows(IllegalArgumentException.class, () -> chain.withStage(Bandwidth.singlePole(1e6)));
  }
}
