package everypart.cli.intake.document;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.jspecify.annotations.Nullable;

/**
 * The files in a zip file, in the order of their names. An entry is read into memory when its bytes
 * are asked for, up to a bound; its name is never used as a path.
 */
final class ZippedFiles implements Closeable {
  /** The longest name of a file that systems allow. */
  private static final int LONGEST_NAME = 255;

  /** What all entries read of one zip file may unpack to. */
  private static final long ALL_ENTRIES = 4L << 30;

  private final String shown;
  private final List<String> folders;
  private final Limits limits;
  private final List<FoundFile> files = new ArrayList<>();
  private @Nullable ZipFile zip;
  private long left = ALL_ENTRIES;

  /**
   * Opens a zip file; one that cannot be read holds one file that says why.
   *
   * @param shown how messages name it
   * @param folders the folders it stands in
   */
  ZippedFiles(Path file, String shown, List<String> folders, Limits limits) {
    this.shown = shown;
    this.folders = List.copyOf(folders);
    this.limits = limits;
    list(file, String.valueOf(file.getFileName()));
  }

  /** Returns the files. */
  List<FoundFile> files() {
    return List.copyOf(files);
  }

  private void list(Path file, String name) {
    ZipFile opened;
    try {
      opened = ZipFile.builder().setPath(file).get();
    } catch (OutOfMemoryError e) {
      lost(name, Faults.NO_MEMORY);
      return;
    } catch (IOException | RuntimeException e) {
      lost(
          name,
          Files.exists(file)
              ? Faults.DAMAGED
              : new FileRemark(
                  Sayings.of("documents.noSuchFile"), Sayings.of("documents.checkNameFolder")));
      return;
    }
    zip = opened;
    List<ZipArchiveEntry> entries = new ArrayList<>();
    for (var all = opened.getEntries(); all.hasMoreElements(); ) {
      ZipArchiveEntry entry = all.nextElement();
      if (!entry.isDirectory()) {
        entries.add(entry);
      }
    }
    if (entries.size() > limits.of(Limit.ENTRIES)) {
      lost(name, limits.exceeded(Limit.ENTRIES));
      return;
    }
    entries.sort(Comparator.comparing(ZipArchiveEntry::getName));
    for (ZipArchiveEntry entry : entries) {
      add(opened, entry);
    }
    if (files.isEmpty()) {
      lost(
          name,
          new FileRemark(Sayings.of("fileTree.noFileZip"), Sayings.of("fileTree.giveZipClass")));
    }
  }

  private void lost(String name, FileRemark why) {
    files.add(FoundFile.lost(shown, name, folders, why));
  }

  private void add(ZipFile opened, ZipArchiveEntry entry) {
    String path = entry.getName().replace('\\', '/');
    List<String> steps = Arrays.asList(path.split("/"));
    if (steps.stream().anyMatch(ZippedFiles::isPassedOver)) {
      return;
    }
    String last = steps.get(steps.size() - 1);
    List<String> inside = new ArrayList<>(folders);
    inside.addAll(steps.subList(0, steps.size() - 1));
    String where = shown + "/" + path;
    if (steps.stream().anyMatch(one -> one.length() > LONGEST_NAME)) {
      files.add(
          FoundFile.lost(
              shown + "/" + path.substring(0, LONGEST_NAME) + " ...",
              last.substring(Math.max(0, last.length() - LONGEST_NAME)),
              List.of(),
              new FileRemark(
                  Sayings.of("fileTree.nameLongerThan"), Sayings.of("fileTree.packFilesAnew"))));
    } else if (steps.contains("..") || path.startsWith("/") || path.contains(":")) {
      files.add(
          FoundFile.lost(
              where,
              last,
              List.of(),
              new FileRemark(
                  Sayings.of("fileTree.nameLeadsOut"), Sayings.of("fileTree.packFilesAnew2"))));
    } else if (FileTree.isZip(last)) {
      files.add(
          FoundFile.lost(
              where,
              last,
              inside,
              new FileRemark(
                  Sayings.of("fileTree.zipFileInside"), Sayings.of("fileTree.unpackFirst"))));
    } else {
      files.add(
          new FoundFile(
              where,
              last,
              inside,
              Optional.ofNullable(entry.getLastModifiedTime()).map(FileTime::toInstant),
              Optional.empty(),
              () -> bytes(opened, entry)));
    }
  }

  private static boolean isPassedOver(String name) {
    return !name.equals("..") && !name.equals(".") && FileTree.isBeside(name);
  }

  private byte[] bytes(ZipFile opened, ZipArchiveEntry entry) throws DocumentException {
    if (entry.getGeneralPurposeBit().usesEncryption()) {
      throw new DocumentException(Faults.LOCKED);
    }
    if (left <= 0) {
      throw new DocumentException(
          Sayings.of("fileTree.zipFileUnpacks"), Sayings.of("fileTree.unpackGiveFolder"));
    }
    try (InputStream in =
        Packed.bounded(
            opened.getInputStream(entry),
            limits.bytes(Limit.FILE),
            read -> left -= Math.max(read, 0))) {
      return in.readAllBytes();
    } catch (OutOfMemoryError e) {
      throw new DocumentException(Faults.NO_MEMORY);
    } catch (Packed.TooMuch e) {
      throw new DocumentException(limits.exceeded(Limit.FILE));
    } catch (IOException | RuntimeException e) {
      throw new DocumentException(Faults.DAMAGED);
    }
  }

  @Override
  public void close() throws IOException {
    if (zip != null) {
      zip.close();
    }
  }
}
