package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every command holds to while it works: its bar, and what a cancel leaves. */
class LongWorkTest {
  private static final Pattern PERCENT = Pattern.compile("] +(\\d+) % ([^ \r]+)");

  private static final String CANCELLED = "cancelled: nothing was written.";

  @TempDir Path temp;

  /** A command with its input, without --out, and the name that its bar shows. */
  record Work(String name, List<String> args) {
    static Work of(String name, String... args) {
      return new Work(name, List.of(args));
    }

    List<Object> to(Path out) {
      List<Object> all = new ArrayList<>(args);
      all.addAll(List.of("--out", out.toString()));
      return all;
    }

    @Override
    public String toString() {
      return args.get(0);
    }
  }

  static Stream<Work> works() {
    return Stream.of(
        Work.of("rail-with-ripple", "predict", "scenarios/rail-with-ripple.json"),
        Work.of(
            "which-instrument-compared",
            "compare",
            "scenarios/which-instrument.json",
            "--instrument",
            "instruments/high-resolution-12-bit-100-mhz.json",
            "instruments/general-purpose-8-bit-200-mhz.json"),
        Work.of("bench-from-two-steps", "fit", "fits/bench-from-two-steps.json"),
        Work.of("filling-the-screen", "sweep", "sweeps/filling-the-screen.json"));
  }

  private Path out() {
    return temp.resolve("out");
  }

  /** It begins at nothing, never goes back and is wiped; it is no part of what is printed. */
  @ParameterizedTest
  @MethodSource("works")
  void showsABarToWhoeverWatches(Work work) {
    ByteArrayOutputStream screen = new ByteArrayOutputStream();
    Run run = Run.watched(Run.utf8(screen), work.to(out()).toArray());
    assertEquals(0, run.code(), run.err());
    assertEquals("", run.err());
    assertFalse(run.out().contains("\r"));
    String shown = screen.toString(StandardCharsets.UTF_8);
    assertTrue(shown.startsWith("\r["), shown);
    Matcher lines = PERCENT.matcher(shown);
    int last = -1;
    while (lines.find()) {
      int percent = Integer.parseInt(lines.group(1));
      assertTrue(percent >= last && percent <= 100, shown.replace('\r', '\n'));
      assertEquals(last < 0 ? 0 : percent, percent);
      assertEquals(work.name(), lines.group(2));
      last = percent;
    }
    assertTrue(last >= 0, shown.replace('\r', '\n'));
    String end = shown.substring(shown.lastIndexOf('%'));
    assertTrue(end.matches("(?s).*\\r +\\r"), "not wiped: " + end);
  }

  @ParameterizedTest
  @MethodSource("works")
  void isQuietIfToldTo(Work work) {
    ByteArrayOutputStream screen = new ByteArrayOutputStream();
    List<Object> args = work.to(out());
    args.add("--quiet");
    assertEquals(0, Run.watched(Run.utf8(screen), args.toArray()).code());
    assertEquals("", screen.toString(StandardCharsets.UTF_8));
  }

  /** An interrupted thread is cancelled work: one sentence, and the output folder is as it was. */
  @ParameterizedTest
  @MethodSource("works")
  void anInterruptLeavesNothing(Work work) {
    Thread.currentThread().interrupt();
    Run run = Run.of(work.to(out()).toArray());
    assertTrue(Thread.interrupted());
    assertEquals(130, run.code());
    assertEquals(CANCELLED, run.err().strip());
    assertEquals("", run.out());
    assertFalse(Files.exists(out()));
  }

  /** The same when the whole program is told to end, in the middle of its work. */
  @ParameterizedTest
  @MethodSource("works")
  void theEndOfTheProgramLeavesNothing(Work work) throws Exception {
    assertTrue(endedWhen(work, this::isAtWork) != 0);
    assertEquals(CANCELLED, printed().strip());
    assertFalse(Files.exists(out()), () -> printed());
  }

  /**
   * As soon as a folder is there, and at instants before and after: whatever is made is cleared
   * away, or all of it stays because it was done.
   */
  @Test
  void theEndMayComeAtAnyTime() throws Exception {
    Work work = works().filter(w -> w.toString().equals("fit")).findFirst().orElseThrow();
    for (int i = 0; i < 8; i++) {
      long at = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(150L * i);
      int code =
          endedWhen(
              work, i % 2 == 0 ? () -> Files.isDirectory(out()) : () -> System.nanoTime() - at > 0);
      if (code == 0) {
        assertTrue(Files.isRegularFile(out().resolve(work.name()).resolve(Report.PAGE)));
        return;
      }
      assertFalse(Files.exists(out()), () -> printed());
      assertTrue(printed().isEmpty() || printed().strip().equals(CANCELLED), this::printed);
    }
  }

  /** Runs a command by itself, and ends it once something is so; its exit code. */
  private int endedWhen(Work work, Condition condition) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx512m", "-cp", System.getProperty("java.class.path")));
    command.add(Main.class.getName());
    work.to(out()).forEach(arg -> command.add(arg.toString()));
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(temp.resolve("printed").toFile())
            .start();
    try {
      assumeTrue(
          process.supportsNormalTermination(), "this system has no way to ask a program to end");
      long deadline = System.nanoTime() + TimeUnit.MINUTES.toNanos(5);
      while (!condition.isSo() && process.isAlive() && System.nanoTime() < deadline) {
        Thread.sleep(0, 200_000);
      }
      assertTrue(condition.isSo() || !process.isAlive(), "it has not begun");
      process.destroy();
      assertTrue(process.waitFor(5, TimeUnit.MINUTES), "it does not end");
      return process.exitValue();
    } finally {
      process.destroyForcibly();
    }
  }

  /** What is waited for. */
  private interface Condition {
    boolean isSo() throws IOException;
  }

  private boolean isAtWork() throws IOException {
    if (!Files.isDirectory(out())) {
      return false;
    }
    try (Stream<Path> list = Files.list(out())) {
      return list.anyMatch(path -> path.getFileName().toString().startsWith(".unfinished-"));
    }
  }

  private String printed() {
    try {
      return Files.readString(temp.resolve("printed"));
    } catch (IOException e) {
      return e.toString();
    }
  }
}
