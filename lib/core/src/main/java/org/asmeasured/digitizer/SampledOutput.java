package org.asmeasured.digitizer;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.OutputSampler;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;

/**
 * What a sampler takes of a signal behind a chain: at its own instants, each core through its own
 * response. Exact, block by block, in any order.
 *
 * <p>A core's response is a factor of the chain's. Cores that share one share its output; where
 * they differ, the output of each is evaluated at every sample and kept where that core's turn is,
 * so that a sample is placed by its number on the one clock, however many cores there are. That
 * costs as many evaluations a sample as there are different responses.
 *
 * <p>Gain and offset of the cores are not applied: noise of the amplifier comes in between. See
 * {@link Sampler#mismatch}.
 *
 * <p>A sample depends on its number and the key alone. After the first reads nothing is allocated.
 * For one thread; make one for each.
 */
public final class SampledOutput {
  private final Sampler sampler;
  private final int cores;
  private final OutputSampler[] outputs;

  /** Which output each core reads. */
  private final int[] outputOf;

  private double[] shifts = new double[0];
  private double[] work = new double[0];

  /**
   * A reader.
   *
   * @param signal what is there
   * @param chain the response of everything ahead of the sampler
   * @param sampler when samples are taken, and by which core
   * @param nominal the clock as it is set
   * @throws IllegalArgumentException if the sampler's clock is out of range, or segments of the
   *     signal times states of a response exceed 2^30
   * @throws NullPointerException if an argument is missing
   */
  public SampledOutput(Signal signal, Response chain, Sampler sampler, SampleClock nominal) {
    Require.present("signal", signal);
    Require.present("chain", chain);
    this.sampler = Require.present("sampler", sampler);
    SampleClock clock = sampler.clock(Require.present("nominal", nominal));
    double maxShift = sampler.onTime() ? 0 : sampler.maxShiftSeconds();
    cores = Require.inRange("sampler.cores", sampler.cores(), 1, Sampler.MAX_CORES);
    outputOf = new int[cores];
    List<Response> responses = new ArrayList<>();
    for (int c = 0; c < cores; c++) {
      Response own = sampler.core(c).response();
      int found = 0;
      while (found < responses.size() && !same(own, responses.get(found))) {
        found++;
      }
      if (found == responses.size()) {
        responses.add(own);
      }
      outputOf[c] = found;
    }
    outputs = new OutputSampler[responses.size()];
    for (int o = 0; o < outputs.length; o++) {
      Response own = responses.get(o);
      Response all = own.isIdentity() ? chain : chain.times(own);
      outputs[o] = all.of(signal).sampler(clock, maxShift);
    }
  }

  private static boolean same(Response a, Response b) {
    return a.equals(b) || a.isIdentity() && b.isIdentity();
  }

  /**
   * Moves raw sample 0 to another instant; tables are kept.
   *
   * @param startSeconds the instant of raw sample 0, before its shift
   * @throws IllegalArgumentException if the instant is out of range
   */
  public void startAt(double startSeconds) {
    for (OutputSampler output : outputs) {
      output.startAt(startSeconds);
    }
  }

  /**
   * Reads raw samples.
   *
   * @param key the random stream of the sampler in this acquisition
   * @param first number of the first raw sample, up to 2^53 either way
   * @param out receives {@code count} volts
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   * @throws IllegalArgumentException if {@code first} is out of range
   */
  public void read(long key, long first, double[] out, int offset, int count) {
    Objects.checkFromIndexSize(offset, count, Require.present("out", out).length);
    boolean onTime = sampler.onTime();
    if (!onTime) {
      if (shifts.length < count) {
        shifts = new double[count];
      }
      sampler.shifts(key, first, shifts, 0, count);
    }
    read(outputs[0], onTime, first, out, offset, count);
    if (outputs.length > 1 && work.length < count) {
      work = new double[count];
    }
    for (int o = 1; o < outputs.length; o++) {
      read(outputs[o], onTime, first, work, 0, count);
      int phase = (int) Math.floorMod(first, (long) cores);
      for (int c = 0; c < cores; c++) {
        if (outputOf[c] == o) {
          for (int i = Math.floorMod(c - phase, cores); i < count; i += cores) {
            out[offset + i] = work[i];
          }
        }
      }
    }
  }

  private void read(
      OutputSampler output, boolean onTime, long first, double[] out, int offset, int count) {
    if (onTime) {
      output.read(first, out, offset, count);
    } else {
      output.read(first, shifts, out, offset, count);
    }
  }
}
