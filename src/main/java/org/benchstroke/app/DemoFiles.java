package org.benchstroke.app;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.files.WholeFile;

/** The simulations and the demo data that travel inside the program file. Stateless. */
public final class DemoFiles {
  private static final String ROOT = "/org/benchstroke/demo";

  private DemoFiles() {}

  /**
   * Copies them into the folder. What is there already stays.
   *
   * @return the files that differ from those: a person changed them, or they are of another version
   * @throws WrongRequest if they can't be written there
   */
  public static List<Path> unpack(Path folder) throws WrongRequest {
    try {
      return copyInto(folder);
    } catch (IOException e) {
      throw WrongRequest.unwritable(folder, e);
    }
  }

  private static List<Path> copyInto(Path folder) throws IOException {
    URI uri = uri();
    if (uri.getScheme().equals("jar")) {
      try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
        return copy(jar.getPath(ROOT), folder);
      }
    }
    return copy(Path.of(uri), folder);
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

  private static List<Path> copy(Path from, Path to) throws IOException {
    List<Path> files;
    try (Stream<Path> walk = Files.walk(from)) {
      files = walk.filter(Files::isRegularFile).toList();
    }
    List<Path> kept = new ArrayList<>();
    for (Path file : files) {
      Path target = to.resolve(from.relativize(file).toString());
      if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
        String text = Files.readString(file);
        WholeFile.write(target, out -> out.write(text));
      } else if (Files.mismatch(file, target) >= 0) {
        kept.add(target);
      }
    }
    return kept;
  }
}
