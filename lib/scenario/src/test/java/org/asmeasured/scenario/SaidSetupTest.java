package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.Response;
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
            "'vertical': {'voltsPerDivision': 0.5, 'gainError': 0.1, 'offsetError': 0.02}",
            IDEAL.vertical(one.withGainError(0.1).withOffsetError(0.02))),
        arguments(
            "'vertical': {'voltsPerDivision': 0.5}, 'converter': {'kind': 'ideal', 'bits': 6}",
            IDEAL.vertical(one).bits(6)),
        arguments(
            "'vertical': {'voltsPerDivision': 0.5, 'divisions': 3, 'offsetVolts': 0.125}, 'converter': {'kind':"
                + " 'ideal', 'bits': 6}",
            IDEAL.vertical(one.withDivisions(3).withOffset(0.125)).bits(6)),
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
            eightBits("'ensemble': {'kind': 'average', 'count': 5}"), eightBits().averaging(5)));
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
    Record expected = started.capture(SIGNAL);
    Record actual = read.capture(SIGNAL);
    assertArrayEquals(expected.lower(), actual.lower());
    assertArrayEquals(expected.upper(), actual.upper());
    assertEquals(expected.toString(), actual.toString());
  }
}
