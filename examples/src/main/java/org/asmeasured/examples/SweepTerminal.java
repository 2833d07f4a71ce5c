package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.List;
import org.asmeasured.scenario.SweepResult;

/** A sweep as a terminal shows it. */
final class SweepTerminal {
  private SweepTerminal() {}

  static String of(SweepResult result, Path report) {
    SweepWords words = new SweepWords(result);
    TerminalPage page = new TerminalPage();
    page.title(result.sweep().title());
    for (String axis : words.axes()) {
      page.words("Over", axis);
    }
    int points = result.rows().size();
    page.line("Points", Integer.toString(points));
    CautionWords.of(result).forEach(caution -> page.words(TerminalPage.CAUTION, caution));
    List<String> names = result.sweep().readingNames();
    for (int r = 0; r < names.size(); r++) {
      page.words("Reading", names.get(r) + ": " + String.join("; ", words.worst(r)));
    }
    page.line("Report", report.toString());
    return page.text();
  }
}
