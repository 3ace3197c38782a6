package org.benchstroke.core.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;

/**
 * A folder that nobody but this user can write: into it go the native parts of libraries, which
 * left alone lie under the temporary folder for all to replace. Stateless.
 */
public final class PrivateFolder {
  private PrivateFolder() {}

  /**
   * Kept from one start to the next, so that nothing is unpacked twice; without a home it is a new
   * one each time.
   *
   * @throws IOException if there can be none
   */
  public static Path of() throws IOException {
    Path home = Path.of(System.getProperty("user.home", ""));
    Path cache =
        Optional.ofNullable(System.getenv("XDG_CACHE_HOME"))
            .map(Path::of)
            .filter(Path::isAbsolute)
            .orElse(home.resolve(".cache"));
    try {
      Path folder = Files.createDirectories(cache.resolve("benchstroke"));
      makePrivate(folder);
      return folder;
    } catch (IOException noHome) {
      return Files.createTempDirectory("benchstroke-");
    }
  }

  /** Fails if the folder belongs to someone else. */
  private static void makePrivate(Path folder) throws IOException {
    if (Files.getFileStore(folder).supportsFileAttributeView(PosixFileAttributeView.class)) {
      Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
    }
  }
}
