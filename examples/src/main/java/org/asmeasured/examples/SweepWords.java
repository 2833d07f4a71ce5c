package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.scenario.SweepAxis;
import org.asmeasured.scenario.SweepResult;
import org.asmeasured.scenario.SweepRow;
import org.asmeasured.scenario.SweptReading;
import org.asmeasured.scenario.SweptValue;

/** The words of a sweep, as page and terminal say them. */
final class SweepWords {
  private final SweepResult result;

  SweepWords(SweepResult result) {
    this.result = result;
  }

  /** What is varied, an axis a sentence. */
  List<String> axes() {
    List<String> axes = new ArrayList<>();
    for (SweepAxis axis : result.sweep().axes()) {
      List<String> values = axis.values().stream().map(SweepWords::range).toList();
      axes.add(
          String.join(", with ", values)
              + (axis.size() == 1 || axis.values().get(0).isWhole()
                  ? ""
                  : ", in " + axis.size() + " values"));
    }
    return axes;
  }

  private static String range(SweptValue value) {
    if (value.isWhole()) {
      return value.name()
          + ": "
          + value.wholes().stream().map(SweptValue.Whole::label).collect(Collectors.joining("; "));
    }
    List<Double> numbers = value.numbers();
    String first = number(numbers.get(0), value.unit());
    String last = number(numbers.get(numbers.size() - 1), value.unit());
    return value.name() + (first.equals(last) ? " " + first : " from " + first + " to " + last);
  }

  /** What a value is set to at a coordinate. */
  static String text(SweptValue value, double coordinate) {
    return value.isWhole()
        ? value.wholes().get((int) coordinate).label()
        : number(coordinate, value.unit());
  }

  /** A coordinate, with no more digits than it has. */
  static String number(double value, String unit) {
    Scale scale = Scale.of(value, unit);
    String text = scale.number(value, scale.decimals(value, 6));
    if (text.contains(".") && !text.contains("e")) {
      text = text.replaceFirst("\\.?0+$", "");
    }
    return scale.withUnit(text);
  }

  /** Where a point is: "bits = 8, gain error = 0.01". */
  String place(SweepRow row) {
    List<String> places = new ArrayList<>();
    for (int c = 0; c < row.coordinates().size(); c++) {
      SweptValue value = result.sweep().values().get(c);
      places.add(value.name() + " = " + text(value, row.coordinates().get(c)));
    }
    return String.join(", ", places);
  }

  /** The figure that a picture draws: the mean reading where it is assessed. */
  static Measured shown(SweptReading reading) {
    return reading.sureness().map(SweptReading.Sureness::mean).orElse(reading.measured());
  }

  /** How far off a reading is at worst, and where; how often it is not taken. */
  List<String> worst(int reading) {
    SweepRow worst = null;
    double greatest = -1;
    int missing = 0;
    for (SweepRow row : result.rows()) {
      Measured bias = row.readings().get(reading).bias();
      if (bias instanceof Value taken) {
        if (Math.abs(taken.value()) > greatest) {
          greatest = Math.abs(taken.value());
          worst = row;
        }
      } else {
        missing++;
      }
    }
    List<String> words = new ArrayList<>();
    if (worst != null) {
      SweptReading one = worst.readings().get(reading);
      double bias = one.bias().orThrow();
      words.add(
          greatest == 0
              ? "exact wherever it is taken"
              : "off by "
                  + Scale.signedText(bias, one.unit())
                  + " at worst, where "
                  + place(worst));
    }
    if (missing > 0) {
      words.add(
          missing == result.rows().size()
              ? "not taken at any point"
              : "not taken at " + missing + (missing == 1 ? " point" : " points"));
    }
    return words;
  }

  static String ruling(Verdict.Ruling ruling) {
    return switch (ruling) {
      case PASSES -> "passes";
      case FAILS -> "fails";
      case UNDECIDED -> "this setup cannot say";
    };
  }

  static String capitalised(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
