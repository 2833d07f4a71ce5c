package org.asmeasured.validation;

import java.util.ArrayList;
import java.util.List;

/**
 * A parsed expression of the vector files: {@code name(argument, ...)}, where an argument is a
 * number, a list of numbers in brackets, or another call.
 */
record Call(String name, List<Object> arguments) {

  static Call parse(String text) {
    Parser parser = new Parser(text);
    Call call = parser.call();
    parser.skip();
    if (parser.at != text.length()) {
      throw parser.broken("end of expression");
    }
    return call;
  }

  int size() {
    return arguments.size();
  }

  double number(int i) {
    return (Double) arguments.get(i);
  }

  int whole(int i) {
    return (int) number(i);
  }

  double[] numbers(int i) {
    return (double[]) arguments.get(i);
  }

  Call call(int i) {
    return (Call) arguments.get(i);
  }

  private static final class Parser {
    private final String text;
    private int at;

    Parser(String text) {
      this.text = text;
    }

    IllegalArgumentException broken(String wanted) {
      return new IllegalArgumentException(
          "\"" + text + "\" at " + at + ": " + wanted + " expected");
    }

    void skip() {
      while (at < text.length() && text.charAt(at) == ' ') {
        at++;
      }
    }

    boolean next(char c) {
      skip();
      if (at < text.length() && text.charAt(at) == c) {
        at++;
        return true;
      }
      return false;
    }

    String word() {
      skip();
      int from = at;
      while (at < text.length() && "(), []".indexOf(text.charAt(at)) < 0) {
        at++;
      }
      if (at == from) {
        throw broken("a word or a number");
      }
      return text.substring(from, at);
    }

    Call call() {
      String name = word();
      if (!next('(')) {
        throw broken("(");
      }
      List<Object> arguments = new ArrayList<>();
      while (!next(')')) {
        if (!arguments.isEmpty() && !next(',')) {
          throw broken(", or )");
        }
        arguments.add(argument());
      }
      return new Call(name, List.copyOf(arguments));
    }

    Object argument() {
      if (next('[')) {
        List<Double> list = new ArrayList<>();
        while (!next(']')) {
          if (!list.isEmpty() && !next(',')) {
            throw broken(", or ]");
          }
          list.add(Double.parseDouble(word()));
        }
        return list.stream().mapToDouble(Double::doubleValue).toArray();
      }
      int from = at;
      String word = word();
      if (at < text.length() && text.charAt(at) == '(') {
        at = from;
        return call();
      }
      return Double.parseDouble(word);
    }
  }
}
