package everypart.cli.intake.document;

import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The files of a class set, one after the other: a file, the files in a folder and its folders, or
 * those in a zip file, each folder in the order of its names.
 *
 * <p>Files that programs keep beside the ones people write are passed over: hidden ones, those of
 * an open document ({@code ~$...}), and those in which systems remember icons and thumbnails. So
 * are folders that results were written into.
 *
 * <p>Nothing is unpacked to disk: an entry is read into memory when its bytes are asked for, up to
 * a bound, and its name is never used as a path.
 */
public final class FileTree implements Iterator<FoundFile>, Closeable {
  /** A file that marks a folder as one that results are written into; such a folder is no input. */
  static final String RESULTS_MARK = ".everypart";

  private static final Set<String> BESIDE = Set.of("__macosx", "thumbs.db", "desktop.ini");
  private static final int DEEPEST = 50;

  private final Limits limits;
  private final Deque<Step> waiting = new ArrayDeque<>();
  private final Deque<FoundFile> packed = new ArrayDeque<>();
  private final Set<Path> entered = new HashSet<>();
  private @Nullable ZippedFiles zip;

  /** A file or folder still to be looked at. */
  private record Step(Path path, String shown, List<String> folders) {}

  /**
   * Starts at a file, a folder or a zip file.
   *
   * @param shown how messages name it
   * @param limits how much a file in it may hold
   */
  FileTree(Path start, String shown, Limits limits) {
    this.limits = limits;
    waiting.add(new Step(start, shown, List.of()));
  }

  /** Tells by its name whether a file is a zip file of files. */
  static boolean isZip(String name) {
    return name.toLowerCase(Locale.ROOT).endsWith(".zip");
  }

  @Override
  public boolean hasNext() {
    while (packed.isEmpty()) {
      closeZip();
      Step step = waiting.poll();
      if (step == null) {
        return false;
      }
      look(step);
    }
    return true;
  }

  @Override
  public FoundFile next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    return packed.remove();
  }

  private void look(Step step) {
    String name = String.valueOf(step.path.getFileName());
    if (Files.isDirectory(step.path)) {
      try {
        enter(step);
      } catch (IOException | UncheckedIOException | DirectoryIteratorException e) {
        packed.add(
            FoundFile.lost(
                step.shown,
                name,
                step.folders,
                new FileRemark(
                    Sayings.of("fileTree.folderMayRead"), Sayings.of("fileTree.askOwnerRight"))));
      }
    } else if (Files.exists(step.path) && !Files.isRegularFile(step.path)) {
      packed.add(FoundFile.lost(step.shown, name, step.folders, Faults.NO_FILE));
    } else if (isZip(name)) {
      zip = new ZippedFiles(step.path, step.shown, step.folders, limits);
      packed.addAll(zip.files());
    } else {
      packed.add(
          new FoundFile(
              step.shown,
              name,
              step.folders,
              changed(step.path),
              Optional.empty(),
              () -> Documents.bytes(step.path, limits)));
    }
  }

  private static Optional<Instant> changed(Path file) {
    try {
      return Optional.of(Files.getLastModifiedTime(file).toInstant());
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  private void enter(Step step) throws IOException {
    if (step.folders.size() > DEEPEST || !entered.add(step.path.toRealPath())) {
      packed.add(
          FoundFile.lost(
              step.shown,
              String.valueOf(step.path.getFileName()),
              step.folders,
              new FileRemark(
                  Sayings.of("fileTree.folderEnteredBefore"),
                  Sayings.of("fileTree.leaveOutLinks"))));
      return;
    }
    if (Files.exists(step.path.resolve(RESULTS_MARK))) {
      if (step.folders.isEmpty()) {
        packed.add(
            FoundFile.lost(
                step.shown,
                String.valueOf(step.path.getFileName()),
                step.folders,
                new FileRemark(
                    Sayings.of("fileTree.folderHoldsResults"),
                    Sayings.of("fileTree.giveFolderClass"))));
      }
      return;
    }
    List<Path> inside;
    try (Stream<Path> paths = Files.list(step.path)) {
      inside = paths.filter(path -> !isBeside(String.valueOf(path.getFileName()))).toList();
    }
    inside.stream()
        .sorted(Comparator.reverseOrder())
        .forEach(
            path -> {
              String name = String.valueOf(path.getFileName());
              List<String> folders = step.folders;
              if (Files.isDirectory(path)) {
                folders = new ArrayList<>(step.folders);
                folders.add(name);
              }
              waiting.addFirst(new Step(path, step.shown + "/" + name, folders));
            });
    if (inside.isEmpty() && step.folders.isEmpty()) {
      packed.add(
          FoundFile.lost(
              step.shown,
              String.valueOf(step.path.getFileName()),
              step.folders,
              new FileRemark(
                  Sayings.of("fileTree.noFileFolder"), Sayings.of("fileTree.giveFolderClass"))));
    }
  }

  /** Tells whether a file is one that programs keep beside those people write. */
  static boolean isBeside(String name) {
    return name.startsWith(".")
        || name.startsWith("~$")
        || BESIDE.contains(name.toLowerCase(Locale.ROOT));
  }

  private void closeZip() {
    try {
      close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws IOException {
    ZippedFiles open = zip;
    zip = null;
    if (open != null) {
      open.close();
    }
  }
}
