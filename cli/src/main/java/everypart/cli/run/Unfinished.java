package everypart.cli.run;

import everypart.cli.report.OutputFile;
import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * What a run keeps until it is whole, so that another can go on from it: the folder {@value
 * #FOLDER} in its output folder.
 *
 * <p>It settles, for every kind of batch, whether a run goes on from what an interrupted one left,
 * begins anew or is refused. What is kept there, and how it is recognised, each kind says by
 * extending this.
 *
 * @param <K> what results are recalled from
 */
public abstract class Unfinished<K> {
  /** The folder's name. */
  public static final String FOLDER = "unfinished";

  private final Path folder;

  /**
   * Names the folder.
   *
   * @param out the output folder of the run
   */
  protected Unfinished(Path out) {
    this.folder = out.resolve(FOLDER);
  }

  /** Returns where it is kept. */
  public final Path folder() {
    return folder;
  }

  /** Tells whether there is an interrupted run to go on with, whatever it was asked for. */
  public abstract boolean present() throws IOException;

  /**
   * Looks whether the interrupted run was asked for the same as this one.
   *
   * @throws WrongCallException when it was not
   */
  protected abstract void refuseOther() throws WrongCallException, IOException;

  /** Goes on with the interrupted run. */
  protected abstract K goOn() throws IOException;

  /** Begins anew; the folder is there. */
  protected abstract K begin() throws IOException;

  /** Returns what is said when a run is to go on and there is none. */
  protected abstract String nothingThere();

  /**
   * Returns what is said when a run begins anew although an interrupted one lies there.
   *
   * @throws WrongCallException when that is refused
   */
  protected abstract String leftBehind() throws WrongCallException;

  /**
   * Goes on with an interrupted run, or begins anew.
   *
   * @param resume whether to go on with what is there
   * @throws WrongCallException when what is there is of another run, or may not be dropped
   */
  public final K open(boolean resume, Console console) throws WrongCallException, IOException {
    boolean present = present();
    if (resume && present) {
      refuseOther();
      return goOn();
    }
    if (resume) {
      console.message(nothingThere());
    } else if (present) {
      console.message(leftBehind());
    }
    OutputFile.createFolder(folder);
    return begin();
  }

  /** Returns where a file of the results stands until it is whole. */
  protected final Path growing(Path target) {
    return folder.resolve(String.valueOf(target.getFileName()));
  }

  /** Takes the folder away, but for what another run left in it. */
  protected final void removeFolder() throws IOException {
    try {
      Files.deleteIfExists(folder);
    } catch (DirectoryNotEmptyException e) {
      return; // an interrupted run of another kind may still go on from there
    }
  }
}
