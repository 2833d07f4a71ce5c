package org.asmeasured.capture;

/**
 * The blocks that a capture works in, kept for the next one of the same thread: to make them anew
 * takes longer than a short capture works in them. What they hold means nothing to the next.
 */
final class Blocks {
  /** Raw samples worked on at a time. */
  static final int RAW = 2048;

  private static final ThreadLocal<Blocks> KEPT = new ThreadLocal<>();

  final double[] raw = new double[RAW];

  // not a whole page from the raw samples
  final double[] noise = new double[RAW + 40];
  final double[] lower = new double[RAW + 81];
  final double[] upper = new double[RAW + 121];

  private Blocks() {}

  /** Takes this thread's blocks, or makes them: a capture may be part of another's signal. */
  static Blocks take() {
    Blocks kept = KEPT.get();
    if (kept == null) {
      return new Blocks();
    }
    KEPT.set(null);
    return kept;
  }

  /** Leaves the blocks to the thread's next capture. */
  void leave() {
    KEPT.set(this);
  }
}
