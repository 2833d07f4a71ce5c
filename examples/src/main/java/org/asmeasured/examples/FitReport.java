package org.asmeasured.examples;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.BenchFitResult;
import org.asmeasured.scenario.BenchFitResults;

/** The report of one fit: its page, its pictures, its figures. */
final class FitReport {
  private final BenchFitResult result;

  FitReport(BenchFitResult result) {
    this.result = result;
  }

  String terminal(Path report) {
    return TerminalPage.of(result.asked().title(), FitWords.lines(result), report);
  }

  Map<String, byte[]> files() {
    List<Picture> pictures =
        result.fit() instanceof Outcome.Taken<ChainFit> taken
            ? FitPictures.of(taken.result())
            : List.of();
    List<Picture.Rendered> rendered = pictures.parallelStream().map(Picture::rendered).toList();
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put(Report.PAGE, utf8(new FitPage(result, rendered).html()));
    files.put(Report.RESULT, utf8(BenchFitResults.toJson(result)));
    for (Picture.Rendered one : rendered) {
      files.put(one.picture().file() + ".png", one.png());
      files.put(one.picture().file() + ".svg", utf8(one.wideSvg()));
    }
    return files;
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
