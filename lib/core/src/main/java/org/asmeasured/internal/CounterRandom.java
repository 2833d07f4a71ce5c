package org.asmeasured.internal;

import java.util.Objects;

/**
 * Random numbers as a pure function of a key and a number: value i of a stream does not depend on
 * the block it was read in, on the order of reading or on the thread.
 *
 * <p>A hash of 64 bits (the finalizer of D. Stafford's variant 13 as SplitMix64 uses it: G. Steele,
 * D. Lea, C. Flood, OOPSLA 2014) is taken of a Weyl sequence whose start and odd increment both
 * come from the key, so that two streams never run along each other. Normal values are drawn by the
 * ziggurat (G. Marsaglia, W. Tsang, Journal of Statistical Software 5 (2000) 8) of 512 layers, two
 * values from one hash: 10 bits of a half are the sign and the layer, and all 32 the place in it,
 * so a value within a layer lies on a grid no wider than 9.3e-7 standard deviations.
 *
 * <p>Only exact operations and {@link StrictMath} are used: the same bits on every Java.
 */
public final class CounterRandom {
  private static final long WEYL = 0x9e3779b97f4a7c15L;

  /** Keeps the hashes of uniform values apart from those of normal ones of the same key. */
  private static final long UNIFORM = 0x6a09e667f3bcc909L;

  private static final long UPPER_HALF = 0xbb67ae8584caa73bL;
  private static final int LAYERS = 512;

  /** Where the tail begins, for 512 layers of equal area that end at 0. */
  private static final double TAIL = 3.852046150368391;

  /** Width of each layer; that of the lowest is the width a rectangle of its area would have. */
  private static final double[] WIDTH = new double[LAYERS];

  /** The share of each layer that lies under the curve for certain. */
  private static final double[] SURE = new double[LAYERS];

  /** The lowest bit of a half is its sign, the next nine choose the layer. */
  private static final int SIGNED_LAYERS = 2 * LAYERS;

  /** The greatest half in each layer that lies under the curve for certain. */
  private static final long[] SURE_HALF = new long[SIGNED_LAYERS];

  /** The signed width of a step from half to half. */
  private static final double[] STEP = new double[SIGNED_LAYERS];

  /** So many hashes are made at a time, on vectors where the machine multiplies longs on them. */
  private static final int HASHES = 256;

  /** 0, 1, 2, ... */
  private static final long[] RAMP = new long[HASHES];

  private static final ThreadLocal<Scratch> SCRATCH = ThreadLocal.withInitial(Scratch::new);

  /** The curve exp(-x^2/2) at the edge of each layer, and at the top. */
  private static final double[] CURVE = new double[LAYERS + 1];

  static {
    double atTail = StrictMath.exp(-0.5 * TAIL * TAIL);
    double area = TAIL * atTail + areaOfTail();
    double[] x = new double[LAYERS + 1];
    x[0] = area / atTail;
    x[1] = TAIL;
    for (int i = 1; i < LAYERS - 1; i++) {
      x[i + 1] = Math.sqrt(-2 * StrictMath.log(area / x[i] + StrictMath.exp(-0.5 * x[i] * x[i])));
    }
    for (int i = 0; i < LAYERS; i++) {
      WIDTH[i] = x[i];
      SURE[i] = x[i + 1] / x[i];
      CURVE[i + 1] = StrictMath.exp(-0.5 * x[i + 1] * x[i + 1]);
      for (int sign = 0; sign < 2; sign++) {
        // the last half of which half 2^-32 is less, all of it exact in a double
        SURE_HALF[2 * i + sign] = (long) Math.ceil(SURE[i] * 0x1p32) - 1;
        STEP[2 * i + sign] = (1 - 2 * sign) * WIDTH[i] * 0x1p-32;
      }
    }
    for (int i = 0; i < HASHES; i++) {
      RAMP[i] = i;
    }
  }

  /** A block's hashes, and which of them need a second look. */
  private static final class Scratch {
    final long[] hashes = new long[HASHES];
    final int[] unsure = new int[HASHES];
  }

  private CounterRandom() {}

  /** The area of exp(-x^2/2) beyond the tail's start, by Lentz's continued fraction. */
  private static double areaOfTail() {
    double fraction = TAIL;
    for (int k = 200; k >= 1; k--) {
      fraction = TAIL + k / fraction;
    }
    return StrictMath.exp(-0.5 * TAIL * TAIL) / fraction;
  }

  /**
   * A hash of 64 bits: a permutation of all longs that leaves no trace of their order.
   *
   * @param value any
   * @return its image
   */
  public static long mix(long value) {
    long z = (value ^ (value >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }

  /**
   * The key of one stream of a seed; a key may serve as the seed of further streams.
   *
   * @param seed any
   * @param stream any: which purpose, which acquisition
   * @return the key
   */
  public static long key(long seed, long stream) {
    return mix(mix(seed + WEYL) + stream * WEYL + UPPER_HALF);
  }

  /**
   * A value uniform on (0, 1), on a grid of 2^-52 that leaves out both ends.
   *
   * @param key the stream
   * @param index which value, either sign
   * @return the value
   */
  public static double uniform(long key, long index) {
    return unit(mix(key + UNIFORM + index * increment(key)));
  }

  /**
   * A value of mean 0 and standard deviation 1, normally distributed.
   *
   * @param key the stream
   * @param index which value, either sign
   * @return the value, the same as {@link #gaussians} gives for this index
   */
  public static double gaussian(long key, long index) {
    long r = mix(key + (index >> 1) * increment(key));
    return (index & 1) == 0 ? lower(r) : upper(r);
  }

  /**
   * Consecutive values of mean 0 and standard deviation 1, normally distributed.
   *
   * @param key the stream
   * @param first index of the first value, either sign
   * @param out receives {@code count} values
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   */
  public static void gaussians(long key, long first, double[] out, int offset, int count) {
    Objects.checkFromIndexSize(offset, count, out.length);
    int j = offset;
    int end = offset + count;
    long increment = increment(key);
    long z = key + (first >> 1) * increment;
    if ((first & 1) != 0 && j < end) {
      out[j++] = upper(mix(z));
      z += increment;
    }
    j = pairs(z, increment, out, j, end);
    if (j < end) {
      out[j] = lower(mix(key + ((first + (j - offset)) >> 1) * increment));
    }
  }

  private static int pairs(long start, long increment, double[] out, int from, int end) {
    int pairs = (end - from) / 2;
    if (pairs <= 0) {
      return from;
    }
    Scratch scratch = SCRATCH.get();
    for (int done = 0; done < pairs; done += HASHES) {
      int count = Math.min(HASHES, pairs - done);
      int at = from + 2 * done;
      hash(start + done * increment, increment, RAMP, scratch.hashes, count);
      int unsure = pick(scratch.hashes, count, out, at, scratch.unsure);
      for (int i = 0; i < unsure; i++) {
        int q = scratch.unsure[i];
        out[at + 2 * q] = lower(scratch.hashes[q]);
        out[at + 2 * q + 1] = upper(scratch.hashes[q]);
      }
    }
    return from + 2 * pairs;
  }

  // The hot loops, each alone in its method so that it is compiled alone.

  private static void hash(long start, long increment, long[] ramp, long[] hashes, int count) {
    for (int i = 0; i < count; i++) {
      long v = start + ramp[i] * increment;
      long z = (v ^ (v >>> 30)) * 0xbf58476d1ce4e5b9L;
      z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
      hashes[i] = z ^ (z >>> 31);
    }
  }

  /**
   * As {@link #value} of both halves, with one branch for the two.
   *
   * @return how many pairs are not under the curve for certain; their numbers are in {@code unsure}
   */
  private static int pick(long[] hashes, int count, double[] out, int at, int[] unsure) {
    int n = 0;
    for (int q = 0; q < count; q++) {
      long r = hashes[q];
      long low = r & 0xffffffffL;
      long high = r >>> 32;
      int i = (int) r & (SIGNED_LAYERS - 1);
      int k = (int) high & (SIGNED_LAYERS - 1);
      out[at + 2 * q] = low * STEP[i];
      out[at + 2 * q + 1] = high * STEP[k];
      if (((SURE_HALF[i] - low) | (SURE_HALF[k] - high)) < 0) {
        unsure[n++] = q;
      }
    }
    return n;
  }

  private static double lower(long r) {
    return value(r & 0xffffffffL, r);
  }

  private static double upper(long r) {
    return value(r >>> 32, r ^ UPPER_HALF);
  }

  /** From 32 bits; further ones, if needed, come from a seed. */
  private static double value(long half, long seed) {
    int i = (int) half & (SIGNED_LAYERS - 1);
    if (half <= SURE_HALF[i]) {
      return half * STEP[i];
    }
    double place = half * 0x1p-32;
    return rest((i & 1) == 0 ? place : -place, i >> 1, seed);
  }

  /**
   * The slow path, 0.8 % of all: the rim of a layer, or the tail; further draws come from a small
   * generator of its own.
   */
  private static double rest(double place, int layer, long seed) {
    double u = place;
    int i = layer;
    long z = seed;
    while (true) {
      if (Math.abs(u) < SURE[i]) {
        return u * WIDTH[i];
      }
      if (i == 0) {
        double beyond;
        double y;
        do {
          z += WEYL;
          beyond = -StrictMath.log(unit(mix(z))) / TAIL;
          z += WEYL;
          y = -StrictMath.log(unit(mix(z)));
        } while (y + y <= beyond * beyond);
        return u < 0 ? -(TAIL + beyond) : TAIL + beyond;
      }
      double x = u * WIDTH[i];
      z += WEYL;
      double height = CURVE[i] + unit(mix(z)) * (CURVE[i + 1] - CURVE[i]);
      if (below(height, -0.5 * x * x)) {
        return x;
      }
      z += WEYL;
      long r = mix(z);
      i = (int) r & (LAYERS - 1);
      u = ((r >> 11) + 0.5) * 0x1p-52;
    }
  }

  /**
   * Whether {@code height < StrictMath.exp(power)}. Math.exp is quicker and within one unit of the
   * last place, whatever the machine; only nearer than that does the exact bit decide.
   */
  private static boolean below(double height, double power) {
    double quick = Math.exp(power);
    return Math.abs(height - quick) > 1e-12 * quick
        ? height < quick
        : height < StrictMath.exp(power);
  }

  private static double unit(long hash) {
    return ((hash >>> 12) + 0.5) * 0x1p-52;
  }

  /** An odd number with enough changes between its bits, as SplitMix asks for. */
  private static long increment(long key) {
    long odd = mix(key + WEYL) | 1;
    return Long.bitCount(odd ^ (odd >>> 1)) < 24 ? odd ^ 0xaaaaaaaaaaaaaaaaL : odd;
  }
}
