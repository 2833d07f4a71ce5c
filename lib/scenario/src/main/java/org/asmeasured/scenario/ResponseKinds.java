package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.linear.Response;
import org.asmeasured.linear.StateSpace;

/** The responses and bandwidths that a scenario can say. */
final class ResponseKinds {
  private static final int MAX_FACTORS = 100;

  static final Kinds<Response> RESPONSES = responses();
  static final Kinds<Bandwidth> BANDWIDTHS = bandwidths();

  private ResponseKinds() {}

  private static Kinds<Response> responses() {
    Kinds<Response> kinds = new Kinds<>("response");
    return kinds
        .add("gain", "factor", f -> Response.gain(f.number("factor")))
        .add("singlePole", "bandwidthHz", f -> Response.singlePole(f.number("bandwidthHz")))
        .add("highPass", "cornerHz", f -> Response.highPass(f.number("cornerHz")))
        .add(
            "butterworth",
            "order bandwidthHz",
            f -> Response.butterworth(f.whole("order"), f.number("bandwidthHz")))
        .add(
            "bessel",
            "order bandwidthHz",
            f -> Response.bessel(f.whole("order"), f.number("bandwidthHz")))
        .add(
            "gaussian",
            "order bandwidthHz",
            f -> Response.gaussian(f.whole("order"), f.number("bandwidthHz")))
        .add(
            "polesAndZeros",
            "zerosRadiansPerSecond polesRadiansPerSecond gain",
            f ->
                Response.of(
                    complexes(f.list("zerosRadiansPerSecond")),
                    complexes(f.list("polesRadiansPerSecond")),
                    f.number("gain")))
        .add(
            "network",
            "elements source output",
            f -> NetworkKinds.read(f).response(f.text("source"), f.text("output")))
        .add(
            "stateSpace",
            "a b c d",
            f -> StateSpace.response(f.matrix("a"), f.numbers("b"), f.numbers("c"), f.number("d")))
        .add("product", "responses", f -> product(f, kinds));
  }

  private static Response product(Fields fields, Kinds<Response> kinds) {
    List<Json> factors = fields.list("responses");
    if (factors.isEmpty() || factors.size() > MAX_FACTORS) {
      throw fields
          .child("responses")
          .refused(
              "responses has " + factors.size() + " entries: must have from 1 to " + MAX_FACTORS);
    }
    Response product = kinds.read(factors.get(0));
    for (Json factor : factors.subList(1, factors.size())) {
      product = product.times(kinds.read(factor));
    }
    return product;
  }

  private static List<Complex> complexes(List<Json> items) {
    List<Complex> complexes = new ArrayList<>();
    for (Json item : items) {
      Fields fields = Fields.of(item, "a complex number", List.of("real"), List.of("imaginary"));
      complexes.add(new Complex(fields.number("real"), fields.numberOr("imaginary", 0)));
    }
    return complexes;
  }

  private static Kinds<Bandwidth> bandwidths() {
    return new Kinds<Bandwidth>("bandwidth")
        .add("unlimited", "", f -> Bandwidth.unlimited())
        .add("singlePole", "bandwidthHz", f -> Bandwidth.singlePole(f.number("bandwidthHz")))
        .add(
            "butterworth",
            "order bandwidthHz",
            f -> Bandwidth.butterworth(f.whole("order"), f.number("bandwidthHz")))
        .add(
            "bessel",
            "order bandwidthHz",
            f -> Bandwidth.bessel(f.whole("order"), f.number("bandwidthHz")))
        .add(
            "gaussian",
            "order bandwidthHz",
            f -> Bandwidth.gaussian(f.whole("order"), f.number("bandwidthHz")))
        .add(
            "own",
            "words response",
            f -> Bandwidth.of(f.text("words"), RESPONSES.read(f.child("response"))));
  }
}
