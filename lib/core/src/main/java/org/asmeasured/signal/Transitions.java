package org.asmeasured.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;

/**
 * The transitions of a signal between its levels, and what the signal changes by if they are
 * displaced in time.
 *
 * <p>A transition leads from one level, held for some time, to another: at once (a jump) or along a
 * straight edge, both ends of which are displaced together. A {@link Pattern} of a signal must
 * consist of nothing else; {@link Tones} beside it, of which only a constant is usual, stay as they
 * are. Transition {@code n} of a pattern is counted from its origin, 0 the first from there on; of
 * a pattern that repeats the numbers go on both ways.
 *
 * <p>Displaced less undisturbed is a finite pulse for each transition: of the height of a jump, or
 * of the slope of an edge at either end. Immutable and safe for use by many threads.
 */
public final class Transitions {
  /** The most transitions that are displaced at a time. */
  public static final int MAX_COUNT = 1 << 18;

  private static final double ROUNDING = 1e-12;

  private final List<Part> parts;

  /** By how much a transition is late. */
  @FunctionalInterface
  public interface Displacement {
    /**
     * By how much a transition is late.
     *
     * @param part which pattern of the signal, from 0 on
     * @param number of the transition in it, either sign
     * @return seconds, finite; negative = early
     */
    double seconds(int part, long number);
  }

  /** A transition within a pattern: where it starts, how long it lasts, by how much it leads. */
  private record Edge(double hi, double lo, double length, double step, double slope) {}

  /** A pattern with its transitions in one period, or all of them. */
  private record Part(Pattern pattern, List<Edge> edges) {}

  /** A transition at its place, and by how much it is displaced. */
  private record Pulse(ExtendedTime at, double displaced, Edge edge) {
    ExtendedTime cut(int which) {
      ExtendedTime t = new ExtendedTime().set(at.hi(), at.lo());
      return switch (which) {
        case 0 -> t;
        case 1 -> t.add(displaced);
        case 2 -> t.add(edge.length);
        default -> t.add(displaced).add(edge.length);
      };
    }

    double firstSeconds() {
      return Math.min(0, displaced);
    }

    double lastSeconds() {
      return edge.length + Math.max(0, displaced);
    }
  }

  private Transitions(List<Part> parts) {
    this.parts = parts;
  }

  /**
   * Finds the transitions of a signal.
   *
   * @param signal made of levels with jumps or straight edges between them
   * @return its transitions, at least one
   * @throws IllegalArgumentException if the signal has a part that is not made of levels and
   *     transitions between them, or no transition at all; the message says which
   * @throws NullPointerException if the signal is missing
   */
  public static Transitions of(Signal signal) {
    Require.present("signal", signal);
    List<Part> parts = new ArrayList<>();
    for (Component c : signal.components()) {
      if (c instanceof Pattern pattern) {
        List<Edge> edges = edges(signal, pattern);
        if (!edges.isEmpty()) {
          parts.add(new Part(pattern, edges));
        }
      }
    }
    Require.that(
        !parts.isEmpty(),
        "signal = " + signal + ": has no transition between two levels that could be displaced");
    return new Transitions(List.copyOf(parts));
  }

  private static List<Edge> edges(Signal signal, Pattern p) {
    int n = p.count();
    List<Edge> edges = new ArrayList<>();
    double rounding = ROUNDING * Math.min(p.bound(), Double.MAX_VALUE);
    for (int i = 0; i < n; i++) {
      Require.that(
          p.termFrom(i) == p.termFrom(i + 1),
          "signal = " + signal + ": has exponentials or sines where levels are asked for");
      boolean first = i == 0;
      int before = first ? n - 1 : i - 1;
      boolean rest = first && !p.isPeriodic();
      if (p.slope(i) == 0) {
        double from = rest ? 0 : p.level(before);
        if ((rest || p.slope(before) == 0) && Math.abs(p.level(i) - from) > rounding) {
          edges.add(new Edge(p.startHi(i), p.startLo(i), 0, p.level(i) - from, 0));
        }
        continue;
      }
      int after = i + 1 < n ? i + 1 : 0;
      Require.that(
          (i + 1 < n || p.isPeriodic())
              && p.slope(after) == 0
              && (rest || p.slope(before) == 0)
              && (n > 2 || !p.isPeriodic()),
          "signal = " + signal + ": has a slope that does not lead from one level to another");
      double from = rest ? 0 : p.level(before);
      double length = p.length(i);
      Require.that(
          Math.abs(p.level(i) - from) <= rounding
              && Math.abs(p.level(i) + p.slope(i) * length - p.level(after)) <= rounding,
          "signal = " + signal + ": has a jump at an end of a slope");
      edges.add(new Edge(p.startHi(i), p.startLo(i), length, p.level(after) - from, p.slope(i)));
    }
    return List.copyOf(edges);
  }

  /**
   * The shortest time between the end of a transition and the start of the next of the same
   * pattern.
   *
   * @return seconds; infinite if there is but one
   */
  public double shortestGapSeconds() {
    double shortest = Double.POSITIVE_INFINITY;
    for (Part part : parts) {
      List<Edge> edges = part.edges;
      for (int i = 0; i < edges.size(); i++) {
        Edge e = edges.get(i);
        boolean last = i + 1 == edges.size();
        if (last && !part.pattern.isPeriodic()) {
          continue;
        }
        Edge next = edges.get(last ? 0 : i + 1);
        double apart = (next.hi - e.hi) + (next.lo - e.lo);
        apart += last ? part.pattern.periodSeconds() : 0;
        shortest = Math.min(shortest, apart - e.length);
      }
    }
    return shortest;
  }

  /**
   * The longest transition.
   *
   * @return seconds; 0 if all are jumps
   */
  public double longestSeconds() {
    double longest = 0;
    for (Part part : parts) {
      for (Edge e : part.edges) {
        longest = Math.max(longest, e.length);
      }
    }
    return longest;
  }

  /**
   * How many transitions there are in a second: of patterns that repeat their mean; of one that is
   * played once, as if it went on at its shortest distance.
   *
   * @return Hz, 0 if there is but one
   */
  public double perSecond() {
    double sum = 0;
    for (Part part : parts) {
      List<Edge> edges = part.edges;
      if (part.pattern.isPeriodic()) {
        sum += edges.size() / part.pattern.periodSeconds();
        continue;
      }
      double shortest = Double.POSITIVE_INFINITY;
      for (int i = 0; i + 1 < edges.size(); i++) {
        Edge a = edges.get(i);
        Edge b = edges.get(i + 1);
        shortest = Math.min(shortest, (b.hi - a.hi) + (b.lo - a.lo));
      }
      sum += 1 / shortest;
    }
    return sum;
  }

  /**
   * The displacement of the transition that is nearest to an instant.
   *
   * @param seconds the instant, -1e12 to 1e12 s
   * @param displacement by how much each is late; asked for the nearest alone
   * @return seconds
   * @throws IllegalArgumentException if the instant is out of range
   * @throws NullPointerException if the displacement is missing
   */
  public double nearest(double seconds, Displacement displacement) {
    Require.instant("seconds", seconds);
    Require.present("displacement", displacement);
    double least = Double.POSITIVE_INFINITY;
    int nearestPart = 0;
    long nearest = 0;
    for (int i = 0; i < parts.size(); i++) {
      Pattern p = parts.get(i).pattern;
      List<Edge> edges = parts.get(i).edges;
      boolean repeats = p.isPeriodic();
      double middle = repeats ? Math.floor((seconds - p.originHi()) / p.periodSeconds()) : 0;
      for (int c = repeats ? -1 : 0; c <= (repeats ? 1 : 0); c++) {
        for (int j = 0; j < edges.size(); j++) {
          double since = seconds(at(p, middle + c, edges.get(j)).add(-seconds));
          double away = Math.max(since, -since - edges.get(j).length);
          if (away < least) {
            least = away;
            nearestPart = i;
            nearest = (long) (middle + c) * edges.size() + j;
          }
        }
      }
    }
    return displacement.seconds(nearestPart, nearest);
  }

  private static double seconds(ExtendedTime t) {
    return t.hi() + t.lo();
  }

  private static ExtendedTime at(Pattern p, double cycle, Edge e) {
    ExtendedTime t = new ExtendedTime().set(p.originHi(), p.originLo());
    if (cycle != 0) {
      t.addProduct(cycle, p.periodSeconds()).addProduct(cycle, p.periodLo());
    }
    return t.add(e.hi, e.lo);
  }

  /**
   * What the signal changes by if those of its transitions that start within a span, undisturbed,
   * are displaced: a signal that begins from rest and comes back to zero.
   *
   * @param fromSeconds start of the span
   * @param toSeconds end of the span, after its start
   * @param displacement by how much each is late; asked once for each
   * @return displaced less undisturbed
   * @throws IllegalArgumentException if the span is out of range or more than 2^18 transitions
   *     start in it
   * @throws NullPointerException if the displacement is missing
   */
  public Signal change(double fromSeconds, double toSeconds, Displacement displacement) {
    Require.span(fromSeconds, toSeconds);
    Require.present("displacement", displacement);
    List<Pulse> pulses = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      collect(i, fromSeconds, toSeconds, displacement, pulses);
    }
    return pulses.isEmpty() ? Signals.constant(0) : sum(pulses);
  }

  private void collect(
      int index, double from, double to, Displacement displacement, List<Pulse> into) {
    Part part = parts.get(index);
    Pattern p = part.pattern;
    int m = part.edges.size();
    double firstCycle = 0;
    double lastCycle = 0;
    if (p.isPeriodic()) {
      firstCycle = Math.floor((from - p.originHi()) / p.periodSeconds()) - 1;
      lastCycle = Math.ceil((to - p.originHi()) / p.periodSeconds()) + 1;
      Require.that(
          (lastCycle - firstCycle) * m <= MAX_COUNT,
          "from "
              + from
              + " s to "
              + to
              + " s: more than "
              + MAX_COUNT
              + " transitions would have to be displaced");
    }
    for (double cycle = firstCycle; cycle <= lastCycle; cycle++) {
      for (int j = 0; j < m; j++) {
        Edge e = part.edges.get(j);
        ExtendedTime t = at(p, cycle, e);
        if (t.hi() < from || t.hi() >= to) {
          continue;
        }
        double d = displacement.seconds(index, (long) cycle * m + j);
        if (d != 0) {
          into.add(new Pulse(t, Require.instant("displacement", d), e));
        }
      }
    }
  }

  private static Signal sum(List<Pulse> pulses) {
    pulses.sort(Comparator.comparingDouble(p -> p.at.hi() + p.firstSeconds()));
    List<ExtendedTime> all = new ArrayList<>();
    for (Pulse p : pulses) {
      int ends = p.edge.length == 0 ? 2 : 4;
      for (int i = 0; i < ends; i++) {
        all.add(p.cut(i));
      }
    }
    ExtendedTime[] cuts = all.toArray(ExtendedTime[]::new);
    Arrays.sort(
        cuts, Comparator.comparingDouble(ExtendedTime::hi).thenComparingDouble(ExtendedTime::lo));
    int n = 0;
    for (ExtendedTime cut : cuts) {
      if (n == 0 || seconds(cut, cuts[n - 1]) > 0) {
        cuts[n++] = cut;
      }
    }
    ExtendedTime origin = cuts[0];
    Pattern.Builder builder = new Pattern.Builder();
    List<Pulse> alive = new ArrayList<>();
    int next = 0;
    for (int i = 0; i < n; i++) {
      ExtendedTime cut = cuts[i];
      // which side of its ends a piece is on is decided in its middle, clear of rounding
      double half = i + 1 < n ? seconds(cuts[i + 1], cut) / 2 : 0;
      while (next < pulses.size() && begins(pulses.get(next), cut, half)) {
        alive.add(pulses.get(next++));
      }
      alive.removeIf(p -> seconds(cut, p.at) + half >= p.lastSeconds());
      double level = 0;
      double slope = 0;
      if (i + 1 < n) {
        for (Pulse p : alive) {
          double since = seconds(cut, p.at);
          level += at(p.edge, since - p.displaced, half) - at(p.edge, since, half);
          slope += slope(p.edge, since - p.displaced + half) - slope(p.edge, since + half);
        }
      }
      ExtendedTime start =
          new ExtendedTime().set(cut.hi(), cut.lo()).add(-origin.hi(), -origin.lo());
      builder.add(start.hi(), start.lo(), level, slope);
    }
    return Signal.of(builder.once(origin.hi(), origin.lo()), "displaced transitions");
  }

  private static boolean begins(Pulse p, ExtendedTime cut, double half) {
    return seconds(cut, p.at) + half > p.firstSeconds();
  }

  /** The level at the start of a piece of which the middle lies {@code half} later. */
  private static double at(Edge e, double since, double half) {
    double middle = since + half;
    return middle <= 0 ? 0 : middle >= e.length ? e.step : e.slope * since;
  }

  private static double slope(Edge e, double middle) {
    return middle <= 0 || middle >= e.length ? 0 : e.slope;
  }

  private static double seconds(ExtendedTime a, ExtendedTime b) {
    return (a.hi() - b.hi()) + (a.lo() - b.lo());
  }
}
