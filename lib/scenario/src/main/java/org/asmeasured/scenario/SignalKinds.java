package org.asmeasured.scenario;

import java.nio.file.Path;
import java.util.List;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;

/**
 * The signals that a scenario can say: each builder of the library, and each operator on signals,
 * under its own kind.
 */
final class SignalKinds {
  private static final int MAX_PARTS = 10_000;

  private SignalKinds() {}

  /**
   * The kinds of signal.
   *
   * @param folder where recorded files are looked for
   */
  static Kinds<Signal> in(Path folder) {
    Kinds<Signal> kinds = new Kinds<>("signal");
    aperiodic(kinds);
    periodic(kinds);
    kinds.add("recorded", "volts timesSeconds? startSeconds? rateHz?", SignalKinds::recorded);
    kinds.add("recordedFile", RecordedFile.KEYS, f -> RecordedFile.read(f, folder));
    operators(kinds);
    return kinds;
  }

  private static void aperiodic(Kinds<Signal> kinds) {
    kinds
        .add("constant", "volts", f -> Signals.constant(f.number("volts")))
        .add("step", "volts atSeconds", f -> Signals.step(f.number("volts"), f.number("atSeconds")))
        .add(
            "ramp",
            "volts fromSeconds toSeconds",
            f -> Signals.ramp(f.number("volts"), f.number("fromSeconds"), f.number("toSeconds")))
        .add(
            "endlessRamp",
            "voltsPerSecond fromSeconds",
            f -> Signals.ramp(f.number("voltsPerSecond"), f.number("fromSeconds")))
        .add(
            "pulse",
            "amplitudeVolts startSeconds widthSeconds riseSeconds fallSeconds",
            f ->
                Signals.pulse(
                    f.number("amplitudeVolts"),
                    f.number("startSeconds"),
                    f.number("widthSeconds"),
                    f.number("riseSeconds"),
                    f.number("fallSeconds")))
        .add(
            "burst",
            "amplitudeVolts frequencyHz cycles startSeconds",
            f ->
                Signals.burst(
                    f.number("amplitudeVolts"),
                    f.number("frequencyHz"),
                    f.whole("cycles"),
                    f.number("startSeconds")))
        .add(
            "exponentialEdge",
            "volts startSeconds timeConstantSeconds",
            f ->
                Signals.exponentialEdge(
                    f.number("volts"), f.number("startSeconds"), f.number("timeConstantSeconds")))
        .add(
            "dampedRinging",
            "amplitudeVolts frequencyHz decaySeconds startSeconds",
            f ->
                Signals.dampedRinging(
                    f.number("amplitudeVolts"),
                    f.number("frequencyHz"),
                    f.number("decaySeconds"),
                    f.number("startSeconds")));
  }

  private static void periodic(Kinds<Signal> kinds) {
    kinds
        .add(
            "sine",
            "amplitudeVolts frequencyHz phaseRadians?",
            f ->
                Signals.sine(
                    f.number("amplitudeVolts"),
                    f.number("frequencyHz"),
                    f.numberOr("phaseRadians", 0)))
        .add("multiTone", "tones", SignalKinds::multiTone)
        .add(
            "square",
            "lowVolts highVolts periodSeconds dutyFactor",
            f ->
                Signals.square(
                    f.number("lowVolts"),
                    f.number("highVolts"),
                    f.number("periodSeconds"),
                    f.number("dutyFactor")))
        .add(
            "trapezoid",
            "lowVolts highVolts periodSeconds dutyFactor riseSeconds fallSeconds",
            f ->
                Signals.trapezoid(
                    f.number("lowVolts"),
                    f.number("highVolts"),
                    f.number("periodSeconds"),
                    f.number("dutyFactor"),
                    f.number("riseSeconds"),
                    f.number("fallSeconds")))
        .add(
            "triangle",
            "lowVolts highVolts periodSeconds symmetry",
            f ->
                Signals.triangle(
                    f.number("lowVolts"),
                    f.number("highVolts"),
                    f.number("periodSeconds"),
                    f.number("symmetry")))
        .add(
            "pulseTrain",
            "baseVolts topVolts periodSeconds widthSeconds riseSeconds fallSeconds",
            f ->
                Signals.pulseTrain(
                    f.number("baseVolts"),
                    f.number("topVolts"),
                    f.number("periodSeconds"),
                    f.number("widthSeconds"),
                    f.number("riseSeconds"),
                    f.number("fallSeconds")))
        .add(
            "runt",
            "amplitudeVolts runtVolts periodSeconds widthSeconds edgeSeconds every",
            f ->
                Signals.runt(
                    f.number("amplitudeVolts"),
                    f.number("runtVolts"),
                    f.number("periodSeconds"),
                    f.number("widthSeconds"),
                    f.number("edgeSeconds"),
                    f.whole("every")))
        .add(
            "rippleOnRail",
            "railVolts ripplePeakToPeakVolts rippleHz ringingVolts ringingHz ringingDecaySeconds",
            f ->
                Signals.rippleOnRail(
                    f.number("railVolts"),
                    f.number("ripplePeakToPeakVolts"),
                    f.number("rippleHz"),
                    f.number("ringingVolts"),
                    f.number("ringingHz"),
                    f.number("ringingDecaySeconds")));
  }

  private static void operators(Kinds<Signal> kinds) {
    kinds
        .add("sum", "signals", f -> sum(f, kinds))
        .add(
            "scaled", "factor signal", f -> kinds.read(f.child("signal")).times(f.number("factor")))
        .add(
            "delayed",
            "seconds signal",
            f -> kinds.read(f.child("signal")).delayedBy(f.number("seconds")))
        .add(
            "gated",
            "fromSeconds toSeconds signal",
            f ->
                kinds.read(f.child("signal")).gated(f.number("fromSeconds"), f.number("toSeconds")))
        .add(
            "starting",
            "seconds signal",
            f -> kinds.read(f.child("signal")).startingAt(f.number("seconds")))
        .add(
            "repeated",
            "periodSeconds signal",
            f -> kinds.read(f.child("signal")).repeatedEvery(f.number("periodSeconds")));
  }

  private static Signal sum(Fields fields, Kinds<Signal> kinds) {
    List<Json> parts = parts(fields, "signals");
    Signal sum = kinds.read(parts.get(0));
    for (Json part : parts.subList(1, parts.size())) {
      sum = sum.plus(kinds.read(part));
    }
    return sum;
  }

  private static Signal multiTone(Fields fields) {
    List<Json> tones = parts(fields, "tones");
    double[] amplitudes = new double[tones.size()];
    double[] frequencies = new double[tones.size()];
    double[] phases = new double[tones.size()];
    for (int i = 0; i < amplitudes.length; i++) {
      Fields tone =
          Fields.of(
              tones.get(i),
              "a tone",
              List.of("amplitudeVolts", "frequencyHz"),
              List.of("phaseRadians"));
      int index = i;
      tone.build(
          t -> {
            amplitudes[index] = t.number("amplitudeVolts");
            frequencies[index] = t.number("frequencyHz");
            phases[index] = t.numberOr("phaseRadians", 0);
            // Built by itself first, so that what is refused has the place of its tone.
            return Signals.sine(amplitudes[index], frequencies[index], phases[index]);
          });
    }
    return Signals.multiTone(amplitudes, frequencies, phases);
  }

  private static Signal recorded(Fields fields) {
    double[] volts = fields.numbers("volts");
    if (fields.has("timesSeconds")) {
      for (String other : List.of("rateHz", "startSeconds")) {
        if (fields.has(other)) {
          throw fields
              .child(other)
              .refused(other + " is given beside timesSeconds: must be left out");
        }
      }
      return Signals.recorded(fields.numbers("timesSeconds"), volts);
    }
    if (!fields.has("rateHz")) {
      throw fields
          .node()
          .refused(
              "keys \"timesSeconds\" and \"rateHz\" are missing: recorded must have one of them");
    }
    return Signals.recorded(fields.numberOr("startSeconds", 0), fields.number("rateHz"), volts);
  }

  private static List<Json> parts(Fields fields, String key) {
    List<Json> parts = fields.list(key);
    if (parts.isEmpty() || parts.size() > MAX_PARTS) {
      throw fields
          .child(key)
          .refused(key + " has " + parts.size() + " entries: must have from 1 to " + MAX_PARTS);
    }
    return parts;
  }
}
