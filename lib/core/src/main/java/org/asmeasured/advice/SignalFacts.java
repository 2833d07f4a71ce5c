package org.asmeasured.advice;

import java.util.OptionalDouble;
import org.asmeasured.signal.Component;
import org.asmeasured.signal.Pattern;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Tones;

/** What rules of practice ask about a signal. */
final class SignalFacts {
  private static final double ROUNDING = 1e-9;

  /** 10-90 % of a straight edge. */
  private static final double TEN_TO_NINETY = 0.8;

  /** Rise time times bandwidth (common practice, no source). */
  private static final double RISE_TIMES_BANDWIDTH = 0.35;

  private final OptionalDouble period;
  private boolean constant = true;
  private boolean once;
  private boolean jumps;
  private double lowestSineHz = Double.POSITIVE_INFINITY;
  private double lowestPatternHz = Double.POSITIVE_INFINITY;
  private double highestHz;

  private SignalFacts(Signal signal) {
    period = signal.periodSeconds();
    for (Component component : signal.components()) {
      if (component instanceof Tones tones) {
        look(tones);
      } else if (component.bound() > 0) {
        constant = false;
        look((Pattern) component);
      }
    }
  }

  static SignalFacts of(Signal signal) {
    return new SignalFacts(signal);
  }

  private void look(Tones tones) {
    for (int i = 0; i < tones.count(); i++) {
      if (tones.cosine(i) != 0 || tones.sine(i) != 0) {
        constant = false;
        lowestSineHz = Math.min(lowestSineHz, tones.frequencyHz(i));
        highestHz = Math.max(highestHz, tones.frequencyHz(i));
      }
    }
  }

  private void look(Pattern p) {
    if (p.isPeriodic()) {
      lowestPatternHz = Math.min(lowestPatternHz, 1 / p.periodSeconds());
    } else {
      once = true;
    }
    for (int i = 0; i < p.count(); i++) {
      int previous = i > 0 ? i - 1 : p.count() - 1;
      double before = i > 0 || p.isPeriodic() ? value(p, previous, p.length(previous)) : 0;
      jumps |= Math.abs(value(p, i, 0) - before) > ROUNDING * p.bound();
      if (p.slope(i) != 0 && p.length(i) < Double.POSITIVE_INFINITY) {
        edge(TEN_TO_NINETY * p.length(i));
      }
      for (int k = p.termFrom(i); k < p.termFrom(i + 1); k++) {
        if (p.cosine(k) != 0 || p.sine(k) != 0) {
          double radians = Math.hypot(p.growth(k), 2 * Math.PI * p.frequencyHz(k));
          highestHz = Math.max(highestHz, radians / (2 * Math.PI));
        }
      }
    }
  }

  /** The value of a segment so long after its start. */
  private static double value(Pattern p, int segment, double seconds) {
    double value = p.level(segment) + (seconds == 0 ? 0 : p.slope(segment) * seconds);
    for (int k = p.termFrom(segment); k < p.termFrom(segment + 1); k++) {
      double phase = 2 * Math.PI * p.frequencyHz(k) * seconds;
      value +=
          Math.exp(p.growth(k) * seconds)
              * (p.cosine(k) * Math.cos(phase) + p.sine(k) * Math.sin(phase));
    }
    return value;
  }

  private void edge(double riseSeconds) {
    highestHz = Math.max(highestHz, RISE_TIMES_BANDWIDTH / riseSeconds);
  }

  boolean isConstant() {
    return constant;
  }

  /** Whether a second acquisition can be like the first. */
  boolean repeats() {
    return constant || period.isPresent();
  }

  OptionalDouble period() {
    return period;
  }

  /** Whether a part of it comes once only. */
  boolean comesOnce() {
    return once;
  }

  /** Infinite if there is no sine. */
  double lowestSineHz() {
    return lowestSineHz;
  }

  /** Infinite if nothing but sines repeats. */
  double lowestPatternHz() {
    return lowestPatternHz;
  }

  /**
   * The highest sine, or 0.35/rise time of the fastest edge; empty where edges take no time, or
   * nothing changes.
   */
  OptionalDouble highestHz() {
    return jumps || highestHz == 0 ? OptionalDouble.empty() : OptionalDouble.of(highestHz);
  }

  boolean jumps() {
    return jumps;
  }
}
