package org.asmeasured.examples;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/** The files of one report. */
final class Report {
  static final String PAGE = "report.html";
  static final String RESULT = "result.json";
  private static final Pattern PICTURE =
      Pattern.compile(
          "((channel-\\d+-)?(record|cycles|close-up|error)"
              + "|(levels|transition|spectrum)(-\\d+)?|histogram|residuals(-by-phase)?|inl|dnl"
              + "|(fit|close-fit|left-over)-\\d+"
              + "|where-it-went-\\d+|random-part-\\d+|how-sure-\\d+|compare-\\d+)\\.(png|svg)");
  private static final Set<String> TEXTS =
      Set.of(PAGE, RESULT, CompareReport.PAGE, CompareReport.RESULT);

  private Report() {}

  /**
   * Whether a file of this name belongs to a report, of this scenario or of an earlier state of it.
   */
  static boolean isOurs(String file) {
    return TEXTS.contains(file) || PICTURE.matcher(file).matches();
  }

  /** All files of a report, by name. */
  static Map<String, byte[]> files(Account account, String resultJson) {
    List<Picture> pictures = new ArrayList<>();
    if (account.comparison().size() > 0) {
      pictures.addAll(new RecordPictures(account.comparison(), "", account.channel()).all());
    }
    for (int i = 0; i < account.further().size(); i++) {
      Account.Further other = account.further().get(i);
      if (other.comparison().size() > 0) {
        pictures.addAll(
            new RecordPictures(other.comparison(), "channel-" + (i + 2) + "-", other.name()).all());
      }
    }
    int ofRecord = pictures.size();
    pictures.addAll(account.details());
    int withDetails = pictures.size();
    pictures.addAll(account.spreadPictures());
    int withSpreads = pictures.size();
    for (int i = 0; i < account.outcomes().size(); i++) {
      Account.Outcome outcome = account.outcomes().get(i);
      if (outcome.isTaken()) {
        pictures.add(WaterfallPicture.of("where-it-went-" + (i + 1), outcome.reckoning()));
        if (outcome.reckoning().scattersByStage()) {
          pictures.add(
              WaterfallPicture.ofRandomPart("random-part-" + (i + 1), outcome.reckoning()));
        }
      }
    }
    List<Picture.Rendered> all = pictures.parallelStream().map(Picture::rendered).toList();
    ReportPage page =
        new ReportPage(
            account,
            all.subList(0, ofRecord),
            all.subList(ofRecord, withDetails),
            all.subList(withDetails, withSpreads),
            all.subList(withSpreads, all.size()));
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put(PAGE, utf8(page.html()));
    files.put(RESULT, utf8(resultJson));
    for (Picture.Rendered one : all) {
      files.put(one.picture().file() + ".png", one.png());
      files.put(one.picture().file() + ".svg", utf8(one.wideSvg()));
    }
    return files;
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
