package org.benchstroke.cli;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** The simulations and the demo data that travel inside the program file. Stateless. */
final class DemoFiles {
  private static final String ROOT = "/org/benchstroke/demo";

  private DemoFiles() {}

  /** Copies them into the folder; what is there already is replaced. */
  static void unpack(Path folder) throws IOException {
    URI uri = uri();
    if (uri.getScheme().equals("jar")) {
      try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
        copy(jar.getPath(ROOT), folder);
      }
    } else {
      copy(Path.of(uri), folder);
    }
  }

  private static URI uri() throws IOException {
    try {
      return Optional.ofNullable(DemoFiles.class.getResource(ROOT))
          .map(URL::toString)
          .map(URI::create)
          .orElseThrow(() -> new URISyntaxException(ROOT, "not in the program file"));
    } catch (URISyntaxException e) {
      throw new IOException("the program file is damaged: " + e.getMessage(), e);
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    List<Path> files;
    try (Stream<Path> walk = Files.walk(from)) {
      files = walk.filter(Files::isRegularFile).toList();
    }
    for (Path file : files) {
      Path target = to.resolve(from.relativize(file).toString());
      Files.createDirectories(target.toAbsolutePath().getParent());
      Files.copy(file, target, StandardCopyOption.REPLACE_EXISTING);
    }
  }
}
