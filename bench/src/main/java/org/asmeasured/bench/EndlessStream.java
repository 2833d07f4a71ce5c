package org.asmeasured.bench;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.CaptureStream;

/**
 * A long stream through the whole chain in a small heap: 10^9 samples of a triangle, made block by
 * block, into the codes of an envelope. Prints the time, the bytes allocated at work and a digest
 * of the codes, which must be the same for every size of block.
 *
 * <p>Run: {@code java -Xmx64m -cp bench/target/benchmarks.jar org.asmeasured.bench.EndlessStream
 * 1000000000 4096}; both numbers, samples and block, may be left out.
 */
public final class EndlessStream {
  private static final int PERIOD = 9973;

  private EndlessStream() {}

  /**
   * Runs the stream.
   *
   * @param args samples and block, or nothing
   */
  public static void main(String[] args) {
    long samples = args.length > 0 ? Long.parseLong(args[0]) : 1_000_000_000L;
    int block = args.length > 1 ? Integer.parseInt(args[1]) : 4096;
    CaptureStream stream = Streaming.setup().decimation(new PeakDetect(10)).stream();
    double[] in = new double[block];
    int[] lower = new int[stream.mostPoints(block)];
    int[] upper = new int[lower.length];
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long thread = Thread.currentThread().getId();
    long digest = 1;
    // the first blocks load what the work needs
    long warm = Math.min(samples / 10, 20_000_000);
    long bytes = 0;
    long start = System.nanoTime();
    boolean counting = false;
    for (long done = 0; done < samples; ) {
      if (!counting && done >= warm) {
        counting = true;
        bytes = threads.getThreadAllocatedBytes(thread);
        bytes = threads.getThreadAllocatedBytes(thread);
      }
      int n = (int) Math.min(block, samples - done);
      for (int j = 0; j < n; j++) {
        long place = (done + j) % PERIOD;
        in[j] = 2.2 * Math.abs(2.0 * place / PERIOD - 1) - 1.1;
      }
      int points = stream.process(in, 0, n, lower, upper);
      for (int i = 0; i < points; i++) {
        digest = 31 * (31 * digest + lower[i]) + upper[i];
      }
      done += n;
    }
    bytes = threads.getThreadAllocatedBytes(thread) - bytes;
    double seconds = (System.nanoTime() - start) * 1e-9;
    System.out.printf(
        "%d samples in blocks of %d: %.1f s, %.2f ns a sample with its making; %d points, %d"
            + " clipped; %d bytes allocated after the first %d samples; heap limit %d MB; digest"
            + " %016x%n",
        stream.samples(),
        block,
        seconds,
        1e9 * seconds / samples,
        stream.points(),
        stream.clippedLow() + stream.clippedHigh(),
        bytes,
        warm,
        Runtime.getRuntime().maxMemory() >> 20,
        digest);
  }
}
