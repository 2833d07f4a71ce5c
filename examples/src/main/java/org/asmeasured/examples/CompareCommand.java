package org.asmeasured.examples;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Function;
import org.asmeasured.scenario.BenchAnswer;
import org.asmeasured.scenario.BenchQuestion;
import org.asmeasured.scenario.DescribedInstrument;
import org.asmeasured.scenario.DescribedProbe;
import org.asmeasured.scenario.Instruments;
import org.asmeasured.scenario.Scenario;
import org.asmeasured.scenario.ScenarioException;
import org.asmeasured.scenario.Scenarios;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** Puts the limits of a scenario to several instruments: prints a table, and writes its report. */
@Command(
    name = "compare",
    description = {
      "Says which of several instruments and probes verifies the limits of a scenario, at what risk: each instrument"
          + " is asked by itself, with the probe of the scenario, and with each probe given, at the settings that are"
          + " best for it among those that it offers.",
      "",
      "What the scenario knows of its signal, source, probe and trigger counts for every instrument; its own"
          + " instrument and what that offers do not.",
      "",
      "Writes a folder DIR/NAME-compared for NAME.json: compare.html (one page with its pictures inside), a picture for"
          + " each limit as PNG and SVG, and compare.json. The folder is made and replaced as those of predict are.",
      ""
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:unexpected failure",
      "2:input that cannot be used, nothing written",
      "130:cancelled, nothing written"
    })
final class CompareCommand implements Callable<Integer> {
  @ParentCommand private Main main;

  @Parameters(
      arity = "1",
      paramLabel = "SCENARIO.json",
      description = "A scenario that states limits.")
  private Path file;

  @Option(
      names = "--instrument",
      required = true,
      arity = "1..*",
      paramLabel = "FILE",
      description = "Instrument files.")
  private List<Path> instruments;

  @Option(
      names = "--probe",
      arity = "1..*",
      paramLabel = "FILE",
      description = "Probe files: every instrument is asked with each of them too.")
  private List<Path> probes = List.of();

  @Option(
      names = "--as-set",
      description = "Keep the scale, coupling and averaging of the scenario; advise nothing.")
  private boolean asSet;

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
    BenchQuestion question = load();
    String name = file.getFileName().toString().replaceFirst("(?i)\\.json$", "");
    if (name.isBlank() || name.startsWith(".")) {
      throw new BadInput(
          "scenario file "
              + file
              + " has a name that no folder can take: give it one like rail.json");
    }
    String folderName = name + "-compared";
    String page;
    try (ReportFolder folder = ReportFolder.in(out, List.of(folderName), Report::isOurs);
        ProgressBar bar = main.bar(quiet)) {
      bar.begin(name, 0, 1);
      CompareReport report = new CompareReport(BenchAnswer.of(question, bar));
      folder.stage(folderName, report.files());
      page = report.terminal(out.resolve(folderName).resolve(CompareReport.PAGE));
      folder.commit();
    }
    main.terminal().print(page);
    main.terminal().flush();
    return Main.OK;
  }

  /** All files before anything is computed: a mistake in the last one shows at once. */
  private BenchQuestion load() {
    Scenario scenario = load("scenario", file, Scenarios::load);
    List<DescribedInstrument> bench = new ArrayList<>();
    instruments.forEach(i -> bench.add(load("instrument", i, Instruments::load)));
    List<DescribedProbe> tips = new ArrayList<>();
    probes.forEach(p -> tips.add(load("probe", p, Instruments::loadProbe)));
    try {
      return new BenchQuestion(scenario, bench, tips, asSet);
    } catch (IllegalArgumentException e) {
      throw new BadInput("scenario file " + file + " and its bench: " + e.getMessage(), e);
    }
  }

  private static <T> T load(String what, Path file, Function<Path, T> reader) {
    if (!Files.isRegularFile(file)) {
      throw new BadInput(
          what + " file " + file + (Files.exists(file) ? " is not a file" : " does not exist"));
    }
    try {
      return reader.apply(file);
    } catch (ScenarioException e) {
      throw new BadInput(e.getMessage(), e);
    }
  }
}
