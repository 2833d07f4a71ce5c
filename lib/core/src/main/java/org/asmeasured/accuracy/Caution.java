package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.CurrentProbe;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.Loading;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Termination;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * What whoever would do at a bench what a setup describes must be warned of. A caution is data: it
 * changes no reading and stops no capture.
 *
 * <p>The limits are common practice, no source. That there is no caution is no promise of safety:
 * the ratings of probes and inputs, local codes and licensed practice decide.
 *
 * @param subject what it is about
 * @param words one or more whole sentences
 */
public record Caution(Subject subject, String words) {
  private static final double HAZARDOUS_RMS = 30;
  private static final double HAZARDOUS_PEAK = 42.4;
  private static final double HAZARDOUS_DC = 60;
  private static final double LOW_RESISTANCE_OHMS = 100;
  private static final double USUAL_WATTS = 0.5;
  private static final double ROUNDING = 1e-9;
  private static final double NO_DIRECT_PART = 1e-6;
  private static final double OTHER_INPUT = 0.1;
  private static final String USUAL_WORDS =
      " Probes and inputs must be rated for this voltage and for the measurement category of the circuit. A"
          + " ground clip is earth and must never touch a live conductor. Local codes and licensed practice decide.";

  private static final String CLIP_WORDS =
      " Lift neither the instrument's protective earth nor the clip: use a differential or an isolated probe that is"
          + " rated for both voltages and for the measurement category (common practice, no source). Local codes and"
          + " licensed practice decide.";

  /** What a caution is about. */
  public enum Subject {
    /** The voltage at the tip can hurt. */
    HAZARDOUS_VOLTAGE,
    /** Outside the record the signal may reach a voltage that can hurt. */
    OUTSIDE_THE_RECORD,
    /** The voltage at the probe's tip is beyond its rating. */
    PROBE_RATING,
    /** The voltage at the instrument's connector is beyond its rating. */
    INPUT_RATING,
    /** The termination turns more power into heat than such an input usually stands. */
    INPUT_POWER,
    /** A coupling capacitor carries the undivided direct voltage behind a dividing probe. */
    COUPLING_CAPACITOR,
    /** The probe is made for another input resistance. */
    PROBE_AND_INPUT,
    /** The ground clip would sit on a node that is not on earth. */
    GROUND_CLIP,
    /** Inputs that share earth would join nodes between which there is a voltage. */
    INPUTS_IN_SERIES,
    /** Signal and setup could not be looked at: whatever would be said of them is not known. */
    NOT_CHECKED;

    /**
     * Whether a rating is exceeded, so that a probe or an input may be damaged.
     *
     * @return true for {@link #PROBE_RATING}, {@link #INPUT_RATING} and {@link #INPUT_POWER}
     */
    public boolean isBeyondRating() {
      return this == PROBE_RATING || this == INPUT_RATING || this == INPUT_POWER;
    }

    /** In a word or two, such as "input rating". */
    @Override
    public String toString() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /**
   * Checks the values.
   *
   * @param subject what it is about
   * @param words one or more whole sentences
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if the words are blank
   */
  public Caution {
    Require.present("subject", subject);
    Require.present("words", words);
    Require.that(!words.isBlank(), "words = \"" + words + "\": must not be blank");
  }

  /**
   * All that is to be said of a signal and the setup that captures it. A record may be shorter than
   * a period of the mains, so a periodic signal is looked at over a whole period at least.
   *
   * @param signal the open-circuit voltage of the source
   * @param setup how it is captured
   * @return unmodifiable; empty where there is nothing to warn of
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if the span asks for more pieces of the signal than are walked
   */
  public static List<Caution> of(Signal signal, Setup setup) {
    Require.present("signal", signal);
    Require.present("setup", setup);
    Span span =
        new Span(
            setup.startSeconds(),
            setup.startSeconds() + Math.max(setup.spanSeconds(), signal.periodSeconds().orElse(0)));
    FrontEnd frontEnd = setup.frontEnd();
    Loading loading = frontEnd.loading();
    Probe probe = frontEnd.probe();
    List<Caution> cautions = new ArrayList<>();
    voltage(signal, span, cautions);
    rating(
        Subject.PROBE_RATING,
        "probe's tip",
        probe.rating(),
        loading.atTip(),
        signal,
        span,
        cautions);
    rating(
        Subject.INPUT_RATING,
        "instrument's input",
        frontEnd.rating(),
        loading.atConnector(),
        signal,
        span,
        cautions);
    power(frontEnd, signal, span, cautions);
    capacitor(loading, signal, span, cautions);
    madeFor(probe, frontEnd.termination(), cautions);
    clip(frontEnd, cautions);
    return List.copyOf(cautions);
  }

  /**
   * The same for work that goes on whatever is found: where signal and setup cannot be looked at,
   * one caution says so.
   *
   * @param signal the open-circuit voltage of the source
   * @param setup how it is captured
   * @return unmodifiable; empty where there is nothing to warn of
   * @throws NullPointerException if one is missing
   */
  public static List<Caution> asFarAsKnown(Signal signal, Setup setup) {
    try {
      return of(signal, setup);
    } catch (IllegalArgumentException refused) {
      return List.of(
          new Caution(
              Subject.NOT_CHECKED,
              "Not checked for voltages and ratings: " + refused.getMessage() + "." + USUAL_WORDS));
    }
  }

  /**
   * What a record shows that was taken at a bench, whatever the signal was taken for: the voltage
   * at the tip, of its stored points alone.
   *
   * @param record the record, in volts at the tip
   * @return unmodifiable; empty where there is nothing to warn of
   * @throws NullPointerException if it is missing
   */
  public static List<Caution> of(Record record) {
    Require.present("record", record);
    if (record.size() == 0) {
      return List.of();
    }
    double sum = 0;
    for (int i = 0; i < record.size(); i++) {
      sum += 0.5 * (record.lower(i) + record.upper(i));
    }
    double mean = sum / record.size();
    double squares = 0;
    for (int i = 0; i < record.size(); i++) {
      squares += 0.5 * (Math.pow(record.lower(i) - mean, 2) + Math.pow(record.upper(i) - mean, 2));
    }
    double acRms = Math.sqrt(squares / record.size());
    Level level =
        new Level(mean, Math.hypot(mean, acRms), acRms, record.maximum(), record.minimum());
    return level.isHazardous() ? List.of(level.caution("as recorded")) : List.of();
  }

  /**
   * What is to be said of channels beside one another, over what is to be said of each.
   *
   * @param channels two or more
   * @return unmodifiable; empty where there is nothing to warn of
   * @throws NullPointerException if one is missing
   */
  public static List<Caution> between(List<Channel> channels) {
    Require.present("channels", channels);
    List<Caution> cautions = new ArrayList<>();
    for (int i = 0; i < channels.size(); i++) {
      for (int j = i + 1; j < channels.size(); j++) {
        FrontEnd first = channels.get(i).setup().frontEnd();
        FrontEnd second = channels.get(j).setup().frontEnd();
        double volts = first.source().referenceVolts() - second.source().referenceVolts();
        if (volts != 0 && hasClip(first) && hasClip(second)) {
          cautions.add(
              new Caution(
                  Subject.INPUTS_IN_SERIES,
                  "The references of "
                      + channels.get(i).name()
                      + " and "
                      + channels.get(j).name()
                      + " differ by "
                      + Quantity.of(Math.abs(volts), "V")
                      + ": the inputs share earth, so their ground clips would short-circuit what lies between the"
                      + " two nodes."
                      + CLIP_WORDS));
        }
      }
    }
    return List.copyOf(cautions);
  }

  /** A current probe touches nothing. */
  private static boolean hasClip(FrontEnd frontEnd) {
    return !(frontEnd.probe() instanceof CurrentProbe);
  }

  private static void clip(FrontEnd frontEnd, List<Caution> cautions) {
    double volts = frontEnd.source().referenceVolts();
    if (volts != 0 && hasClip(frontEnd)) {
      cautions.add(
          new Caution(
              Subject.GROUND_CLIP,
              "The ground clip would sit on a node at "
                  + Quantity.of(volts, "V")
                  + " to earth: the clip is earth, and would short-circuit that node."
                  + CLIP_WORDS));
    }
  }

  private record Span(double from, double to) {}

  private static void voltage(Signal signal, Span span, List<Caution> cautions) {
    if (signal.bound() <= HAZARDOUS_RMS) {
      return;
    }
    double mean = signal.mean(span.from, span.to);
    Level level =
        new Level(
            mean,
            signal.rms(span.from, span.to),
            signal.plus(-mean).rms(span.from, span.to),
            signal.maximum(span.from, span.to),
            signal.minimum(span.from, span.to));
    if (level.isHazardous()) {
      cautions.add(level.caution("at the tip"));
    } else if (signal.bound() > HAZARDOUS_PEAK && signal.bound() > 2 * level.peak()) {
      cautions.add(
          new Caution(
              Subject.OUTSIDE_THE_RECORD,
              "Outside the record this signal may reach more than it shows here ("
                  + bound(signal)
                  + "): check what is at the tip before connecting to it."));
    }
  }

  /** How high a voltage is: the alternating part is about the mean. */
  private record Level(double mean, double rms, double acRms, double highest, double lowest) {
    double peak() {
      return Math.max(Math.abs(highest), Math.abs(lowest));
    }

    boolean isHazardous() {
      return Math.abs(mean) > HAZARDOUS_DC
          || acRms > HAZARDOUS_RMS
          || Math.max(highest - mean, mean - lowest) > HAZARDOUS_PEAK;
    }

    Caution caution(String where) {
      return new Caution(
          Subject.HAZARDOUS_VOLTAGE,
          "Hazardous voltage "
              + where
              + ": "
              + Quantity.of(rms, "V")
              + " RMS, up to "
              + Quantity.of(peak(), "V")
              + " (limits taken here: 30 V RMS or 42.4 V peak of what alternates, 60 V DC; common practice, no source)."
              + USUAL_WORDS);
    }
  }

  private static String bound(Signal signal) {
    return Double.isInfinite(signal.bound())
        ? "it grows without end"
        : "at most " + Quantity.of(signal.bound(), "V");
  }

  private static void rating(
      Subject subject,
      String where,
      InputRating rating,
      Response response,
      Signal signal,
      Span span,
      List<Caution> cautions) {
    if (!rating.isStated()) {
      return;
    }
    Waveform there = through(response, signal);
    double peak =
        Math.max(
            Math.abs(there.maximum(span.from, span.to)),
            Math.abs(there.minimum(span.from, span.to)));
    double rms = there.rms(span.from, span.to);
    if (isBeyond(peak, rating.peakVolts()) || isBeyond(rms, rating.rmsVolts())) {
      cautions.add(
          new Caution(
              subject,
              "Beyond the rating of the "
                  + where
                  + ": up to "
                  + Quantity.of(peak, "V")
                  + " and "
                  + Quantity.of(rms, "V")
                  + " RMS where it is "
                  + rating
                  + "."
                  + USUAL_WORDS));
    }
  }

  private static boolean isBeyond(double volts, double limit) {
    return volts > limit * (1 + ROUNDING);
  }

  private static Waveform through(Response response, Signal signal) {
    return response.isIdentity() ? signal : response.of(signal);
  }

  private static void power(FrontEnd frontEnd, Signal signal, Span span, List<Caution> cautions) {
    Termination termination = frontEnd.termination();
    if (termination.ohms() > LOW_RESISTANCE_OHMS) {
      return;
    }
    Response atTermination =
        frontEnd.loading().response().scaledBy(1 / frontEnd.probe().attenuation());
    double rms = through(atTermination, signal).rms(span.from, span.to);
    double watts = rms * rms / termination.ohms();
    if (watts > USUAL_WATTS) {
      cautions.add(
          new Caution(
              Subject.INPUT_POWER,
              "The termination of "
                  + Quantity.of(termination.ohms(), "ohm")
                  + " would turn "
                  + Quantity.of(watts, "W")
                  + " into heat: an input of low resistance usually stands no more than 0.5 W (common practice, no source;"
                  + " the rating of the input decides)."));
    }
  }

  private static void capacitor(Loading loading, Signal signal, Span span, List<Caution> cautions) {
    boolean divides = loading.probe().attenuation() > 1 && loading.probe().outputOhms().isEmpty();
    if (!loading.coupling().isCapacitor() || !divides) {
      return;
    }
    double direct = loading.atConnector().dcGain() * signal.mean(span.from, span.to);
    if (Math.abs(direct) > NO_DIRECT_PART * signal.rms(span.from, span.to)) {
      cautions.add(
          new Caution(
              Subject.COUPLING_CAPACITOR,
              "The coupling capacitor carries the direct voltage of the source undivided, "
                  + Quantity.of(direct, "V")
                  + ": no direct current flows, so the probe divides nothing of it, and capacitor and input must be"
                  + " rated for the whole."));
    }
  }

  private static void madeFor(Probe probe, Termination termination, List<Caution> cautions) {
    double ohms = probe.madeFor(termination).ohms();
    if (Math.abs(termination.ohms() - ohms) > OTHER_INPUT * ohms) {
      cautions.add(
          new Caution(
              Subject.PROBE_AND_INPUT,
              "The probe is made for an input of "
                  + Quantity.of(ohms, "ohm")
                  + ", and this one has "
                  + Quantity.of(termination.ohms(), "ohm")
                  + ": its nominal attenuation does not hold."));
    }
  }

  @Override
  public String toString() {
    return words;
  }
}
