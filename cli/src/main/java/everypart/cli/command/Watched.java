package everypart.cli.command;

import everypart.cli.run.Stop;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.concurrent.TimeUnit;

/**
 * A file that somebody is writing. It is looked at a few times a second, which works on every file
 * system, also where editors write a new file and put it in the old one's place.
 */
final class Watched {
  private static final long LOOK_MILLIS = 250;

  private final Path file;
  private State seen;

  private record State(FileTime changed, long size) {}

  Watched(Path file) {
    this.file = file;
    this.seen = state();
  }

  private State state() {
    try {
      return new State(Files.getLastModifiedTime(file), Files.size(file));
    } catch (IOException notThereNow) {
      return new State(FileTime.fromMillis(0), -1);
    }
  }

  /** Waits until the file was saved, or the run is to end; tells whether it was saved. */
  boolean awaitChange(Stop stop) throws InterruptedException {
    while (!stop.asked()) {
      State now = state();
      if (now.size() >= 0 && !now.equals(seen)) {
        seen = now;
        return true;
      }
      TimeUnit.MILLISECONDS.sleep(LOOK_MILLIS);
    }
    return false;
  }
}
