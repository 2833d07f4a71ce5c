package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.asmeasured.scenario.BenchFit;
import org.asmeasured.scenario.BenchFitResult;
import org.asmeasured.scenario.BenchFits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

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
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:unexpected failure",
      "2:input that cannot be used, nothing written",
      "130:cancelled, nothing written"
    })
final class FitCommand implements Callable<Integer> {
  @ParentCommand private Main main;

  @Parameters(arity = "1..*", paramLabel = "FIT.json", description = "A fit file, or several.")
  private List<Path> files;

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

  @Override
  public Integer call() {
    Map<String, BenchFit> fits = InputFiles.load("fit", files, BenchFits::load);
    List<String> pages = new ArrayList<>();
    try (ReportFolder folder = ReportFolder.in(out, fits.keySet(), Report::isOurs);
        ProgressBar bar = main.bar(quiet)) {
      for (Map.Entry<String, BenchFit> entry : fits.entrySet()) {
        bar.begin(entry.getKey(), pages.size(), fits.size());
        FitReport report = new FitReport(result(entry.getKey(), entry.getValue(), bar));
        folder.stage(entry.getKey(), report.files());
        pages.add(report.terminal(out.resolve(entry.getKey()).resolve(Report.PAGE)));
      }
      folder.commit();
    }
    main.terminal().print(String.join("\n", pages));
    main.terminal().flush();
    return Main.OK;
  }

  private static BenchFitResult result(String name, BenchFit fit, ProgressBar bar) {
    try {
      return BenchFitResult.of(fit, bar);
    } catch (IllegalArgumentException e) {
      throw new BadInput("fit " + name + ": " + e.getMessage(), e);
    }
  }
}
