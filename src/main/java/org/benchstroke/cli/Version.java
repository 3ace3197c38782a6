package org.benchstroke.cli;

import java.util.Optional;
import picocli.CommandLine;

/** The program's name and version, as records and reports state it. */
final class Version implements CommandLine.IVersionProvider {
  static String text() {
    String version =
        Optional.ofNullable(Version.class.getPackage().getImplementationVersion())
            .orElse("(not packaged)");
    return "benchstroke " + version;
  }

  @Override
  public String[] getVersion() {
    return new String[] {text(), "Licence: Apache-2.0", "Not a safety function."};
  }
}
