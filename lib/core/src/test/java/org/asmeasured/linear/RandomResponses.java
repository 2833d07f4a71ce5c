package org.asmeasured.linear;

import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Cases;

/** Random responses between about 10 Hz and 1 GHz. */
public final class RandomResponses {
  private RandomResponses() {}

  /** One factor. */
  public static Response any(SplittableRandom r) {
    double f = Cases.logUniform(r, 1e5, 1e9);
    return switch (r.nextInt(8)) {
      case 0 -> Response.singlePole(f);
      case 1 -> Response.highPass(Cases.logUniform(r, 1, 1e5));
      case 2 -> Response.butterworth(1 + r.nextInt(8), f);
      case 3 -> Response.bessel(1 + r.nextInt(8), f);
      case 4 -> Response.gaussian(1 + r.nextInt(8), f);
      case 5 -> {
        // a lead or lag: a divider that is not quite compensated
        double w = 2 * Math.PI * f;
        double e = r.nextDouble(0.8, 1.25);
        yield Response.of(List.of(new Complex(-w * e, 0)), List.of(new Complex(-w, 0)), 1);
      }
      case 6 -> {
        double w = 2 * Math.PI * f;
        double re = w * r.nextDouble(0.02, 0.9);
        Complex p = new Complex(-re, Math.sqrt(w * w - re * re));
        yield Response.of(List.of(), List.of(p, p.conjugate()), w * w);
      }
      default -> Response.singlePole(f).times(Response.singlePole(f * r.nextDouble(0.9, 1.1)));
    };
  }

  /** One to three factors. */
  public static Response chain(SplittableRandom r) {
    Response chain = any(r);
    int more = r.nextInt(3);
    for (int i = 0; i < more; i++) {
      chain = chain.times(any(r));
    }
    return chain;
  }
}
