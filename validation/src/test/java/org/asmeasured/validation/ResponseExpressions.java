package org.asmeasured.validation;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Response;

/** Builds the responses that the vector files name, through the public builders. */
final class ResponseExpressions {
  private ResponseExpressions() {}

  static Response response(String text) {
    return response(Call.parse(text));
  }

  private static Response response(Call c) {
    return switch (c.name()) {
      case "identity" -> Response.identity();
      case "gain" -> Response.gain(c.number(0));
      case "singlePole" -> Response.singlePole(c.number(0));
      case "highPass" -> Response.highPass(c.number(0));
      case "butterworth" -> Response.butterworth(c.whole(0), c.number(1));
      case "bessel" -> Response.bessel(c.whole(0), c.number(1));
      case "gaussian" -> Response.gaussian(c.whole(0), c.number(1));
      case "rational" -> Response.of(roots(c.numbers(1)), roots(c.numbers(2)), c.number(0));
      case "product" -> {
        Response product = response(c.call(0));
        for (int i = 1; i < c.size(); i++) {
          product = product.times(response(c.call(i)));
        }
        yield product;
      }
      default -> throw new IllegalArgumentException("response " + c.name());
    };
  }

  private static List<Complex> roots(double[] parts) {
    List<Complex> roots = new ArrayList<>();
    for (int i = 0; i < parts.length; i += 2) {
      roots.add(new Complex(parts[i], parts[i + 1]));
    }
    return roots;
  }
}
