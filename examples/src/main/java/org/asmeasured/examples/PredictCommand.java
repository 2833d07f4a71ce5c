package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.asmeasured.scenario.Results;
import org.asmeasured.scenario.Scenario;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.scenario.Scenarios;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

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
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:unexpected failure",
      "2:input that cannot be used, nothing written",
      "130:cancelled, nothing written"
    })
final class PredictCommand implements Callable<Integer> {
  @ParentCommand private Main main;

  @Parameters(
      arity = "1..*",
      paramLabel = "SCENARIO.json",
      description = "A scenario file, or several.")
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
    Map<String, Scenario> scenarios = InputFiles.load("scenario", files, Scenarios::load);
    List<String> pages = new ArrayList<>();
    try (ReportFolder folder = ReportFolder.in(out, scenarios.keySet(), Report::isOurs);
        ProgressBar bar = main.bar(quiet)) {
      for (Map.Entry<String, Scenario> entry : scenarios.entrySet()) {
        bar.begin(entry.getKey(), pages.size(), scenarios.size());
        ScenarioResult result = ScenarioResult.of(entry.getValue(), bar);
        Account account = Accounts.of(result);
        folder.stage(entry.getKey(), Report.files(account, Results.toJson(result)));
        pages.add(TerminalPage.of(account, out.resolve(entry.getKey()).resolve(Report.PAGE)));
      }
      folder.commit();
    }
    main.terminal().print(String.join("\n", pages));
    main.terminal().flush();
    return Main.OK;
  }
}
