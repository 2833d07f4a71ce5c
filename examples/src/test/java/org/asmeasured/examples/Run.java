package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** What a run left behind. */
record Run(int code, String out, String err) {
  static Run of(Object... args) {
    return watched(null, args);
  }

  /** With somebody who watches. */
  static Run watched(PrintStream watched, Object... args) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    String[] words =
        Arrays.stream(args).map(arg -> arg == null ? null : arg.toString()).toArray(String[]::new);
    int code = Main.run(words, utf8(out), utf8(err), watched);
    return new Run(
        code, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  static PrintStream utf8(ByteArrayOutputStream bytes) {
    return new PrintStream(bytes, true, StandardCharsets.UTF_8);
  }

  void assertRefused(int expectedCode, String... words) {
    assertEquals(expectedCode, code, err);
    assertEquals("", out);
    assertEquals(1, err.lines().count(), err);
    assertTrue(err.stripTrailing().endsWith("."), err);
    assertFalse(err.contains("Exception"), err);
    for (String word : words) {
      assertTrue(err.contains(word), () -> err + " does not say " + word);
    }
  }

  /** Refused as input that cannot be used. */
  void assertRefused(String... words) {
    assertRefused(Main.BAD_INPUT, words);
  }
}
