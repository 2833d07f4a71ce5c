package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;

/** Puts the result of a sweep into CSV. */
final class SweepCsv {
  private static final CSVFormat FORMAT = CSVFormat.RFC4180;

  private SweepCsv() {}

  static String of(SweepResult result) {
    StringBuilder text = new StringBuilder();
    append(text, header(result.sweep()));
    for (SweepRow row : result.rows()) {
      append(text, cells(result.sweep(), row));
    }
    return text.toString();
  }

  private static void append(StringBuilder text, List<String> cells) {
    text.append(FORMAT.format(cells.toArray())).append(FORMAT.getRecordSeparator());
  }

  private static List<String> header(Sweep sweep) {
    List<String> header = new ArrayList<>();
    sweep.values().forEach(value -> header.add(value.heading()));
    for (int r = 0; r < sweep.readingNames().size(); r++) {
      String name = sweep.readingNames().get(r);
      String unit = sweep.readingUnits().get(r);
      String end = unit.isEmpty() ? "" : " (" + unit + ")";
      header.add(name + ": true value" + end);
      header.add(name + ": as measured" + end);
      header.add(name + ": bias" + end);
      if (sweep.sureness(r) > 0) {
        header.add(name + ": mean reading" + end);
        header.add(name + ": standard uncertainty" + end);
        header.add(name + ": lower end of 95 %" + end);
        header.add(name + ": upper end of 95 %" + end);
        header.add(name + ": share of a change that shows");
        header.add(name + ": standard error of this share");
      }
      if (sweep.sureness(r) > 1) {
        header.add(name + ": verdict");
      }
      header.add(name + ": reason");
    }
    header.add("cautions");
    return header;
  }

  private static List<String> cells(Sweep sweep, SweepRow row) {
    List<String> cells = new ArrayList<>();
    for (int c = 0; c < row.coordinates().size(); c++) {
      cells.add(sweep.values().get(c).label(row.coordinates().get(c)));
    }
    for (int r = 0; r < row.readings().size(); r++) {
      SweptReading reading = row.readings().get(r);
      Set<String> reasons = new LinkedHashSet<>();
      number(cells, reading.truth(), reasons);
      number(cells, reading.measured(), reasons);
      number(cells, reading.bias(), reasons);
      Optional<SweptReading.Sureness> sure = reading.sureness();
      if (sweep.sureness(r) > 0) {
        number(cells, sure.orElseThrow().mean(), reasons);
        number(cells, sure.orElseThrow().standardUncertainty(), reasons);
        number(cells, sure.orElseThrow().lower(), reasons);
        number(cells, sure.orElseThrow().upper(), reasons);
        sensitivity(cells, sure.orElseThrow().sensitivity(), reasons);
      }
      if (sweep.sureness(r) > 1) {
        verdict(cells, sure.flatMap(SweptReading.Sureness::ruling).orElseThrow(), reasons);
      }
      cells.add(String.join("; ", reasons));
    }
    cells.add(
        row.cautions().stream()
            .map(one -> one.subject().toString())
            .distinct()
            .collect(Collectors.joining("; ")));
    return cells;
  }

  private static void number(List<String> cells, Measured measured, Set<String> reasons) {
    if (measured instanceof Value taken) {
      cells.add(Numbers.text(taken.value()));
    } else {
      cells.add("");
      reasons.add(((NotTaken) measured).reason());
    }
  }

  private static void sensitivity(
      List<String> cells, Outcome<Sensitivity> sensitivity, Set<String> reasons) {
    if (sensitivity instanceof Outcome.Taken<Sensitivity> taken) {
      cells.add(Numbers.text(taken.result().value()));
      cells.add(Numbers.text(taken.result().standardError()));
    } else {
      cells.addAll(List.of("", ""));
      String reason = ((Outcome.NotTaken<Sensitivity>) sensitivity).reason();
      if (!reasons.contains(reason)) {
        reasons.add("not checked whether the reading follows the quantity: " + reason);
      }
    }
  }

  private static void verdict(
      List<String> cells, Outcome<Verdict.Ruling> ruling, Set<String> reasons) {
    if (ruling instanceof Outcome.Taken<Verdict.Ruling> taken) {
      cells.add(AssessmentWriter.word(taken.result()));
    } else {
      cells.add("");
      reasons.add(((Outcome.NotTaken<Verdict.Ruling>) ruling).reason());
    }
  }
}
