package org.asmeasured.digitizer;

import java.util.Objects;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.SampleClock;

/**
 * When each raw sample is taken, and what the core that takes it does to it. Open: a sampler of
 * your own needs one method, {@link #shifts}.
 *
 * <p>Raw sample k is taken by core k mod {@link #cores} (of a negative k too: the remainder is
 * never negative), at the instant k of {@link #clock} plus its shift. That core reads what arrives
 * at the sampler through its own {@link Core#response}, multiplied into the chain, and then bends
 * it by its own gain and offset.
 *
 * <p>An implementation is immutable and may be used by several threads at once. Shifts are a pure
 * function of (key, raw sample number): of neither the block they are asked for in, nor the order,
 * nor the thread.
 */
@FunctionalInterface
public interface Sampler {
  /** The greatest number of interleaved cores. */
  int MAX_CORES = 64;

  /**
   * Every sample at its instant, by one core without errors.
   *
   * @return the sampler that changes nothing, bit for bit
   */
  static Sampler ideal() {
    return InterleavedSampler.IDEAL;
  }

  /**
   * How much later than their instants of {@link #clock} raw samples are taken.
   *
   * @param key the random stream of this acquisition
   * @param first number of the first raw sample
   * @param shiftsSeconds receives the shifts in seconds, finite, positive = later
   * @param offset where the first goes
   * @param count how many, 0 or more
   * @throws IndexOutOfBoundsException if the array does not hold them
   */
  void shifts(long key, long first, double[] shiftsSeconds, int offset, int count);

  /**
   * Whether every shift is zero, so that {@link #shifts} need not be called.
   *
   * @return false unless overridden
   */
  default boolean onTime() {
    return false;
  }

  /**
   * A size that shifts seldom exceed, so that a reader can prepare for it. Greater ones are as
   * exact, and slower.
   *
   * @return 0 to 1 s; 0 unless overridden
   */
  default double maxShiftSeconds() {
    return 0;
  }

  /**
   * The clock as it runs.
   *
   * @param nominal the clock as it is set
   * @return the nominal clock unless overridden
   * @throws NullPointerException if the clock is missing
   */
  default SampleClock clock(SampleClock nominal) {
    return Require.present("nominal", nominal);
  }

  /**
   * The number of cores that take turns.
   *
   * @return 1 to 64; 1 unless overridden
   */
  default int cores() {
    return 1;
  }

  /**
   * A core.
   *
   * @param index 0 to {@link #cores} - 1
   * @return one without errors unless overridden
   * @throws IndexOutOfBoundsException if there is no such core
   */
  default Core core(int index) {
    if (index < 0 || index >= cores()) {
      throw new IndexOutOfBoundsException(
          "index = " + index + ": must be from 0 to " + (cores() - 1));
    }
    return Core.ideal();
  }

  /**
   * Whether the sampler changes nothing at all.
   *
   * @return false unless overridden
   */
  default boolean isIdeal() {
    return false;
  }

  /**
   * Whether all cores have the same response, the identity, so that one output of the chain serves
   * them all.
   *
   * @return true if no core has a response of its own
   */
  default boolean hasEqualResponses() {
    for (int c = 0; c < cores(); c++) {
      if (!core(c).response().isIdentity()) {
        return false;
      }
    }
    return true;
  }

  /**
   * Applies gain and offset of each sample's core, in place: v becomes v + (v - centre) gainError +
   * offsetError x fullScale. A core without these errors leaves its samples alone, bit for bit.
   *
   * @param first number of the first raw sample
   * @param centreVolts what the middle of the converter's range stands for: a core sees voltages
   *     from there
   * @param fullScaleVolts the converter's span, which the offset is a fraction of
   * @param volts the samples
   * @param offset index of the first
   * @param count how many, 0 or more
   * @throws IndexOutOfBoundsException if the array does not hold them
   */
  default void mismatch(
      long first,
      double centreVolts,
      double fullScaleVolts,
      double[] volts,
      int offset,
      int count) {
    Objects.checkFromIndexSize(offset, count, Require.present("volts", volts).length);
    int cores = cores();
    int phase = (int) Math.floorMod(first, (long) cores);
    for (int c = 0; c < cores; c++) {
      Core core = core(c);
      if (core.gainError() != 0 || core.offsetError() != 0) {
        int lead = Math.floorMod(c - phase, cores);
        Mismatch.apply(
            volts,
            offset + Math.min(lead, count),
            offset + count,
            cores,
            centreVolts,
            core.gainError(),
            core.offsetError() * fullScaleVolts);
      }
    }
  }
}
