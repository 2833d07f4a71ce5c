package org.asmeasured.validation;

import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;

/** Builds the signals that the vector files name, through the public builders. */
final class SignalExpressions {
  private SignalExpressions() {}

  static Signal signal(String text) {
    return signal(Call.parse(text));
  }

  private static Signal signal(Call c) {
    return switch (c.name()) {
      case "constant" -> Signals.constant(c.number(0));
      case "step" -> Signals.step(c.number(0), c.number(1));
      case "ramp" ->
          c.size() == 2
              ? Signals.ramp(c.number(0), c.number(1))
              : Signals.ramp(c.number(0), c.number(1), c.number(2));
      case "sine" ->
          c.size() == 2
              ? Signals.sine(c.number(0), c.number(1))
              : Signals.sine(c.number(0), c.number(1), c.number(2));
      case "multiTone" -> Signals.multiTone(c.numbers(0), c.numbers(1), c.numbers(2));
      case "square" -> Signals.square(c.number(0), c.number(1), c.number(2), c.number(3));
      case "trapezoid" ->
          Signals.trapezoid(
              c.number(0), c.number(1), c.number(2), c.number(3), c.number(4), c.number(5));
      case "triangle" -> Signals.triangle(c.number(0), c.number(1), c.number(2), c.number(3));
      case "pulseTrain" ->
          Signals.pulseTrain(
              c.number(0), c.number(1), c.number(2), c.number(3), c.number(4), c.number(5));
      case "pulse" ->
          Signals.pulse(c.number(0), c.number(1), c.number(2), c.number(3), c.number(4));
      case "runt" ->
          Signals.runt(c.number(0), c.number(1), c.number(2), c.number(3), c.number(4), c.whole(5));
      case "burst" -> Signals.burst(c.number(0), c.number(1), c.whole(2), c.number(3));
      case "exponentialEdge" -> Signals.exponentialEdge(c.number(0), c.number(1), c.number(2));
      case "dampedRinging" ->
          Signals.dampedRinging(c.number(0), c.number(1), c.number(2), c.number(3));
      case "rippleOnRail" ->
          Signals.rippleOnRail(
              c.number(0), c.number(1), c.number(2), c.number(3), c.number(4), c.number(5));
      case "recorded" -> Signals.recorded(c.numbers(0), c.numbers(1));
      case "recordedAt" -> Signals.recorded(c.number(0), c.number(1), c.numbers(2));
      case "plus" -> {
        Signal sum = signal(c.call(0));
        for (int i = 1; i < c.size(); i++) {
          sum = sum.plus(signal(c.call(i)));
        }
        yield sum;
      }
      case "times" -> signal(c.call(1)).times(c.number(0));
      case "delayed" -> signal(c.call(0)).delayedBy(c.number(1));
      case "gated" -> signal(c.call(0)).gated(c.number(1), c.number(2));
      case "startingAt" -> signal(c.call(0)).startingAt(c.number(1));
      case "repeated" -> signal(c.call(0)).repeatedEvery(c.number(1));
      default -> throw new IllegalArgumentException("signal " + c.name());
    };
  }
}
