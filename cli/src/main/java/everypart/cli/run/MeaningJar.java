package everypart.cli.run;

import everypart.analyzer.judge.Reader;
import everypart.analyzer.meaning.SentenceMeaning;
import java.io.File;
import java.io.IOException;
import java.lang.module.Configuration;
import java.lang.module.FindException;
import java.lang.module.ModuleFinder;
import java.lang.module.ResolutionException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.ServiceConfigurationError;
import java.util.ServiceLoader;
import java.util.Set;
import java.util.zip.ZipFile;

/**
 * The jar with the models that need ONNX Runtime, which lies beside the program's own.
 *
 * <p>It is opened as a layer of modules above the class path: its classes see the program's, the
 * program finds its service, and no class that could open a network connection takes part.
 */
public final class MeaningJar {
  private static final String NAME = "everypart-meaning.jar";
  private static final String MODEL = "all-minilm-l6-v2-q.onnx";
  private static final String MODULE = "everypart.meaning";

  private final Path file;

  /** Names the jar in a folder. */
  MeaningJar(Path folder) {
    this.file = folder.resolve(NAME);
  }

  /** Names the jar beside the one that the program was started from. */
  static MeaningJar besideProgram() {
    String first = System.getProperty("java.class.path", "").split(File.pathSeparator, 2)[0];
    Path folder = Path.of(first).toAbsolutePath().getParent();
    return new MeaningJar(folder == null ? Path.of("") : folder);
  }

  /** Tells whether the jar is there. */
  boolean isThere() {
    return Files.isRegularFile(file);
  }

  /**
   * Opens the model of sentence meaning, which takes a moment.
   *
   * @throws MissingMeaningException when the jar is not there, or does not run here
   */
  SentenceMeaning open() throws MissingMeaningException {
    return open(SentenceMeaning.class, Sayings.of("meaningJar.leaveMeaningOut"));
  }

  /**
   * Opens the reader, which takes a moment.
   *
   * @throws MissingMeaningException when the jar is not there, or does not run here
   */
  public Reader reader() throws MissingMeaningException {
    return open(Reader.class, Sayings.of("meaningJar.addQuickWhich"));
  }

  /** Opens the model of sentence meaning beside the program when it is asked for. */
  public static Optional<SentenceMeaning> meaning(boolean asked) throws MissingMeaningException {
    return asked ? Optional.of(besideProgram().open()) : Optional.empty();
  }

  /** Opens the reader for a share of the verdicts, in per cent, unless it is left out. */
  public static Optional<Reader> reader(boolean quick, int share, Console console) {
    return reader(quick, console)
        .map(reader -> share < 100 ? Reader.ofLeastSure(reader, share / 100.0) : reader);
  }

  /** Opens the reader, unless it is left out or its jar is not there. */
  public static Optional<Reader> reader(boolean quick, Console console) {
    MeaningJar jar = besideProgram();
    if (quick || !jar.isThere()) {
      return Optional.empty();
    }
    try {
      return Optional.of(jar.reader());
    } catch (MissingMeaningException e) {
      console.message(
          Sayings.of("meaningJar.judgingWithoutReader", String.valueOf(e.getMessage())));
      return Optional.empty();
    }
  }

  private <T> T open(Class<T> service, String without) throws MissingMeaningException {
    if (!Files.isRegularFile(file)) {
      throw new MissingMeaningException(Sayings.of("meaningJar.meaningNeedsSecond", file, without));
    }
    try {
      Configuration configuration =
          ModuleLayer.boot()
              .configuration()
              .resolve(ModuleFinder.of(file), ModuleFinder.of(), Set.of(MODULE));
      ModuleLayer layer =
          ModuleLayer.boot()
              .defineModulesWithOneLoader(configuration, MeaningJar.class.getClassLoader());
      if (service == SentenceMeaning.class && !holds(MODEL)) {
        throw new MissingMeaningException(Sayings.of("meaningJar.app", without));
      }
      return ServiceLoader.load(layer, service)
          .findFirst()
          .orElseThrow(
              () ->
                  new MissingMeaningException(
                      broken(Sayings.of("meaningJar.holdsNoModel"), without)));
    } catch (FindException | ResolutionException e) {
      throw new MissingMeaningException(broken(String.valueOf(e.getMessage()), without), e);
    } catch (ServiceConfigurationError | LinkageError e) {
      throw new MissingMeaningException(
          Sayings.of("meaningJar.modelDoesRun", file, reason(e), without), e);
    }
  }

  /** Tells whether the jar holds a file; an app's jar leaves out what only this option needs. */
  private boolean holds(String name) {
    try (ZipFile jar = new ZipFile(file.toFile())) {
      return jar.getEntry(name) != null;
    } catch (IOException e) {
      return true; // what is wrong with it, the next step says
    }
  }

  private String broken(String reason, String without) {
    return Sayings.of("meaningJar.cannotUsedBuild", file, reason, without);
  }

  /** Returns what went wrong at the bottom, in one line. */
  private static String reason(Throwable thrown) {
    Throwable cause = thrown;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    String said =
        cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    return said.lines().findFirst().orElse("");
  }
}
