package everypart.cli.command;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The folder that a command writes its files into. */
final class OutputFolder {
  private OutputFolder() {}

  /**
   * Makes the folder when it is not there, and checks that files can be written into it.
   *
   * @throws OutputException saying what is wrong and how to mend it
   */
  static Path prepare(Path folder) throws OutputException {
    try {
      Files.createDirectories(folder);
      Path probe = Files.createTempFile(folder, ".everypart", ".probe");
      Files.delete(probe);
      return folder;
    } catch (FileAlreadyExistsException e) {
      throw new OutputException(
          folder + ": this is a file, not a folder; give --out another name.");
    } catch (IOException e) {
      throw new OutputException(
          folder + ": nothing can be written into this folder; give --out a folder of your own.");
    }
  }
}
