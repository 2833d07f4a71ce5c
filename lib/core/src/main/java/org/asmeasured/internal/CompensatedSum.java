package org.asmeasured.internal;

/** A sum that keeps what each addition rounds away beside it (Knuth's two-sum). */
public final class CompensatedSum {
  private double sum;
  private double compensation;

  public void add(double value) {
    double next = sum + value;
    double grown = next - sum;
    compensation += (sum - (next - grown)) + (value - grown);
    sum = next;
  }

  public double total() {
    return sum + compensation;
  }
}
