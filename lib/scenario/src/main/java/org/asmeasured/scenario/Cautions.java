package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.frontend.Termination;
import org.asmeasured.internal.Quantity;
import org.asmeasured.signal.Signal;

/**
 * What whoever would do a scenario at a bench must be warned of. The limits are common practice, no
 * source.
 */
final class Cautions {
  private static final double HAZARDOUS_RMS = 30;
  private static final double HAZARDOUS_PEAK = 42.4;
  private static final double HAZARDOUS_DC = 60;
  private static final double LOW_RESISTANCE_OHMS = 100;
  private static final double USUAL_WATTS = 0.5;

  private Cautions() {}

  static List<String> of(Scenario scenario, Record record) {
    double from = record.startSeconds();
    // A record may be shorter than a period of the mains: the whole period is looked at.
    double to = from + Math.max(record.spanSeconds(), scenario.signal().periodSeconds().orElse(0));
    List<String> cautions = new ArrayList<>();
    voltage(scenario.signal(), from, to, cautions);
    power(scenario, from, to, cautions);
    return cautions;
  }

  private static void voltage(Signal signal, double from, double to, List<String> cautions) {
    if (signal.bound() <= HAZARDOUS_RMS) {
      return;
    }
    double mean = signal.mean(from, to);
    double rms = signal.rms(from, to);
    double highest = signal.maximum(from, to);
    double lowest = signal.minimum(from, to);
    double acRms = signal.plus(-mean).rms(from, to);
    double acPeak = Math.max(highest - mean, mean - lowest);
    double peak = Math.max(Math.abs(highest), Math.abs(lowest));
    if (Math.abs(mean) > HAZARDOUS_DC || acRms > HAZARDOUS_RMS || acPeak > HAZARDOUS_PEAK) {
      cautions.add(
          "Hazardous voltage at the tip: "
              + Quantity.of(rms, "V")
              + " RMS, up to "
              + Quantity.of(peak, "V")
              + " (limits taken here: 30 V RMS or 42.4 V peak of what alternates, 60 V DC; common practice, no source)."
              + " Probes and inputs must be rated for this voltage and for the measurement category of the circuit. A"
              + " ground clip is earth and must never touch a live conductor. Local codes and licensed practice decide.");
    } else if (signal.bound() > HAZARDOUS_PEAK && signal.bound() > 2 * peak) {
      cautions.add(
          "Outside the record this signal may reach more than it shows here ("
              + bound(signal)
              + "): check what is at the tip before connecting to it.");
    }
  }

  private static String bound(Signal signal) {
    return Double.isInfinite(signal.bound())
        ? "it grows without end"
        : "at most " + Quantity.of(signal.bound(), "V");
  }

  private static void power(Scenario scenario, double from, double to, List<String> cautions) {
    Termination termination = scenario.setup().frontEnd().termination();
    if (termination.ohms() > LOW_RESISTANCE_OHMS) {
      return;
    }
    double share =
        termination.ohms() / (termination.ohms() + scenario.setup().frontEnd().source().ohms());
    double rms = share * scenario.signal().rms(from, to);
    double watts = rms * rms / termination.ohms();
    if (watts > USUAL_WATTS) {
      cautions.add(
          "The termination of "
              + Quantity.of(termination.ohms(), "ohm")
              + " would turn "
              + Quantity.of(watts, "W")
              + " into heat: an input of low resistance usually stands no more than 0.5 W (common practice, no source;"
              + " the rating of the input decides).");
    }
  }
}
