package org.asmeasured.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.CancellationException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicIntegerArray;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class ParallelTest {
  @Test
  void eachPieceOnce() {
    for (int threads : new int[] {1, 2, 8, 40}) {
      for (int count : new int[] {0, 1, 2, 7, 1000}) {
        AtomicIntegerArray done = new AtomicIntegerArray(count);
        Parallel.each(count, threads, done::incrementAndGet);
        for (int i = 0; i < count; i++) {
          assertEquals(1, done.get(i));
        }
      }
    }
  }

  /** Two pieces that wait for each other need two threads. */
  @Test
  void asManyThreadsAsSaid() {
    CountDownLatch both = new CountDownLatch(2);
    Parallel.each(
        2,
        2,
        i -> {
          both.countDown();
          assertTrue(waited(both));
        });
    AtomicInteger atOnce = new AtomicInteger();
    Parallel.each(
        200,
        3,
        i -> {
          assertTrue(atOnce.incrementAndGet() <= 3);
          Thread.yield();
          atOnce.decrementAndGet();
        });
  }

  private static boolean waited(CountDownLatch latch) {
    try {
      latch.await();
      return true;
    } catch (InterruptedException stopped) {
      return false;
    }
  }

  @Test
  void piecesMayAskForPieces() {
    AtomicInteger done = new AtomicInteger();
    Parallel.each(20, 4, i -> Parallel.each(20, 4, k -> done.incrementAndGet()));
    assertEquals(400, done.get());
  }

  @Test
  void aFailureIsThrownAndEndsIt() {
    for (int threads : new int[] {1, 4}) {
      AtomicInteger begun = new AtomicInteger();
      IllegalStateException thrown =
          assertThrows(
              IllegalStateException.class,
              () ->
                  Parallel.each(
                      1_000_000,
                      threads,
                      i -> {
                        begun.incrementAndGet();
                        if (i == 10) {
                          throw new IllegalStateException("piece " + i);
                        }
                      }));
      assertEquals("piece 10", thrown.getMessage());
      assertTrue(begun.get() < 1_000_000);
      assertThrows(
          AssertionError.class,
          () ->
              Parallel.each(
                  3,
                  threads,
                  i -> {
                    throw new AssertionError();
                  }));
    }
  }

  /** Others at work are told: a piece that waits for ever is interrupted. */
  @Test
  void othersAreInterrupted() throws InterruptedException {
    CountDownLatch waiting = new CountDownLatch(1);
    CountDownLatch told = new CountDownLatch(1);
    Thread asking = Thread.currentThread();
    assertThrows(
        IllegalStateException.class,
        () ->
            Parallel.each(
                2,
                2,
                i -> {
                  if (Thread.currentThread() != asking) {
                    waiting.countDown();
                    if (!waited(new CountDownLatch(1))) {
                      told.countDown();
                    }
                  } else {
                    assertTrue(waited(waiting));
                    throw new IllegalStateException();
                  }
                }));
    told.await();
  }

  @Test
  void anInterruptedCallerStops() {
    for (int threads : new int[] {1, 3}) {
      AtomicBoolean done = new AtomicBoolean();
      Thread.currentThread().interrupt();
      assertThrows(
          CancellationException.class,
          () ->
              Parallel.each(
                  1,
                  threads,
                  i -> {
                    done.set(true);
                  }));
      assertTrue(Thread.interrupted(), "stays marked");
      assertFalse(done.get());
    }
  }

  /** However soon others have done all pieces: fast work is cancelled as slow work is. */
  @Test
  void anInterruptedCallerNeverReturns() {
    for (int run = 0; run < 200; run++) {
      int threads = 1 + run % 4;
      Thread.currentThread().interrupt();
      try {
        assertThrows(CancellationException.class, () -> Parallel.each(3, threads, i -> {}));
      } finally {
        assertTrue(Thread.interrupted(), "it stays marked");
      }
    }
  }
}
