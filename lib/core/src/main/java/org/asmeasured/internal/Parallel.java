package org.asmeasured.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;
import java.util.concurrent.SynchronousQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntConsumer;

/**
 * Independent pieces of work, shared among threads. What comes of them must not depend on it.
 *
 * <p>The thread that asks does pieces too, so that few and short ones do not wait for others to
 * wake. Those others are daemons, and are kept for a fifth of a second: what asks once mostly asks
 * again at once.
 */
public final class Parallel {
  /** The greatest number of threads. */
  public static final int MAX_THREADS = 1024;

  private static final long KEPT_MILLIS = 200;

  private static final ExecutorService HELPERS =
      new ThreadPoolExecutor(
          0,
          Integer.MAX_VALUE,
          KEPT_MILLIS,
          TimeUnit.MILLISECONDS,
          new SynchronousQueue<>(),
          work -> {
            Thread thread = new Thread(work, "asmeasured work");
            thread.setDaemon(true);
            return thread;
          });

  private Parallel() {}

  /**
   * Does pieces 0 to count - 1, each once, in any order. After a failure no piece is begun any
   * more, and the other threads at work are interrupted; what is thrown is that of the first piece
   * that is known to have failed.
   *
   * @param count how many pieces
   * @param threads how many threads share them; with one it is the caller's own
   * @param work called with the number of a piece
   * @throws CancellationException if the calling thread is interrupted, which stays marked; also
   *     where others did all pieces before it noticed
   */
  public static void each(int count, int threads, IntConsumer work) {
    Pieces pieces = new Pieces(count, work);
    List<Future<?>> helpers = new ArrayList<>();
    try {
      for (int i = 1; i < Math.min(threads, count); i++) {
        helpers.add(HELPERS.submit(pieces));
      }
      pieces.run();
      pieces.await();
    } finally {
      pieces.close();
      for (Future<?> helper : helpers) {
        helper.cancel(true);
      }
    }
  }

  /** The pieces of one call. */
  private static final class Pieces implements Runnable {
    private final int count;
    private final IntConsumer work;
    private final AtomicInteger next = new AtomicInteger();
    private int finished;
    private int failedPiece = Integer.MAX_VALUE;
    private Throwable failure;

    Pieces(int count, IntConsumer work) {
      this.count = count;
      this.work = work;
    }

    @Override
    public void run() {
      for (int i = next.getAndIncrement(); i < count; i = next.getAndIncrement()) {
        try {
          requireGoingOn();
          work.accept(i);
          finish();
        } catch (RuntimeException | Error thrown) {
          fail(i, thrown);
          return;
        }
      }
    }

    private synchronized void finish() {
      finished++;
      notifyAll();
    }

    private synchronized void fail(int piece, Throwable thrown) {
      if (piece < failedPiece) {
        failedPiece = piece;
        failure = thrown;
      }
      close();
      notifyAll();
    }

    /** No piece is begun any more. */
    void close() {
      next.set(Integer.MAX_VALUE / 2);
    }

    /** Waits for the pieces that others have begun. */
    synchronized void await() {
      while (finished < count && failure == null) {
        try {
          wait();
        } catch (InterruptedException stopped) {
          Thread.currentThread().interrupt();
        }
        requireGoingOn();
      }
      if (failure instanceof RuntimeException thrown) {
        throw thrown;
      }
      if (failure instanceof Error thrown) {
        throw thrown;
      }
      requireGoingOn();
    }

    private static void requireGoingOn() {
      if (Thread.currentThread().isInterrupted()) {
        throw new CancellationException("cancelled: the thread was interrupted");
      }
    }
  }
}
