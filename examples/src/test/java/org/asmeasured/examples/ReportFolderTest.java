package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ReportFolderTest {
  @TempDir Path temp;

  private static Map<String, byte[]> report(String text) {
    return Map.of(Report.PAGE, text.getBytes(), Report.RESULT, text.getBytes());
  }

  private List<String> everything() throws IOException {
    try (Stream<Path> walk = Files.walk(temp)) {
      return walk.filter(path -> !path.equals(temp))
          .map(path -> temp.relativize(path).toString().replace('\\', '/'))
          .sorted()
          .toList();
    }
  }

  @Test
  void movesReportsToTheirPlace() throws IOException {
    try (ReportFolder folder =
        ReportFolder.in(temp.resolve("a/b"), List.of("one", "two"), Report::isOurs, () -> {})) {
      folder.stage("one", report("1"));
      folder.stage("two", report("2"));
      assertFalse(Files.exists(temp.resolve("a/b/one")));
      folder.commit();
    }
    assertEquals(
        List.of(
            "a",
            "a/b",
            "a/b/one",
            "a/b/one/report.html",
            "a/b/one/result.json",
            "a/b/two",
            "a/b/two/report.html",
            "a/b/two/result.json"),
        everything());
  }

  @Test
  void leavesNothingWithoutACommit() throws IOException {
    try (ReportFolder folder =
        ReportFolder.in(temp.resolve("a/b"), List.of("one"), Report::isOurs, () -> {})) {
      folder.stage("one", report("1"));
    }
    assertEquals(List.of(), everything());
  }

  @Test
  void replacesAReportWhole() throws IOException {
    Path old = Files.createDirectory(temp.resolve("one"));
    Files.writeString(old.resolve("report.html"), "old");
    Files.writeString(old.resolve("cycles.png"), "of a picture that is no more");
    try (ReportFolder folder = ReportFolder.in(temp, List.of("one"), Report::isOurs, () -> {})) {
      folder.stage("one", report("new"));
      assertEquals("old", Files.readString(old.resolve("report.html")));
      folder.commit();
    }
    assertEquals(List.of("one", "one/report.html", "one/result.json"), everything());
    assertEquals("new", Files.readString(old.resolve("report.html")));
  }

  @Test
  void leavesAFolderAloneThatHoldsAnythingElse() throws IOException {
    Path other = Files.createDirectory(temp.resolve("one"));
    Files.writeString(other.resolve("thesis.doc"), "three years");
    BadInput refusal =
        assertThrows(
            BadInput.class, () -> ReportFolder.in(temp, List.of("one"), Report::isOurs, () -> {}));
    assertTrue(refusal.getMessage().contains("thesis.doc"), refusal.getMessage());
    assertEquals(List.of("one", "one/thesis.doc"), everything());
  }

  @Test
  void putsBackWhatItMovedWhenALaterOneFails() throws IOException {
    Path first = Files.createDirectory(temp.resolve("one"));
    Files.writeString(first.resolve("report.html"), "old");
    try (ReportFolder folder =
        ReportFolder.in(temp, List.of("one", "two"), Report::isOurs, () -> {})) {
      folder.stage("one", report("new"));
      folder.stage("two", report("new"));
      Files.writeString(temp.resolve("two"), "someone was faster");
      assertThrows(BadInput.class, folder::commit);
    }
    assertEquals(List.of("one", "one/report.html", "two"), everything());
    assertEquals("old", Files.readString(first.resolve("report.html")));
  }

  @Test
  void refusesAFolderBelowAFile() throws IOException {
    Path file = Files.writeString(temp.resolve("file"), "");
    BadInput refusal =
        assertThrows(
            BadInput.class,
            () -> ReportFolder.in(file.resolve("out"), List.of("one"), Report::isOurs, () -> {}));
    assertTrue(refusal.getMessage().startsWith("output folder "), refusal.getMessage());
    BadInput same =
        assertThrows(
            BadInput.class, () -> ReportFolder.in(file, List.of("one"), Report::isOurs, () -> {}));
    assertTrue(same.getMessage().contains("is a file, not a folder"), same.getMessage());
  }
}
