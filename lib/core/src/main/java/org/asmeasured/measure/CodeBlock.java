package org.asmeasured.measure;

/**
 * The codes of a record that are looked at together, in an array which a thread keeps: to make one
 * takes longer than to look through it. What it holds means nothing to the next.
 */
final class CodeBlock {
  static final int SIZE = 2000;

  private static final ThreadLocal<int[]> KEPT = ThreadLocal.withInitial(() -> new int[SIZE]);

  private CodeBlock() {}

  /** For one loop over a record, in which nothing else is called that takes it. */
  static int[] take() {
    return KEPT.get();
  }
}
