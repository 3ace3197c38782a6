package org.benchstroke.app;

import static java.nio.charset.StandardCharsets.UTF_8;

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
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.files.WholeFile;

/**
 * The simulations and the demo data that travel inside the program file, with the schemas that they
 * name. Stateless.
 */
public final class DemoFiles {
  private static final String ROOT = "/org/benchstroke/demo";

  /** Where the schemas stand in the sources, from their top, and where in a copy, from its top. */
  private static final String IN_SOURCES = "src/main/resources/org/benchstroke/schemas/";

  private static final String IN_COPY = "schemas/";

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
    List<Path> kept = new ArrayList<>();
    URI uri = uri();
    if (uri.getScheme().equals("jar")) {
      try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
        kept.addAll(copy(jar.getPath(ROOT), folder));
      }
    } else {
      kept.addAll(copy(Path.of(uri), folder));
    }
    for (SchemaFile schema : SchemaFile.values()) {
      copy(schema.text(), folder.resolve(IN_COPY + schema.fileName())).ifPresent(kept::add);
    }
    return kept;
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
      String text = Files.readString(file).replace(IN_SOURCES, IN_COPY);
      copy(text, to.resolve(from.relativize(file).toString())).ifPresent(kept::add);
    }
    return kept;
  }

  /** Writes it, unless a file is there; that file if it is another. */
  private static Optional<Path> copy(String text, Path target) throws IOException {
    if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
      WholeFile.write(target, out -> out.write(text));
      return Optional.empty();
    }
    boolean same = Arrays.equals(Files.readAllBytes(target), text.getBytes(UTF_8));
    return same ? Optional.empty() : Optional.of(target);
  }
}
