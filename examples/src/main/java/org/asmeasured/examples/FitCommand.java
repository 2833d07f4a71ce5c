package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.asmeasured.scenario.BenchFit;
import org.asmeasured.scenario.BenchFitResult;
import org.asmeasured.scenario.BenchFits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** Fits chains to recorded data: prints what comes of each, and writes its report. */
@Command(
    name = "fit",
    description = {
      "Fits the parameters of a chain to records of a known signal, so that the model is that of the bench they were"
          + " taken on: prints each parameter with its uncertainty, how they hang together and whether the model fits,"
          + " and corrects readings taken on the same bench.",
      "",
      "Writes a folder DIR/NAME for each NAME.json: report.html (one page with its pictures inside), each picture as PNG"
          + " and SVG, and result.json. Folders are made and replaced as those of predict are.",
      ""
    })
final class FitCommand implements Callable<Integer> {
  @Mixin private Writing writing;

  @Parameters(arity = "1..*", paramLabel = "FIT.json", description = "A fit file, or several.")
  private List<Path> files;

  @Override
  public Integer call() {
    return writing.each(
        InputFiles.load("fit", files, BenchFits::load), Report::isOurs, this::fitted);
  }

  private Writing.Made fitted(String name, BenchFit fit, ProgressBar bar) {
    BenchFitResult result;
    try {
      result = BenchFitResult.of(fit, bar);
    } catch (IllegalArgumentException e) {
      throw new BadInput("fit " + name + ": " + e.getMessage(), e);
    }
    FitReport report = new FitReport(result);
    return new Writing.Made(report.files(), folder -> report.terminal(folder.resolve(Report.PAGE)));
  }
}
