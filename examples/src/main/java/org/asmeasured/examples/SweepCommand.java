package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.asmeasured.scenario.SweepResult;
import org.asmeasured.scenario.Sweeps;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Computes sweeps: a scenario over a grid of its numbers, as a table and as pictures. */
@Command(
    name = "sweep",
    description = {
      "Computes a scenario over a grid of some of its numbers: each reading as it truly is, as it is measured and, where"
          + " the scenario asks for it, how sure it is.",
      "",
      "Writes a folder DIR/NAME for each NAME.json: sweep.csv and sweep.json (a row for each point), sweep.html (one page"
          + " with its pictures inside) and each picture as PNG and SVG.",
      "",
      "The figures do not depend on the number of threads. Every point is checked before the first is computed. A folder"
          + " is made beside its place under another name and moved there when all sweeps have succeeded.",
      ""
    })
final class SweepCommand implements Callable<Integer> {
  private static final int MOST_THREADS = 1024;

  @Mixin private Writing writing;

  @Parameters(arity = "1..*", paramLabel = "SWEEP.json", description = "A sweep file, or several.")
  private List<Path> files;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "How many threads share the work, 1 to 1024; all processors if left out.")
  private Integer threads;

  @Override
  public Integer call() {
    int shared = threads == null ? Runtime.getRuntime().availableProcessors() : threads;
    if (shared < 1 || (threads != null && shared > MOST_THREADS)) {
      throw new BadInput("--threads = " + shared + ": must be from 1 to " + MOST_THREADS);
    }
    int used = Math.min(shared, MOST_THREADS);
    return writing.each(
        InputFiles.load("sweep", files, Sweeps::load),
        SweepReport::isOurs,
        (name, sweep, bar) -> {
          SweepResult result = SweepResult.of(sweep, used, bar);
          return new Writing.Made(
              SweepReport.files(result),
              folder -> SweepTerminal.of(result, folder.resolve(SweepReport.PAGE)));
        });
  }
}
