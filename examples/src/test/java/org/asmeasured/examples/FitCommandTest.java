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

/** Fits from the command line, from the arguments to the files. */
class FitCommandTest {
  private static final Path BUNDLED = Path.of("fits");
  private static final Path BENCH = BUNDLED.resolve("bench-from-two-steps.json");

  @TempDir Path temp;

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile).map(folder::relativize).sorted().toList();
    }
  }

  @Test
  void fitsEveryBundledFitTheSameWayTwice() throws Exception {
    List<Object> args = new ArrayList<>(List.of("fit"));
    List<Path> fits;
    try (Stream<Path> list = Files.list(BUNDLED)) {
      fits = list.filter(path -> path.toString().endsWith(".json")).sorted().toList();
    }
    assertFalse(fits.isEmpty());
    args.addAll(fits);
    args.add("--out");
    args.add(temp.resolve("first"));
    Run run = Run.of(args.toArray());
    assertEquals("", run.err());
    assertEquals(0, run.code());
    run.out()
        .lines()
        .forEach(line -> assertTrue(line.length() <= 100 || line.startsWith("Report"), line));
    args.set(args.size() - 1, temp.resolve("second"));
    assertEquals(0, Run.of(args.toArray()).code());
    List<Path> files = files(temp.resolve("first"));
    assertEquals(files, files(temp.resolve("second")));
    for (Path file : files) {
      Path first = temp.resolve("first").resolve(file);
      assertEquals(-1, Files.mismatch(first, temp.resolve("second").resolve(file)), "" + file);
      assertTrue(Report.isOurs(file.getFileName().toString()), file.toString());
      if (file.toString().endsWith(".png")) {
        BufferedImage png = ImageIO.read(first.toFile());
        assertEquals(1920, png.getWidth(), file.toString());
      } else if (file.toString().endsWith(".svg")) {
        Markup.assertRefersToNothingOutside(Markup.parse(Files.readString(first)));
      } else if (file.toString().endsWith(".html")) {
        Markup.assertRefersToNothingOutside(Files.readString(first));
        Markup.assertRefersToNothingOutside(Markup.parse(Files.readString(first)));
      }
    }
  }

  @Test
  void saysWhatItFound() throws IOException {
    Run run = Run.of("fit", BENCH, "--out", temp.resolve("out"));
    assertEquals(0, run.code(), run.err());
    for (String words :
        List.of(
            "Parameter          bandwidth\nEstimate           17.",
            "Parameter          start of the record, recording 2\nEstimate           -201.",
            "Agreement          reduced chi-squared ",
            "Correlation        gain error and offset error: -0.9",
            "As read            258.9 mV\nCorrection         +23.",
            "Corrected          28",
            "Of which           of the correction ")) {
      assertTrue(run.out().contains(words), run.out());
    }
    Path report = temp.resolve("out/bench-from-two-steps");
    List<Path> files = files(report);
    for (int i = 1; i <= 2; i++) {
      for (String picture : List.of("fit-", "close-fit-", "left-over-")) {
        assertTrue(files.contains(Path.of(picture + i + ".png")), picture + i);
      }
    }
    String html = Files.readString(report.resolve("report.html"));
    assertTrue(html.contains("<th scope=\"row\">bandwidth</th>"), html);
    assertTrue(html.contains("A reading corrected"));
  }

  /** No fit is a result too: the reason stands where the figures would. */
  @Test
  void saysWhyThereIsNoFit() throws IOException {
    Files.createDirectory(temp.resolve("data"));
    Files.copy(BUNDLED.resolve("data/bench-step.csv"), temp.resolve("data/bench-step.csv"));
    String text =
        Files.readString(BENCH)
            .replace(
                "{ \"parameter\": \"gainError\"",
                "{ \"parameter\": \"signalFactor\", \"lowest\": 0.5, \"highest\": 2 },"
                    + " { \"parameter\": \"gainError\"");
    Path file = Files.writeString(temp.resolve("twice.json"), text);
    Run run = Run.of("fit", file, "--out", temp.resolve("out"));
    assertEquals(0, run.code(), run.err());
    assertTrue(run.out().contains("No fit             the records do not tell "), run.out());
    String html = Files.readString(temp.resolve("out/twice/report.html"));
    assertTrue(html.contains("No fit: the records do not tell signal factor from gain error"));
  }

  @Test
  void refusesWhatItCannotUse() throws IOException {
    Path out = temp.resolve("out");
    Run.of("fit", temp.resolve("none.json"), "--out", out)
        .assertRefused("none.json does not exist");
    Run.of("fit", temp, "--out", out).assertRefused("is not a file");
    Run.of("fit", BENCH, BENCH, "--out", out).assertRefused("two fit files are named bench-from");
    Path bad = Files.writeString(temp.resolve("bad.json"), "{}");
    Run.of("fit", BENCH, bad, "--out", out).assertRefused("bad.json", "is missing");
    Path hidden = Files.writeString(temp.resolve(".json"), "{}");
    Run.of("fit", hidden, "--out", out).assertRefused("has a name that no folder can take");
    assertFalse(Files.exists(out));
  }

  /** A fit whose bound was hit leads with that; its figures are said as a person would. */
  @Test
  void leadsWithWhatMustBeReadWithTheEstimates() throws IOException {
    Path folder = Files.createDirectories(temp.resolve("data"));
    Files.copy(BUNDLED.resolve("data/bench-step.csv"), folder.resolve("bench-step.csv"));
    Path file =
        Files.writeString(
            temp.resolve("hundred.json"),
            Files.readString(BENCH).replace("\"volts\": 1,", "\"volts\": 100,"));
    Run run = Run.of("fit", file, "--out", temp.resolve("out"));
    assertEquals(0, run.code(), run.err());
    String words = run.out().replaceAll("\\s+", " ");
    int caution = words.indexOf("Caution recording 1; recording 2: Hazardous voltage at the tip");
    int note = words.indexOf("Note bandwidth ends at a bound");
    int estimate = words.indexOf("Estimate ");
    assertTrue(caution >= 0 && caution < note && note < estimate, words);
    assertTrue(words.contains("e+08 of 800 degrees of freedom: noise alone practically"), words);
    assertFalse(words.contains("probability of 0"), words);
    assertTrue(words.indexOf("Note the residuals are larger") < estimate, words);
    String html = Files.readString(temp.resolve("out/hundred/report.html"));
    assertTrue(html.indexOf("ends at a bound") < html.indexOf("<table"), "before the estimates");
    assertTrue(html.indexOf("Hazardous voltage") < html.indexOf("<table"));
    assertEquals("795", FitWords.figure(795));
    assertEquals("0.996", FitWords.figure(0.996));
    assertEquals("1.69e+08", FitWords.figure(168593274.103));
    assertEquals("0", FitWords.figure(0));
    assertEquals("1.20e-05", FitWords.figure(1.2e-5));
  }
}
