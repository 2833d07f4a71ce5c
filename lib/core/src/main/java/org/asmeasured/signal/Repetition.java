package org.asmeasured.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;

/**
 * Folds a pattern that is played once into one period: the sum of its copies, the endless tail as a
 * geometric series.
 */
final class Repetition {
  private static final int MAX_SEGMENTS = 1 << 20;

  /**
   * A level or slope of the last segment below this share of the signal is what cancelling has left
   * over.
   */
  private static final double LEFT_OVER = 1e-14;

  private static final Comparator<ExtendedTime> BY_TIME =
      Comparator.comparingDouble(ExtendedTime::hi).thenComparingDouble(ExtendedTime::lo);

  private Repetition() {}

  /**
   * The sum of patterns that are played once, as one: parts that do not die away alone may do so
   * together.
   */
  static Pattern merged(List<Pattern> patterns) {
    List<ExtendedTime> cuts = new ArrayList<>();
    for (Pattern p : patterns) {
      for (int i = 0; i < p.count(); i++) {
        cuts.add(
            new ExtendedTime().set(p.originHi(), p.originLo()).add(p.startHi(i), p.startLo(i)));
      }
    }
    cuts.sort(BY_TIME);
    ExtendedTime origin = cuts.get(0);
    double bound = patterns.stream().mapToDouble(Pattern::bound).filter(Double::isFinite).sum();
    Pattern.Builder builder = new Pattern.Builder();
    for (int i = 0; i < cuts.size(); i++) {
      ExtendedTime cut = cuts.get(i);
      if (i > 0 && !after(cut, cuts.get(i - 1))) {
        continue;
      }
      double half = 1;
      for (int k = i + 1; k < cuts.size(); k++) {
        if (after(cuts.get(k), cut)) {
          half = ((cuts.get(k).hi() - cut.hi()) + (cuts.get(k).lo() - cut.lo())) / 2;
          break;
        }
      }
      Terms sum = new Terms();
      for (Pattern p : patterns) {
        p.addTermsAround(cut.hi(), cut.lo(), half, sum);
      }
      if (Math.abs(sum.level) <= LEFT_OVER * bound) {
        sum.level = 0;
      }
      ExtendedTime start =
          new ExtendedTime().set(cut.hi(), cut.lo()).add(-origin.hi(), -origin.lo());
      builder.add(start.hi(), start.lo(), sum);
    }
    return builder.once(origin.hi(), origin.lo());
  }

  static Pattern of(Pattern once, ExtendedTime period) {
    int last = once.count() - 1;
    String where = "repeatedEvery(" + period.hi() + " s): ";
    Require.that(
        once.level(last) == 0 && once.slope(last) == 0,
        where + "the signal must come back to zero, and its last segment does not");
    for (int k = once.termFrom(last); k < once.termFrom(last + 1); k++) {
      Require.that(
          once.growth(k) < 0,
          where + "the signal ends in an undamped sine, whose copies have no sum");
    }
    double copies = Math.ceil(once.startHi(last) / period.hi()) + 1;
    Require.that(
        copies * once.count() <= MAX_SEGMENTS,
        where + "more than " + MAX_SEGMENTS + " overlapping segments would result");

    ExtendedTime[] cuts = new ExtendedTime[once.count()];
    for (int i = 0; i < cuts.length; i++) {
      cuts[i] = new ExtendedTime().set(once.startHi(i), once.startLo(i));
      cuts[i].removeWhole(period.hi(), period.lo());
    }
    Arrays.sort(cuts, BY_TIME);

    Pattern.Builder builder = new Pattern.Builder();
    for (int i = 0; i < cuts.length; i++) {
      if (i > 0 && !after(cuts[i], cuts[i - 1])) {
        continue;
      }
      ExtendedTime next = period;
      for (int k = i + 1; k < cuts.length; k++) {
        if (after(cuts[k], cuts[i])) {
          next = cuts[k];
          break;
        }
      }
      double half = ((next.hi() - cuts[i].hi()) + (next.lo() - cuts[i].lo())) / 2;
      builder.add(cuts[i].hi(), cuts[i].lo(), folded(once, period, cuts[i], half));
    }
    return builder.repeated(once.originHi(), once.originLo(), period);
  }

  private static boolean after(ExtendedTime a, ExtendedTime b) {
    return (a.hi() - b.hi()) + (a.lo() - b.lo()) > 0;
  }

  /**
   * The sum of all copies from a cut on; which segment each is in is decided half a piece later,
   * clear of rounding.
   */
  private static Terms folded(Pattern once, ExtendedTime period, ExtendedTime cut, double half) {
    Terms sum = new Terms();
    int last = once.count() - 1;
    ExtendedTime t = new ExtendedTime();
    for (double copy = 0; ; copy++) {
      t.set(cut.hi(), cut.lo())
          .addProduct(copy, period.hi())
          .addProduct(copy, period.lo())
          .add(half);
      int i = once.segmentAt(t.hi(), t.lo());
      t.add(-half).add(-once.startHi(i), -once.startLo(i));
      if (i < last) {
        once.addTerms(i, t.hi(), t.lo(), sum);
        continue;
      }
      for (int k = once.termFrom(last); k < once.termFrom(last + 1); k++) {
        addTail(once, k, period, t, sum);
      }
      return sum;
    }
  }

  /** A decaying term and all its later copies: c / (1 - e^{s T}). */
  private static void addTail(Pattern once, int k, ExtendedTime period, ExtendedTime t, Terms sum) {
    double x = once.growth(k) * period.hi();
    double angle = 2 * Math.PI * period.fractionOfCycles(once.frequencyHz(k));
    double half = Math.sin(angle / 2);
    double re = -(Math.expm1(x) * Math.cos(angle) - 2 * half * half);
    double im = -Math.exp(x) * Math.sin(angle);
    double r2 = re * re + im * im;
    double c = once.cosine(k);
    double s = once.sine(k);
    // (c - j s) / (re + j im)
    double cosine = (c * re - s * im) / r2;
    double sine = (s * re + c * im) / r2;
    sum.addRotated(cosine, sine, once.growth(k), once.frequencyHz(k), t.hi(), t.lo());
  }
}
