package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/**
 * What every command takes that writes a folder for each of its inputs, and how it does so: all of
 * them or none, with a bar while it works.
 */
@Command(
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:unexpected failure",
      "2:input that cannot be used, nothing written",
      "130:cancelled, nothing written"
    })
final class Writing {
  @ParentCommand private Main main;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder to write to; made if it is not there.")
  private Path out;

  @Option(names = "--quiet", description = "Show no bar while it works.")
  private boolean quiet;

  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Show this help.")
  private boolean help;

  /**
   * What came of one input.
   *
   * @param files of its folder, by name
   * @param page what the terminal shows, told where the folder is
   */
  record Made(Map<String, byte[]> files, Function<Path, String> page) {}

  /** The work on one input; tells the bar how far it has come. */
  interface Work<T> {
    Made of(String name, T input, ProgressBar bar);
  }

  /**
   * Works on one input after the other; writes all folders and prints all pages in the end.
   *
   * @param inputs by the names of their folders
   * @param ours tells the names of files that make room for new ones
   * @return the exit code
   */
  <T> int each(Map<String, T> inputs, Predicate<String> ours, Work<T> work) {
    List<String> pages = new ArrayList<>();
    try (ReportFolder folder = ReportFolder.in(out, inputs.keySet(), ours, main::ended);
        ProgressBar bar = main.bar(quiet)) {
      for (Map.Entry<String, T> input : inputs.entrySet()) {
        String name = input.getKey();
        bar.begin(name, pages.size(), inputs.size());
        Made made = work.of(name, input.getValue(), bar);
        folder.stage(name, made.files());
        pages.add(made.page().apply(out.resolve(name)));
      }
      folder.commit();
    }
    main.terminal().print(String.join("\n", pages));
    main.terminal().flush();
    return Main.OK;
  }
}
