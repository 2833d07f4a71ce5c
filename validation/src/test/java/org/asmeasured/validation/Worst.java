package org.asmeasured.validation;

import java.util.Map;
import java.util.TreeMap;

/** The worst error seen of each kind of check, for the catalogue. */
final class Worst {
  private static final Map<String, double[]> SEEN = new TreeMap<>();

  private Worst() {}

  static synchronized void note(String check, double error, double allowed) {
    double[] worst = SEEN.computeIfAbsent(check, c -> new double[3]);
    worst[0]++;
    if (error >= worst[1]) {
      worst[1] = error;
      worst[2] = allowed;
    }
  }

  /** A Markdown table of the checks whose names begin so. */
  static synchronized String table(String prefix) {
    StringBuilder out =
        new StringBuilder(
            "| check | figures | worst error | allowed there |\n| --- | ---: | ---: | ---: |\n");
    SEEN.forEach(
        (check, w) -> {
          if (check.startsWith(prefix)) {
            out.append("| ").append(check).append(" | ").append((long) w[0]).append(" | ");
            out.append(Evidence.error(w[1]))
                .append(" | ")
                .append(Evidence.error(w[2]))
                .append(" |\n");
          }
        });
    return out.toString();
  }
}
