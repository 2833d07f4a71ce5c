package org.asmeasured.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntConsumer;

/** Numbered pieces of work, shared by threads. */
public final class Workers {
  private Workers() {}

  /**
   * Does the pieces 0 to count - 1, each once, in any order.
   *
   * @throws IllegalStateException if the calling thread is interrupted; what a piece throws is
   *     thrown on
   */
  public static void share(int count, int threads, IntConsumer piece) {
    AtomicInteger next = new AtomicInteger();
    Runnable work =
        () -> {
          for (int i = next.getAndIncrement(); i < count; i = next.getAndIncrement()) {
            piece.accept(i);
          }
        };
    int sharers = Math.min(threads, count);
    if (sharers <= 1) {
      work.run();
      return;
    }
    ExecutorService pool = Executors.newFixedThreadPool(sharers);
    try {
      List<Future<?>> running = new ArrayList<>();
      for (int i = 0; i < sharers; i++) {
        running.add(pool.submit(work));
      }
      for (Future<?> one : running) {
        one.get();
      }
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while acquisitions were made", e);
    } finally {
      pool.shutdownNow();
    }
  }
}
