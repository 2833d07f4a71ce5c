package org.asmeasured.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntConsumer;

/** Independent pieces of work, shared among threads. What comes of them must not depend on it. */
public final class Parallel {
  /** The greatest number of threads. */
  public static final int MAX_THREADS = 1024;

  private Parallel() {}

  /**
   * Does pieces 0 to count - 1, each once, in any order.
   *
   * @param count how many pieces
   * @param threads how many threads share them; with one it is the caller's own
   * @param work called with the number of a piece
   * @throws CancellationException if the calling thread is interrupted, which stays marked
   */
  public static void each(int count, int threads, IntConsumer work) {
    int used = Math.min(threads, count);
    if (used <= 1) {
      for (int i = 0; i < count; i++) {
        requireNotInterrupted();
        work.accept(i);
      }
      return;
    }
    AtomicInteger next = new AtomicInteger();
    Runnable worker =
        () -> {
          for (int i = next.getAndIncrement(); i < count; i = next.getAndIncrement()) {
            requireNotInterrupted();
            work.accept(i);
          }
        };
    ExecutorService pool =
        Executors.newFixedThreadPool(
            used,
            r -> {
              Thread thread = new Thread(r, "asmeasured work");
              thread.setDaemon(true);
              return thread;
            });
    try {
      List<Future<?>> running = new ArrayList<>();
      for (int i = 0; i < used; i++) {
        running.add(pool.submit(worker));
      }
      for (Future<?> one : running) {
        one.get();
      }
    } catch (ExecutionException failed) {
      if (failed.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      if (failed.getCause() instanceof Error cause) {
        throw cause;
      }
      throw new IllegalStateException(failed.getCause());
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new CancellationException("cancelled: the thread was interrupted");
    } finally {
      // no piece is begun any more, and those at work are told
      next.set(Integer.MAX_VALUE / 2);
      pool.shutdownNow();
    }
  }

  private static void requireNotInterrupted() {
    if (Thread.currentThread().isInterrupted()) {
      throw new CancellationException("cancelled: the thread was interrupted");
    }
  }
}
