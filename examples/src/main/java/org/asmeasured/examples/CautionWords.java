package org.asmeasured.examples;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.scenario.BenchAnswer;
import org.asmeasured.scenario.BenchFitResult;
import org.asmeasured.scenario.SaidCaution;
import org.asmeasured.scenario.SweepResult;
import org.asmeasured.scenario.SweepRow;

/** Cautions, each said once with what it holds for. */
final class CautionWords {
  private CautionWords() {}

  static List<String> of(BenchAnswer answer) {
    List<String> names = answer.question().bench().stream().map(i -> i.name()).toList();
    return of(answer.cautions(), names, "Every instrument");
  }

  static List<String> of(BenchFitResult result) {
    return of(result.cautions(), result.places(), "Every record");
  }

  private static List<String> of(List<SaidCaution> cautions, List<String> names, String all) {
    return cautions.stream()
        .map(
            one ->
                (one.places().size() == names.size() && names.size() > 1
                        ? all
                        : one.places().stream().map(names::get).collect(Collectors.joining("; ")))
                    + ": "
                    + one.caution().words())
        .toList();
  }

  /** One of each subject: the figures in it change from point to point. */
  static List<String> of(SweepResult result) {
    SweepWords words = new SweepWords(result);
    Map<String, Integer> points = new LinkedHashMap<>();
    Map<String, String> first = new LinkedHashMap<>();
    for (SweepRow row : result.rows()) {
      Map<String, Integer> ofRow = new LinkedHashMap<>();
      for (Caution one : row.cautions()) {
        int before = ofRow.merge(one.subject().toString(), 1, Integer::sum);
        String kind = one.subject() + " " + before;
        points.merge(kind, 1, Integer::sum);
        first.putIfAbsent(kind, words.place(row) + ": " + one.words());
      }
    }
    int all = result.rows().size();
    return points.entrySet().stream()
        .map(
            kind ->
                (kind.getValue() == all ? "At every point" : "At " + kind.getValue() + " of " + all)
                    + (all == 1 ? ", " : kind.getValue() == all ? ", such as " : " points, first ")
                    + first.get(kind.getKey()))
        .toList();
  }
}
