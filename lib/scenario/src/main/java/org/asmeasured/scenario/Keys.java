package org.asmeasured.scenario;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** What the name of a key tells: its unit, and which key was meant by one that does not exist. */
final class Keys {
  // Longest ending first: a key in volts per second also ends in a second.
  private static final List<Map.Entry<String, String>> UNITS =
      List.of(
          Map.entry("voltsPerRootHz", "V/sqrt(Hz)"),
          Map.entry("voltsPerDivision", "V"),
          Map.entry("voltsPerSecond", "V/s"),
          Map.entry("voltsPerAmpere", "V/A"),
          Map.entry("eventsPerSecond", "Hz"),
          Map.entry("radiansPerSecond", "rad/s"),
          Map.entry("voltsPerUnit", "V"),
          Map.entry("secondsPerUnit", "s"),
          Map.entry("radians", "rad"),
          Map.entry("seconds", "s"),
          Map.entry("henries", "H"),
          Map.entry("percent", "%"),
          Map.entry("farads", "F"),
          Map.entry("kelvin", "K"),
          Map.entry("volts", "V"),
          Map.entry("ohms", "ohm"),
          Map.entry("hz", "Hz"));

  private static final Pattern SOME_UNIT =
      Pattern.compile(
          "_?(k|kil|kilo|meg|mega|g|giga|m|milli|u|\u00b5|\u03bc|micro|n|nano|p|pico|f|femto)?_?"
              + "(hz|hertz|v|volts?|vpp|s|secs?|seconds?|ohms?|f|farads?|h|henr(y|ies)|deg|degrees?|rad|radians?)?");

  private Keys() {}

  /** The unit at the end of a key, as a person writes it; empty for a pure number. */
  static String unit(String key) {
    return ending(key).map(Map.Entry::getValue).orElse("");
  }

  /**
   * The key that was meant by an unknown one, as words to put after it; empty where nothing comes
   * near.
   */
  static String hint(String unknown, Collection<String> known) {
    String lower = unknown.toLowerCase(Locale.ROOT);
    for (String key : known) {
      Optional<Map.Entry<String, String>> ending = ending(key);
      if (ending.isEmpty()) {
        continue;
      }
      String stem =
          key.substring(0, key.length() - ending.get().getKey().length()).toLowerCase(Locale.ROOT);
      if (lower.startsWith(stem) && SOME_UNIT.matcher(lower.substring(stem.length())).matches()) {
        return ": it is given in " + ending.get().getValue() + ", as \"" + key + "\"";
      }
    }
    return nearest(unknown, known).map(key -> ": \"" + key + "\" may be meant").orElse("");
  }

  /** The known word that takes the fewest strokes to reach, if they are few. */
  static Optional<String> nearest(String unknown, Collection<String> known) {
    String best = null;
    int fewest = Math.max(1, unknown.length() / 4) + 1;
    for (String key : known) {
      int strokes = strokes(unknown.toLowerCase(Locale.ROOT), key.toLowerCase(Locale.ROOT));
      if (strokes < fewest) {
        fewest = strokes;
        best = key;
      }
    }
    return Optional.ofNullable(best);
  }

  private static Optional<Map.Entry<String, String>> ending(String key) {
    String lower = key.toLowerCase(Locale.ROOT);
    return UNITS.stream()
        .filter(u -> lower.endsWith(u.getKey().toLowerCase(Locale.ROOT)))
        .findFirst();
  }

  // Levenshtein distance, one row at a time.
  private static int strokes(String a, String b) {
    if (Math.abs(a.length() - b.length()) > 16) {
      return Integer.MAX_VALUE;
    }
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int above = row[j];
        int replace = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        row[j] = Math.min(replace, Math.min(above, row[j - 1]) + 1);
        diagonal = above;
      }
    }
    return row[b.length()];
  }
}
