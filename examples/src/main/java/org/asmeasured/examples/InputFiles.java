package org.asmeasured.examples;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.asmeasured.scenario.ScenarioException;

/** The files that a command is given. */
final class InputFiles {
  private InputFiles() {}

  /**
   * Loads all files before any is computed: a mistake in the last one shows at once.
   *
   * @param kind what the files are called: "scenario"
   * @return what they say, by the names of the folders that their reports go to
   */
  static <T> Map<String, T> load(String kind, List<Path> files, Function<Path, T> loader) {
    Map<String, T> loaded = new LinkedHashMap<>();
    for (Path file : files) {
      requireFile(kind, file);
      String name = name(kind, file);
      if (loaded.put(name, one(kind, file, loader)) != null) {
        throw new BadInput(
            "two "
                + kind
                + " files are named "
                + name
                + ": their reports would go to the same folder");
      }
    }
    return loaded;
  }

  /** Loads one file. */
  static <T> T one(String kind, Path file, Function<Path, T> loader) {
    requireFile(kind, file);
    try {
      return loader.apply(file);
    } catch (ScenarioException e) {
      throw new BadInput(e.getMessage(), e);
    }
  }

  private static void requireFile(String kind, Path file) {
    if (!Files.isRegularFile(file)) {
      throw new BadInput(
          kind + " file " + file + (Files.exists(file) ? " is not a file" : " does not exist"));
    }
  }

  /** What the folder of a file's report is called: as the file, without its ending. */
  static String name(String kind, Path file) {
    String name = file.getFileName().toString().replaceFirst("(?i)\\.json$", "");
    if (name.isBlank() || name.startsWith(".")) {
      throw new BadInput(
          kind
              + " file "
              + file
              + " has a name that no folder can take: give it one like rail.json");
    }
    return name;
  }
}
