package org.benchstroke;

import static org.junit.jupiter.api.Assertions.fail;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import org.junit.jupiter.api.Assumptions;

/** Programs of Debian that some tests need. */
public final class DebianProgram {
  private DebianProgram() {}

  /** Skips the test where the program is missing, but fails on the machine that must have it. */
  public static void require(String name) {
    String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
    require(
        name,
        Arrays.stream(path.split(":", -1)).anyMatch(d -> Files.isExecutable(Path.of(d, name))));
  }

  /** Likewise for a package that is no program but is known by a file of its own. */
  public static void requireFile(String name, Path file) {
    require(name, Files.exists(file));
  }

  private static void require(String name, boolean there) {
    if (!there && "true".equals(System.getenv("CI"))) {
      fail(name + " is not installed");
    }
    Assumptions.assumeTrue(there, name + " is not installed");
  }
}
