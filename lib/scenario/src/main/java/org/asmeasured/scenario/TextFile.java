package org.asmeasured.scenario;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;

/** Whole text files in UTF-8. */
final class TextFile {
  private static final long MAX_BYTES = 256L << 20;

  private TextFile() {}

  /**
   * Reads a file.
   *
   * @param shown what messages call it
   */
  static String read(Path file, String shown) {
    try {
      if (Files.isDirectory(file)) {
        throw new ScenarioException(shown + ": is a folder: must be a file.");
      }
      long bytes = Files.size(file);
      if (bytes > MAX_BYTES) {
        throw new ScenarioException(
            shown + ": holds " + bytes + " bytes: must hold at most " + MAX_BYTES + ".");
      }
      // A fresh decoder refuses what is not UTF-8; String's own would put marks in its place.
      return StandardCharsets.UTF_8
          .newDecoder()
          .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
          .toString();
    } catch (CharacterCodingException e) {
      throw new ScenarioException(shown + ": is not text in UTF-8.", e);
    } catch (NoSuchFileException e) {
      throw new ScenarioException(shown + ": there is no such file.", e);
    } catch (AccessDeniedException e) {
      throw new ScenarioException(shown + ": may not be read.", e);
    } catch (IOException e) {
      throw new ScenarioException(shown + ": cannot be read: " + e.getMessage() + ".", e);
    }
  }

  /** Writes a file whole or not at all. */
  static void write(Path file, String text) {
    Path target = file.toAbsolutePath();
    if (Files.isDirectory(target)) {
      throw new ScenarioException(file + ": is a folder: must be a file.");
    }
    Path folder = target.getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw new ScenarioException(
          file + ": its folder does not exist: must exist before a file is written to it.");
    }
    Path draft = folder.resolve(target.getFileName() + "." + UUID.randomUUID() + ".part");
    try {
      try (FileChannel channel =
          FileChannel.open(draft, StandardOpenOption.WRITE, StandardOpenOption.CREATE_NEW)) {
        ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
        while (bytes.hasRemaining()) {
          channel.write(bytes);
        }
        channel.force(true);
      }
      Files.move(draft, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      discard(draft, e);
      throw new ScenarioException(
          file
              + ": cannot be written ("
              + e.getClass().getSimpleName().replace("Exception", "")
              + "): its folder must allow new files.",
          e);
    }
  }

  private static void discard(Path draft, IOException because) {
    try {
      Files.deleteIfExists(draft);
    } catch (IOException e) {
      because.addSuppressed(e);
    }
  }
}
