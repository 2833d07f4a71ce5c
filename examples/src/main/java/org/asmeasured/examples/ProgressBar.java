package org.asmeasured.examples;

import java.io.Console;
import java.io.PrintStream;
import java.lang.reflect.Method;
import java.util.Locale;
import java.util.function.LongSupplier;
import org.asmeasured.uncertainty.Progress;

/**
 * How far long work has come, as one line of plain letters that is written over and wiped at the
 * end. It never asks work to stop.
 */
final class ProgressBar implements Progress, AutoCloseable {
  private static final int CELLS = 30;
  private static final int LONGEST_NAME = 36;
  private static final long BETWEEN_NANOS = 100_000_000;

  private final PrintStream out;
  private final LongSupplier nanos;
  private String name = "";
  private int part;
  private int parts = 1;
  private String shown = "";
  private long last;
  private boolean closed;

  /**
   * A bar.
   *
   * @param out the terminal, or null for no bar
   */
  ProgressBar(PrintStream out) {
    this(out, System::nanoTime);
  }

  ProgressBar(PrintStream out, LongSupplier nanos) {
    this.out = out;
    this.nanos = nanos;
    this.last = nanos.getAsLong() - BETWEEN_NANOS;
  }

  /** Whether a person watches: nothing is redirected to a file. */
  static boolean isWatched() {
    Console console = System.console();
    if (console == null) {
      return false;
    }
    try {
      // From Java 22 on there may be a console without a terminal.
      Method terminal = Console.class.getMethod("isTerminal");
      return (boolean) terminal.invoke(console);
    } catch (ReflectiveOperationException e) {
      return true;
    }
  }

  /** Begins one of several parts of equal weight. */
  synchronized void begin(String what, int number, int count) {
    String plain = what.replaceAll("[^ -~]", "?");
    name = plain.length() > LONGEST_NAME ? plain.substring(0, LONGEST_NAME - 3) + "..." : plain;
    part = number;
    parts = count;
    goOn(0, 1);
  }

  @Override
  public synchronized boolean goOn(long done, long most) {
    if (out == null || closed) {
      return true;
    }
    long now = nanos.getAsLong();
    if (now - last < BETWEEN_NANOS) {
      return true;
    }
    last = now;
    double share = (part + Math.min(1, (double) done / Math.max(1, most))) / parts;
    int filled = (int) (share * CELLS);
    String line =
        "["
            + "#".repeat(filled)
            + ".".repeat(CELLS - filled)
            + "] "
            + String.format(Locale.ROOT, "%3d", (int) (100 * share))
            + " % "
            + name;
    if (!line.equals(shown)) {
      out.print("\r" + line + " ".repeat(Math.max(0, shown.length() - line.length())));
      out.flush();
      shown = line;
    }
    return true;
  }

  @Override
  public synchronized void close() {
    closed = true;
    if (!shown.isEmpty()) {
      out.print("\r" + " ".repeat(shown.length()) + "\r");
      out.flush();
      shown = "";
    }
  }
}
