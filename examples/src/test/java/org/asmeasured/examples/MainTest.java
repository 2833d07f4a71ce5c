package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The command line, from the arguments to the files. */
class MainTest {
  private static final Path BUNDLED = Path.of("scenarios");
  private static final String SMALL =
      """
      {
        "formatVersion": 1,
        "title": "A sine, invented",
        "notes": ["Invented."],
        "signal": { "kind": "sine", "amplitudeVolts": 1, "frequencyHz": 1e6 },
        "setup": {
          "vertical": { "voltsPerDivision": %s },
          "converter": { "kind": "ideal", "bits": 8 },
          "sampling": { "rateHz": 1e8, "points": 500 }
        },
        "readings": [{ "kind": "peakToPeak" }, { "kind": "riseTime" }]
      }
      """;

  @TempDir Path temp;

  private Path scenario(String name, String text) throws IOException {
    return Files.writeString(temp.resolve(name), text);
  }

  private Path good() throws IOException {
    return scenario("good.json", SMALL.formatted("0.3"));
  }

  private Path out() {
    return temp.resolve("out");
  }

  private void assertNothingWritten() throws IOException {
    assertFalse(Files.exists(out()));
    try (Stream<Path> list = Files.list(temp)) {
      assertTrue(list.noneMatch(path -> path.getFileName().toString().startsWith(".")));
    }
  }

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile).map(folder::relativize).sorted().toList();
    }
  }

  @Test
  void predictsEveryBundledScenarioTheSameWayTwice() throws Exception {
    List<Object> args = new ArrayList<>(List.of("predict"));
    List<Path> scenarios;
    try (Stream<Path> list = Files.list(BUNDLED)) {
      scenarios = list.filter(path -> path.toString().endsWith(".json")).sorted().toList();
    }
    assertTrue(scenarios.size() >= 2);
    args.addAll(scenarios);
    args.add("--out");

    args.add(temp.resolve("first"));
    Run run = Run.of(args.toArray());
    assertEquals("", run.err());
    assertEquals(0, run.code());
    for (String words :
        List.of(
            "Reading ",
            "True value ",
            "As measured ",
            "Where it went ",
            "quantisation",
            "Report ")) {
      assertTrue(run.out().contains(words), words);
    }
    run.out()
        .lines()
        .forEach(line -> assertTrue(line.length() <= 100 || line.startsWith("Report"), line));
    args.set(args.size() - 1, temp.resolve("second"));
    assertEquals(0, Run.of(args.toArray()).code());

    List<Path> files = files(temp.resolve("first"));
    assertEquals(files, files(temp.resolve("second")));
    for (Path file : files) {
      assertEquals(
          -1,
          Files.mismatch(temp.resolve("first").resolve(file), temp.resolve("second").resolve(file)),
          file.toString());
    }
    for (Path scenario : scenarios) {
      String name = scenario.getFileName().toString().replace(".json", "");
      assertWhole(temp.resolve("first").resolve(name));
    }
  }

  private static void assertWhole(Path report) throws Exception {
    String html = Files.readString(report.resolve("report.html"));
    Markup.assertRefersToNothingOutside(html.replaceAll("doi:[^ ;)]*", ""));
    Markup.assertRefersToNothingOutside(Markup.parse(html));
    assertTrue(Files.readString(report.resolve("result.json")).startsWith("{"));
    List<Path> files = files(report);
    for (String picture : List.of("record", "close-up", "error", "where-it-went-1")) {
      assertTrue(files.contains(Path.of(picture + ".png")), picture);
      assertTrue(files.contains(Path.of(picture + ".svg")), picture);
    }
    for (Path file : files) {
      if (file.toString().endsWith(".png")) {
        BufferedImage png = ImageIO.read(report.resolve(file).toFile());
        assertEquals(1920, png.getWidth(), file.toString());
        assertTrue(png.getHeight() >= 200, file.toString());
      } else if (file.toString().endsWith(".svg")) {
        Markup.assertRefersToNothingOutside(Markup.parse(Files.readString(report.resolve(file))));
      }
      assertTrue(Report.isOurs(file.toString()), file.toString());
    }
  }

  @Test
  void tellsWhatWasClippedOnPageAndTerminal() throws IOException {
    Path file = scenario("clipped.json", SMALL.formatted("0.1"));
    Run run = Run.of("predict", file, "--out", out());
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("Flag               Clipped: "), run.out());
    assertTrue(Files.readString(out().resolve("clipped/report.html")).contains("Clipped: "));
  }

  @Test
  void replacesAnOlderReport() throws IOException {
    assertEquals(0, Run.of("predict", good(), "--out", out()).code());
    Files.writeString(out().resolve("good/report.html"), "old");
    assertEquals(0, Run.of("predict", good(), "--out", out()).code());
    assertTrue(Files.readString(out().resolve("good/report.html")).contains("A sine, invented"));
  }

  @Test
  void keepsAnOlderReportWhenItFails() throws IOException {
    assertEquals(0, Run.of("predict", good(), "--out", out()).code());
    Files.writeString(out().resolve("good/report.html"), "old");
    Path bad = scenario("bad.json", "{");
    Run.of("predict", good(), bad, "--out", out()).assertRefused(2, "bad.json");
    assertEquals("old", Files.readString(out().resolve("good/report.html")));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "{", "[]", "{}", "no JSON", "{\"formatVersion\": 1} {}"})
  void refusesWhatIsNoScenario(String text) throws IOException {
    Run.of("predict", good(), scenario("bad.json", text), "--out", out())
        .assertRefused(2, "bad.json");
    assertNothingWritten();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"amplitudeVolts\": 1 | \"amplitudeVolts\": 1e10 | amplitudeVolts",
        "\"amplitudeVolts\": 1 | \"amplitudeVolts\": 1e400 | amplitudeVolts",
        "\"amplitudeVolts\": 1 | \"amplitudeMillivolts\": 1 | amplitudeMillivolts",
        "\"frequencyHz\": 1e6 | \"frequencyHz\": \"1 MHz\" | frequencyHz",
        "\"frequencyHz\": 1e6 | \"frequencyHz\": 0 | frequencyHz",
        "\"bits\": 8 | \"bits\": 0 | bits",
        "\"points\": 500 | \"points\": 0 | points",
        "\"kind\": \"riseTime\" | \"kind\": \"colour\" | colour"
      })
  void refusesASettingByName(String from, String to, String said) throws IOException {
    String text = SMALL.formatted("0.3").replace(from, to);
    Run.of("predict", scenario("bad.json", text), "--out", out())
        .assertRefused(2, "bad.json", said);
    assertNothingWritten();
  }

  @Test
  void refusesFilesThatAreNotThere() throws IOException {
    Run.of("predict", temp.resolve("none.json"), "--out", out())
        .assertRefused(2, "none.json", "does not exist");
    Run.of("predict", temp, "--out", out()).assertRefused(2, "is not a file");
    Run.of("predict", temp.getRoot(), "--out", out()).assertRefused(2, "is not a file");
    assertNothingWritten();
  }

  @Test
  void refusesNamesThatClash() throws IOException {
    Path folder = Files.createDirectory(temp.resolve("other"));
    Path twin = Files.copy(good(), folder.resolve("good.json"));
    Run.of("predict", good(), twin, "--out", out())
        .assertRefused(2, "two scenario files are named good");
    Path hidden = scenario(".json", SMALL.formatted("0.3"));
    Run.of("predict", hidden, "--out", out()).assertRefused(2, "name");
    assertFalse(Files.exists(out()));
  }

  @Test
  void refusesAFolderThatCannotBeWritten() throws IOException {
    Path file = Files.writeString(temp.resolve("file"), "");
    Run.of("predict", good(), "--out", file)
        .assertRefused(2, "output folder", "is a file, not a folder");
    Run.of("predict", good(), "--out", file.resolve("below")).assertRefused(2, "output folder");
    assertEquals("", Files.readString(file));
  }

  @Test
  void refusesAFolderWithoutPermission() throws IOException {
    Path locked = Files.createDirectory(temp.resolve("locked"));
    assertTrue(locked.toFile().setWritable(false));
    try {
      assumeFalse(Files.isWritable(locked), "this user may write anywhere");
      Run.of("predict", good(), "--out", locked.resolve("out"))
          .assertRefused(2, "permission denied");
    } finally {
      assertTrue(locked.toFile().setWritable(true));
    }
  }

  @Test
  void refusesAFolderThatHoldsAnythingElse() throws IOException {
    Files.createDirectories(out().resolve("good"));
    Files.writeString(out().resolve("good/thesis.doc"), "three years");
    Run.of("predict", good(), "--out", out()).assertRefused(2, "thesis.doc");
    assertEquals(List.of(Path.of("good", "thesis.doc")), files(out()));
  }

  @Test
  void refusesWhatItDoesNotKnow() throws IOException {
    Run.of("predict", good(), "--out", out(), "--fast").assertRefused(2, "unknown option --fast");
    Run.of("predict", good()).assertRefused(2, "--out");
    Run.of("predict", good(), "--out").assertRefused(2, "--out");
    Run.of("predict", "--out", out()).assertRefused(2, "SCENARIO.json");
    Run.of("guess").assertRefused(2, "guess");
    Run.of("--guess").assertRefused(2, "--guess");
    Run.of().assertRefused(2, "no command");
    assertNothingWritten();
  }

  @Test
  void tellsAnUnexpectedFailureInOneSentence() throws IOException {
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    PrintStream broken =
        new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8) {
          @Override
          public void print(String text) {
            throw new IllegalStateException("the terminal\nis gone");
          }
        };
    int code =
        Main.run(
            new String[] {"predict", good().toString(), "--out", out().toString()},
            broken,
            Run.utf8(err));
    assertEquals(1, code);
    assertEquals(
        "unexpected failure: IllegalStateException: the terminal is gone.",
        err.toString(StandardCharsets.UTF_8).strip());
  }

  @Test
  void helps() {
    Run run = Run.of("predict", "--help");
    assertEquals(0, run.code());
    assertEquals("", run.err());
    for (String words : List.of("SCENARIO.json", "--out", "replaced", "Exit codes")) {
      assertTrue(run.out().contains(words), words);
    }
    assertTrue(Run.of("--help").out().contains("predict"));
  }
}
