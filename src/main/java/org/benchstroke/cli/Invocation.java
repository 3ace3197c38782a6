package org.benchstroke.cli;

import java.io.File;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** How this program was started, to tell people and to start it again. Stateless. */
final class Invocation {
  /** What an installed program is called by, from what starts it. */
  private static final String PROGRAM = "benchstroke.program";

  private Invocation() {}

  /** What a person types before the command. */
  static String program() {
    String installed = System.getProperty(PROGRAM, "");
    if (!installed.isEmpty()) {
      return installed;
    }
    String classPath = System.getProperty("java.class.path", "");
    return classPath.endsWith(".jar") && !classPath.contains(File.pathSeparator)
        ? "java -jar " + classPath
        : "benchstroke";
  }

  /** The program with a command, as a process of its own on the same Java. */
  static ProcessBuilder again(List<String> arguments) {
    String java =
        Optional.ofNullable(System.getProperty("java.home"))
            .map(home -> Path.of(home, "bin", "java").toString())
            .orElse("java");
    List<String> command = new ArrayList<>();
    command.add(java);
    command.add("-XX:+UseSerialGC");
    command.add("-cp");
    command.add(System.getProperty("java.class.path", ""));
    command.add(Main.class.getName());
    command.addAll(arguments);
    return new ProcessBuilder(command);
  }
}
