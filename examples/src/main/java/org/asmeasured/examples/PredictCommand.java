package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.asmeasured.scenario.Results;
import org.asmeasured.scenario.Scenario;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.scenario.Scenarios;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** Predicts scenarios: prints what comes of each, and writes its report. */
@Command(
    name = "predict",
    description = {
      "Predicts what a setup makes of a signal: prints each reading as it truly is, as it is measured, and what each"
          + " stage of the chain did to it.",
      "",
      "Writes a folder DIR/NAME for each NAME.json: report.html (one page with its pictures inside), each picture as PNG"
          + " and SVG, and result.json.",
      "",
      "A folder is made beside its place under another name and moved there when all scenarios have succeeded. A report"
          + " that stands there already is replaced only then; a folder that holds anything else is left alone and"
          + " refused.",
      ""
    })
final class PredictCommand implements Callable<Integer> {
  @Mixin private Writing writing;

  @Parameters(
      arity = "1..*",
      paramLabel = "SCENARIO.json",
      description = "A scenario file, or several.")
  private List<Path> files;

  @Override
  public Integer call() {
    return writing.each(
        InputFiles.load("scenario", files, Scenarios::load), Report::isOurs, this::predicted);
  }

  private Writing.Made predicted(String name, Scenario scenario, ProgressBar bar) {
    ScenarioResult result = ScenarioResult.of(scenario, bar);
    Account account = Accounts.of(result);
    return new Writing.Made(
        Report.files(account, Results.toJson(result)),
        folder -> TerminalPage.of(account, folder.resolve(Report.PAGE)));
  }
}
