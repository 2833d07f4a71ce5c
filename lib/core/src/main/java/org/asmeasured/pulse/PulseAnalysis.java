package org.asmeasured.pulse;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Spans;
import org.asmeasured.measure.Statistics;
import org.asmeasured.signal.Waveform;

/**
 * The pulses of a record, or of a waveform in closed form: state levels, every transition, every
 * pulse and cycle. Instants count from {@link #originSeconds}. Immutable; the definitions stand at
 * the head of this package.
 */
public final class PulseAnalysis {
  private final PulseMethod method;
  private final double originSeconds;
  private final Trace trace;
  private final NotTaken nothing;
  private final Optional<Measured> clippedLow;
  private final Optional<Measured> clippedHigh;
  private final States states;
  private final double low;
  private final double mid;
  private final double high;
  private final Edges edges;

  private PulseAnalysis(
      PulseMethod method,
      double originSeconds,
      Trace trace,
      States states,
      NotTaken nothing,
      Optional<Measured> clippedLow,
      Optional<Measured> clippedHigh) {
    this.method = method;
    this.originSeconds = originSeconds;
    this.trace = trace;
    this.states = states;
    this.clippedLow = clippedLow;
    this.clippedHigh = clippedHigh;
    if (nothing != null) {
      this.nothing = nothing;
      low = 0;
      mid = 0;
      high = 0;
      edges = null;
      return;
    }
    if (states.amplitudeVolts() == 0) {
      this.nothing = new NotTaken("all values are equal: there is no transition");
      low = 0;
      mid = 0;
      high = 0;
      edges = null;
      return;
    }
    this.nothing = null;
    low = method.references().lowVolts(states);
    mid = method.references().midVolts(states);
    high = method.references().highVolts(states);
    double reach = reach(mid);
    edges = new Edges(trace, Math.min(Math.nextDown(mid), mid - reach), mid + reach);
  }

  /** The hysteresis about a level, at most half of the way to the nearer state. */
  private double reach(double level) {
    double way = Math.min(level - states.lowVolts(), states.highVolts() - level);
    double asked = method.hysteresisPercent() / 100 * states.amplitudeVolts();
    return Math.max(0, Math.min(asked, way / 2));
  }

  /**
   * Analyses a record by the standard method.
   *
   * @param record the record
   * @return its pulses
   * @throws NullPointerException if it is missing
   */
  public static PulseAnalysis of(Record record) {
    return of(record, PulseMethod.standard());
  }

  /**
   * Analyses a record. Of an empty record or an envelope there is nothing to say, and every figure
   * is not taken.
   *
   * @param record the record
   * @param method how
   * @return its pulses
   * @throws NullPointerException if one is missing
   */
  public static PulseAnalysis of(Record record, PulseMethod method) {
    Require.present("method", method);
    Optional<Measured> spoilt = Spans.spoilt("pulse reading", record);
    if (spoilt.isPresent()) {
      NotTaken reason = (NotTaken) spoilt.get();
      return new PulseAnalysis(
          method, record.startSeconds(), null, null, reason, Optional.empty(), Optional.empty());
    }
    return new PulseAnalysis(
        method,
        record.timeSeconds(0),
        new RecordTrace(record),
        method.levels().of(record),
        null,
        Spans.clipped(record, true, false),
        Spans.clipped(record, false, true));
  }

  /**
   * Analyses a waveform by the standard method.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @return its pulses
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   * @throws NullPointerException if the waveform is missing
   */
  public static PulseAnalysis of(Waveform truth, double fromSeconds, double toSeconds) {
    return of(truth, fromSeconds, toSeconds, PulseMethod.standard());
  }

  /**
   * Analyses a waveform in closed form: crossings are bracketed roots, extremes are turning points,
   * levels follow from the time spent between two of them.
   *
   * @param truth the waveform
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @param method how
   * @return its pulses
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   * @throws NullPointerException if one is missing
   */
  public static PulseAnalysis of(
      Waveform truth, double fromSeconds, double toSeconds, PulseMethod method) {
    Require.present("truth", truth);
    Require.span(fromSeconds, toSeconds);
    Require.present("method", method);
    return new PulseAnalysis(
        method,
        fromSeconds,
        new WaveformTrace(truth, fromSeconds, toSeconds),
        method.levels().of(truth, fromSeconds, toSeconds),
        null,
        Optional.empty(),
        Optional.empty());
  }

  /**
   * How it was analysed.
   *
   * @return the method
   */
  public PulseMethod method() {
    return method;
  }

  /**
   * Where instants are counted from: the first point of a record, the start of the span of a
   * waveform.
   *
   * @return seconds
   */
  public double originSeconds() {
    return originSeconds;
  }

  /**
   * The state levels, of a clipped record as they are.
   *
   * @return the levels; empty of an envelope and of a record without points
   */
  public Optional<States> states() {
    return Optional.ofNullable(states);
  }

  /**
   * The low, middle and high reference level.
   *
   * @return three levels in volts; none where there are no two states
   */
  public double[] referenceVolts() {
    return nothing == null ? new double[] {low, mid, high} : new double[0];
  }

  /**
   * Every transition, whole or not, in order of time; rising and falling ones take turns.
   *
   * @return unmodifiable
   */
  public List<Transition> transitions() {
    List<Transition> all = new ArrayList<>();
    for (int e = 0; e < count(); e++) {
      all.add(transition(e));
    }
    return List.copyOf(all);
  }

  /**
   * Every whole cycle, in order of time. They begin with the polarity of which there are more
   * transitions, of equally many with rising ones.
   *
   * @return unmodifiable
   */
  public List<Cycle> cycles() {
    List<Cycle> all = new ArrayList<>();
    for (int e = firstOfCycles(); e + 2 < count(); e += 2) {
      all.add(cycle(e));
    }
    return List.copyOf(all);
  }

  /**
   * Every figure for a quantity: for each transition of its polarity, each pulse or each whole
   * cycle; one for a level or for all whole cycles together.
   *
   * @param quantity the quantity
   * @return in order of time, unmodifiable; a single reason where there are no two states or the
   *     record is clipped where it matters
   * @throws NullPointerException if it is missing
   */
  public List<Measured> all(PulseQuantity quantity) {
    Require.present("quantity", quantity);
    Optional<Measured> spoilt = spoilt(quantity);
    if (spoilt.isPresent()) {
      return List.of(spoilt.get());
    }
    List<Measured> all = new ArrayList<>();
    switch (quantity.of()) {
      case LEVELS:
        all.add(level(quantity));
        break;
      case RISING:
      case FALLING:
        for (int e = 0; e < count(); e++) {
          if (edges.rises(e) == (quantity.of() == PulseQuantity.Of.RISING)) {
            all.add(ofTransition(quantity, e));
          }
        }
        break;
      case POSITIVE:
      case NEGATIVE:
        for (int e = 0; e + 1 < count(); e++) {
          if (edges.rises(e) == (quantity.of() == PulseQuantity.Of.POSITIVE)) {
            all.add(ofPulse(quantity, e));
          }
        }
        break;
      case CYCLES:
        for (Cycle cycle : cycles()) {
          all.add(ofCycle(quantity, cycle));
        }
        break;
      default:
        wholeCycles(quantity).ifPresent(all::add);
    }
    return List.copyOf(all);
  }

  /**
   * The statistics of a quantity over the record.
   *
   * @param quantity the quantity
   * @return count, mean, standard deviation and extremes of all figures that could be taken
   * @throws NullPointerException if it is missing
   */
  public Statistics statistics(PulseQuantity quantity) {
    return Statistics.of(all(quantity));
  }

  /**
   * One figure for a quantity. The frequency by its mean is one over the mean period.
   *
   * @param quantity the quantity
   * @param summary which one
   * @return the figure, or the reason why there is none
   * @throws NullPointerException if one is missing
   */
  public Measured value(PulseQuantity quantity, Summary summary) {
    Require.present("quantity", quantity);
    Require.present("summary", summary);
    Optional<Measured> spoilt = spoilt(quantity);
    if (spoilt.isPresent()) {
      return spoilt.get();
    }
    if (summary == Summary.FIRST) {
      return first(quantity);
    }
    if (summary == Summary.MEAN
        && (quantity == PulseQuantity.PERIOD || quantity == PulseQuantity.FREQUENCY)) {
      return meanPeriod(quantity);
    }
    List<Measured> all = all(quantity);
    if (all.isEmpty()) {
      return none(quantity);
    }
    Statistics statistics = Statistics.of(all);
    switch (summary) {
      case MEAN:
        return statistics.mean();
      case STANDARD_DEVIATION:
        return statistics.standardDeviation();
      case MINIMUM:
        return statistics.minimum();
      default:
        return statistics.maximum();
    }
  }

  private Measured first(PulseQuantity quantity) {
    Measured reason = null;
    if (quantity.of() == PulseQuantity.Of.RISING || quantity.of() == PulseQuantity.Of.FALLING) {
      for (int e = 0; e < count(); e++) {
        if (edges.rises(e) == (quantity.of() == PulseQuantity.Of.RISING)) {
          Measured one = ofTransition(quantity, e);
          if (one.isTaken()) {
            return one;
          }
          reason = reason == null ? one : reason;
        }
      }
    } else {
      for (Measured one : all(quantity)) {
        if (one.isTaken()) {
          return one;
        }
        reason = reason == null ? one : reason;
      }
    }
    return reason == null ? none(quantity) : reason;
  }

  /** The ends of all whole cycles; those between them need not be looked at. */
  private Measured meanPeriod(PulseQuantity quantity) {
    int first = firstOfCycles();
    int cycles = (count() - 1 - first) / 2;
    if (cycles < 1) {
      return none(quantity);
    }
    double period = (midInstant(first + 2 * cycles) - midInstant(first)) / cycles;
    return quantity == PulseQuantity.PERIOD ? positive(period, false) : positive(period, true);
  }

  private static Measured positive(double period, boolean inverse) {
    if (!(period > 0)) {
      return new NotTaken("a cycle takes no time that can be told");
    }
    return new Value(inverse ? 1 / period : period);
  }

  // Reasons.

  private Optional<Measured> spoilt(PulseQuantity quantity) {
    boolean isLevel = quantity.of() == PulseQuantity.Of.LEVELS;
    if (nothing != null) {
      if (isLevel && states != null && quantity != PulseQuantity.AMPLITUDE) {
        return clipped(quantity);
      }
      return Optional.of(nothing);
    }
    return clipped(quantity);
  }

  private Optional<Measured> clipped(PulseQuantity quantity) {
    boolean given = method.levels().areGiven();
    switch (quantity) {
      case PERIOD:
      case FREQUENCY:
      case CYCLE_MEAN:
      case CYCLE_RMS:
      case CYCLE_AC_RMS:
        // whole cycles are as long at any level, and sums are those of the record as it is
        return Optional.empty();
      case LOW_LEVEL:
        return given ? Optional.empty() : clippedLow;
      case HIGH_LEVEL:
        return given ? Optional.empty() : clippedHigh;
      case AMPLITUDE:
      case RISE_TIME:
      case FALL_TIME:
      case POSITIVE_DURATION:
      case NEGATIVE_DURATION:
      case DUTY_FACTOR:
        return given ? Optional.empty() : clippedLow.or(() -> clippedHigh);
      default:
        return clippedLow.or(() -> clippedHigh);
    }
  }

  private Measured none(PulseQuantity quantity) {
    String range = " of " + Quantity.of(mid, "V");
    switch (quantity.of()) {
      case RISING:
        return new NotTaken("no rising crossing" + range + ": there is no such transition");
      case FALLING:
        return new NotTaken("no falling crossing" + range + ": there is no such transition");
      case POSITIVE:
      case NEGATIVE:
        return new NotTaken(crossings() + range + ": no whole pulse in the span");
      default:
        return new NotTaken(crossings() + range + ": no whole cycle in the span");
    }
  }

  private String crossings() {
    return count() == 0 ? "no crossing" : count() == 1 ? "only one crossing" : "only two crossings";
  }

  // Levels.

  private Measured level(PulseQuantity quantity) {
    switch (quantity) {
      case LOW_LEVEL:
        return new Value(states.lowVolts());
      case HIGH_LEVEL:
        return new Value(states.highVolts());
      default:
        return new Value(states.amplitudeVolts());
    }
  }

  // Instants.

  private int count() {
    return edges == null ? 0 : edges.count();
  }

  private double midInstant(int edge) {
    return instant(mid, edges.before(edge), edges.after(edge), edges.rises(edge));
  }

  /**
   * When a level is passed between two nodes on either side of it. Where noise crosses it to and
   * fro, up less down crossings: then the time spent below the level, up to the last of them, stays
   * what it was, which noise of equal tails changes by nothing in the mean.
   */
  private double instant(double level, int from, int to, boolean rises) {
    double base = 0;
    double sum = 0;
    boolean any = false;
    for (int i = from; i < to; i++) {
      boolean below = trace.volts(i) < level;
      if (below != trace.volts(i + 1) < level) {
        double at = trace.crossing(i, level);
        base = any ? base : at;
        any = true;
        sum += below == rises ? at - base : base - at;
      }
    }
    return base + sum;
  }

  private Transition transition(int edge) {
    boolean rises = edges.rises(edge);
    Measured first = instantBefore(edge);
    Measured second = instantAfter(edge);
    Measured duration = duration(edge, first, second);
    return rises
        ? new Transition(true, first, midInstant(edge), second, duration)
        : new Transition(false, second, midInstant(edge), first, duration);
  }

  /** When the reference level on the side it comes from is passed. */
  private Measured instantBefore(int edge) {
    boolean rises = edges.rises(edge);
    double level = rises ? low : high;
    int[] nodes = nodesBefore(edge);
    if (nodes == null) {
      return new NotTaken(
          "the transition does not come from "
              + (rises ? "below " : "above ")
              + Quantity.of(level, "V")
              + ": it is not whole");
    }
    return new Value(instant(level, nodes[0], nodes[1], rises));
  }

  /** The last node before the middle instant on the near side of a level, and the first beyond. */
  private int[] nodesBefore(int edge) {
    boolean rises = edges.rises(edge);
    double level = rises ? low : high;
    int stop = edge == 0 ? 0 : edges.before(edge - 1) + 1;
    int to = edges.after(edge);
    double reach = reach(level);
    int i = lastBefore(stop, to, level, rises, reach);
    if (i < stop && reach > 0) {
      reach = 0;
      i = lastBefore(stop, to, level, rises, reach);
    }
    if (i < stop) {
      return null;
    }
    int k = i + 1;
    while (k < to && !isBeyond(trace.volts(k), level, rises, reach)) {
      k++;
    }
    return new int[] {i, k};
  }

  private int lastBefore(int stop, int to, double level, boolean rises, double reach) {
    int i = to - 1;
    while (i >= stop && !isBefore(trace.volts(i), level, rises, reach)) {
      i--;
    }
    return i;
  }

  private static boolean isBefore(double value, double level, boolean rises, double reach) {
    return reach > 0 ? (rises ? level - value : value - level) >= reach : rises == (value < level);
  }

  private static boolean isBeyond(double value, double level, boolean rises, double reach) {
    return reach > 0 ? (rises ? value - level : level - value) >= reach : rises == (value >= level);
  }

  private Measured instantAfter(int edge) {
    boolean rises = edges.rises(edge);
    double level = rises ? high : low;
    int[] nodes = nodesAfter(edge);
    if (nodes == null) {
      return new NotTaken(
          "the transition does not reach " + Quantity.of(level, "V") + ": it is not whole");
    }
    return new Value(instant(level, nodes[0], nodes[1], rises));
  }

  /**
   * The first node after the middle instant beyond a level, and the last before on its near side.
   */
  private int[] nodesAfter(int edge) {
    boolean rises = edges.rises(edge);
    double level = rises ? high : low;
    int stop = edge + 1 < count() ? edges.after(edge + 1) - 1 : trace.size() - 1;
    int from = edges.before(edge);
    double reach = reach(level);
    int i = firstBeyond(from, stop, level, rises, reach);
    if (i > stop && reach > 0) {
      reach = 0;
      i = firstBeyond(from, stop, level, rises, reach);
    }
    if (i > stop) {
      return null;
    }
    int k = i - 1;
    while (k > from && !isBefore(trace.volts(k), level, rises, reach)) {
      k--;
    }
    return new int[] {k, i};
  }

  private int firstBeyond(int from, int stop, double level, boolean rises, double reach) {
    int i = from + 1;
    while (i <= stop && !isBeyond(trace.volts(i), level, rises, reach)) {
      i++;
    }
    return i;
  }

  private Measured duration(int edge, Measured first, Measured second) {
    if (!(first instanceof Value begin)) {
      return first;
    }
    if (!(second instanceof Value end)) {
      return second;
    }
    if (trace.isSampled() && withoutPoint(begin.value(), end.value())) {
      return new NotTaken(
          "the edge lies between two neighbouring points: it takes less than "
              + Quantity.of(trace.seconds(1), "s")
              + ", and no more can be said");
    }
    return new Value(Math.max(0, end.value() - begin.value()));
  }

  /** Whether no point stands between the two reference levels. */
  private boolean withoutPoint(double begin, double end) {
    double interval = trace.seconds(1);
    return Math.ceil(begin / interval - 1e-9) > Math.floor(end / interval + 1e-9);
  }

  // Transitions.

  private Measured ofTransition(PulseQuantity quantity, int edge) {
    Measured first = instantBefore(edge);
    Measured second = instantAfter(edge);
    Measured duration = duration(edge, first, second);
    if (!(duration instanceof Value length)) {
      return duration;
    }
    double begin = ((Value) first).value();
    double end = ((Value) second).value();
    double region = method.regionDurations() * length.value();
    int sign = edges.rises(edge) ? 1 : -1;
    switch (quantity) {
      case RISE_TIME:
      case FALL_TIME:
        return duration;
      case OVERSHOOT_RISING:
      case OVERSHOOT_FALLING:
        return aberration(end, regionEnd(edge, end, region), sign, entered(edge));
      case UNDERSHOOT_RISING:
      case UNDERSHOOT_FALLING:
        return undershoot(edge, end, regionEnd(edge, end, region), sign);
      case PRESHOOT_RISING:
      case PRESHOOT_FALLING:
        return aberration(regionStart(edge, begin, region), begin, -sign, left(edge));
      case SETTLING_RISING:
      case SETTLING_FALLING:
        return settling(edge);
      default:
        return settlingError(edge, length.value());
    }
  }

  private double entered(int edge) {
    return edges.rises(edge) ? states.highVolts() : states.lowVolts();
  }

  private double left(int edge) {
    return edges.rises(edge) ? states.lowVolts() : states.highVolts();
  }

  /** Not beyond the next transition, nor beyond the end. */
  private double regionEnd(int edge, double end, double region) {
    double limit = trace.endSeconds();
    if (edge + 1 < count()) {
      limit = instantBefore(edge + 1) instanceof Value next ? next.value() : midInstant(edge + 1);
    }
    return Math.max(end, Math.min(limit, end + region));
  }

  private double regionStart(int edge, double begin, double region) {
    double limit = 0;
    if (edge > 0) {
      limit = instantAfter(edge - 1) instanceof Value past ? past.value() : midInstant(edge - 1);
    }
    return Math.min(begin, Math.max(limit, begin - region));
  }

  private Measured aberration(double from, double to, int sign, double level) {
    double beyond = trace.extreme(from, to, sign) - sign * level;
    return percent(Math.max(0, beyond));
  }

  private Measured percent(double volts) {
    return new Value(100 * volts / states.amplitudeVolts());
  }

  /** Counted once the state has been reached; until then the value is on its way. */
  private Measured undershoot(int edge, double from, double to, int sign) {
    double level = entered(edge);
    int i = trace.nodeAt(from);
    int last = trace.nodeAt(to);
    while (i <= last && sign * (trace.volts(i) - level) < 0) {
      i++;
    }
    if (i > last) {
      return percent(0);
    }
    double reached = Math.max(from, Math.min(to, trace.seconds(i)));
    return percent(Math.max(0, trace.extreme(reached, to, -sign) + sign * level));
  }

  /**
   * Up to where the value can be expected to rest in its state: one duration of the next transition
   * ahead of where that passes its first reference level.
   */
  private double restEnd(int edge) {
    if (edge + 1 >= count()) {
      return trace.endSeconds();
    }
    if (!(instantBefore(edge + 1) instanceof Value next)) {
      return midInstant(edge + 1);
    }
    double duration = instantAfter(edge + 1) instanceof Value end ? end.value() - next.value() : 0;
    return next.value() - Math.max(0, duration);
  }

  private Measured settling(int edge) {
    double level = entered(edge);
    double band = method.settlingPercent() / 100 * states.amplitudeVolts();
    double from = midInstant(edge);
    double to = restEnd(edge);
    String within = " within " + Quantity.of(method.settlingPercent(), "%") + " of its state";
    if (!(to > from) || Math.abs(trace.valueAt(to) - level) > band) {
      return new NotTaken("the value does not stay" + within + " up to the next transition or end");
    }
    int i = trace.nodeAt(to);
    while (i >= 0 && Math.abs(trace.volts(i) - level) <= band) {
      i--;
    }
    if (i < 0 || i + 1 >= trace.size()) {
      return new NotTaken("the value never comes" + within);
    }
    double edgeOfBand = trace.volts(i) > level ? level + band : level - band;
    double at = trace.crossing(i, edgeOfBand);
    return at >= from
        ? new Value(at - from)
        : new NotTaken("the value is" + within + " before the transition is half over");
  }

  private Measured settlingError(int edge, double duration) {
    double level = entered(edge);
    double from = midInstant(edge) + method.settlingDelayDurations() * duration;
    double to = restEnd(edge);
    if (!(to >= from)) {
      return new NotTaken(
          "the next transition, or the end, comes within the delay of "
              + Quantity.of(method.settlingDelayDurations() * duration, "s"));
    }
    double above = trace.extreme(from, to, 1) - level;
    double below = trace.extreme(from, to, -1) + level;
    return percent(Math.max(0, Math.max(above, below)));
  }

  // Pulses and cycles.

  private Measured ofPulse(PulseQuantity quantity, int edge) {
    if (quantity == PulseQuantity.POSITIVE_DURATION
        || quantity == PulseQuantity.NEGATIVE_DURATION) {
      return new Value(Math.max(0, midInstant(edge + 1) - midInstant(edge)));
    }
    Measured begin = instantAfter(edge);
    Measured end = instantBefore(edge + 1);
    if (!(begin instanceof Value from)) {
      return begin;
    }
    if (!(end instanceof Value to)) {
      return end;
    }
    double length = to.value() - from.value();
    double margin = (1 - method.flatPercent() / 100) / 2 * length;
    double slope = trace.slope(from.value() + margin, to.value() - margin);
    if (!(length > 0) || Double.isNaN(slope)) {
      return new NotTaken("fewer than two points on the flat part of the pulse");
    }
    int sign = edges.rises(edge) ? -1 : 1;
    double change = sign * slope * (midInstant(edge + 1) - midInstant(edge));
    return new Value(100 * change / states.amplitudeVolts());
  }

  private int firstOfCycles() {
    // of an odd number of transitions, the first polarity has one more
    boolean firstMore = count() % 2 == 1;
    return firstMore || count() > 0 && edges.rises(0) ? 0 : 1;
  }

  private Cycle cycle(int edge) {
    double a = midInstant(edge);
    double b = midInstant(edge + 1);
    double c = midInstant(edge + 2);
    return edges.rises(edge) ? new Cycle(true, a, b - a, c - b) : new Cycle(false, a, c - b, b - a);
  }

  private static Measured ofCycle(PulseQuantity quantity, Cycle cycle) {
    switch (quantity) {
      case PERIOD:
        return positive(cycle.periodSeconds(), false);
      case FREQUENCY:
        return positive(cycle.periodSeconds(), true);
      default:
        return cycle.periodSeconds() > 0
            ? new Value(cycle.dutyFactorPercent())
            : positive(0, false);
    }
  }

  private Optional<Measured> wholeCycles(PulseQuantity quantity) {
    int first = firstOfCycles();
    int cycles = (count() - 1 - first) / 2;
    if (cycles < 1) {
      return Optional.empty();
    }
    double from = midInstant(first);
    double to = midInstant(first + 2 * cycles);
    if (!(to > from)) {
      return Optional.of(positive(0, false));
    }
    switch (quantity) {
      case CYCLE_MEAN:
        return Optional.of(new Value(trace.mean(from, to)));
      case CYCLE_RMS:
        return Optional.of(new Value(trace.rms(from, to)));
      default:
        return Optional.of(new Value(trace.acRms(from, to)));
    }
  }

  @Override
  public String toString() {
    return nothing != null
        ? nothing.toString()
        : "states " + states + ", " + count() + (count() == 1 ? " transition" : " transitions");
  }
}
