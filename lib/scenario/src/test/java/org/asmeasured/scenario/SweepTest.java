package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.measure.Measured;
import org.asmeasured.uncertainty.Interval;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A sweep against closed forms, against predictions one by one, and against itself. */
class SweepTest {
  private static final Path HERE = Path.of("").toAbsolutePath();

  /** 100 whole turns of a sine through one pole. */
  private static final String SINE =
      """
      {
        "formatVersion": 1,
        "title": "A sine, invented",
        "seed": 3,
        "signal": { "kind": "sine", "amplitudeVolts": 1, "frequencyHz": 1e6 },
        "setup": {
          "bandwidth": { "kind": "singlePole", "bandwidthHz": 1e6 },
          "vertical": { "voltsPerDivision": 1, "gainError": 0.0 },
          "sampling": { "rateHz": 64e6, "points": 6400, "startSeconds": 0 }
        },
        "readings": [{ "kind": "rms" }, { "kind": "mean" }, { "kind": "peakToPeak" }]
      }
      """;

  private static final String NOISY =
      SINE.replace(
          "\"vertical\"", "\"noise\": { \"densityVoltsPerRootHz\": 1e-6 },\n    \"vertical\"");

  @TempDir Path temp;

  private static Sweep sweep(String scenario, String axes, String more) {
    return Sweeps.parse(
        "{\"formatVersion\": 1, \"title\": \"t\", \"scenario\": "
            + scenario
            + ", \"axes\": ["
            + axes
            + "]"
            + more
            + "}",
        HERE);
  }

  private static SweepResult run(Sweep sweep, int threads) {
    return SweepResult.of(sweep, threads, (done, most) -> true);
  }

  private static double value(Measured measured) {
    return measured.orThrow();
  }

  /**
   * A sine of amplitude A through a pole at f_c and a gain off by g has an RMS of A (1 + g)/sqrt(2
   * (1 + (f/f_c)^2)): the textbook's response of one pole, at every point of a grid.
   */
  @Test
  void everyPointOfAGridIsItsClosedForm() {
    Sweep sweep =
        sweep(
            SINE,
            "{\"value\": \"/setup/bandwidth/bandwidthHz\", \"from\": 1e4, \"to\": 1e8, \"count\": 9, \"spacing\": \"ratio\"},"
                + "{\"value\": \"/setup/vertical/gainError\", \"list\": [-0.02, 0, 0.01]},"
                + "{\"value\": \"/signal/amplitudeVolts\", \"from\": 0.5, \"to\": 2, \"count\": 4}",
            "");
    assertEquals(108, sweep.size());
    SweepResult result = run(sweep, 2);
    int point = 0;
    for (int i = 0; i < 9; i++) {
      double corner = Math.pow(10, 4 + 0.5 * i);
      for (double gain : new double[] {-0.02, 0, 0.01}) {
        for (double amplitude : new double[] {0.5, 1, 1.5, 2}) {
          SweepRow row = result.rows().get(point);
          assertEquals(point, row.number());
          assertEquals(corner, row.coordinates().get(0), 1e-11 * corner);
          assertEquals(List.of(gain, amplitude), row.coordinates().subList(1, 3));
          SweptReading rms = row.readings().get(0);
          double truth = amplitude / Math.sqrt(2);
          double read = truth * (1 + gain) / Math.hypot(1, 1e6 / corner);
          assertEquals(truth, value(rms.truth()), 1e-12);
          assertEquals(read, value(rms.measured()), 1e-9);
          assertEquals(read - truth, value(rms.bias()), 1e-9);
          point++;
        }
      }
    }
  }

  /** A point's figures are those of a prediction of the same scenario, to the bit. */
  @Test
  void aPointIsThePredictionOfItsScenario() {
    Sweep sweep =
        sweep(NOISY, "{\"value\": \"/signal/frequencyHz\", \"list\": [1e5, 1e6, 2.5e6]}", "");
    for (SweepPoint point : sweep.points()) {
      Scenario alone = Scenarios.parse(point.scenario(), point.folder());
      SweepRow row = point.run();
      List<Prediction> predictions = ScenarioResult.of(alone).predictions();
      for (int r = 0; r < 3; r++) {
        assertEquals(predictions.get(r).truth(), row.readings().get(r).truth());
        assertEquals(predictions.get(r).measured(), row.readings().get(r).measured());
        assertEquals(predictions.get(r).bias(), row.readings().get(r).bias());
      }
    }
  }

  /** Assessed rows are the assessment of the scenario of that point, verdict included. */
  @Test
  void anAssessedPointIsTheAssessmentOfItsScenario() {
    Sweep sweep = assessed();
    SweepResult result = run(sweep, 3);
    for (int i = 0; i < sweep.size(); i++) {
      SweepPoint point = sweep.point(i);
      ScenarioResult alone = ScenarioResult.of(Scenarios.parse(point.scenario(), point.folder()));
      Assessment expected = alone.assessments().get(0);
      SweptReading.Sureness sure = result.rows().get(i).readings().get(0).sureness().orElseThrow();
      assertEquals(expected.measured(), sure.mean());
      assertEquals(expected.standardUncertainty(), sure.standardUncertainty());
      Interval interval = expected.interval().orThrow();
      assertEquals(interval.lower(), value(sure.lower()));
      assertEquals(interval.upper(), value(sure.upper()));
      assertEquals(expected.sensitivity(), sure.sensitivity());
      assertEquals(
          alone.verdicts().get(0).orThrow().ruling(), sure.ruling().orElseThrow().orThrow());
    }
    List<String> header = List.of(result.toCsv().split("\r\n")[0].split(","));
    assertTrue(header.contains("RMS: verdict"), header::toString);
    assertFalse(header.contains("mean: verdict"), header::toString);
    String csv = result.toCsv();
    assertTrue(csv.contains(",passes,") && csv.contains(",fails,"), csv);
  }

  /**
   * A change of a sine's RMS shows by 1/sqrt(1 + (f/f_c)^2) behind a pole (the textbook's
   * response), at every point. Two more columns, in words; rows of another sweep tell why there is
   * no share.
   */
  @Test
  void theShareOfAChangeThatShowsHasAColumn() {
    String scenario =
        SINE.replace(
                "\"readings\"",
                "\"assessment\": {\"digits\": 1, \"tolerances\": [{\"parameter\": \"gainError\", \"distribution\": "
                    + "{\"kind\": \"rectangular\", \"lower\": -0.01, \"upper\": 0.01}}]},\n\"readings\"")
            .replace("6400", "640");
    String axis = "{\"value\": \"/setup/bandwidth/bandwidthHz\", \"list\": [1e5, 1e6, 3e7]}";
    SweepResult result = run(sweep(scenario, axis, ", \"readings\": [{\"kind\": \"rms\"}]"), 2);
    String[] lines = result.toCsv().split("\r\n");
    List<String> header = List.of(lines[0].split(","));
    int share = header.indexOf("RMS: share of a change that shows");
    assertEquals(header.indexOf("RMS: upper end of 95 % (V)") + 1, share);
    assertEquals(share + 1, header.indexOf("RMS: standard error of this share"));
    for (int i = 0; i < 3; i++) {
      double corner = new double[] {1e5, 1e6, 3e7}[i];
      String[] cells = lines[i + 1].split(",", -1);
      assertEquals(1 / Math.hypot(1, 1e6 / corner), Double.parseDouble(cells[share]), 1e-9);
      assertEquals(0, Double.parseDouble(cells[share + 1]), 1e-9);
      assertEquals("", cells[cells.length - 1]);
    }
    String duty = "{\"kind\": \"dutyFactor\"}";
    SweepResult unchecked =
        run(
            sweep(
                scenario.replace("{ \"kind\": \"rms\" }", duty),
                axis,
                ", \"readings\": [" + duty + "]"),
            1);
    String[] cells = unchecked.toCsv().split("\r\n")[1].split(",", -1);
    assertEquals("", cells[share]);
    assertEquals("", cells[share + 1]);
    assertEquals(
        "not checked whether the reading follows the quantity: no move of the signal moves the true"
            + " value",
        cells[cells.length - 2]);
  }

  private static Sweep assessed() {
    String scenario =
        SINE.replace(
                "\"readings\"",
                "\"assessment\": {\"digits\": 1, \"tolerances\": [{\"parameter\": \"gainError\", \"distribution\": "
                    + "{\"kind\": \"rectangular\", \"lower\": -0.01, \"upper\": 0.01}}], "
                    + "\"limits\": [{\"reading\": {\"kind\": \"rms\"}, \"lower\": 0.6}]},\n\"readings\"")
            .replace("6400", "640");
    return sweep(
        scenario,
        "{\"value\": \"/signal/amplitudeVolts\", \"list\": [0.5, 2]}",
        ", \"readings\": [{\"kind\": \"rms\"}]");
  }

  @Test
  void sameBytesOnAnyNumberOfThreads() {
    String axes =
        "{\"value\": \"/signal/amplitudeVolts\", \"from\": 0.1, \"to\": 3, \"count\": 7},"
            + "{\"value\": \"/setup/noise/densityVoltsPerRootHz\", \"from\": 1e-9, \"to\": 1e-6, \"count\": 4, \"spacing\": \"ratio\"}";
    for (String more : List.of("", ", \"seedPerPoint\": true")) {
      Sweep sweep = sweep(NOISY, axes, more);
      String once = run(sweep, 1).toCsv();
      for (int threads : new int[] {2, 3, 64}) {
        assertEquals(once, run(sweep, threads).toCsv());
      }
    }
    assertEquals(run(assessed(), 1).toCsv(), run(assessed(), 8).toCsv());
  }

  /**
   * Without a converter the vertical scale changes nothing, so two such points are equal.
   *
   * <p>With one seed the noise of two equal points is the same to the bit, whatever else is varied
   * beside it; with a seed for each it is not.
   */
  @Test
  void pointsShareTheirNoiseUnlessToldOtherwise() {
    String axes = "{\"value\": \"/setup/vertical/voltsPerDivision\", \"list\": [1, 2]}";
    List<SweepRow> common = run(sweep(NOISY, axes, ""), 1).rows();
    assertEquals(common.get(0).readings(), common.get(1).readings());
    List<SweepRow> own = run(sweep(NOISY, axes, ", \"seedPerPoint\": true"), 1).rows();
    assertNotEquals(own.get(0).readings(), own.get(1).readings());
    assertNotEquals(common.get(0).readings(), own.get(0).readings());
  }

  @Test
  void theSeedItselfMayBeVaried() {
    Sweep sweep = sweep(NOISY, "{\"value\": \"/seed\", \"list\": [3, 4]}", "");
    List<SweepRow> rows = run(sweep, 1).rows();
    assertNotEquals(rows.get(0).readings(), rows.get(1).readings());
    assertEquals(4, sweep.point(1).seed());
  }

  /** Points travel as JSON, in any order, and their rows are put together again. */
  @Test
  void pointsAreComputedElsewhere() {
    Sweep sweep =
        sweep(
            NOISY,
            "{\"value\": \"/signal/amplitudeVolts\", \"from\": 0.1, \"to\": 0.7, \"count\": 7}",
            ", \"seedPerPoint\": true, \"readings\": [{\"kind\": \"peakToPeak\"}, {\"kind\": \"rms\"}]");
    List<String> sent = new ArrayList<>(sweep.points().stream().map(SweepPoint::toJson).toList());
    Collections.reverse(sent);
    List<SweepRow> rows = new ArrayList<>();
    for (String text : sent) {
      assertEquals(1, text.lines().count());
      SweepPoint point = SweepPoint.parse(text);
      assertEquals(sweep.point(point.number()), point);
      rows.add(0, SweepRow.parse(point.run().toJson()));
    }
    assertEquals(run(sweep, 2), new SweepResult(sweep, rows));
    assertEquals(List.of("peak to peak", "RMS"), sweep.readingNames());
  }

  @Test
  void refusesRowsOfAnotherSweep() {
    Sweep sweep = sweep(SINE, "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1, 2]}", "");
    List<SweepRow> rows = new ArrayList<>(run(sweep, 1).rows());
    assertThrows(IllegalArgumentException.class, () -> new SweepResult(sweep, rows.subList(0, 1)));
    Collections.reverse(rows);
    assertThrows(IllegalArgumentException.class, () -> new SweepResult(sweep, rows));
  }

  @Test
  void refusesAPointThatIsNone() {
    Sweep sweep = sweep(SINE, "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1, 2]}", "");
    assertThrows(IllegalArgumentException.class, () -> sweep.point(2));
    assertThrows(IllegalArgumentException.class, () -> sweep.point(-1));
    String json = sweep.point(0).toJson();
    for (String bad :
        List.of(
            json.replace("\"seed\":3", "\"seed\":-1"),
            json.replace("\"number\":0", "\"number\":-1"),
            json.replace("\"readings\":[0,1,2]", "\"readings\":[]"),
            json.replace("\"formatVersion\":1", "\"formatVersion\":2"),
            json.replace("\"number\":0,", ""))) {
      assertNotEquals(json, bad);
      BadScenarioTest.assertOneSentence(
          assertThrows(ScenarioException.class, () -> SweepPoint.parse(bad)));
    }
    SweepPoint beyond = SweepPoint.parse(json.replace("[0,1,2]", "[3]"));
    assertTrue(
        assertThrows(ScenarioException.class, beyond::run)
            .getMessage()
            .contains("readings = 3: must be from 0 to 2"));
    assertThrows(IllegalArgumentException.class, () -> sweep.point(0).run(0, (done, most) -> true));
    assertThrows(NullPointerException.class, () -> sweep.point(0).run(1, null));
  }

  /** A point that cannot be captured, or read, says why in its own row. */
  @Test
  void aPointThatCannotBeReadSaysWhy() {
    String scenario =
        SINE.replace(
            "\"sampling\"", "\"converter\": {\"kind\": \"ideal\", \"bits\": 8}, \"sampling\"");
    SweepResult result =
        run(sweep(scenario, "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1, 9]}", ""), 1);
    String[] lines = result.toCsv().split("\r\n");
    assertEquals(3, lines.length);
    assertFalse(lines[1].contains("clipped"), lines[1]);
    assertTrue(lines[2].contains(",,,"), lines[2]);
    assertTrue(lines[2].contains("the record is clipped"), lines[2]);
  }

  /** RFC 4180: lines end with CR and LF, cells with commas stand in quotes. */
  @Test
  void writesCsv() throws Exception {
    Sweep sweep =
        sweep(
            SINE,
            "{\"value\": \"/signal/amplitudeVolts\", \"name\": \"amplitude, at the tip\", \"list\": [0.1, 2]}",
            ", \"readings\": [{\"kind\": \"mean\"}]");
    SweepResult result = run(sweep, 1);
    String[] lines = result.toCsv().split("\r\n", -1);
    assertEquals(4, lines.length);
    assertEquals(
        "\"amplitude, at the tip (V)\",mean: true value (V),mean: as measured (V),mean: bias (V),mean: reason,cautions",
        lines[0]);
    assertTrue(lines[1].startsWith("0.1,"), lines[1]);
    assertTrue(lines[2].startsWith("2,"), lines[2]);
    for (int i = 0; i < 2; i++) {
      String[] cells = lines[i + 1].split(",", -1);
      assertEquals(6, cells.length);
      assertEquals(
          value(result.rows().get(i).readings().get(0).measured()), Double.parseDouble(cells[2]));
      assertEquals("", cells[4]);
    }
    assertEquals("", lines[3]);
    Path file = temp.resolve("sweep.csv");
    result.writeCsv(file);
    assertEquals(result.toCsv(), Files.readString(file));
    assertThrows(ScenarioException.class, () -> result.writeCsv(temp.resolve("none/sweep.csv")));
  }

  @Test
  void tellsHowFarItHasCome() {
    Sweep sweep =
        sweep(
            SINE,
            "{\"value\": \"/signal/amplitudeVolts\", \"from\": 1, \"to\": 2, \"count\": 20}",
            "");
    List<Long> told = Collections.synchronizedList(new ArrayList<>());
    SweepResult.of(
        sweep,
        4,
        (done, most) -> {
          assertEquals(20, most);
          told.add(done);
          return true;
        });
    assertEquals(Stream.iterate(0L, n -> n + 1).limit(21).toList(), told);
  }

  @Test
  void isCancelledByItsProgress() {
    Sweep sweep =
        sweep(
            SINE,
            "{\"value\": \"/signal/amplitudeVolts\", \"from\": 1, \"to\": 2, \"count\": 2000}",
            "");
    for (int threads : new int[] {1, 4}) {
      AtomicInteger told = new AtomicInteger();
      assertThrows(
          CancellationException.class,
          () -> SweepResult.of(sweep, threads, (done, most) -> told.incrementAndGet() < 4));
      assertEquals(4, told.get());
    }
  }

  /** The thread is interrupted after the third point: no more than those at work are finished. */
  @Test
  void isCancelledByAnInterrupt() {
    Sweep sweep =
        sweep(
            SINE,
            "{\"value\": \"/signal/amplitudeVolts\", \"from\": 1, \"to\": 2, \"count\": 2000}",
            "");
    for (int threads : new int[] {1, 4}) {
      Thread caller = Thread.currentThread();
      AtomicInteger told = new AtomicInteger();
      assertThrows(
          CancellationException.class,
          () ->
              SweepResult.of(
                  sweep,
                  threads,
                  (done, most) -> {
                    told.set((int) done);
                    if (done == 3) {
                      caller.interrupt();
                    }
                    return true;
                  }));
      assertTrue(Thread.interrupted());
      assertTrue(told.get() < 2000, told + " points were finished");
    }
  }

  /** Trials of a point at work end too, long before they would be enough. */
  @Test
  void cancelsWithinAPoint() {
    Sweep sweep = assessed();
    Thread caller = Thread.currentThread();
    caller.interrupt();
    assertThrows(CancellationException.class, () -> sweep.point(0).run());
    assertTrue(Thread.interrupted());
    AtomicInteger asked = new AtomicInteger();
    assertThrows(
        CancellationException.class,
        () -> sweep.point(0).run(1, (done, most) -> asked.incrementAndGet() < 2));
  }

  /** Even tenths and even thirds of a decade are what a person would write. */
  @Test
  void gridsAreRound() {
    List<Double> tenths = grid("\"from\": -0.1, \"to\": 0.9, \"count\": 11");
    List<Double> written = List.of(-0.1, 0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9);
    assertEquals(written, tenths);
    assertEquals(
        List.of(1e-3, 1e-2, 0.1, 1.0, 10.0, 100.0),
        grid("\"from\": 1e-3, \"to\": 100, \"count\": 6, \"spacing\": \"ratio\""));
    assertEquals(
        List.of(8.0, 4.0, 2.0),
        grid("\"from\": 8, \"to\": 2, \"count\": 3, \"spacing\": \"ratio\""));
    // The ends stay as written, with all their digits.
    assertEquals(
        List.of(0.1234567890123456, 1.0),
        grid("\"from\": 0.1234567890123456, \"to\": 1, \"count\": 2"));
  }

  private static final String SQUARE =
      """
      {"formatVersion": 1, "title": "A square",
       "signal": {"kind": "square", "lowVolts": -0.25, "highVolts": 0.75, "periodSeconds": 1e-3, "dutyFactor": 0.5},
       "setup": {"coupling": {"kind": "dc"}, "noise": {}, "vertical": {"voltsPerDivision": 1},
                 "sampling": {"rateHz": 128e3, "points": 384, "startSeconds": 3.90625e-6}},
       "readings": [{"kind": "mean"}]}
      """;

  /**
   * Whole values in place of others: a square of mean 0.25 V keeps it through DC coupling and loses
   * it through AC coupling. A point is a value of its own, there and back.
   */
  @Test
  void wholeValuesAreVaried() {
    Sweep sweep =
        sweep(
            SQUARE,
            """
            {"value": "/setup/coupling",
             "list": [{"kind": "dc"}, {"kind": "ac",
                                       "cornerHz": 10}]},
            {"value": "/title", "list": ["one", "two"], "together": [
              {"value": "/setup/sampling/rateHz", "list": [128e3, 128e3], "labels": ["as it is", "the same"]}]}
            """,
            "");
    assertEquals(4, sweep.size());
    SweptValue coupling = sweep.values().get(0);
    assertTrue(coupling.isWhole());
    assertEquals(List.of(0.0, 1.0), coupling.numbers());
    assertEquals("dc", coupling.wholes().get(0).label());
    assertEquals("ac, cornerHz 10", coupling.wholes().get(1).label());
    SweepResult result = SweepResult.of(sweep, 2, (done, most) -> true);
    for (int p = 0; p < 4; p++) {
      SweepRow row = result.rows().get(p);
      assertEquals(p < 2 ? 0.25 : 0, row.readings().get(0).measured().orThrow(), 1e-9);
      assertEquals(row, SweepPoint.parse(sweep.point(p).toJson()).run());
      assertTrue(sweep.point(p).scenario().contains(p % 2 == 0 ? "\"one\"" : "\"two\""));
    }
    List<String> table = result.toCsv().lines().toList();
    assertTrue(table.get(0).startsWith("coupling,title,rateHz,mean: true"), table.get(0));
    assertTrue(table.get(1).startsWith("dc,one,as it is,0.25"), table.get(1));
    assertTrue(table.get(4).startsWith("\"ac, cornerHz 10\",two,the same,0.25"), table.get(4));
    assertEquals(
        List.of(),
        Schemas.complaints(Schemas.of(SweepResults.schema()), SweepResults.toJson(result)));
  }

  /** What the scenario leaves out is put there: the same as if it were written. */
  @Test
  void whatTheScenarioLeavesOutIsVariedToo() {
    Sweep sweep =
        sweep(
            SQUARE,
            """
            {"value": "/seed", "list": [7, 8]},
            {"value": "/setup/noise/densityVoltsPerRootHz", "list": [0, 1e-6],
             "together": [{"value": "/setup/noise/shareOfFullScale", "list": [0.001, 0.01]}]}
            """,
            "");
    for (int p = 0; p < 4; p++) {
      assertEquals(p < 2 ? 7 : 8, sweep.point(p).seed());
      Scenario read = Scenarios.parse(sweep.point(p).scenario(), Path.of("."));
      assertEquals(p < 2 ? 7 : 8, read.seed());
      String written =
          SQUARE
              .replace(
                  "\"noise\": {}",
                  p % 2 == 0
                      ? "\"noise\": {\"densityVoltsPerRootHz\": 0, \"shareOfFullScale\": 0.001}"
                      : "\"noise\": {\"densityVoltsPerRootHz\": 1e-6, \"shareOfFullScale\": 0.01}")
              .strip();
      assertEquals(Scenarios.parse(written, Path.of(".")).setup(), read.setup());
    }
    Sweep labelled =
        sweep(SQUARE, "{\"value\": \"/seed\", \"list\": [3, 4], \"labels\": [\"a\", \"b\"]}", "");
    assertEquals(4, labelled.point(1).seed());
  }

  @Test
  void refusesValuesWithinOneAnotherAndLabelsTwice() {
    for (String order :
        List.of("/setup/coupling,/setup/coupling/kind", "/setup/coupling/kind,/setup/coupling")) {
      String[] two = order.split(",");
      String axes =
          "{\"value\": \"%s\", \"list\": [{\"kind\": \"dc\"}]}, {\"value\": \"%s\", \"list\": [\"dc\"]}"
              .formatted(two[0], two[1]);
      ScenarioException e = assertThrows(ScenarioException.class, () -> sweep(SQUARE, axes, ""));
      assertTrue(e.getMessage().contains("lies within another value"), e.getMessage());
    }
    SweptValue.Whole one = new SweptValue.Whole("one", "1");
    SweptValue twice = SweptValue.ofWholes("/a", "a", List.of(one, one));
    assertThrows(IllegalArgumentException.class, () -> new SweepAxis(List.of(twice), false));
    SweptValue once = SweptValue.ofWholes("/a", "a", List.of(one));
    assertThrows(IllegalArgumentException.class, () -> new SweepAxis(List.of(once), true));
    assertThrows(IllegalArgumentException.class, () -> new SweptValue.Whole(" ", "1"));
    assertThrows(IllegalArgumentException.class, () -> new SweptValue.Whole("a", "1,\"b\":2"));
    assertThrows(ScenarioException.class, () -> new SweptValue.Whole("a", "1}"));
    assertThrows(
        IllegalArgumentException.class,
        () -> new SweptValue("/a", "a", "", List.of(1.0), List.of(one)));
  }

  private static List<Double> grid(String numbers) {
    return sweep(SINE, "{\"value\": \"/setup/sampling/startSeconds\", " + numbers + "}", "")
        .values()
        .get(0)
        .numbers();
  }

  /** A pointer may lead into an array, and its key's unit is that of the array. */
  @Test
  void unitsComeFromTheKeys() {
    Sweep sweep =
        sweep(
            SINE.replace(
                "{ \"kind\": \"sine\", \"amplitudeVolts\": 1, \"frequencyHz\": 1e6 }",
                "{ \"kind\": \"recorded\", \"rateHz\": 1e6, \"volts\": [0, 1, 2] }"),
            "{\"value\": \"/signal/volts/1\", \"list\": [1, 5]}, {\"value\": \"/setup/sampling/rateHz\", \"list\": [64e6]}",
            "");
    assertEquals("volts (V)", sweep.values().get(0).heading());
    assertEquals("rateHz (Hz)", sweep.values().get(1).heading());
    assertTrue(sweep.point(1).scenario().contains("[0, 5, 2]"), sweep.point(1).scenario());
  }
}
