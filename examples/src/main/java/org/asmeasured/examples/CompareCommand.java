package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.asmeasured.scenario.BenchAnswer;
import org.asmeasured.scenario.BenchQuestion;
import org.asmeasured.scenario.DescribedInstrument;
import org.asmeasured.scenario.DescribedProbe;
import org.asmeasured.scenario.Instruments;
import org.asmeasured.scenario.Scenario;
import org.asmeasured.scenario.Scenarios;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

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
    })
final class CompareCommand implements Callable<Integer> {
  @Mixin private Writing writing;

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

  @Override
  public Integer call() {
    BenchQuestion question = load();
    return writing.each(
        Map.of(InputFiles.name("scenario", file) + "-compared", question),
        Report::isOurs,
        (name, asked, bar) -> {
          CompareReport report = new CompareReport(BenchAnswer.of(asked, bar));
          return new Writing.Made(
              report.files(), folder -> report.terminal(folder.resolve(CompareReport.PAGE)));
        });
  }

  /** All files before anything is computed: a mistake in the last one shows at once. */
  private BenchQuestion load() {
    Scenario scenario = InputFiles.one("scenario", file, Scenarios::load);
    List<DescribedInstrument> bench = new ArrayList<>();
    instruments.forEach(i -> bench.add(InputFiles.one("instrument", i, Instruments::load)));
    List<DescribedProbe> tips = new ArrayList<>();
    probes.forEach(p -> tips.add(InputFiles.one("probe", p, Instruments::loadProbe)));
    try {
      return new BenchQuestion(scenario, bench, tips, asSet);
    } catch (IllegalArgumentException e) {
      throw new BadInput("scenario file " + file + " and its bench: " + e.getMessage(), e);
    }
  }
}
