package org.asmeasured.advice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.asmeasured.accuracy.ErrorTrials;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;

/** Every combination that the search has looked at, each made once. */
final class Combinations {
  /** How people say settings. */
  private static final List<Choices.Kind> SPOKEN =
      List.of(
          Choices.Kind.PROBE,
          Choices.Kind.COUPLING,
          Choices.Kind.SCALE,
          Choices.Kind.OFFSET,
          Choices.Kind.LIMIT,
          Choices.Kind.RECORD,
          Choices.Kind.DECIMATION,
          Choices.Kind.AVERAGING,
          Choices.Kind.TRIGGER,
          Choices.Kind.OWN);

  private final Measurement asked;
  private final Choices choices;
  private final ErrorTrials trials;
  private final Map<List<Integer>, Runner> made = new LinkedHashMap<>();
  private final Map<List<Integer>, String> refused = new HashMap<>();

  Combinations(Measurement asked, Choices choices, ErrorTrials trials) {
    this.asked = asked;
    this.choices = choices;
    this.trials = trials;
  }

  /**
   * Those of the product of some alternatives that can be had.
   *
   * @param selected by factor, which of its alternatives
   */
  List<Runner> of(int[][] selected) {
    List<Runner> some = new ArrayList<>();
    collect(selected, 0, new int[selected.length], asked.setup(), null, some);
    return some;
  }

  private void collect(
      int[][] selected, int depth, int[] choice, Setup setup, String refusal, List<Runner> some) {
    if (depth == selected.length) {
      leaf(choice, setup, refusal, some);
      return;
    }
    for (int i : selected[depth]) {
      choice[depth] = i;
      Setup changed = setup;
      String reason = refusal;
      if (reason == null) {
        try {
          changed =
              choices.factors().get(depth).alternatives().get(i).applied(asked.signal(), setup);
        } catch (IllegalArgumentException refusing) {
          reason = refusing.getMessage();
        }
      }
      collect(selected, depth + 1, choice, changed, reason, some);
    }
  }

  private void leaf(int[] choice, Setup setup, String refusal, List<Runner> some) {
    List<Integer> key = Arrays.stream(choice).boxed().toList();
    Runner known = made.get(key);
    if (known != null) {
      some.add(known);
      return;
    }
    if (refused.containsKey(key)) {
      return;
    }
    String reason = refusal;
    for (Choices.Restriction r : choices.restrictions()) {
      reason = reason == null && !r.holds().test(setup) ? r.words() : reason;
    }
    if (reason == null) {
      try {
        Runner runner = new Runner(choice, asked.withSetup(setup), trials);
        made.put(key, runner);
        some.add(runner);
        return;
      } catch (IllegalArgumentException refusing) {
        reason = refusing.getMessage();
      }
    }
    refused.put(key, String.valueOf(reason));
  }

  /** The setup as asked, which need not be among what is offered. */
  Runner asAsked() {
    return new Runner(new int[0], asked, trials);
  }

  /** The alternative that changes nothing, or the first that can be had, or the first. */
  int startOf(int factor) {
    List<Alternative> alternatives = choices.factors().get(factor).alternatives();
    int possible = -1;
    for (int i = 0; i < alternatives.size(); i++) {
      try {
        Setup changed = alternatives.get(i).applied(asked.signal(), asked.setup());
        if (changed.equals(asked.setup())) {
          return i;
        }
        possible = possible < 0 ? i : possible;
      } catch (IllegalArgumentException cannot) {
        // another may
      }
    }
    return Math.max(0, possible);
  }

  List<Runner> looked() {
    return List.copyOf(made.values());
  }

  int skipped() {
    return refused.size();
  }

  /** By reason, how many. */
  Map<String, Integer> reasons() {
    Map<String, Integer> reasons = new TreeMap<>();
    refused.values().forEach(r -> reasons.merge(r, 1, Integer::sum));
    return reasons;
  }

  /** What is other than asked. */
  List<String> words(Runner runner) {
    List<String> words = new ArrayList<>();
    for (Choices.Kind kind : SPOKEN) {
      for (int f = 0; f < runner.choice.length; f++) {
        Choices.Factor factor = choices.factors().get(f);
        Alternative alternative = factor.alternatives().get(runner.choice[f]);
        if (factor.kind() == kind && changes(alternative, runner.measurement.setup())) {
          words.add(alternative.wordsIn(runner.measurement.setup()));
        }
      }
    }
    return words;
  }

  /** Whether the setting is another than that of the asked setup. */
  private boolean changes(Alternative alternative, Setup whole) {
    try {
      return !Require.present("setup", alternative.applied(asked.signal(), asked.setup()))
          .equals(asked.setup());
    } catch (IllegalArgumentException cannotAlone) {
      return !whole.equals(asked.setup());
    }
  }
}
