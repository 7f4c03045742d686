package everypart.cli.run;

import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Documents;
import everypart.cli.report.OutputFile;
import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * The folder that a run writes its files into, held by this run alone until it is closed.
 *
 * <p>A file in it ({@value Documents#RESULTS_MARK}) is locked while a run goes on, and lists what
 * the runs wrote. So a second run is refused, what a former run left is taken away before anything
 * new is put in its place, and a file that no run wrote is never written over. Nothing is written
 * through a link.
 */
public final class OutputFolder implements Closeable {
  private static final String FORMAT = "everypart-files 1";
  private static final List<String> FOLDERS = List.of(Unfinished.FOLDER, "slips");
  private static final long LONGEST_LIST = 64L << 20;

  private final Path folder;
  private final FileChannel channel;
  private final Set<String> former;

  private OutputFolder(Path folder, FileChannel channel) throws IOException {
    this.folder = folder;
    this.channel = channel;
    this.former = read(channel);
  }

  /**
   * Takes a folder; makes it when it is not there.
   *
   * @param inputs the files and folders that the run reads, as the caller named them; none of them
   *     may lie in the folder
   * @param names the files the run is going to write
   * @throws WrongCallException saying what is wrong and how to mend it
   */
  public static OutputFolder open(Path folder, Collection<String> inputs, Collection<String> names)
      throws WrongCallException {
    refuseInputs(folder, inputs);
    FileChannel channel;
    try {
      if (!Files.isDirectory(folder)) {
        OutputFile.createFolder(folder);
      }
      for (String inside : FOLDERS) {
        if (Files.isSymbolicLink(folder.resolve(inside))) {
          throw new WrongCallException(
              Sayings.of("outputFolder.linkNothingWritten", folder.resolve(inside)));
        }
      }
      channel =
          FileChannel.open(
              folder.resolve(Documents.RESULTS_MARK),
              Set.of(
                  StandardOpenOption.CREATE,
                  StandardOpenOption.READ,
                  StandardOpenOption.WRITE,
                  LinkOption.NOFOLLOW_LINKS),
              OutputFile.ownerOnly(folder, false));
    } catch (FileAlreadyExistsException e) {
      throw new WrongCallException(Sayings.of("outputFolder.fileFolderGive", folder));
    } catch (IOException e) {
      throw unwritable(folder);
    }
    try {
      lock(folder, channel);
      OutputFolder taken = new OutputFolder(folder, channel);
      taken.refuseOwn(names);
      if (taken.former.isEmpty()) {
        taken.list(Set.of());
      }
      return taken;
    } catch (WrongCallException e) {
      close(channel);
      throw e;
    } catch (IOException e) {
      close(channel);
      throw unwritable(folder);
    }
  }

  private static WrongCallException unwritable(Path folder) {
    return new WrongCallException(Sayings.of("outputFolder.nothingCanWritten", folder));
  }

  private static void close(FileChannel channel) {
    try {
      channel.close();
    } catch (IOException e) {
      // It was opened to no end, and there is nothing to lose.
    }
  }

  private static void lock(Path folder, FileChannel channel)
      throws WrongCallException, IOException {
    FileLock lock;
    try {
      lock = channel.tryLock();
    } catch (OverlappingFileLockException e) {
      lock = null;
    }
    if (lock == null) {
      throw new WrongCallException(Sayings.of("outputFolder.anotherRunWriting", folder));
    }
  }

  private static void refuseInputs(Path folder, Collection<String> inputs)
      throws WrongCallException {
    Path own = real(folder);
    for (String input : inputs) {
      if (!input.equals(Sources.STANDARD_INPUT) && real(Path.of(input)).startsWith(own)) {
        throw new WrongCallException(Sayings.of("outputFolder.inputLiesWhere", input, folder));
      }
    }
  }

  /** Returns where a file is or would be, with all links followed. */
  private static Path real(Path file) {
    Path at = file.toAbsolutePath().normalize();
    Path missing = Path.of("");
    while (at != null) {
      try {
        return at.toRealPath().resolve(missing).normalize();
      } catch (IOException notThere) {
        Path name = at.getFileName();
        missing = name == null ? missing : name.resolve(missing);
        at = at.getParent();
      }
    }
    return file.toAbsolutePath().normalize();
  }

  private static Set<String> read(FileChannel channel) throws IOException {
    Set<String> names = new TreeSet<>();
    if (channel.size() > LONGEST_LIST) {
      return names;
    }
    channel.position(0);
    byte[] bytes = Channels.newInputStream(channel).readAllBytes();
    List<String> lines = new String(bytes, StandardCharsets.UTF_8).lines().toList();
    if (!lines.isEmpty() && lines.get(0).equals(FORMAT)) {
      names.addAll(lines.subList(1, lines.size()));
    }
    return names;
  }

  private void refuseOwn(Collection<String> names) throws WrongCallException, IOException {
    for (String name : names) {
      Path file = folder.resolve(name);
      if (Files.isDirectory(file, LinkOption.NOFOLLOW_LINKS)) {
        refuseOwn(inside(name));
      } else if (Files.exists(file, LinkOption.NOFOLLOW_LINKS) && !former.contains(name)) {
        throw new WrongCallException(Sayings.of("outputFolder.fileNameNo", file));
      }
    }
  }

  private List<String> inside(String name) throws IOException {
    List<String> inside = new ArrayList<>();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder.resolve(name))) {
      files.forEach(file -> inside.add(name + "/" + file.getFileName()));
    }
    return inside;
  }

  /** Returns the folder. */
  public Path path() {
    return folder;
  }

  /**
   * Is called when all is judged, before the first file is put in its place: takes away what former
   * runs wrote, so that no file of theirs is left among those of this run.
   *
   * @param names the files that are now written
   */
  public void replace(Collection<String> names) throws WrongCallException, IOException {
    for (String name : former) {
      Path file = folder.resolve(name).normalize();
      if (file.startsWith(folder.normalize())
          && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
          && !Files.isSymbolicLink(folder.resolve("slips"))) {
        Files.delete(file);
      }
    }
    former.clear();
    refuseOwn(names);
    list(new LinkedHashSet<>(names));
    former.addAll(names);
  }

  private void list(Set<String> names) throws IOException {
    List<String> lines = new ArrayList<>(List.of(FORMAT));
    lines.addAll(new TreeSet<>(names));
    ByteBuffer bytes =
        ByteBuffer.wrap((String.join("\n", lines) + "\n").getBytes(StandardCharsets.UTF_8));
    channel.truncate(0);
    channel.position(0);
    while (bytes.hasRemaining()) {
      channel.write(bytes);
    }
    channel.force(true);
  }

  /** Lets other runs use the folder. */
  @Override
  public void close() throws IOException {
    channel.close();
  }
}
