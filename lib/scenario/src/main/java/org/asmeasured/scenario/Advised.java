package org.asmeasured.scenario;

import java.util.Optional;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.advice.Advice;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;
import org.asmeasured.measure.Reading;

/**
 * What would help a reading: the settings of least expanded uncertainty and bias among those that
 * are offered, and how sure the reading is with the best of them.
 *
 * @param reading what is read
 * @param advice what was found, or the reason why the reading has none
 * @param withBest how sure the reading is with the best settings; empty without any
 * @param verdict with the best settings; empty without any, or without a limit
 */
public record Advised(
    Reading reading,
    Outcome<Advice> advice,
    Optional<Assessment> withBest,
    Optional<Outcome<Verdict>> verdict) {
  /**
   * Checks that all is there.
   *
   * @param reading what is read
   * @param advice what was found, or the reason why the reading has none
   * @param withBest how sure the reading is with the best settings
   * @param verdict with the best settings
   * @throws NullPointerException if one is missing
   */
  public Advised {
    Require.present("reading", reading);
    Require.present("advice", advice);
    Require.present("withBest", withBest);
    Require.present("verdict", verdict);
  }
}
