package org.asmeasured.advice;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * What a bench offers: for each setting its alternatives, all of which can be had together unless
 * something refuses. Immutable; each method returns other choices, with more alternatives. A
 * setting without alternatives stays as asked.
 *
 * <p>Alternatives are applied in this order, whatever order they were named in: own ones, probe,
 * coupling, bandwidth limit, rate and points, decimation, trigger, averaging, offset, volts per
 * division; last come the restrictions of {@link #only}.
 */
public final class Choices {
  private static final double ROUNDING = 1e-9;
  private static final Choices NONE = new Choices(List.of(), List.of());

  /** In the order in which they are applied. */
  enum Kind {
    OWN(""),
    PROBE("probe"),
    COUPLING("coupling"),
    LIMIT("bandwidth limit"),
    RECORD("rate and points"),
    DECIMATION("decimation"),
    TRIGGER("trigger"),
    AVERAGING("averaging"),
    OFFSET("offset"),
    SCALE("volts per division");

    final String words;

    Kind(String words) {
      this.words = words;
    }
  }

  /** A setting with its alternatives. */
  record Factor(Kind kind, String name, List<Alternative> alternatives) {}

  /** What whole setups must be. */
  record Restriction(String words, Predicate<Setup> holds) {}

  private final List<Factor> factors;
  private final List<Restriction> restrictions;

  private Choices(List<Factor> factors, List<Restriction> restrictions) {
    this.factors = factors;
    this.restrictions = restrictions;
  }

  /**
   * Nothing can be chosen.
   *
   * @return no choices
   */
  public static Choices none() {
    return NONE;
  }

  private Choices with(Kind kind, String name, List<Alternative> more) {
    Require.that(!more.isEmpty(), name + " = []: must name at least one alternative");
    List<Factor> changed = new ArrayList<>();
    List<Alternative> all = new ArrayList<>();
    for (Factor factor : factors) {
      if (factor.kind == kind && factor.name.equals(name)) {
        all.addAll(factor.alternatives);
      } else {
        changed.add(factor);
      }
    }
    all.addAll(more);
    List<String> words = all.stream().map(Alternative::words).toList();
    for (int i = 0; i < words.size(); i++) {
      Require.that(
          words.indexOf(words.get(i)) == i, name + " = " + words.get(i) + ": must not come twice");
    }
    changed.add(new Factor(kind, name, List.copyOf(all)));
    changed.sort(Comparator.comparing(Factor::kind));
    return new Choices(List.copyOf(changed), restrictions);
  }

  private <T> Choices with(
      Kind kind, List<T> values, Function<T, String> words, BiFunction<Setup, T, Setup> change) {
    List<Alternative> more = new ArrayList<>();
    for (T value : values) {
      Require.present(kind.words, value);
      more.add(Alternative.of(words.apply(value), setup -> change.apply(setup, value)));
    }
    return with(kind, kind.words, more);
  }

  private static List<Double> boxed(String name, double[] values) {
    return Arrays.stream(Require.present(name, values)).boxed().toList();
  }

  /**
   * Volts per division of 1, 2 and 5 times a power of ten.
   *
   * @param least the finest, 1e-9 to 1e6 V
   * @param greatest the coarsest, not below the finest, at most 1e6 V
   * @return the changed choices
   * @throws IllegalArgumentException if a bound is out of range, or no such scale lies between
   */
  public Choices scalesBetween(double least, double greatest) {
    Require.inRange("least", least, "V", 1e-9, 1e6);
    Require.inRange("greatest", greatest, "V", least, 1e6);
    List<Double> scales = new ArrayList<>();
    for (int exponent = -9; exponent <= 6; exponent++) {
      for (int digit : new int[] {1, 2, 5}) {
        // the double that the digits stand for, not a product
        double scale = BigDecimal.valueOf(digit).scaleByPowerOfTen(exponent).doubleValue();
        if (scale >= least * (1 - ROUNDING) && scale <= greatest * (1 + ROUNDING)) {
          scales.add(scale);
        }
      }
    }
    return scales(scales.stream().mapToDouble(v -> v).toArray());
  }

  /**
   * Volts per division.
   *
   * @param voltsPerDivision 1e-9 to 1e6 V each
   * @return the changed choices
   * @throws IllegalArgumentException if one is out of range or comes twice, or there is none
   * @throws NullPointerException if they are missing
   */
  public Choices scales(double... voltsPerDivision) {
    List<Double> all = boxed("voltsPerDivision", voltsPerDivision);
    all.forEach(v -> Require.inRange("voltsPerDivision", v, "V", 1e-9, 1e6));
    return with(
        Kind.SCALE, all, v -> Quantity.of(v, "V") + " per division", (setup, v) -> setup.scale(v));
  }

  /**
   * Stated offsets: voltages at the middle of the span.
   *
   * @param volts -1e9 to 1e9 V each
   * @return the changed choices
   * @throws IllegalArgumentException if one is out of range or comes twice, or there is none
   * @throws NullPointerException if they are missing
   */
  public Choices offsets(double... volts) {
    List<Double> all = boxed("volts", volts);
    all.forEach(v -> Require.volts("volts", v));
    return with(
        Kind.OFFSET,
        all,
        v -> v == 0 ? "no offset" : "offset " + Quantity.of(v, "V"),
        (setup, v) -> setup.vertical(setup.vertical().withOffset(v)));
  }

  /**
   * The offset that puts the middle between the extremes of what arrives at the converter over the
   * record into the middle of the span. Where that is beyond what the instrument can offset, it
   * cannot be had.
   *
   * @param greatestVolts modulus of the greatest offset, 0 to 1e9 V
   * @return the changed choices
   * @throws IllegalArgumentException if it is out of range, or centring is offered already
   */
  public Choices centred(double greatestVolts) {
    Require.inRange("greatestVolts", greatestVolts, "V", 0, 1e9);
    Alternative centred =
        Alternative.ofSignal(
                "centred",
                (signal, setup) -> {
                  double middle = middleVolts(signal, setup);
                  Require.inRange("offset", middle, "V", -greatestVolts, greatestVolts);
                  return setup.vertical(setup.vertical().withOffset(middle));
                })
            .saying(setup -> "centred at " + offset(setup.vertical()));
    return with(Kind.OFFSET, Kind.OFFSET.words, List.of(centred));
  }

  /** A middle that is zero comes out as a few attovolts. */
  private static String offset(VerticalScale scale) {
    return Quantity.of(Quantity.orNothing(scale.offsetVolts(), scale.fullScaleVolts()), "V");
  }

  private static double middleVolts(Signal signal, Setup setup) {
    double from = RecordSpan.startSeconds(signal, setup);
    double to = from + setup.spanSeconds();
    Waveform arrives = setup.analogOutput(signal, from, to);
    return (arrives.minimum(from, to) + arrives.maximum(from, to)) / 2;
  }

  /**
   * Couplings.
   *
   * @param couplings DC or AC
   * @return the changed choices
   * @throws IllegalArgumentException if one comes twice, or there is none
   * @throws NullPointerException if one is missing
   */
  public Choices couplings(Coupling... couplings) {
    return with(
        Kind.COUPLING,
        Arrays.asList(Require.present("couplings", couplings)),
        c -> c.isDc() ? "DC coupling" : c.toString().replace(", high-pass at ", " at "),
        Setup::coupling);
  }

  /**
   * Bandwidth limits.
   *
   * @param limits {@link Bandwidth#unlimited()} for none
   * @return the changed choices
   * @throws IllegalArgumentException if one comes twice, or there is none
   * @throws NullPointerException if one is missing
   */
  public Choices limits(Bandwidth... limits) {
    return with(
        Kind.LIMIT,
        Arrays.asList(Require.present("limits", limits)),
        b ->
            b.isIdeal()
                ? "no limit"
                : b.bandwidthHz().isPresent()
                    ? Quantity.of(b.bandwidthHz().getAsDouble(), "Hz") + " limit"
                    : "limit " + b,
        Setup::limit);
  }

  /**
   * Ways to reduce raw samples. The raw rate and the span stay, and as many points are stored as
   * fit into the span.
   *
   * @param decimations how raw samples are reduced
   * @return the changed choices
   * @throws IllegalArgumentException if one comes twice, or there is none
   * @throws NullPointerException if one is missing
   */
  public Choices decimations(Decimation... decimations) {
    return with(
        Kind.DECIMATION,
        Arrays.asList(Require.present("decimations", decimations)),
        Object::toString,
        (setup, d) -> {
          int points = points(setup.spanSeconds(), setup.rateHz() / d.factor(), Setup.MAX_POINTS);
          // at once: with the old number of points the span may be none
          return setup.points(points).decimation(d);
        });
  }

  private static int points(double spanSeconds, double storedRateHz, int mostPoints) {
    double points = Math.floor(spanSeconds * storedRateHz * (1 + ROUNDING));
    Require.inRange("points in the span", points, "", 1, mostPoints);
    return (int) points;
  }

  /**
   * Raw sample rates. The span stays, and as many points are stored as fit into it.
   *
   * @param mostPoints the memory, 1 to 2<sup>28</sup> stored points
   * @param rateHz 1e-9 to 1e15 Hz each
   * @return the changed choices
   * @throws IllegalArgumentException if one is out of range or comes twice, or there is none
   * @throws NullPointerException if they are missing
   */
  public Choices rates(int mostPoints, double... rateHz) {
    Require.inRange("mostPoints", mostPoints, 1, Setup.MAX_POINTS);
    List<Double> all = boxed("rateHz", rateHz);
    all.forEach(v -> Require.hertz("rateHz", v));
    return with(
        Kind.RECORD,
        all,
        v -> Quantity.of(v, "samples/s"),
        (setup, v) ->
            setup
                .points(points(setup.spanSeconds(), v / setup.decimation().factor(), mostPoints))
                .rateHz(v));
  }

  /**
   * A raw sample rate with its number of stored points, whatever span they make.
   *
   * @param rateHz 1e-9 to 1e15 Hz
   * @param points 1 to 2<sup>28</sup>
   * @return the changed choices
   * @throws IllegalArgumentException if one is out of range, or both come twice
   */
  public Choices record(double rateHz, int points) {
    Require.hertz("rateHz", rateHz);
    Require.inRange("points", points, 1, Setup.MAX_POINTS);
    return with(
        Kind.RECORD,
        Kind.RECORD.words,
        List.of(
            Alternative.of(
                points + " points at " + Quantity.of(rateHz, "samples/s"),
                setup -> setup.rateHz(rateHz).points(points))));
  }

  /**
   * Numbers of acquisitions to take the mean of. Of a signal that does not repeat there is one
   * acquisition alone, and a mean of more cannot be had.
   *
   * @param counts 1 to 65 536 each
   * @return the changed choices
   * @throws IllegalArgumentException if one is out of range or comes twice, or there is none
   * @throws NullPointerException if they are missing
   */
  public Choices averages(int... counts) {
    return ensembles(
        Arrays.stream(Require.present("counts", counts))
            .mapToObj(Ensemble::averageOf)
            .toArray(Ensemble[]::new));
  }

  /**
   * What may be done over acquisitions. Of a signal that does not repeat there is one acquisition
   * alone, and more than one cannot be had.
   *
   * @param ensembles one acquisition, means or envelopes
   * @return the changed choices
   * @throws IllegalArgumentException if one comes twice, or there is none
   * @throws NullPointerException if one is missing
   */
  public Choices ensembles(Ensemble... ensembles) {
    List<Alternative> more = new ArrayList<>();
    for (Ensemble e : Require.present("ensembles", ensembles)) {
      Require.present("ensemble", e);
      String words = e.toString().replaceFirst(" acquisitions?$", e.isSingle() ? "$0" : "");
      more.add(
          Alternative.ofSignal(
              words,
              (signal, setup) -> {
                Require.that(
                    e.count() == 1 || SignalFacts.of(signal).repeats(),
                    words + ": the signal does not repeat, so there is one acquisition alone");
                return setup.ensemble(e);
              }));
    }
    return with(Kind.AVERAGING, Kind.AVERAGING.words, more);
  }

  /**
   * Triggers.
   *
   * @param triggers when an acquisition takes place
   * @return the changed choices
   * @throws IllegalArgumentException if one comes twice, or there is none
   * @throws NullPointerException if one is missing
   */
  public Choices triggers(Trigger... triggers) {
    return with(
        Kind.TRIGGER,
        Arrays.asList(Require.present("triggers", triggers)),
        Object::toString,
        Setup::trigger);
  }

  /**
   * Probes.
   *
   * @param probes {@link Probe#direct()} for none
   * @return the changed choices
   * @throws IllegalArgumentException if one comes twice, or there is none
   * @throws NullPointerException if one is missing
   */
  public Choices probes(Probe... probes) {
    return with(
        Kind.PROBE,
        Arrays.asList(Require.present("probes", probes)),
        Object::toString,
        Setup::probe);
  }

  /**
   * A setting of one's own.
   *
   * @param name what is set, not blank
   * @param alternatives to what
   * @return the changed choices
   * @throws IllegalArgumentException if the name is blank, one comes twice, or there is none
   * @throws NullPointerException if one is missing
   */
  public Choices own(String name, Alternative... alternatives) {
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    for (Alternative alternative : Require.present("alternatives", alternatives)) {
      Require.present("alternative", alternative);
    }
    return with(Kind.OWN, name, List.of(alternatives));
  }

  /**
   * What holds for every setup that can be had: no offset above 1 V with 50 mV per division and
   * less.
   *
   * @param words why a setup cannot be had, as a person would say it, not blank
   * @param holds true of those that can; used by several threads at once
   * @return the changed choices
   * @throws IllegalArgumentException if the words are blank
   * @throws NullPointerException if an argument is missing
   */
  public Choices only(String words, Predicate<Setup> holds) {
    Require.present("words", words);
    Require.that(!words.isBlank(), "words = \"" + words + "\": must not be blank");
    List<Restriction> longer = new ArrayList<>(restrictions);
    longer.add(new Restriction(words, Require.present("holds", holds)));
    return new Choices(factors, List.copyOf(longer));
  }

  /**
   * How many combinations there are, those that something refuses included.
   *
   * @return the product of the numbers of alternatives, 1 where nothing can be chosen; at most
   *     {@link Long#MAX_VALUE}
   */
  public long combinations() {
    long product = 1;
    for (Factor factor : factors) {
      int n = factor.alternatives.size();
      product = product > Long.MAX_VALUE / n ? Long.MAX_VALUE : product * n;
    }
    return product;
  }

  /**
   * Refuses tolerances that reach where the asked setup cannot be, or one with a single setting
   * that is offered: a tolerance of a limit is tried with each limit. What such a setting alone
   * does not allow is left to the search.
   *
   * @throws IllegalArgumentException naming the parameter and its distribution
   */
  void requirePossible(Measurement asked, Tolerances tolerances) {
    tolerances.concerning(asked).requirePossible(asked);
    for (Factor factor : factors) {
      for (Alternative alternative : factor.alternatives) {
        Measurement changed;
        try {
          changed = asked.withSetup(alternative.applied(asked.signal(), asked.setup()));
        } catch (IllegalArgumentException cannotBeHadAlone) {
          continue;
        }
        tolerances.concerning(changed).requirePossible(changed);
      }
    }
  }

  List<Factor> factors() {
    return factors;
  }

  List<Restriction> restrictions() {
    return restrictions;
  }

  @Override
  public String toString() {
    return factors.isEmpty()
        ? "no choices"
        : factors.stream()
            .map(
                f ->
                    f.name
                        + ": "
                        + f.alternatives.stream()
                            .map(Alternative::words)
                            .collect(Collectors.joining(", ")))
            .collect(Collectors.joining("; "));
  }
}
