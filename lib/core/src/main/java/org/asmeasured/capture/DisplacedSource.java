package org.asmeasured.capture;

import org.asmeasured.digitizer.SampledOutput;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;

/**
 * A linear chain behind a source whose edges jitter: undisturbed plus displaced less undisturbed.
 */
final class DisplacedSource implements RawSource {
  private final Setup setup;
  private final RawSource undisturbed;
  private final EdgeJitter jitter;
  private final Response response;
  private SampledOutput change;
  private double[] work = {};

  DisplacedSource(Setup setup, RawSource undisturbed, EdgeJitter jitter) {
    this.setup = setup;
    this.undisturbed = undisturbed;
    this.jitter = jitter;
    Response chain = setup.frontEnd().response();
    for (int c = 0; c < setup.sampler().cores(); c++) {
      Response own = setup.sampler().core(c).response();
      chain = own.isIdentity() ? chain : slower(chain, setup.frontEnd().response().times(own));
    }
    response = chain;
  }

  private static Response slower(Response a, Response b) {
    return slowest(a) <= slowest(b) ? a : b;
  }

  private static double slowest(Response response) {
    return response.poles().stream()
        .mapToDouble(p -> Math.abs(p.getReal()))
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  @Override
  public void startAt(int acquisition, double startSeconds) {
    undisturbed.startAt(acquisition, startSeconds);
    Sampler sampler = setup.sampler();
    SampleClock nominal = new SampleClock(startSeconds, setup.rateHz());
    double rate = Math.min(setup.rateHz(), sampler.clock(nominal).rateHz());
    // a deviate of the sampler's jitter may be twice what it seldom exceeds, no more
    double margin = (setup.decimation().lead() + 2) / rate + 2 * sampler.maxShiftSeconds();
    double span = setup.decimation().rawSamples(setup.points()) / rate;
    Signal signal =
        jitter.change(acquisition, startSeconds - margin, startSeconds + span + margin, response);
    change = new SampledOutput(signal, setup.frontEnd().response(), sampler, nominal);
  }

  @Override
  public void read(long key, long first, double[] out, int count) {
    undisturbed.read(key, first, out, count);
    if (work.length < count) {
      work = new double[count];
    }
    change.read(key, first, work, 0, count);
    Kernels.add(work, out, count);
  }
}
