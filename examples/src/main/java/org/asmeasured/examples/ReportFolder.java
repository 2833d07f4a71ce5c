package org.asmeasured.examples;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * Writes reports whole or not at all: each is made in a folder beside its place and moved there
 * when all are made. Whatever fails before the end, or ends the program, leaves the output folder
 * as it was.
 */
final class ReportFolder implements AutoCloseable {
  private final Path out;
  private final Deque<Path> made = new ArrayDeque<>();
  private final Predicate<String> ours;
  private final Runnable cancelled;
  private final List<String> staged = new ArrayList<>();
  private final Thread atExit = new Thread(this::end, "tidying up");
  private Path staging;
  private boolean committed;
  private boolean closed;

  private ReportFolder(Path out, Predicate<String> ours, Runnable cancelled) {
    this.out = out;
    this.cancelled = cancelled;
    this.ours = ours;
  }

  /**
   * Opens the output folder, and refuses at once what could not be written at the end. Until it is
   * closed, an end of the virtual machine clears it away too.
   *
   * @param ours tells the names of files that make room for a new report
   * @param cancelled called once all is cleared away, where the end of the virtual machine did it
   */
  static ReportFolder in(
      Path out, Collection<String> names, Predicate<String> ours, Runnable cancelled) {
    ReportFolder folder = new ReportFolder(out, ours, cancelled);
    folder.watch();
    try {
      folder.open(names);
      return folder;
    } catch (IOException e) {
      folder.close();
      throw refused(out, e);
    } catch (RuntimeException e) {
      folder.close();
      throw e;
    }
  }

  /** Before anything is made: the end may come at any time. */
  private void watch() {
    try {
      Runtime.getRuntime().addShutdownHook(atExit);
    } catch (IllegalStateException e) {
      throw cancelled();
    }
  }

  /** Waited for by whoever tidies up, so that nothing is made after that. */
  private synchronized void open(Collection<String> names) throws IOException {
    if (closed) {
      throw cancelled();
    }
    makeFolders(out.toAbsolutePath().normalize(), made);
    for (String name : names) {
      requireReplaceable(out.resolve(name), ours);
    }
    staging = Files.createTempDirectory(out, ".unfinished-");
  }

  private static CancellationException cancelled() {
    return new CancellationException("cancelled: the program is told to end");
  }

  private static void makeFolders(Path folder, Deque<Path> made) throws IOException {
    if (Files.isDirectory(folder)) {
      return;
    }
    if (folder.getParent() != null) {
      makeFolders(folder.getParent(), made);
    }
    Files.createDirectory(folder);
    made.push(folder);
  }

  /**
   * Only a report makes room for a report: a folder with anything else in it might be anybody's.
   */
  private static void requireReplaceable(Path target, Predicate<String> ours) throws IOException {
    if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (!Files.isDirectory(target, LinkOption.NOFOLLOW_LINKS)) {
      throw new BadInput(
          "output "
              + target
              + " is there already and is not a folder: move it away or give another --out");
    }
    List<Path> entries;
    try (Stream<Path> list = Files.list(target)) {
      entries = list.sorted().toList();
    }
    for (Path entry : entries) {
      boolean replaceable =
          Files.isRegularFile(entry, LinkOption.NOFOLLOW_LINKS)
              && ours.test(entry.getFileName().toString());
      if (!replaceable) {
        throw new BadInput(
            "output folder "
                + target
                + " holds "
                + entry.getFileName()
                + ", which is no part of a report: give another --out");
      }
    }
  }

  /** Makes one report, still beside its place. */
  synchronized void stage(String name, Map<String, byte[]> files) {
    if (closed) {
      throw cancelled();
    }
    try {
      Path folder = Files.createDirectory(staging.resolve(name));
      for (Map.Entry<String, byte[]> file : files.entrySet()) {
        Files.write(folder.resolve(file.getKey()), file.getValue());
      }
      staged.add(name);
    } catch (IOException e) {
      throw refused(out, e);
    }
  }

  /** Moves all reports to their places, or none. */
  synchronized void commit() {
    if (closed) {
      throw cancelled();
    }
    Deque<String> moved = new ArrayDeque<>();
    try {
      for (String name : staged) {
        Path target = out.resolve(name);
        requireReplaceable(target, ours);
        if (Files.exists(target)) {
          Files.move(target, staging.resolve(name + ".before"));
        }
        moved.push(name);
        Files.move(staging.resolve(name), target);
      }
      committed = true;
    } catch (IOException e) {
      restore(moved);
      throw refused(out, e);
    } catch (RuntimeException e) {
      restore(moved);
      throw e;
    }
  }

  private void restore(Deque<String> moved) {
    for (String name : moved) {
      Path target = out.resolve(name);
      Path before = staging.resolve(name + ".before");
      try {
        if (Files.exists(target)) {
          Files.move(target, staging.resolve(name));
        }
        if (Files.exists(before)) {
          Files.move(before, target);
        }
      } catch (IOException e) {
        // The first failure is the one to tell; what could not go back lies in the folder named
        // there.
        throw new BadInput(
            "output folder " + target + " could not be put back: it lies in " + before, e);
      }
    }
  }

  /** Clears away what is left; after a failure, the output folder too where this made it. */
  @Override
  public void close() {
    tidy();
    try {
      Runtime.getRuntime().removeShutdownHook(atExit);
    } catch (IllegalStateException e) {
      // It is ending already; there is nothing left to tidy.
    }
  }

  /** The virtual machine ends before this is closed. */
  private synchronized void end() {
    if (closed) {
      return;
    }
    tidy();
    if (!committed) {
      cancelled.run();
    }
  }

  /** Waits for files that are just being written or moved, so that none comes after it. */
  private synchronized void tidy() {
    if (closed) {
      return;
    }
    closed = true;
    boolean kept = !committed && hasUnrestored();
    if (!kept && staging != null) {
      delete(staging);
    }
    if (!committed) {
      undo(made);
    }
  }

  private boolean hasUnrestored() {
    return staged.stream().anyMatch(name -> Files.exists(staging.resolve(name + ".before")));
  }

  private static void undo(Deque<Path> made) {
    for (Path folder : made) {
      try {
        Files.deleteIfExists(folder);
      } catch (IOException e) {
        return;
      }
    }
  }

  private static void delete(Path folder) {
    try (Stream<Path> walk = Files.walk(folder)) {
      for (Path path : walk.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    } catch (IOException e) {
      // A leftover hidden folder is no reason to fail a report that stands where it should.
    }
  }

  private static BadInput refused(Path out, IOException e) {
    String reason;
    if (e instanceof AccessDeniedException) {
      reason = "permission denied";
    } else if (e instanceof FileAlreadyExistsException exists) {
      reason = exists.getFile() + " is a file, not a folder";
    } else if (e instanceof NoSuchFileException missing) {
      reason = missing.getFile() + " does not exist";
    } else if (e instanceof FileSystemException other && other.getReason() != null) {
      reason = other.getReason();
    } else {
      reason = String.valueOf(e.getMessage());
    }
    return new BadInput("output folder " + out + " cannot be written: " + reason, e);
  }
}
