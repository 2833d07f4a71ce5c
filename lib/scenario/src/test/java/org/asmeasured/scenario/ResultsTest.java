package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.asmeasured.capture.Setup;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ResultsTest {
  private static final ScenarioResult RESULT =
      ScenarioResult.of(
          new Scenario(
              "t\u00e9",
              List.of("n"),
              Signals.constant(1),
              Setup.ideal(1, 2),
              List.of(Readings.mean())));

  @TempDir Path folder;

  @Test
  void writesAndReplaces() throws IOException {
    Path file = folder.resolve("result.json");
    Results.write(RESULT, file);
    assertEquals(Results.toJson(RESULT), Files.readString(file));
    Files.writeString(file, "old");
    Results.write(RESULT, file);
    assertEquals(Results.toJson(RESULT), Files.readString(file));
    assertEquals(List.of("result.json"), names());
  }

  @Test
  void sameTextOnAnySystem() {
    assertEquals(-1, Results.toJson(RESULT).indexOf('\r'));
    assertTrue(Results.toJson(RESULT).endsWith("}\n"));
  }

  @Test
  void refusesFolderThatIsNotThere() throws IOException {
    Path file = folder.resolve("nowhere").resolve("result.json");
    ScenarioException e = assertThrows(ScenarioException.class, () -> Results.write(RESULT, file));
    assertEquals(
        file + ": its folder does not exist: must exist before a file is written to it.",
        e.getMessage());
    assertEquals(List.of(), names());
  }

  @Test
  void refusesFileInPlaceOfFolder() throws IOException {
    Files.writeString(folder.resolve("a"), "kept");
    ScenarioException e =
        assertThrows(
            ScenarioException.class,
            () -> Results.write(RESULT, folder.resolve("a").resolve("result.json")));
    assertTrue(e.getMessage().contains("its folder does not exist"), e.getMessage());
    assertEquals("kept", Files.readString(folder.resolve("a")));
  }

  @Test
  void refusesFolderInPlaceOfFile() throws IOException {
    Files.createDirectory(folder.resolve("result.json"));
    ScenarioException e =
        assertThrows(
            ScenarioException.class, () -> Results.write(RESULT, folder.resolve("result.json")));
    assertEquals(folder.resolve("result.json") + ": is a folder: must be a file.", e.getMessage());
    assertEquals(List.of("result.json"), names());
  }

  /**
   * A name that the file system cannot hold once the draft's ending is added: refused before
   * anything is there.
   */
  @Test
  void leavesNothingBehindWhenItCannotWrite() throws IOException {
    Path file = folder.resolve("x".repeat(250));
    ScenarioException e = assertThrows(ScenarioException.class, () -> Results.write(RESULT, file));
    assertTrue(e.getMessage().contains(": cannot be written ("), e.getMessage());
    assertEquals(List.of(), names());
  }

  private List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }
}
