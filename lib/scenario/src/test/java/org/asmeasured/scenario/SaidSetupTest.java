package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Qualifier;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.acquisition.TriggerPath;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.digitizer.TransitionConverter;
import org.asmeasured.frontend.ActiveProbe;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.NetworkProbe;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.SourceNoise;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.TimesOneProbe;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.Network;
import org.asmeasured.linear.Response;
import org.asmeasured.linear.StateSpace;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** A setup said in a file captures what the setup built in code captures, to the last bit. */
class SaidSetupTest {
  private static final Setup IDEAL = Setup.ideal(1e6, 200);
  private static final Signal SIGNAL =
      Signals.square(-1, 1.5, 3.7e-5, 0.3).plus(Signals.sine(0.2, 2.2e5, 1));

  private static Stream<Arguments> pairs() {
    VerticalScale one = VerticalScale.of(0.5);
    return Stream.of(
        arguments("", IDEAL),
        arguments("'sourceOhms': 1e5", IDEAL.source(1e5)),
        arguments(
            "'sourceOhms': 25, 'termination': {'ohms': 50, 'farads': 1e-9}",
            IDEAL.source(25).termination(new Termination(50, 1e-9))),
        arguments("'coupling': {'kind': 'dc'}", IDEAL),
        arguments("'coupling': {'kind': 'ac', 'cornerHz': 123}", IDEAL.coupling(Coupling.ac(123))),
        arguments(
            "'coupling': {'kind': 'capacitor', 'farads': 16e-9}",
            IDEAL.coupling(Coupling.capacitor(16e-9))),
        arguments("'sourceOhms': 1e5, 'sourceFarads': 3e-12", IDEAL.source(new Source(1e5, 3e-12))),
        arguments("'inputRating': {'peakVolts': 40}", IDEAL.rating(InputRating.ofPeak(40))),
        arguments("'probe': {'kind': 'direct'}", IDEAL),
        arguments(
            "'probe': {'kind': 'passiveDivider', 'attenuation': 10}",
            IDEAL.probe(PassiveDivider.times10())),
        arguments(
            "'sourceOhms': 100, 'probe': {'kind': 'passiveDivider', 'attenuation': 100, 'madeForOhms': 2e6,"
                + " 'cableFarads': 50e-12, 'trimmerError': 0.2, 'trimmedAt': {'ohms': 1e6, 'farads': 1e-11},"
                + " 'bandwidth': {'kind': 'singlePole', 'bandwidthHz': 1e6}, 'groundLead': {'henries': 1e-7, 'ohms':"
                + " 2, 'strayFarads': 1e-12}, 'rating': {'peakVolts': 500, 'rmsVolts': 300}}",
            IDEAL
                .source(100)
                .probe(
                    new PassiveDivider(
                        100,
                        2e6,
                        50e-12,
                        0.2,
                        Optional.of(new Termination(1e6, 1e-11)),
                        Bandwidth.singlePole(1e6),
                        new GroundLead(1e-7, 2, 1e-12),
                        new InputRating(500, 300)))),
        arguments(
            "'sourceOhms': 1e4, 'probe': {'kind': 'timesOne', 'seriesOhms': 200, 'cableFarads': 47e-12}",
            IDEAL.source(1e4).probe(TimesOneProbe.of(200, 47e-12))),
        arguments(
            "'sourceOhms': 1e4, 'probe': {'kind': 'active', 'inputOhms': 1e6, 'inputFarads': 1e-12}",
            IDEAL.source(1e4).probe(ActiveProbe.of(1e6, 1e-12, Bandwidth.unlimited()))),
        arguments(
            "'probe': {'kind': 'active', 'inputOhms': 1e6, 'inputFarads': 1e-12, 'attenuation': 3, 'outputOhms': 50,"
                + " 'madeForOhms': 50, 'bandwidth': {'kind': 'singlePole', 'bandwidthHz': 1e5}}",
            IDEAL.probe(
                ActiveProbe.of(1e6, 1e-12, Bandwidth.singlePole(1e5))
                    .withAttenuation(3)
                    .drivingFiftyOhm())),
        arguments(
            "'probe': {'kind': 'network', 'words': 'w', 'attenuation': 2, 'elements': [{'kind': 'resistor', 'from':"
                + " 'tip', 'to': 'input', 'ohms': 1e6}, {'kind': 'capacitor', 'from': 'input', 'to': 'ground',"
                + " 'farads': 1e-12}]}",
            IDEAL.probe(
                NetworkProbe.of(
                    "w",
                    Network.empty()
                        .resistor("tip", "input", 1e6)
                        .capacitor("input", "ground", 1e-12),
                    2))),
        arguments("'bandwidth': {'kind': 'unlimited'}", IDEAL),
        arguments(
            "'bandwidth': {'kind': 'singlePole', 'bandwidthHz': 1e5}",
            IDEAL.bandwidth(Bandwidth.singlePole(1e5))),
        arguments(
            "'bandwidth': {'kind': 'butterworth', 'order': 3, 'bandwidthHz': 1e5}",
            IDEAL.bandwidth(Bandwidth.butterworth(3, 1e5))),
        arguments(
            "'bandwidth': {'kind': 'bessel', 'order': 3, 'bandwidthHz': 1e5}",
            IDEAL.bandwidth(Bandwidth.bessel(3, 1e5))),
        arguments(
            "'limit': {'kind': 'gaussian', 'order': 3, 'bandwidthHz': 1e5}",
            IDEAL.limit(Bandwidth.gaussian(3, 1e5))),
        arguments(
            "'bandwidth': {'kind': 'own', 'words': 'w', 'response': {'kind': 'singlePole', 'bandwidthHz': 1e5}}",
            IDEAL.bandwidth(Bandwidth.of("w", Response.singlePole(1e5)))),
        arguments(own("{'kind': 'gain', 'factor': 0.3}"), with(Response.gain(0.3))),
        arguments(
            own("{'kind': 'singlePole', 'bandwidthHz': 1e5}"), with(Response.singlePole(1e5))),
        arguments(own("{'kind': 'highPass', 'cornerHz': 1e3}"), with(Response.highPass(1e3))),
        arguments(
            own("{'kind': 'butterworth', 'order': 2, 'bandwidthHz': 1e5}"),
            with(Response.butterworth(2, 1e5))),
        arguments(
            own("{'kind': 'bessel', 'order': 2, 'bandwidthHz': 1e5}"),
            with(Response.bessel(2, 1e5))),
        arguments(
            own("{'kind': 'gaussian', 'order': 2, 'bandwidthHz': 1e5}"),
            with(Response.gaussian(2, 1e5))),
        arguments(
            own(
                "{'kind': 'polesAndZeros', 'gain': 2e6, 'zerosRadiansPerSecond': [{'real': -3e5}],"
                    + " 'polesRadiansPerSecond': [{'real': -4e5, 'imaginary': 1e5}, {'real': -4e5, 'imaginary': -1e5}]}"),
            with(
                Response.of(
                    List.of(new Complex(-3e5, 0)),
                    List.of(new Complex(-4e5, 1e5), new Complex(-4e5, -1e5)),
                    2e6))),
        arguments(
            own(
                "{'kind': 'product', 'responses': [{'kind': 'gain', 'factor': 0.3},"
                    + " {'kind': 'singlePole', 'bandwidthHz': 1e5}]}"),
            with(Response.gain(0.3).times(Response.singlePole(1e5)))),
        arguments(
            own(
                "{'kind': 'network', 'source': 'a', 'output': 'b', 'elements': [{'kind': 'resistor', 'from': 'a', 'to':"
                    + " 'b', 'ohms': 1e3}, {'kind': 'inductor', 'from': 'b', 'to': 'ground', 'henries': 1e-3}]}"),
            with(
                Network.empty()
                    .resistor("a", "b", 1e3)
                    .inductor("b", "ground", 1e-3)
                    .response("a", "b"))),
        arguments(
            own(
                "{'kind': 'stateSpace', 'a': [[-4e5, -5e5], [4e5, -1e5]], 'b': [4e5, 0], 'c': [0, 1.5], 'd': 0.1}"),
            with(
                StateSpace.response(
                    new double[][] {{-4e5, -5e5}, {4e5, -1e5}},
                    new double[] {4e5, 0},
                    new double[] {0, 1.5},
                    0.1))),
        arguments(converter("'bits': 6"), converter(TransitionConverter.of(6))),
        arguments(
            converter("'bits': 2, 'transitionLevels': [-1.4, -0.5, 0.6]"),
            converter(TransitionConverter.of(2, new double[] {-1.4, -0.5, 0.6}))),
        arguments(
            converter(
                "'bits': 6, 'bowSteps': [0.5, -0.2], 'randomWalk': {'deviationSteps': 0.1, 'seed': 7},"
                    + " 'missingCodes': [5, -6], 'gainError': 0.02, 'offsetErrorSteps': 1.3"),
            converter(
                TransitionConverter.of(6)
                    .withBow(0.5, -0.2)
                    .withRandomWalk(0.1, 7)
                    .withMissingCodes(5, -6)
                    .withGainError(0.02)
                    .withOffsetError(1.3))),
        arguments(
            "'vertical': {'voltsPerDivision': 0.5, 'gainError': 0.1, 'offsetError': 0.02}",
            IDEAL.vertical(one.withGainError(0.1).withOffsetError(0.02))),
        arguments(
            "'vertical': {'voltsPerDivision': 0.5}, 'converter': {'kind': 'ideal', 'bits': 6}",
            IDEAL.vertical(one).bits(6)),
        arguments(
            "'vertical': {'voltsPerDivision': 0.5, 'divisions': 3, 'offsetVolts': 0.125}, 'converter': {'kind':"
                + " 'ideal', 'bits': 6}",
            IDEAL.vertical(one.withDivisions(3).withOffset(0.125)).bits(6)),
        arguments(
            limited("'sourceNoise': {'kind': 'white', 'densityVoltsPerRootHz': 1e-4}"),
            limited().sourceNoise(new SourceNoise(1e-4))),
        arguments(
            limited("'sourceNoise': {'kind': 'thermal', 'ohms': 1e9, 'kelvin': 300}"),
            limited().sourceNoise(SourceNoise.thermal(1e9, 300))),
        arguments(
            limited("'noise': {'densityVoltsPerRootHz': 1e-4, 'cornerHz': 1e3}"),
            limited().noise(Noise.white(1e-4).withCorner(1e3))),
        arguments(
            limited(
                "'noise': {'densityVoltsPerRootHz': 1e-4, 'cornerHz': 1e3, 'lowestHz': 10, 'shareOfFullScale':"
                    + " 0.01}"),
            limited().noise(Noise.white(1e-4).withCorner(1e3, 10).withShareOfFullScale(0.01))),
        arguments(
            limited("'saturation': {'lowVolts': -0.9}"),
            limited().saturation(new Saturation(-0.9, Double.POSITIVE_INFINITY, 0, 1))),
        arguments(
            limited(
                "'sourceOhms': 1e5, 'saturation': {'lowVolts': -0.5, 'highVolts': 1, 'recoveryFraction': 0.2, 'recoverySeconds': 1e-5}"),
            limited().source(1e5).saturation(new Saturation(-0.5, 1, 0.2, 1e-5))),
        arguments(
            limited("'sampler': {'clockError': 1e-3}"),
            limited().sampler(InterleavedSampler.ideal().withClockError(1e-3))),
        arguments(
            limited(
                "'sampler': {'jitterSeconds': 1e-7, 'cores': [{'gainError': 0.1, 'offsetError': 0.02, 'skewSeconds':"
                    + " 1e-7}, {'response': {'kind': 'singlePole', 'bandwidthHz': 1e5}}, {}]}"),
            limited()
                .sampler(
                    InterleavedSampler.ideal()
                        .withJitter(1e-7)
                        .withCores(
                            new Core(0.1, 0.02, 1e-7, Response.identity()),
                            Core.ideal().withResponse(Response.singlePole(1e5)),
                            Core.ideal()))),
        arguments(
            eightBits("'converterNoise': {'rmsOfFullScale': 0.01}"),
            eightBits().converterNoise(new ConverterNoise(0.01))),
        arguments("'converter': {'kind': 'none'}", IDEAL.converter(Converter.none())),
        arguments("'decimation': {'kind': 'pick', 'factor': 3}", IDEAL.decimation(new Pick(3))),
        arguments(
            "'decimation': {'kind': 'peakDetect', 'factor': 3}",
            IDEAL.decimation(new PeakDetect(3))),
        arguments(
            eightBits("'decimation': {'kind': 'boxcar', 'factor': 3}"),
            eightBits().decimation(Boxcar.of(3))),
        arguments(
            eightBits("'decimation': {'kind': 'boxcar', 'factor': 3, 'storedBits': 9}"),
            eightBits().decimation(new Boxcar(3, 9))),
        arguments(
            eightBits("'decimation': {'kind': 'rollingBoxcar', 'length': 3}"),
            eightBits().decimation(RollingBoxcar.of(3))),
        arguments(
            eightBits("'decimation': {'kind': 'rollingBoxcar', 'length': 3, 'storedBits': 9}"),
            eightBits().decimation(new RollingBoxcar(3, 9))),
        arguments(eightBits("'ensemble': {'kind': 'single'}"), eightBits()),
        arguments(
            eightBits("'ensemble': {'kind': 'envelope', 'count': 5}"),
            eightBits().ensemble(Ensemble.envelopeOf(5))),
        arguments("'trigger': {'levelVolts': 0.5}", IDEAL.trigger(Trigger.at(0.5))),
        arguments(
            "'trigger': {'levelVolts': 9, 'noEvent': {'kind': 'runsFree', 'afterSeconds': 1e-3}}",
            IDEAL.trigger(Trigger.at(9).noEvent(NoEvent.runFreeAfter(1e-3)))),
        arguments(
            "'trigger': {'levelVolts': 0.5, 'path': {'kind': 'ac'}, 'slope': 'falling', 'hysteresisVolts': 0.1,"
                + " 'qualifier': {'kind': 'pulseWidth', 'shorterThanSeconds': 1e-3}, 'preTriggerShare': 0.25,"
                + " 'delaySeconds': 1e-6, 'holdoffSeconds': 2e-6, 'rearmSeconds': 3e-6, 'jitterSeconds': 1e-7,"
                + " 'resolution': 0.5, 'noEvent': {'kind': 'waits', 'afterSeconds': 0.5}, 'armedSeconds': 1e-3}",
            IDEAL.trigger(
                Trigger.at(0.5)
                    .path(TriggerPath.ac())
                    .slope(Slope.FALLING)
                    .hysteresis(0.1)
                    .qualifier(Qualifier.shorterThan(1e-3))
                    .preTrigger(0.25)
                    .delay(1e-6)
                    .holdoff(2e-6)
                    .rearm(3e-6)
                    .jitter(1e-7)
                    .resolution(0.5)
                    .noEvent(NoEvent.waitFor(0.5))
                    .armedAt(1e-3))),
        arguments(
            eightBits("'ensemble': {'kind': 'average', 'count': 5}"), eightBits().averaging(5)));
  }

  private static String converter(String more) {
    return "'vertical': {'voltsPerDivision': 0.5}, 'converter': {'kind': 'transitions', "
        + more
        + "}";
  }

  private static Setup converter(Converter converter) {
    return IDEAL.vertical(VerticalScale.of(0.5)).converter(converter);
  }

  private static String limited(String more) {
    return "'vertical': {'voltsPerDivision': 0.5}, 'bandwidth': {'kind': 'singlePole', 'bandwidthHz': 2e5}, "
        + more;
  }

  private static Setup limited() {
    return IDEAL.vertical(VerticalScale.of(0.5)).bandwidth(Bandwidth.singlePole(2e5));
  }

  private static Setup eightBits() {
    return IDEAL.vertical(VerticalScale.of(0.5)).bits(8);
  }

  private static String eightBits(String more) {
    return "'vertical': {'voltsPerDivision': 0.5}, 'converter': {'kind': 'ideal', 'bits': 8}, "
        + more;
  }

  private static String own(String response) {
    return "'ownStages': [{'name': 's', 'response': " + response + "}]";
  }

  private static Setup with(Response response) {
    return IDEAL.stage(new OwnStage("s", response));
  }

  @ParameterizedTest
  @MethodSource("pairs")
  void capturesTheSame(String said, Setup built) {
    String text =
        "{'sampling': {'rateHz': 1e6, 'points': 200, 'startSeconds': 5e-7}"
            + (said.isEmpty() ? "" : ", " + said)
            + "}";
    Setup read = SetupReader.read(Json.parse("said", text.replace('\'', '"')));
    Setup started = built.startingAt(5e-7);
    assertEquals(started.toString(), read.toString());
    Record expected = started.capture(SIGNAL, 5);
    Record actual = read.capture(SIGNAL, 5);
    assertArrayEquals(expected.lower(), actual.lower());
    assertArrayEquals(expected.upper(), actual.upper());
    assertEquals(started.trigger(), read.trigger());
    assertEquals(expected.notes(), actual.notes());
    assertEquals(expected.toString(), actual.toString());
  }
}
