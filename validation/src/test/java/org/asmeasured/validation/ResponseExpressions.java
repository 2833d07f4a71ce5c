package org.asmeasured.validation;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Network;
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
      case "network" -> network(c);
      default -> throw new IllegalArgumentException("response " + c.name());
    };
  }

  private static Response network(Call c) {
    Network network = Network.empty();
    for (int i = 2; i < c.size(); i++) {
      Call element = c.call(i);
      String from = node(element.whole(0));
      String to = node(element.whole(1));
      double value = element.number(2);
      network =
          switch (element.name()) {
            case "resistor" -> network.resistor(from, to, value);
            case "inductor" -> network.inductor(from, to, value);
            case "capacitor" -> network.capacitor(from, to, value);
            default -> throw new IllegalArgumentException("element " + element.name());
          };
    }
    return network.response(node(c.whole(0)), node(c.whole(1)));
  }

  private static String node(int number) {
    return number == 0 ? Network.GROUND : "n" + number;
  }

  private static List<Complex> roots(double[] parts) {
    List<Complex> roots = new ArrayList<>();
    for (int i = 0; i < parts.length; i += 2) {
      roots.add(new Complex(parts[i], parts[i + 1]));
    }
    return roots;
  }
}
