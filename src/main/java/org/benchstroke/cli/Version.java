package org.benchstroke.cli;

import java.util.Optional;

/** The program's name and version, as records and reports state it. Stateless. */
final class Version {
  private Version() {}

  static String text() {
    String version =
        Optional.ofNullable(Version.class.getPackage().getImplementationVersion())
            .orElse("(not packaged)");
    return "benchstroke ".concat(version); // at half the start-up time of a +
  }

  /** What is printed of it. */
  static String[] lines() {
    return new String[] {text(), "Licence: Apache-2.0", "Not a safety function."};
  }

  /** Whether these arguments ask for the version and nothing else. */
  static boolean isAllThatIsAsked(String... args) {
    return args.length == 1 && (args[0].equals("--version") || args[0].equals("-V"));
  }
}
