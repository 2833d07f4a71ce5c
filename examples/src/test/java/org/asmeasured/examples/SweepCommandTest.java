package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;

/** The command {@code sweep}, from the arguments to the files. */
class SweepCommandTest {
  private static final Path BUNDLED = Path.of("sweeps");
  private static final String SMALL =
      """
      {
        "formatVersion": 1,
        "title": "A grid, invented",
        "scenario": {
          "formatVersion": 1,
          "title": "A sine, invented",
          "signal": { "kind": "sine", "amplitudeVolts": 1, "frequencyHz": 1e6 },
          "setup": {
            "bandwidth": { "kind": "singlePole", "bandwidthHz": 1e6 },
            "vertical": { "voltsPerDivision": 0.3 },
            "converter": { "kind": "ideal", "bits": 8 },
            "sampling": { "rateHz": 1e8, "points": %d }
          },
          "readings": [{ "kind": "peakToPeak" }, { "kind": "riseTime" }]
        },
        "axes": [
          { "value": "/setup/bandwidth/bandwidthHz", "name": "bandwidth", "from": 1e5, "to": 1e7, "count": %d, "spacing": "ratio" },
          { "value": "/setup/converter/bits", "list": [4, 8] },
          { "value": "/signal/amplitudeVolts", "name": "amplitude", "list": [0.5, 1, 2] }
        ]
      }
      """;

  @TempDir Path temp;

  private Path small() throws IOException {
    return Files.writeString(temp.resolve("small.json"), SMALL.formatted(500, 5));
  }

  private Path out() {
    return temp.resolve("out");
  }

  private static List<String> files(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile)
          .map(path -> folder.relativize(path).toString().replace('\\', '/'))
          .sorted()
          .toList();
    }
  }

  /** Each caution once, with how many points it holds for and the first of them. */
  @Test
  void warnsOnceOfManyPoints() throws IOException {
    Path file =
        Files.writeString(
            temp.resolve("mains.json"),
            SMALL.formatted(500, 2).replace("[0.5, 1, 2]", "[0.5, 230, 325]"));
    Run run = Run.of("sweep", file, "--out", out());
    assertEquals(0, run.code(), run.err());
    String words = run.out().replaceAll("\\s+", " ");
    assertTrue(
        words.contains(
            "Caution At 8 of 12 points, first bandwidth = 100 kHz, bits = 4, amplitude = 230 V:"
                + " Hazardous voltage at the tip: "),
        words);
    assertEquals(2, words.split("Hazardous voltage", -1).length, words);
    assertTrue(words.contains("Local codes and licensed practice decide"), words);
    assertTrue(words.indexOf("Caution") < words.indexOf("Reading"), words);
    String html = Files.readString(out().resolve("mains/sweep.html"));
    assertEquals(2, html.split("Hazardous voltage", -1).length);
    assertTrue(html.contains("<td>hazardous voltage</td>"));
    assertTrue(Files.readString(out().resolve("mains/sweep.csv")).contains(",hazardous voltage"));
  }

  /** The reason for a reading that is missing stands in one cell of its row. */
  @Test
  void saysAReasonOnceInARow() throws IOException {
    Run run = Run.of("sweep", small(), "--out", out());
    assertEquals(0, run.code(), run.err());
    String html = Files.readString(out().resolve("small/sweep.html"));
    int missing = 0;
    for (String row : html.split("<tr>")) {
      int reasons = row.split("class=\"reason\"", -1).length - 1;
      assertTrue(reasons <= 1, row);
      missing += reasons;
    }
    assertTrue(missing > 0);
  }

  /** Whole values side by side: a column of their labels, and points that no line joins. */
  @Test
  void drawsWholeValuesAsPoints() throws Exception {
    Run run = Run.of("sweep", BUNDLED.resolve("couplings-of-a-square.json"), "--out", out());
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("coupling: DC; AC from 1 Hz; AC from 10 Hz"), run.out());
    assertTrue(run.out().contains("where coupling = AC from 1"), run.out());
    Path folder = out().resolve("couplings-of-a-square");
    assertTrue(Files.readString(folder.resolve("sweep.csv")).contains("\r\nAC from 1 Hz,"));
    String html = Files.readString(folder.resolve("sweep.html"));
    assertTrue(
        html.contains("AC&#160;from&#160;10&#160;Hz")
            || html.contains("AC\u00a0from\u00a010\u00a0Hz"),
        html);
    Markup.assertRefersToNothingOutside(
        Markup.parse(Files.readString(folder.resolve("reading-1.svg"))));
    assertEquals(1920, ImageIO.read(folder.resolve("reading-1.png").toFile()).getWidth());
  }

  /** Every bundled sweep, on one thread and on three: the same files to the byte. */
  @Test
  void computesEveryBundledSweepTheSameOnAnyNumberOfThreads() throws Exception {
    List<Object> args = new ArrayList<>(List.of("sweep"));
    try (Stream<Path> list = Files.list(BUNDLED)) {
      list.filter(path -> path.toString().endsWith(".json")).sorted().forEach(args::add);
    }
    assertTrue(args.size() >= 3);
    for (String threads : List.of("1", "3")) {
      List<Object> all = new ArrayList<>(args);
      all.addAll(List.of("--threads", threads, "--out", temp.resolve(threads)));
      Run run = Run.of(all.toArray());
      assertEquals(0, run.code(), run.err());
      assertEquals("", run.err());
      for (String words : List.of("Over ", "Points ", "Reading ", "off by ", "Report ")) {
        assertTrue(run.out().contains(words), run.out());
      }
      run.out()
          .lines()
          .forEach(line -> assertTrue(line.length() <= 100 || line.startsWith("Report"), line));
    }
    List<String> files = files(temp.resolve("1"));
    assertEquals(files, files(temp.resolve("3")));
    for (String file : files) {
      assertEquals(
          -1,
          Files.mismatch(temp.resolve("1").resolve(file), temp.resolve("3").resolve(file)),
          file);
    }
    for (Object sweep : args.subList(1, args.size())) {
      String name = ((Path) sweep).getFileName().toString().replace(".json", "");
      assertWhole(temp.resolve("1").resolve(name));
    }
  }

  private static void assertWhole(Path report) throws Exception {
    String html = Files.readString(report.resolve("sweep.html"));
    Markup.assertRefersToNothingOutside(html);
    Markup.assertRefersToNothingOutside(Markup.parse(html));
    List<String> files = files(report);
    assertTrue(files.contains("reading-1.png") && files.contains("reading-1.svg"), files::toString);
    for (String file : files) {
      assertTrue(SweepReport.isOurs(file), file);
      if (file.endsWith(".png")) {
        BufferedImage png = ImageIO.read(report.resolve(file).toFile());
        assertEquals(1920, png.getWidth(), file);
      } else if (file.endsWith(".svg")) {
        Markup.assertRefersToNothingOutside(Markup.parse(Files.readString(report.resolve(file))));
      }
    }
  }

  /** Three axes: a picture for each number of the third, a line for each of the second. */
  @Test
  void drawsThreeAxes() throws Exception {
    Run run = Run.of("sweep", small(), "--out", out());
    assertEquals(0, run.code(), run.err());
    List<String> expected = new ArrayList<>();
    for (int reading = 1; reading <= 2; reading++) {
      for (int third = 1; third <= 3; third++) {
        expected.add("small/reading-" + reading + "-" + third + ".png");
        expected.add("small/reading-" + reading + "-" + third + ".svg");
      }
    }
    expected.addAll(List.of("small/sweep.csv", "small/sweep.html", "small/sweep.json"));
    assertEquals(expected, files(out()));
    String svg = Files.readString(out().resolve("small/reading-1-2.svg"));
    for (String words :
        List.of(
            "Peak to peak (V)",
            "Bandwidth",
            "100 kHz",
            "1 MHz",
            "10 MHz",
            "bits = 4",
            "bits = 8",
            "True value")) {
      assertTrue(svg.contains(">" + words + "<"), words);
    }
    assertTrue(svg.contains("Peak to peak over bandwidth, amplitude = 1 V"), "title");
    Document page = Markup.parse(Files.readString(out().resolve("small/sweep.html")));
    assertEquals(2, page.getElementsByTagName("table").getLength());
    assertEquals(
        2 * (1 + 5 * 2 * 3), page.getElementsByTagName("tr").getLength(), "a row for each point");
    // Through one pole 2 V come to more than the 1.2 V of half a screen from 1 MHz on.
    assertTrue(run.out().contains("not taken at 6 points"), run.out());
    List<String> csv = Files.readAllLines(out().resolve("small/sweep.csv"));
    assertEquals(31, csv.size());
    assertTrue(
        csv.get(0).startsWith("bandwidth (Hz),bits,amplitude (V),peak to peak: true value (V),"));
  }

  @Test
  void replacesAnOlderSweepAndNothingElse() throws IOException {
    assertEquals(0, Run.of("sweep", small(), "--out", out()).code());
    Files.writeString(out().resolve("small/sweep.csv"), "old");
    assertEquals(0, Run.of("sweep", small(), "--out", out(), "--quiet").code());
    assertTrue(Files.readString(out().resolve("small/sweep.csv")).startsWith("bandwidth"));
    Files.writeString(out().resolve("small/thesis.doc"), "three years");
    Run.of("sweep", small(), "--out", out()).assertRefused("thesis.doc");
    assertEquals("three years", Files.readString(out().resolve("small/thesis.doc")));
  }

  /** A bad value at the end of a grid is refused before anything is computed or written. */
  @Test
  void refusesAtTheDoor() throws IOException {
    Path bad =
        Files.writeString(
            temp.resolve("bad.json"), SMALL.formatted(500, 5).replace("[4, 8]", "[4, 8, 99]"));
    Run.of("sweep", small(), bad, "--out", out())
        .assertRefused(
            "bad.json, line 18, ", "at /axes/1/list/2", "bits = 99", "must be from 1 to 24");
    Run.of("sweep", temp.resolve("none.json"), "--out", out()).assertRefused("does not exist");
    Run.of("sweep", small(), "--out", out(), "--threads", "0").assertRefused("--threads = 0");
    Run.of("sweep", small(), "--out", out(), "--threads", "1025").assertRefused("--threads = 1025");
    Run.of("sweep", small(), "--out", out(), "--threads", "x").assertRefused("--threads");
    Run.of("sweep", small()).assertRefused("--out");
    Run.of("sweep", "--out", out()).assertRefused("SWEEP.json");
    assertFalse(Files.exists(out()));
  }

  @Test
  void helps() {
    Run run = Run.of("sweep", "--help");
    assertEquals(0, run.code());
    for (String words : List.of("SWEEP.json", "--out", "--threads", "--quiet", "130")) {
      assertTrue(run.out().contains(words), words);
    }
    assertTrue(Run.of("--help").out().contains("sweep"));
  }
}
