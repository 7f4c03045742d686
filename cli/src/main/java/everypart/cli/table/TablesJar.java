package everypart.cli.table;

import java.io.File;
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

/**
 * The jar that reads and writes Parquet, beside the one that the program was started from. Opened
 * as a layer of modules, so that its library and what the program brings do not meet.
 */
public final class TablesJar {
  private static final String NAME = "everypart-parquet.jar";
  private static final String MODULE = "everypart.parquet";

  private TablesJar() {}

  /** Returns where the jar should lie. */
  public static Path file() {
    String first = System.getProperty("java.class.path", "").split(File.pathSeparator, 2)[0];
    Path folder = Path.of(first).toAbsolutePath().getParent();
    return folder == null ? Path.of(NAME) : folder.resolve(NAME);
  }

  /** Opens the jar; nothing where it is not there, or is not what it should be. */
  public static Optional<TypedTables> open() {
    Path file = file();
    if (!Files.isRegularFile(file)) {
      // A program that has the classes on its own path, as a test does, needs no jar.
      return ServiceLoader.load(TypedTables.class).findFirst();
    }
    try {
      Configuration configuration =
          ModuleLayer.boot()
              .configuration()
              .resolve(ModuleFinder.of(file), ModuleFinder.of(), Set.of(MODULE));
      return ServiceLoader.load(
              ModuleLayer.boot()
                  .defineModulesWithOneLoader(configuration, TablesJar.class.getClassLoader()),
              TypedTables.class)
          .findFirst();
    } catch (FindException
        | ResolutionException
        | ServiceConfigurationError
        | LinkageError broken) {
      return Optional.empty();
    }
  }
}
