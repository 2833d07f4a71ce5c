package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class ProgressBarTest {
  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private final AtomicLong nanos = new AtomicLong();

  private ProgressBar bar() {
    return new ProgressBar(new PrintStream(bytes, true, StandardCharsets.US_ASCII), nanos::get);
  }

  private String written() {
    String text = bytes.toString(StandardCharsets.US_ASCII);
    bytes.reset();
    return text;
  }

  private void later() {
    nanos.addAndGet(200_000_000);
  }

  @Test
  void showsItsShareInPlainLetters() {
    ProgressBar bar = bar();
    bar.begin("filling-the-screen", 0, 1);
    assertEquals("\r[" + ".".repeat(30) + "]   0 % filling-the-screen", written());
    later();
    assertTrue(bar.goOn(1, 3));
    assertEquals("\r[" + "#".repeat(10) + ".".repeat(20) + "]  33 % filling-the-screen", written());
    later();
    bar.goOn(3, 3);
    assertEquals("\r[" + "#".repeat(30) + "] 100 % filling-the-screen", written());
  }

  @Test
  void partsWeighTheSame() {
    ProgressBar bar = bar();
    bar.begin("a", 1, 2);
    assertTrue(written().contains(" 50 % a"));
    later();
    bar.goOn(1, 2);
    assertTrue(written().contains(" 75 % a"));
  }

  /** Ten times a second at most, and only when something changes. */
  @Test
  void writesSeldom() {
    ProgressBar bar = bar();
    bar.begin("a", 0, 1);
    written();
    for (int i = 1; i <= 1000; i++) {
      bar.goOn(i, 1000);
    }
    assertEquals("", written());
    later();
    bar.goOn(500, 1000);
    assertTrue(written().contains("50 %"));
    later();
    bar.goOn(500, 1000);
    assertEquals("", written());
  }

  /** A shorter line covers a longer one, and the end leaves none. */
  @Test
  void wipesWhatItWrote() {
    ProgressBar bar = bar();
    bar.begin("a long name", 0, 2);
    int length = written().length() - 1;
    later();
    bar.begin("b", 1, 2);
    assertEquals(length, written().length() - 1);
    bar.close();
    String wiped = written();
    assertTrue(wiped.isBlank() && wiped.endsWith("\r"), wiped);
    bar.close();
    assertEquals("", written());
  }

  @Test
  void cutsLongNamesAndStrangeLetters() {
    ProgressBar bar = bar();
    bar.begin("µ".repeat(100), 0, 1);
    String line = written();
    assertTrue(line.endsWith("?..."), line);
    assertTrue(line.length() < 80, line);
  }

  @Test
  void isSilentWhereNobodyWatches() {
    try (ProgressBar bar = new ProgressBar(null)) {
      bar.begin("a", 0, 1);
      assertTrue(bar.goOn(1, 2));
    }
    assertEquals("", written());
  }
}
