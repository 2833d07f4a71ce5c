package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.asmeasured.signal.Signal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class RecordedFileTest {
  private static final String BY_NAME =
      "\"file\": \"a.csv\", \"timeColumn\": \"t\", \"secondsPerUnit\": 1, \"valueColumn\": \"v\", \"voltsPerUnit\": 1";
  private static final String BY_NUMBER =
      "\"file\": \"a.csv\", \"timeColumn\": 1, \"secondsPerUnit\": 1, \"valueColumn\": 2, \"voltsPerUnit\": 1";
  private static final String BY_RATE =
      "\"file\": \"a.csv\", \"valueColumn\": 1, \"rateHz\": 2, \"voltsPerUnit\": 1";

  @TempDir Path folder;

  private Signal read(String keys, String csv) throws IOException {
    Files.writeString(folder.resolve("a.csv"), csv);
    return read(keys);
  }

  private Signal read(String keys) {
    Json node = Json.parse("s.json", "{\"kind\": \"recordedFile\", " + keys + "}");
    return SignalKinds.in(folder).read(node);
  }

  private static Stream<Arguments> goodFiles() {
    return Stream.of(
        arguments("named columns, in any order", BY_NAME, "v,x,t\n0,9,0\n1,9,1\n3,9,2\n"),
        arguments(
            "comments and blank lines anywhere",
            BY_NAME,
            "# a\n\nt,v\n# b\n0,0\n\n1,1\n# c\n2,3\n"),
        arguments("no end of the last line", BY_NAME, "t,v\n0,0\n1,1\n2,3"),
        arguments("line ends of two characters", BY_NAME, "t,v\r\n0,0\r\n1,1\r\n2,3\r\n"),
        arguments("mark of byte order", BY_NAME, "\ufefft,v\n0,0\n1,1\n2,3\n"),
        arguments(
            "quoted names and values, spaces around",
            BY_NAME,
            "\"t\" , \"v\"\n0, 0\n 1,\"1\"\n2 ,3e0\n"),
        arguments("numbered columns without header", BY_NUMBER, "0,0\n1,1\n2,3\n"),
        arguments(
            "numbered columns with header",
            BY_NUMBER + ", \"header\": true",
            "t,v\n0,0\n1,1\n2,3\n"),
        arguments("semicolons", BY_NUMBER + ", \"delimiter\": \";\"", "0;0\n1;1\n2;3\n"),
        arguments("tabs", BY_NUMBER + ", \"delimiter\": \"\\t\"", "0\t0\n1\t1\n2\t3\n"),
        arguments(
            "scales",
            "\"file\": \"a.csv\", \"timeColumn\": 1, \"secondsPerUnit\": 1e-3, \"valueColumn\": 2, \"voltsPerUnit\":"
                + " -0.5",
            "0,0\n1000,-2\n2000,-6\n"),
        arguments(
            "a rate",
            "\"file\": \"a.csv\", \"valueColumn\": 2, \"rateHz\": 0.5, \"startSeconds\": -2, \"voltsPerUnit\": 1",
            "9,-1\n9,0\n9,3\n"));
  }

  /**
   * The same waveform each time, through (0, 0), (1, 1), (2, 3), or through (0, 0) and (2, 3)
   * alone.
   */
  @ParameterizedTest(name = "{0}")
  @MethodSource("goodFiles")
  void reads(String name, String keys, String csv) throws IOException {
    Signal signal = read(keys, csv);
    assertEquals(0, signal.valueAt(0), 0);
    assertEquals(name.equals("a rate") ? 1.5 : 1, signal.valueAt(1), 0);
    assertEquals(3, signal.valueAt(2), 0);
    assertEquals(3, signal.valueAt(1e6), 0);
  }

  private static Stream<Arguments> badFiles() {
    return Stream.of(
        arguments(BY_NAME, "", "a.csv: has no rows of values: must have at least 2."),
        arguments(BY_NAME, "# only\n", "a.csv: has no rows of values: must have at least 2."),
        arguments(BY_NAME, "t,v\n", "a.csv: has no rows of values: must have at least 2."),
        arguments(BY_NAME, "t,v\n0,1\n", "a.csv: has 1 row of values: must have at least 2."),
        arguments(BY_RATE, "1\n", "a.csv: has 1 row of values: must have at least 2."),
        arguments(
            BY_NAME,
            "# c\n\nt,v\n0,1\n1,x\n",
            "a.csv, line 5: column \"v\" = \"x\": must be a finite number, with a point where it has decimals."),
        arguments(
            BY_NAME,
            "t,v\n0,1\n1,\n2,2\n",
            "a.csv, line 3: column \"v\" = \"\": must be a finite number"),
        arguments(BY_NAME, "t,v\n0,1\n1\n", "a.csv, line 3: has 1 value: column \"v\" is missing."),
        arguments(
            BY_NAME,
            "t,v\n0,1\n1,NaN",
            "a.csv, line 3: column \"v\" = \"NaN\": must be a finite number"),
        arguments(
            BY_NAME,
            "t,v\n0,1\n1,-Infinity",
            "column \"v\" = \"-Infinity\": must be a finite number"),
        arguments(
            BY_NAME,
            "t,v\n0,1\n1,1e400",
            "a.csv, line 3: column \"v\" = \"1e400\": must be a finite number"),
        arguments(
            BY_NAME, "t,v\n0,1\n1,0x1p3", "column \"v\" = \"0x1p3\": must be a finite number"),
        arguments(BY_NAME, "t,v\n0,1\n1,1d", "column \"v\" = \"1d\": must be a finite number"),
        arguments(
            BY_NAME, "t,v\n0,1\n1,\"1,5\"", "column \"v\" = \"1,5\": must be a finite number"),
        arguments(
            BY_NAME,
            "t,v\n0,1\n1,1e10",
            "a.csv, line 3: column \"v\" = 1.0E10 V: must be from -1.0E9 to 1.0E9 V."),
        arguments(
            BY_NAME,
            "t,v\n0,1\n2,1\n# c\n1,1",
            "a.csv, line 5: column \"t\" = 1.0 s comes after 2.0 s: times must ascend."),
        arguments(
            BY_NAME,
            "t,v\n0,1\n2,1\n2,1",
            "a.csv, line 4: column \"t\" = 2.0 s is there twice: times must"),
        arguments(
            BY_NAME, "t,u\n0,1\n2,1", "a.csv, line 1: has no column \"v\": the header names t, u."),
        arguments(
            BY_NAME, "# c\nt,v,v\n0,1,1\n2,1,1", "a.csv, line 2: column \"v\" is there twice: "),
        arguments(
            BY_NUMBER, "t,v\n0,1\n2,1", "a.csv, line 1: column 1 = \"t\": must be a finite number"),
        arguments(BY_NUMBER, "0\n1\n", "a.csv, line 1: has 1 value: column 2 is missing."),
        arguments(
            BY_NAME,
            "t,v\n0,1\n2,\"1\n",
            "a.csv, line 3: a quotation mark is out of place or never closed."),
        arguments(
            BY_NAME,
            "t,v\n0,\"1\"1\n2,1\n",
            "a.csv, line 2: a quotation mark is out of place or never closed."));
  }

  @ParameterizedTest
  @MethodSource("badFiles")
  void refusesByLine(String keys, String csv, String words) {
    ScenarioException e = assertThrows(ScenarioException.class, () -> read(keys, csv));
    assertTrue(e.getMessage().contains(words), () -> e.getMessage() + "\n does not say \n" + words);
    BadScenarioTest.assertOneSentence(e);
  }

  private static Stream<Arguments> badKeys() {
    return Stream.of(
        arguments(
            BY_NAME.replace("a.csv", "b.csv"),
            "at /file: file = \"b.csv\": there is no such file in "),
        arguments(
            BY_NAME.replace("a.csv", "../a.csv"),
            "at /file: file = \"../a.csv\": must be a path beside the scenario or below it, without \"..\"."),
        arguments(
            BY_NAME.replace("a.csv", "x/../a.csv"),
            "must be a path beside the scenario or below it"),
        arguments(
            BY_NAME.replace("a.csv", "/etc/passwd"),
            "must be a path beside the scenario or below it"),
        arguments(
            BY_NAME.replace("a.csv", "c:\\\\a.csv"),
            "must be a path beside the scenario or below it"),
        arguments(
            BY_NAME.replace("a.csv", "a\\u0000.csv"),
            "must be a path beside the scenario or below it"),
        arguments(
            BY_NAME.replace("\"voltsPerUnit\": 1", "\"voltsPerUnit\": 0"),
            "at /voltsPerUnit: voltsPerUnit = 0.0 V: must be from -1.0E9 to 1.0E9 V and not 0."),
        arguments(
            BY_NAME.replace("\"secondsPerUnit\": 1", "\"secondsPerUnit\": -1"),
            "at /secondsPerUnit: secondsPerUnit = -1.0 s: must be above 0.0 s and at most 1.0E9 s."),
        arguments(
            BY_NAME.replace("\"secondsPerUnit\": 1, ", ""),
            "key \"secondsPerUnit\", in s, is missing: timeColumn must have it beside it."),
        arguments(
            BY_NAME + ", \"rateHz\": 1",
            "at /rateHz: rateHz is given beside timeColumn: must be one or the other."),
        arguments(
            BY_NAME + ", \"startSeconds\": 1",
            "at /startSeconds: startSeconds is given beside timeColumn"),
        arguments(
            BY_RATE + ", \"secondsPerUnit\": 1",
            "at /secondsPerUnit: secondsPerUnit is given without timeColumn"),
        arguments(
            BY_RATE.replace("\"rateHz\": 2, ", ""),
            "keys \"timeColumn\" and \"rateHz\" are missing: recordedFile must have one of them."),
        arguments(
            BY_RATE.replace("\"rateHz\": 2", "\"rateHz\": 0"),
            "at /rateHz: rateHz = 0.0 Hz: must be from "),
        arguments(
            BY_RATE.replace("valueColumn\": 1", "valueColumn\": 0"),
            "valueColumn = 0: must be from 1 to 16384."),
        arguments(
            BY_RATE.replace("valueColumn\": 1", "valueColumn\": []"),
            "at /valueColumn: valueColumn = [...]: must be the name of a column, or its number from 1."),
        arguments(
            BY_NAME + ", \"header\": false",
            "at /header: header = false: must be true where a column is told by its name."),
        arguments(
            BY_NAME + ", \"header\": \"no\"", "header = \"no\" is a text: must be true or false."),
        arguments(
            BY_NAME + ", \"delimiter\": \"|\"",
            "at /delimiter: delimiter = \"|\": must be \",\", \";\" or \"\\t\"."));
  }

  @ParameterizedTest
  @MethodSource("badKeys")
  void refusesKeys(String keys, String words) throws IOException {
    Files.writeString(folder.resolve("a.csv"), "t,v\n0,1\n2,1\n");
    ScenarioException e = assertThrows(ScenarioException.class, () -> read(keys));
    assertTrue(e.getMessage().contains(words), () -> e.getMessage() + "\n does not say \n" + words);
    BadScenarioTest.assertOneSentence(e);
  }

  @Test
  void refusesLinkThatLeadsElsewhere(@TempDir Path elsewhere) throws IOException {
    Files.writeString(elsewhere.resolve("secret.csv"), "t,v\n0,1\n2,1\n");
    Files.createSymbolicLink(folder.resolve("a.csv"), elsewhere.resolve("secret.csv"));
    ScenarioException e = assertThrows(ScenarioException.class, () -> read(BY_NAME));
    assertTrue(
        e.getMessage().contains("must be a path beside the scenario or below it"), e.getMessage());
  }

  @Test
  void readsFolderBelow() throws IOException {
    Files.createDirectory(folder.resolve("data"));
    Files.writeString(folder.resolve("data").resolve("a.csv"), "t,v\n0,1\n2,1\n");
    assertEquals(1, read(BY_NAME.replace("a.csv", "data/a.csv")).valueAt(1), 0);
  }
}
