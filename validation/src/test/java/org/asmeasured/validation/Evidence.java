package org.asmeasured.validation;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Writes the tables under validation/evidence, only when asked: {@code mvn test -pl validation -am
 * -Dasmeasured.evidence=true}.
 */
final class Evidence {
  private Evidence() {}

  static boolean wanted() {
    return Boolean.getBoolean("asmeasured.evidence");
  }

  /**
   * Writes what every class has noted so far; the last class to end leaves the whole table. Errors
   * of voltages are fractions of the case's full scale where the check says so, volts otherwise.
   */
  static void figures() {
    if (wanted()) {
      write(
          "figures.md",
          "The worst error of every kind of check",
          "Errors in the unit of the figure; of outputs, samples and spans, fractions of the full scale of the case.\n\n"
              + Worst.table(""));
    }
  }

  /** Writes one file below the evidence folder, with the environment that the figures come from. */
  static void write(String name, String title, String body) {
    String head =
        "# "
            + title
            + "\n\nWritten by the tests (see Evidence.java), Java "
            + System.getProperty("java.version")
            + ", "
            + System.getProperty("os.arch")
            + ".\n\n";
    try {
      Path folder = Path.of("evidence");
      Files.createDirectories(folder);
      Files.writeString(folder.resolve(name), head + body, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String error(double value) {
    return value == 0 ? "0" : String.format(Locale.ROOT, "%.1e", value);
  }
}
