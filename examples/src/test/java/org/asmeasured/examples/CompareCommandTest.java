package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Comparisons from the command line, from the arguments to the files. Instruments are invented. */
class CompareCommandTest {
  private static final Path FAST = Path.of("instruments/fast-8-bit-1-ghz.json");
  private static final Path GENERAL = Path.of("instruments/general-purpose-8-bit-200-mhz.json");
  private static final Path HIGH = Path.of("instruments/high-resolution-12-bit-100-mhz.json");
  private static final Path TIMES_TEN = Path.of("probes/passive-x10.json");
  private static final Path CABLE = Path.of("probes/x1-cable.json");
  private static final Path QUESTION = Path.of("scenarios/which-instrument.json");

  @TempDir Path temp;

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile).map(folder::relativize).sorted().toList();
    }
  }

  /** Twelve bits at the settings advised verify what eight bits on the whole rail do not. */
  @Test
  void ranksTheBench() throws Exception {
    Object[] args = {
      "compare", QUESTION, "--instrument", GENERAL, HIGH, "--probe", CABLE, "--out", ""
    };
    args[args.length - 1] = temp.resolve("first");
    Run run = Run.of(args);
    assertEquals("", run.err());
    assertEquals(0, run.code());
    run.out()
        .lines()
        .forEach(line -> assertTrue(line.length() <= 100 || line.startsWith("Report"), line));
    assertTrue(run.out().contains("Peak to peak at most 20.4 mV, at a risk of 5 %"), run.out());
    assertTrue(run.out().contains("True value 20.00 mV"), run.out());
    assertTrue(run.out().contains("\n1    high resolution, 12 bit, 100 MHz"), run.out());
    assertTrue(run.out().contains("passes, risk"), run.out());
    assertTrue(run.out().contains("at most 2"), run.out());
    assertTrue(run.out().contains("\n4    "), run.out());
    args[args.length - 1] = temp.resolve("second");
    assertEquals(0, Run.of(args).code());
    Path report = temp.resolve("first/which-instrument-compared");
    List<Path> files = files(report);
    assertEquals(
        List.of("compare-1.png", "compare-1.svg", "compare.html", "compare.json"),
        files.stream().map(Path::toString).toList());
    for (Path file : files) {
      assertEquals(
          -1,
          Files.mismatch(
              report.resolve(file), temp.resolve("second/which-instrument-compared").resolve(file)),
          file.toString());
      assertTrue(Report.isOurs(file.toString()), file.toString());
    }
    BufferedImage png = ImageIO.read(report.resolve("compare-1.png").toFile());
    assertEquals(1920, png.getWidth());
    Markup.assertRefersToNothingOutside(
        Markup.parse(Files.readString(report.resolve("compare-1.svg"))));
    String html = Files.readString(report.resolve("compare.html"));
    Markup.assertRefersToNothingOutside(html);
    Markup.assertRefersToNothingOutside(Markup.parse(html));
    assertTrue(html.contains("Invented."), "what is invented says so");
    assertTrue(html.contains("U of the quantity: twice the standard uncertainty of the corrected"));
    JsonNode rows = JsonMapper.shared().readTree(report.resolve("compare.json").toFile());
    for (JsonNode row : rows.at("/limits/0/ranking")) {
      double expanded = row.at("/correctedExpandedUncertainty/value").asDouble();
      assertEquals(
          2 * row.at("/standardUncertainty/value").asDouble(),
          row.at("/sensitivity/value").asDouble() * expanded,
          1e-12 * expanded);
      String shown =
          FitWords.Pair.of(row.at("/measured/value").asDouble(), expanded, "V").uncertainty();
      assertTrue(run.out().contains(shown), shown + " in " + run.out());
    }
  }

  /** As set, a 1.8 V rail is far off a screen of 2 mV per division: the reason is told. */
  @Test
  void tellsWhoCannotAndWhy() throws IOException {
    Path file =
        Files.writeString(
            temp.resolve("clipped.json"),
            Files.readString(QUESTION)
                .replace("\"voltsPerDivision\": 0.5", "\"voltsPerDivision\": 0.002"));
    Run run =
        Run.of("compare", file, "--as-set", "--instrument", GENERAL, "--out", temp.resolve("out"));
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("-    general purpose"), run.out());
    assertTrue(run.out().contains("no reading: "), run.out());
    assertEquals(
        List.of("compare.html", "compare.json"),
        files(temp.resolve("out/clipped-compared")).stream().map(Path::toString).toList());
  }

  /**
   * 230 V RMS put to an input of 50 ohm rated 5 V RMS: cautions stand before the ranking, and the
   * row says so itself, behind those that may be connected.
   */
  @Test
  void warnsBeforeItRanks() throws IOException {
    Path file =
        Files.writeString(
            temp.resolve("mains.json"),
            """
            {"formatVersion": 1, "title": "Mains, invented",
             "signal": {"kind": "sine", "amplitudeVolts": 325, "frequencyHz": 50},
             "setup": {"sourceReferenceVolts": 120, "vertical": {"voltsPerDivision": 100},
                       "sampling": {"rateHz": 1e4, "points": 400}},
             "readings": [{"kind": "acRms"}],
             "assessment": {
               "limits": [{"reading": {"kind": "acRms"}, "lower": 200, "upper": 260}]}}
            """);
    Run run =
        Run.of(
            "compare",
            file,
            "--as-set",
            "--instrument",
            FAST,
            GENERAL,
            "--probe",
            TIMES_TEN,
            "--out",
            temp.resolve("out"));
    assertEquals(0, run.code(), run.err());
    int ranking = run.out().indexOf("U of the quantity");
    for (String words :
        List.of(
            "Caution            Every instrument: Hazardous voltage at the tip: 229.8 V RMS",
            "Beyond the rating of the instrument's input",
            "Local codes and licensed practice decide",
            "The ground clip would sit on a node at 120 V to earth")) {
      int at = run.out().replaceAll("\\s+", " ").indexOf(words.replaceAll("\\s+", " "));
      assertTrue(at >= 0 && at < ranking, words + " in " + run.out());
    }
    String[] rows = run.out().split("\n(?=[-!\\d]    )");
    assertTrue(rows[1].startsWith("1    general purpose"), run.out());
    boolean seen = false;
    for (String row : rows) {
      if (row.matches("(?s).    fast, 8 bit, 1 GHz +\\d.*")) {
        assertTrue(row.startsWith("!"), row);
        assertTrue(row.contains("beyond its") && row.contains("not to be connected"), row);
        seen = true;
      }
    }
    assertTrue(seen, run.out());
    String html = Files.readString(temp.resolve("out/mains-compared/compare.html"));
    assertTrue(html.indexOf("Cautions") < html.indexOf("<table"), "before the ranking");
    assertTrue(html.contains("not to be connected"));
    JsonNode json =
        JsonMapper.shared().readTree(temp.resolve("out/mains-compared/compare.json").toFile());
    assertEquals("hazardous voltage", json.at("/cautions/0/subject").asString());
  }

  /** A divider for a megohm on 50 ohm: what the instrument reads is its own noise. */
  @Test
  void aProbeOnTheWrongInputDecidesNothing() throws IOException {
    Run asSet =
        Run.of(
            "compare",
            QUESTION,
            "--as-set",
            "--instrument",
            FAST,
            "--probe",
            TIMES_TEN,
            "--out",
            temp.resolve("set"));
    assertEquals(0, asSet.code(), asSet.err());
    assertTrue(asSet.out().contains("fast, 8 bit, 1 GHz with passive"), asSet.out());
    assertFalse(asSet.out().contains("passes"), asSet.out());
    assertTrue(asSet.out().contains("the reading does not follow the quantity"), asSet.out());
    assertTrue(
        asSet
            .out()
            .matches("(?s).*\\n\\d    fast, 8 bit, 1 GHz with passive +[0-9.]+ mV +unbounded .*"),
        asSet.out());
    assertTrue(asSet.out().contains("U of the quantity: twice"), asSet.out());
    Run advised =
        Run.of(
            "compare",
            QUESTION,
            "--instrument",
            FAST,
            "--probe",
            TIMES_TEN,
            "--out",
            temp.resolve("advised"));
    assertEquals(0, advised.code(), advised.err());
    String words = advised.out().replaceAll("\\s+", " ");
    assertTrue(words.contains("no combination of settings is of use"), advised.out());
    String json = Files.readString(temp.resolve("advised/which-instrument-compared/compare.json"));
    assertTrue(json.contains("the reading does not follow the quantity"), json);
    assertFalse(
        words.matches(".*with passive[^-]*passes.*"), "its row says no reading: " + advised.out());
  }

  @Test
  void refusesWhatItCannotUse() throws IOException {
    Path out = temp.resolve("out");
    Run.of("compare", QUESTION, "--out", out).assertRefused("--instrument");
    Run.of("compare", temp.resolve("none.json"), "--instrument", HIGH, "--out", out)
        .assertRefused("scenario file", "none.json does not exist");
    Run.of("compare", QUESTION, "--instrument", temp.resolve("no.json"), "--out", out)
        .assertRefused("instrument file", "no.json does not exist");
    Run.of("compare", QUESTION, "--instrument", HIGH, "--probe", temp, "--out", out)
        .assertRefused("probe file", "is not a file");
    Path bad = Files.writeString(temp.resolve("bad.json"), "{\n \"formatVersion\": 1,\n \"x\": 2}");
    Run.of("compare", QUESTION, "--instrument", HIGH, bad, "--out", out)
        .assertRefused("bad.json", "line 3", "unknown key");
    Run.of("compare", QUESTION, "--instrument", HIGH, "--probe", bad, "--out", out)
        .assertRefused("bad.json", "line 3", "unknown key");
    Run.of("compare", QUESTION, "--instrument", HIGH, HIGH, "--out", out)
        .assertRefused("instrument \"high resolution, 12 bit, 100 MHz\": must not come twice");
    Run.of("compare", QUESTION, "--instrument", HIGH, "--probe", CABLE, CABLE, "--out", out)
        .assertRefused("probe \"x1 cable\": must not come twice");
    Run.of("compare", Path.of("scenarios/noisy-sine.json"), "--instrument", HIGH, "--out", out)
        .assertRefused("limits = []", "at least one limit");
    Path hidden = Files.copy(QUESTION, temp.resolve(".json"));
    Run.of("compare", hidden, "--instrument", HIGH, "--out", out)
        .assertRefused("scenario file", "has a name that no folder can take");
    assertFalse(Files.exists(out));
  }

  @Test
  void leavesAFolderAloneThatHoldsAnythingElse() throws IOException {
    Path folder = Files.createDirectories(temp.resolve("out/which-instrument-compared"));
    Files.writeString(folder.resolve("thesis.doc"), "three years");
    Run.of(
            "compare",
            QUESTION,
            "--instrument",
            FAST,
            "--probe",
            TIMES_TEN,
            "--out",
            folder.getParent())
        .assertRefused("thesis.doc");
    assertEquals(List.of(Path.of("thesis.doc")), files(folder));
  }

  @Test
  void helps() {
    Run run = Run.of("compare", "--help");
    assertEquals(0, run.code());
    for (String words :
        List.of("SCENARIO.json", "--instrument", "--probe", "--as-set", "--quiet", "130", "risk")) {
      assertTrue(run.out().contains(words), words);
    }
  }

  /** A bandwidth that may be negative: refused at its place, and no row of a table. */
  @Test
  void refusesAToleranceThatReachesTooFar() throws IOException {
    String good = Files.readString(GENERAL);
    String wrong =
        good.replaceFirst(
            "\"tolerances\": \\[",
            "\"tolerances\": [\n{ \"parameter\": \"limitHz\", \"name\": \"own limit\", \"relative\":"
                + " true, \"distribution\": { \"kind\": \"normal\", \"mean\": 0,"
                + " \"standardDeviation\": 0.3 } },");
    assertFalse(wrong.equals(good));
    int line = 2 + (int) good.substring(0, good.indexOf("\"tolerances\"")).lines().count() - 1;
    Path file = Files.writeString(temp.resolve("wrong.json"), wrong);
    Run run = Run.of("compare", QUESTION, "--instrument", file, "--out", temp.resolve("out"));
    assertEquals(2, run.code(), run.err());
    assertTrue(run.err().contains("wrong.json, line " + line + ", column "), run.err());
    assertTrue(
        run.err()
            .contains(
                "at /tolerances/0/distribution: own limit (normal, mean 0.0, standard deviation"
                    + " 0.3): reaches -1.4"),
        run.err());
    assertFalse(Files.exists(temp.resolve("out")));
  }
}
