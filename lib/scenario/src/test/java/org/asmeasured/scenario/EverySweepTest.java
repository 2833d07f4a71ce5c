package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every sweep in the examples and in the test resources is valid, loads, runs and yields a table.
 */
class EverySweepTest {
  static Stream<Path> all() {
    return Schemas.sweeps().stream();
  }

  @ParameterizedTest
  @MethodSource("all")
  void loadsAndRuns(Path file) throws IOException {
    assertEquals(List.of(), Schemas.complaints(Schemas.SWEEP, Files.readString(file)));
    Sweep sweep = Sweeps.load(file);
    SweepResult result = SweepResult.of(sweep, 2, (done, most) -> true);
    assertEquals(sweep.size(), result.rows().size());
    List<String> lines = List.of(result.toCsv().split("\r\n"));
    assertEquals(1 + sweep.size(), lines.size());
    for (SweepRow row : result.rows()) {
      assertEquals(sweep.readingNames(), row.readings().stream().map(SweptReading::name).toList());
      assertEquals(sweep.readingUnits(), row.readings().stream().map(SweptReading::unit).toList());
    }
    assertTrue(
        result.rows().stream()
            .flatMap(row -> row.readings().stream())
            .anyMatch(r -> r.bias().isTaken()));
  }

  @Test
  void someAreBundled() {
    assertEquals(
        List.of(
            "couplings-of-a-square.json",
            "filling-the-screen.json",
            "tilt-through-ac-coupling.json"),
        Schemas.bundledSweeps().stream().map(file -> file.getFileName().toString()).toList());
  }

  /** A key that no sweep says is a key that nobody has tried. */
  @Test
  void sayEveryKey() throws IOException {
    Set<String> keys = new TreeSet<>();
    for (Path file : Schemas.sweeps()) {
      collect(Json.parse(file.toString(), Files.readString(file)), keys);
    }
    assertTrue(keys.containsAll(SweepReader.REQUIRED), keys::toString);
    assertTrue(keys.containsAll(SweepReader.OPTIONAL), keys::toString);
    assertTrue(keys.containsAll(SweepReader.VALUE), keys::toString);
    assertTrue(keys.containsAll(SweepReader.AXIS_OPTIONAL), keys::toString);
  }

  private static void collect(Json node, Set<String> keys) {
    node.items().forEach(item -> collect(item, keys));
    node.members()
        .forEach(
            (key, value) -> {
              keys.add(key);
              collect(value, keys);
            });
  }
}
