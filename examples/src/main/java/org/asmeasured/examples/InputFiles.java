package org.asmeasured.examples;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.asmeasured.scenario.ScenarioException;

/** The files that a command is given, by the names of the folders that their reports go to. */
final class InputFiles {
  private InputFiles() {}

  /**
   * Loads all files before any is computed: a mistake in the last one shows at once.
   *
   * @param kind what the files are called: "scenario"
   */
  static <T> Map<String, T> load(String kind, List<Path> files, Function<Path, T> loader) {
    Map<String, T> loaded = new LinkedHashMap<>();
    for (Path file : files) {
      if (!Files.exists(file)) {
        throw new BadInput(kind + " file " + file + " does not exist");
      }
      if (!Files.isRegularFile(file)) {
        throw new BadInput(kind + " file " + file + " is not a file");
      }
      String name = file.getFileName().toString().replaceFirst("(?i)\\.json$", "");
      if (name.isBlank() || name.startsWith(".")) {
        throw new BadInput(
            kind
                + " file "
                + file
                + " has a name that no folder can take: give it one like rail.json");
      }
      try {
        if (loaded.put(name, loader.apply(file)) != null) {
          throw new BadInput(
              "two "
                  + kind
                  + " files are named "
                  + name
                  + ": their reports would go to the same folder");
        }
      } catch (ScenarioException e) {
        throw new BadInput(e.getMessage(), e);
      }
    }
    return loaded;
  }
}
