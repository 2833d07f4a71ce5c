package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.asmeasured.scenario.Sweep;
import org.asmeasured.scenario.SweepResult;
import org.asmeasured.scenario.Sweeps;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** Computes sweeps: a scenario over a grid of its numbers, as a table and as pictures. */
@Command(
    name = "sweep",
    description = {
      "Computes a scenario over a grid of some of its numbers: each reading as it truly is, as it is measured and, where"
          + " the scenario asks for it, how sure it is.",
      "",
      "Writes a folder DIR/NAME for each NAME.json: sweep.csv (a row for each point), sweep.html (one page with its"
          + " pictures inside) and each picture as PNG and SVG.",
      "",
      "The figures do not depend on the number of threads. Every point is checked before the first is computed. A folder"
          + " is made beside its place under another name and moved there when all sweeps have succeeded.",
      ""
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:unexpected failure",
      "2:input that cannot be used, nothing written",
      "130:cancelled, nothing written"
    })
final class SweepCommand implements Callable<Integer> {
  private static final int MOST_THREADS = 1024;

  @ParentCommand private Main main;

  @Parameters(arity = "1..*", paramLabel = "SWEEP.json", description = "A sweep file, or several.")
  private List<Path> files;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder to write to; made if it is not there.")
  private Path out;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "How many threads share the work, 1 to 1024; all processors if left out.")
  private Integer threads;

  @Option(names = "--quiet", description = "Show no bar while it works.")
  private boolean quiet;

  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Show this help.")
  private boolean help;

  @Override
  public Integer call() {
    int shared = threads == null ? Runtime.getRuntime().availableProcessors() : threads;
    if (shared < 1 || (threads != null && shared > MOST_THREADS)) {
      throw new BadInput("--threads = " + shared + ": must be from 1 to " + MOST_THREADS);
    }
    shared = Math.min(shared, MOST_THREADS);
    Map<String, Sweep> sweeps = InputFiles.load("sweep", files, Sweeps::load);
    List<String> pages = new ArrayList<>();
    try (ReportFolder folder = ReportFolder.in(out, sweeps.keySet(), SweepReport::isOurs);
        ProgressBar bar = main.bar(quiet)) {
      for (Map.Entry<String, Sweep> entry : sweeps.entrySet()) {
        bar.begin(entry.getKey(), pages.size(), sweeps.size());
        SweepResult result = SweepResult.of(entry.getValue(), shared, bar);
        folder.stage(entry.getKey(), SweepReport.files(result));
        Path page = out.resolve(entry.getKey()).resolve(SweepReport.PAGE);
        pages.add(SweepTerminal.of(result, page));
      }
      folder.commit();
    }
    main.terminal().print(String.join("\n", pages));
    main.terminal().flush();
    return Main.OK;
  }
}
