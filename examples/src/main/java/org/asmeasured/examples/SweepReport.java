package org.asmeasured.examples;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.asmeasured.scenario.SweepResult;
import org.asmeasured.scenario.SweepResults;

/** The files of one sweep. */
final class SweepReport {
  static final String PAGE = "sweep.html";
  static final String TABLE = "sweep.csv";
  static final String RESULT = "sweep.json";
  private static final Set<String> TEXTS = Set.of(PAGE, TABLE, RESULT);
  private static final Pattern PICTURE = Pattern.compile("reading-\\d+(-\\d+)?\\.(png|svg)");

  private SweepReport() {}

  /** Whether a file of this name belongs to a sweep, or to an earlier state of it. */
  static boolean isOurs(String file) {
    return TEXTS.contains(file) || PICTURE.matcher(file).matches();
  }

  /** All files of a sweep, by name. */
  static Map<String, byte[]> files(SweepResult result) {
    List<SweepPictures.Drawn> pictures = new SweepPictures(result).all();
    List<Picture.Rendered> rendered =
        pictures.parallelStream().map(one -> one.picture().rendered()).toList();
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put(PAGE, utf8(new SweepPage(result, pictures, rendered).html()));
    files.put(TABLE, utf8(result.toCsv()));
    files.put(RESULT, utf8(SweepResults.toJson(result)));
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
