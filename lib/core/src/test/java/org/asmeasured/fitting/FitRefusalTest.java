package org.asmeasured.fitting;

import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.digitizer.InterleavedSampler;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.internal.Refusals;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class FitRefusalTest {
  private static final Measurement M =
      new Measurement(
          Signals.sine(1, 1e5), Setup.ideal(1e7, 100).converterNoise(new ConverterNoise(0.001)));
  private static final Record RECORD = M.setup().capture(M.signal(), 1);
  private static final Unknown GAIN = Unknown.of(Parameters.gainError(), -0.1, 0.1);

  private static void refused(Measurement m, Unknown unknown, String... said) {
    Refusals.mismatch(() -> ChainFit.of(RECORD, m, unknown), said);
  }

  @Test
  void unknowns() {
    Parameter p = Parameters.start();
    Refusals.absent("parameter", () -> Unknown.of(null, 0, 1));
    Refusals.refused("lowest of start of the record", "s", v -> Unknown.of(p, v, 1), -2e200);
    Refusals.refused("highest of start of the record", "s", v -> Unknown.of(p, -1, v), 2e200);
    Refusals.refused("highest of start of the record", -1, "s", () -> Unknown.of(p, -1, -1));
    Refusals.bounded("start of start of the record", "s", -1, 2, Unknown.of(p, -1, 2)::from);
    Refusals.refused(
        "recording of start of the record", Unknown.of(p, 0, 1)::ofRecording, -1, 1000);
    Refusals.absent("start", () -> new Unknown(p, 0, 1, null, OptionalInt.empty()));
    Refusals.absent("recording", () -> new Unknown(p, 0, 1, OptionalDouble.empty(), null));
  }

  @Test
  void methods() {
    FitMethod m = FitMethod.usual();
    Refusals.refused("mostSteps", m::withMostSteps, 0, 10_001);
    Refusals.refused("threads", m::withThreads, 0, 1025);
  }

  @Test
  void noise() {
    Refusals.refused("rmsVolts", "V", RecordNoise::white, 0, -1);
    Refusals.absent("autocovariance", () -> RecordNoise.ofAutocovariance((double[]) null));
    Refusals.mismatch(RecordNoise::ofAutocovariance, "autocovariance.length = 0: must be from 1");
    Refusals.refused("autocovariance[0]", "V^2", v -> RecordNoise.ofAutocovariance(v), 0, -1, 2e18);
    Refusals.bounded("autocovariance[1]", "V^2", -4, 4, v -> RecordNoise.ofAutocovariance(4, v));
  }

  /** Noise that a setup does not tell, each by what stands in the way. */
  @Test
  void setupsThatDoNotTellTheirNoise() {
    Setup s = M.setup();
    refused(M.withSetup(Setup.ideal(1e7, 100)), GAIN, "recording 1", "states no noise");
    refused(
        M.withSetup(s.sampler(InterleavedSampler.ideal().withJitter(1e-12))), GAIN, "sampler = ");
    refused(M.withSetup(s.sourceJitter(SourceJitter.of(1e-12))), GAIN, "sourceJitter = ");
    // the trigger of one record only places it; of an average it makes noise
    Setup triggered = s.trigger(Trigger.at(0).jitter(1e-12));
    ChainFit.of(RECORD, M.withSetup(triggered), GAIN).orThrow();
    Measurement average = M.withSetup(triggered.averaging(4));
    refused(average, GAIN, "recording 1", "trigger = ", "of an average");
  }

  @Test
  void recordings() {
    Refusals.absent("record", () -> Recording.of(null, M));
    Refusals.absent("measurement", () -> Recording.of(RECORD, null));
    Refusals.absent("noise", () -> new Recording(RECORD, M, null));
    Setup peaks = M.setup().decimation(new PeakDetect(2));
    Record envelope = peaks.capture(M.signal());
    Refusals.mismatch(() -> Recording.of(envelope, M), "record (", "must not be an envelope");
    Refusals.mismatch(
        () -> Recording.of(RECORD, M.withSetup(peaks)), "setup (", "must not make an envelope");
  }

  @Test
  void fits() {
    List<Recording> one = List.of(Recording.of(RECORD, M));
    FitMethod method = FitMethod.usual();
    Refusals.absent("recordings", () -> ChainFit.of(null, List.of(GAIN), method));
    Refusals.absent("unknowns", () -> ChainFit.of(one, null, method));
    Refusals.absent("unknowns", () -> ChainFit.of(RECORD, M, (Unknown[]) null));
    Refusals.absent("method", () -> ChainFit.of(one, List.of(GAIN), null));
    Refusals.mismatch(
        () -> ChainFit.of(List.of(), List.of(GAIN), method),
        "number of recordings = 0: must be from 1 to 1000");
    Refusals.mismatch(
        () -> ChainFit.of(one, List.of(), method), "number of unknowns = 0: must be from 1 to 64");
    Record long1 = Record.of(0, 1e7, new double[ChainFit.MAX_POINTS / 2 + 1]);
    Refusals.mismatch(
        () -> ChainFit.of(Collections.nCopies(2, Recording.of(long1, M)), List.of(GAIN), method),
        "number of points = 4194306: must be from 1 to 4194304");
    List<Unknown> many = new ArrayList<>();
    for (int j = 0; j < 20; j++) {
      many.add(GAIN);
    }
    Refusals.mismatch(
        () -> ChainFit.of(List.of(Recording.of(long1, M)), many, method),
        "points x unknowns = 41943060: must be from 1 to 33554432");
    Refusals.mismatch(
        () -> ChainFit.of(RECORD, M, GAIN, GAIN), "name = gain error: must not come twice");
    Refusals.mismatch(
        () -> ChainFit.of(RECORD, M, GAIN.ofRecording(1)), "recording of gain error = 1", "1");
    List<Unknown> holes = new ArrayList<>();
    holes.add(null);
    assertThrows(NullPointerException.class, () -> ChainFit.of(one, holes, method));
  }

  @Test
  void parametersThatAMeasurementCannotHave() {
    refused(M, Unknown.of(Parameters.bandwidth(), 1, 2), "bandwidth = ", "half-power");
    refused(M, Unknown.of(Parameters.triggerLevel(), -1, 2), "trigger: the setup has none");
    refused(
        M,
        Unknown.of(Parameters.gainError(), 0.01, 0.1),
        "gain error as stated = 0.0: must be from 0.01 to 0.1");
    refused(
        M,
        Unknown.of(Parameters.gainError(), -0.1, 0.6),
        "highest of gain error = 0.6: the measurement cannot have it: gainError = 0.6");
    Measurement limited = M.withSetup(M.setup().bandwidth(Bandwidth.singlePole(1e6)));
    refused(
        limited,
        Unknown.of(Parameters.bandwidth(), -1, 1e7),
        "lowest of bandwidth = -1.0: the measurement cannot have it: ");
  }
}
