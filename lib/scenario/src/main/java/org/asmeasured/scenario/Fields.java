package org.asmeasured.scenario;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.asmeasured.scenario.Json.Type;

/**
 * The members of one JSON object, against the keys that it may have. Which keys are there is
 * settled when it is made; each accessor then checks the type. Ranges are the business of whoever
 * takes the values: {@link #build} gives what they refuse its place.
 */
final class Fields {
  private static final double EXACT_WHOLE = 0x1p53;
  // The greatest whole number that every reader of JSON keeps (RFC 8259, section 6).
  private static final long MAX_SEED = (1L << 53) - 1;
  // The core's grammar: parameter, with its indices where it is an array, then its value.
  private static final Pattern PARAMETER = Pattern.compile("^(\\w+)((?:\\[\\d+\\])*)(?:\\.\\w+)? ");
  private static final Pattern INDEX = Pattern.compile("\\d+");
  // Where the core calls a parameter otherwise than a file does.
  private static final Map<String, String> KEYS =
      Map.of(
          "poles", "polesRadiansPerSecond",
          "zeros", "zerosRadiansPerSecond",
          "coefficientsSteps", "bowSteps",
          "codes", "missingCodes",
          "parts", "elements",
          "least", "leastVoltsPerDivision",
          "greatest", "greatestVoltsPerDivision");
  private static final Pattern NOT_ZERO = Pattern.compile("^[^eE]*[1-9].*");

  private final Json node;
  private final List<String> declared;

  private Fields(Json node, List<String> declared) {
    this.node = node;
    this.declared = declared;
  }

  /**
   * Checks which keys are there.
   *
   * @param what what the object is, for messages: "a sine"
   */
  static Fields of(Json node, String what, List<String> required, List<String> optional) {
    if (node.type != Type.OBJECT) {
      throw node.refused(
          what + " = " + node.shown() + " is " + node.type.words + ": must be an object");
    }
    List<String> declared = new ArrayList<>(required);
    declared.addAll(optional);
    List<String> absent = new ArrayList<>(declared);
    absent.removeAll(node.members().keySet());
    for (var member : node.members().entrySet()) {
      if (!declared.contains(member.getKey())) {
        String hint = Keys.hint(member.getKey(), absent);
        String keys = hint.isEmpty() ? ": " + what + " has " + String.join(", ", declared) : hint;
        throw member
            .getValue()
            .keyRefused("unknown key \"" + member.getKey() + "\" in " + what + keys);
      }
    }
    for (String key : required) {
      if (!node.members().containsKey(key)) {
        String unit = Keys.unit(key);
        throw node.refused(
            "key \""
                + key
                + "\""
                + (unit.isEmpty() ? "" : ", in " + unit + ",")
                + " is missing: "
                + what
                + " must have it");
      }
    }
    return new Fields(node, declared);
  }

  Json node() {
    return node;
  }

  boolean has(String key) {
    check(key);
    return node.members().containsKey(key);
  }

  /** The value of a key that is there. */
  Json child(String key) {
    check(key);
    return node.members().get(key);
  }

  String text(String key) {
    Json child = typed(key, Type.STRING);
    if (child.text.isBlank()) {
      throw child.refused(
          key + " = " + child.shown() + ": must have at least one character that shows");
    }
    return child.text;
  }

  /** A text that may be empty. */
  String textOrNone(String key) {
    return typed(key, Type.STRING).text;
  }

  /** The value that goes by a word. */
  <T> T oneOf(String key, Map<String, T> named) {
    Json child = typed(key, Type.STRING);
    T value = named.get(child.text);
    if (value == null) {
      throw child.refused(
          key + " = " + child.shown() + ": must be one of " + String.join(", ", named.keySet()));
    }
    return value;
  }

  boolean flagOr(String key, boolean otherwise) {
    return has(key) ? Boolean.parseBoolean(typed(key, Type.BOOLEAN).text) : otherwise;
  }

  double number(String key) {
    check(key);
    return number(node.members().get(key), key);
  }

  double numberOr(String key, double otherwise) {
    return has(key) ? number(key) : otherwise;
  }

  int whole(String key) {
    return whole(typed(key, Type.NUMBER), key);
  }

  private static int whole(Json value, String key) {
    return (int) whole(value, key, Integer.MIN_VALUE, Integer.MAX_VALUE);
  }

  private static long whole(Json value, String key, long min, long max) {
    double number = number(value, key);
    boolean exact =
        Math.abs(number) <= EXACT_WHOLE
            && (number == 0 || new BigDecimal(value.text).stripTrailingZeros().scale() <= 0);
    if (!exact) {
      throw value.refused(key + " = " + value.shown() + ": must be a whole number");
    }
    if (number < min || number > max) {
      throw value.refused(key + " = " + value.shown() + ": must be from " + min + " to " + max);
    }
    return (long) number;
  }

  /** Where a stream of random numbers begins. */
  long seed(String key) {
    return whole(typed(key, Type.NUMBER), key, 0, MAX_SEED);
  }

  int wholeOr(String key, int otherwise) {
    return has(key) ? whole(key) : otherwise;
  }

  double[] numbers(String key) {
    List<Json> items = list(key);
    double[] values = new double[items.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = number(items.get(i), key);
    }
    return values;
  }

  int[] wholes(String key) {
    List<Json> items = list(key);
    int[] values = new int[items.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = whole(items.get(i), key);
    }
    return values;
  }

  /** Rows of numbers. */
  double[][] matrix(String key) {
    List<Json> rows = list(key);
    double[][] values = new double[rows.size()][];
    for (int i = 0; i < values.length; i++) {
      Json row = rows.get(i);
      if (row.type != Type.ARRAY) {
        throw row.refused(
            key + " = " + row.shown() + " is " + row.type.words + ": must be an array");
      }
      values[i] = new double[row.items().size()];
      for (int j = 0; j < values[i].length; j++) {
        values[i][j] = number(row.items().get(j), key);
      }
    }
    return values;
  }

  List<Json> list(String key) {
    return typed(key, Type.ARRAY).items();
  }

  /**
   * Builds something from these fields. What it refuses by an {@link IllegalArgumentException} is
   * given the place of the parameter it names, or of the object.
   */
  <T> T build(Function<Fields, T> builder) {
    try {
      return builder.apply(this);
    } catch (IllegalArgumentException e) {
      String message = String.valueOf(e.getMessage()).replaceAll("\\.$", "");
      throw culprit(message).refused(message, e);
    }
  }

  private Json culprit(String message) {
    Matcher named = PARAMETER.matcher(message);
    if (!named.find()) {
      return node;
    }
    String parameter = named.group(1);
    Json child = node.members().get(parameter);
    if (child == null) {
      child = node.members().get(KEYS.getOrDefault(parameter, parameter));
    }
    // Where the core takes a quantity in one of two units, a file has a key for each.
    for (String unit : List.of("Percent", "Volts")) {
      child = child == null ? node.members().get(parameter + unit) : child;
    }
    if (child == null) {
      return node;
    }
    Matcher indices = INDEX.matcher(named.group(2));
    while (indices.find()) {
      int index = Integer.parseInt(indices.group());
      if (child.type != Type.ARRAY || index >= child.items().size()) {
        break;
      }
      child = child.items().get(index);
    }
    return child;
  }

  private Json typed(String key, Type type) {
    check(key);
    Json child = node.members().get(key);
    if (child.type != type) {
      throw child.refused(
          key
              + " = "
              + child.shown()
              + " is "
              + child.type.words
              + ": must be "
              + wanted(key, type));
    }
    return child;
  }

  private static String wanted(String key, Type type) {
    String unit = Keys.unit(key);
    return type.words + (type == Type.NUMBER && !unit.isEmpty() ? ", in " + unit : "");
  }

  private static double number(Json value, String key) {
    if (value.type != Type.NUMBER) {
      throw value.refused(
          key
              + " = "
              + value.shown()
              + " is "
              + value.type.words
              + ": must be "
              + wanted(key, Type.NUMBER));
    }
    double number = Double.parseDouble(value.text);
    boolean vanished = number == 0 && NOT_ZERO.matcher(value.text).matches();
    if (Double.isInfinite(number) || vanished) {
      String unit = Keys.unit(key);
      throw value.refused(
          key
              + " = "
              + value.shown()
              + (unit.isEmpty() ? "" : " " + unit)
              + ": does not fit in a double, whose modulus is 0 or from 4.9e-324 to 1.8e308");
    }
    return number;
  }

  // A slip in this module, not in a file.
  private void check(String key) {
    if (!declared.contains(key)) {
      throw new IllegalStateException("key " + key + " was not declared");
    }
  }
}
