package org.asmeasured.advice;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Waveform;

/**
 * Rules that people at benches go by: common practice, no source. They decide nothing here; each
 * stands beside the computed figure, so that its worth is seen.
 */
public enum Rule {
  /**
   * The signal shall fill the screen: from extreme to extreme at least 40 % of the converter's
   * span, which a sequence of 1, 2 and 5 always allows, and nothing beyond it.
   */
  FILL_THE_SCREEN("fill the screen") {
    @Override
    Finding find(Measurement m, Reading reading) {
      Setup setup = m.setup();
      if (setup.converter().bits() == 0) {
        return absent("nothing is quantised");
      }
      if (SignalFacts.of(m.signal()).isConstant()) {
        return absent("a constant has no extent");
      }
      double from = RecordSpan.startSeconds(m.signal(), setup);
      double to = from + setup.spanSeconds();
      Waveform arrives = setup.analogOutput(m.signal(), from, to);
      double least = arrives.minimum(from, to);
      double greatest = arrives.maximum(from, to);
      double fullScale = setup.vertical().fullScaleVolts();
      double middle = setup.vertical().offsetVolts();
      double beyond = Math.max(greatest - middle - fullScale / 2, middle - fullScale / 2 - least);
      if (beyond > 0) {
        return broken("reaches " + Quantity.of(beyond, "V") + " beyond the span");
      }
      double share = (greatest - least) / fullScale;
      return of(share >= LEAST_FILLING, "fills " + percent(share) + " of the span");
    }
  },

  /** An edge whose time is read shall be spread across the record: at least a tenth of its span. */
  EDGE_ACROSS_THE_SPAN("put the edge across the span") {
    @Override
    Finding find(Measurement m, Reading reading) {
      if (!reading.unit().equals("s")) {
        return absent("no time is read");
      }
      Setup setup = m.setup();
      double from = RecordSpan.startSeconds(m.signal(), setup);
      double span = setup.spanSeconds();
      Measured time = reading.of(m.signal(), from, from + span);
      if (!(time instanceof Measured.Value value) || !(value.value() > 0)) {
        return absent("the record holds no such time");
      }
      double points = value.value() * setup.storedRateHz();
      return of(
          value.value() / span >= LEAST_EDGE,
          Quantity.of(value.value(), "s")
              + " take "
              + percent(value.value() / span)
              + " of the span, "
              + number(points)
              + " stored points");
    }
  },

  /** AC coupling for sines of ten times the corner and more: 100 Hz where that is 10 Hz. */
  AC_COUPLING_OF_SINES("AC coupling for sines above ten times its corner only") {
    @Override
    Finding find(Measurement m, Reading reading) {
      if (m.setup().frontEnd().coupling().isDc()) {
        return absent("DC coupling");
      }
      double sine = SignalFacts.of(m.signal()).lowestSineHz();
      return sine == Double.POSITIVE_INFINITY
          ? absent("no sine in the signal")
          : aboveCorner("sine of ", sine, m.setup().frontEnd(), SINE_ABOVE_CORNER);
    }
  },

  /**
   * AC coupling for squares, and whatever else repeats, of twenty times the corner and more: 200 Hz
   * where that is 10 Hz.
   */
  AC_COUPLING_OF_SQUARES("AC coupling for squares above twenty times its corner only") {
    @Override
    Finding find(Measurement m, Reading reading) {
      if (m.setup().frontEnd().coupling().isDc()) {
        return absent("DC coupling");
      }
      SignalFacts facts = SignalFacts.of(m.signal());
      if (facts.comesOnce()) {
        return broken("a part of the signal comes once");
      }
      double lowest = facts.lowestPatternHz();
      return lowest == Double.POSITIVE_INFINITY
          ? absent("no repeated pattern in the signal")
          : aboveCorner("pattern of ", lowest, m.setup().frontEnd(), SQUARE_ABOVE_CORNER);
    }
  },

  /** Averaging for repetitive signals alone. */
  AVERAGING_OF_WHAT_REPEATS("averaging only for a repetitive signal") {
    @Override
    Finding find(Measurement m, Reading reading) {
      int count = m.setup().ensemble().count();
      if (count == 1) {
        return absent("one acquisition alone");
      }
      SignalFacts facts = SignalFacts.of(m.signal());
      String of = count + " acquisitions of ";
      if (facts.isConstant()) {
        return kept(of + "a constant");
      }
      OptionalDouble period = facts.period();
      return period.isPresent()
          ? kept(of + "what repeats every " + Quantity.of(period.getAsDouble(), "s"))
          : broken(of + "a signal that does not repeat");
    }
  },

  /**
   * A bandwidth of three to five times the signal's, which is its highest sine, or 0.35/rise time
   * of its fastest edge. Kept from three times on; what is beyond five lets in more noise.
   */
  BANDWIDTH("bandwidth of three to five times the signal's") {
    @Override
    Finding find(Measurement m, Reading reading) {
      SignalFacts facts = SignalFacts.of(m.signal());
      OptionalDouble signal = facts.highestHz();
      if (signal.isEmpty()) {
        return absent(facts.jumps() ? "the edges take no time" : "nothing changes");
      }
      OptionalDouble analog = EffectiveBandwidth.analogHz(m.setup().frontEnd());
      if (analog.isEmpty()) {
        return absent("the bandwidth is unlimited");
      }
      double ratio = analog.getAsDouble() / signal.getAsDouble();
      return of(
          ratio >= LEAST_BANDWIDTH * (1 - ROUNDING),
          Quantity.of(analog.getAsDouble(), "Hz")
              + " is "
              + number(ratio)
              + " times the signal's "
              + Quantity.of(signal.getAsDouble(), "Hz")
              + (ratio > MOST_BANDWIDTH
                  ? "; beyond five times there is more noise, and hardly more of the signal"
                  : ""));
    }
  },

  /** A raw sample rate of at least five times the bandwidth. */
  SAMPLE_RATE("sample rate of five times the bandwidth") {
    @Override
    Finding find(Measurement m, Reading reading) {
      OptionalDouble analog = EffectiveBandwidth.analogHz(m.setup().frontEnd());
      if (analog.isEmpty()) {
        return absent("the bandwidth is unlimited");
      }
      double ratio = m.setup().rateHz() / analog.getAsDouble();
      return of(
          ratio >= LEAST_RATE * (1 - ROUNDING),
          Quantity.of(m.setup().rateHz(), "samples/s")
              + " is "
              + number(ratio)
              + " times the bandwidth");
    }
  };

  private static final double LEAST_FILLING = 0.4;
  private static final double LEAST_EDGE = 0.1;
  private static final double SINE_ABOVE_CORNER = 10;
  private static final double SQUARE_ABOVE_CORNER = 20;
  private static final double LEAST_BANDWIDTH = 3;
  private static final double MOST_BANDWIDTH = 5;
  private static final double LEAST_RATE = 5;
  private static final double ROUNDING = 1e-9;

  private final String words;

  Rule(String words) {
    this.words = words;
  }

  /** What became of a rule. */
  public enum Status {
    /** The setup keeps it. */
    KEPT,
    /** The setup breaks it. */
    BROKEN,
    /** It has nothing to say. */
    DOES_NOT_APPLY
  }

  /**
   * What a rule says of a measurement.
   *
   * @param rule which
   * @param status kept or not
   * @param sentence the figure that it goes by, as a person would say it
   */
  public record Finding(Rule rule, Status status, String sentence) {

    /**
     * Checks the values.
     *
     * @param rule which
     * @param status kept or not
     * @param sentence the figure that it goes by
     * @throws NullPointerException if one is missing
     */
    public Finding {
      Require.present("rule", rule);
      Require.present("status", status);
      Require.present("sentence", sentence);
    }

    @Override
    public String toString() {
      return rule.words
          + ": "
          + status.name().toLowerCase(Locale.ROOT).replace('_', ' ')
          + ", "
          + sentence;
    }
  }

  /**
   * The rule as a person would say it.
   *
   * @return not blank
   */
  public String words() {
    return words;
  }

  abstract Finding find(Measurement m, Reading reading);

  /**
   * What the rule says of a reading of a measurement.
   *
   * @param measurement what is captured, and how
   * @param reading what is read
   * @return kept, broken or not applicable, with its figure
   * @throws IllegalArgumentException if the signal has too many pieces over the record
   * @throws NullPointerException if an argument is missing
   */
  public Finding of(Measurement measurement, Reading reading) {
    Require.present("measurement", measurement);
    Require.present("reading", reading);
    return find(measurement, reading);
  }

  /**
   * What all rules say, in their order.
   *
   * @param measurement what is captured, and how
   * @param reading what is read
   * @return unmodifiable
   * @throws IllegalArgumentException if the signal has too many pieces over the record
   * @throws NullPointerException if an argument is missing
   */
  public static List<Finding> all(Measurement measurement, Reading reading) {
    return Arrays.stream(values()).map(rule -> rule.of(measurement, reading)).toList();
  }

  Finding aboveCorner(String what, double hertz, FrontEnd frontEnd, double times) {
    double corner = cornerHz(frontEnd);
    return of(
        hertz >= times * corner * (1 - ROUNDING),
        what
            + Quantity.of(hertz, "Hz")
            + ", "
            + number(hertz / corner)
            + " times the corner at "
            + Quantity.of(corner, "Hz"));
  }

  /** Of a capacitor it is the slowest pole of the network that it stands in. */
  private static double cornerHz(FrontEnd frontEnd) {
    Coupling coupling = frontEnd.coupling();
    return coupling.isCapacitor()
        ? frontEnd.loading().response().poles().stream().mapToDouble(p -> p.abs()).min().orElse(0)
            / (2 * Math.PI)
        : coupling.cornerHz();
  }

  Finding of(boolean holds, String sentence) {
    return holds ? kept(sentence) : broken(sentence);
  }

  Finding kept(String sentence) {
    return new Finding(this, Status.KEPT, sentence);
  }

  Finding broken(String sentence) {
    return new Finding(this, Status.BROKEN, sentence);
  }

  Finding absent(String sentence) {
    return new Finding(this, Status.DOES_NOT_APPLY, sentence);
  }

  static String percent(double share) {
    return number(100 * share) + " %";
  }

  static String number(double value) {
    return new BigDecimal(value).round(new MathContext(3)).stripTrailingZeros().toPlainString();
  }
}
