package org.asmeasured.scenario;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** The three schemas under a validator that is not ours, and every scenario there is. */
final class Schemas {
  static final Schema SCENARIO = of(Scenarios.schema());
  static final Schema RESULT = of(Results.schema());
  static final Schema SWEEP =
      SchemaRegistry.withDefaultDialect(
              SpecificationVersion.DRAFT_2020_12,
              registry -> registry.schemas(Map.of("urn:asmeasured:scenario:1", Scenarios.schema())))
          .getSchema(Sweeps.schema(), InputFormat.JSON);

  private static final Path BUNDLED = Path.of("../../examples/scenarios");
  private static final Path BUNDLED_SWEEPS = Path.of("../../examples/sweeps");
  private static final Path OUR_SWEEPS =
      Path.of("src/test/resources/org/asmeasured/scenario/sweeps");
  private static final Path OURS = Path.of("src/test/resources/org/asmeasured/scenario");

  private Schemas() {}

  static Schema of(String text) {
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
        .getSchema(text, InputFormat.JSON);
  }

  static List<String> complaints(Schema schema, String json) {
    return schema.validate(json, InputFormat.JSON).stream().map(Object::toString).toList();
  }

  static List<Path> bundled() {
    return jsonFiles(BUNDLED);
  }

  static List<Path> all() {
    List<Path> all = new ArrayList<>(bundled());
    all.addAll(jsonFiles(OURS));
    return all;
  }

  static List<Path> bundledSweeps() {
    return jsonFiles(BUNDLED_SWEEPS);
  }

  static List<Path> sweeps() {
    List<Path> all = new ArrayList<>(bundledSweeps());
    all.addAll(jsonFiles(OUR_SWEEPS));
    return all;
  }

  private static List<Path> jsonFiles(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().endsWith(".json")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
