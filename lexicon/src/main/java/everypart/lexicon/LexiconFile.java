package everypart.lexicon;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.MalformedInputException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * The text of a lexicon file and the name to call it by in messages.
 *
 * @param name the file's name
 * @param text the whole text
 */
record LexiconFile(String name, String text) {

  /** Reads a file that comes with the program. */
  static LexiconFile bundled(String name) {
    return bundled(LexiconFile.class, name);
  }

  /** Reads a file that comes with the program, beside a class. */
  static LexiconFile bundled(Class<?> beside, String name) {
    return new LexiconFile(name, new String(bundledBytes(beside, name), StandardCharsets.UTF_8));
  }

  private static byte[] bundledBytes(Class<?> beside, String name) {
    try (InputStream in = beside.getResourceAsStream(name)) {
      if (in == null) {
        throw new LexiconException(name, 0, "the file is not on the class path");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the name and checksum of a file that comes with the program. */
  static LexiconSource bundledSource(String name) {
    return LexiconSource.of(name, bundledBytes(LexiconFile.class, name));
  }

  /** Returns its name and checksum. */
  LexiconSource source() {
    return LexiconSource.of(name, text.getBytes(StandardCharsets.UTF_8));
  }

  /** What a file holds, told by how its name begins. */
  enum Content {
    CUES,
    CONCEPTS,
    TASK_VERBS,
    NOTHING
  }

  Content holds() {
    String last = String.valueOf(Path.of(name).getFileName());
    return last.startsWith("cues")
        ? Content.CUES
        : last.startsWith("concepts")
            ? Content.CONCEPTS
            : last.startsWith("task-verbs") ? Content.TASK_VERBS : Content.NOTHING;
  }

  /** The largest file that is read, ten times all that come with the program. */
  private static final long MOST_BYTES = 8L << 20;

  /** Reads a user's file; a pipe or device is none, since it may never end. */
  static LexiconFile at(Path path) {
    try {
      if (!Files.isRegularFile(path)) {
        throw new LexiconException(
            path.toString(), 0, "this is no file, or leads to none; leave it out of the folder");
      }
      if (Files.size(path) > MOST_BYTES) {
        throw new LexiconException(path.toString(), 0, "the file is larger than 8 MB; split it");
      }
      return new LexiconFile(path.toString(), Files.readString(path));
    } catch (MalformedInputException e) {
      throw new LexiconException(path.toString(), 0, "the file is not UTF-8; save it as UTF-8");
    } catch (IOException e) {
      throw new LexiconException(path.toString(), 0, "the file cannot be read");
    }
  }
}
