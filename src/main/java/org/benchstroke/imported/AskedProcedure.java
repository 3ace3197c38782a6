package org.benchstroke.imported;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Event;

/**
 * The procedure that a file is held against: the given one, or what the file shows.
 *
 * @param procedure its tests; without any if none was given and the file shows none
 * @param file its file, whole, or one written of what was found
 * @param note what was judged, in words, where nobody ordered it
 */
record AskedProcedure(Procedure procedure, Event.SourceFile file, Optional<String> note) {
  /**
   * The given one, else what is found.
   *
   * @param shown the tests that the file shows
   * @param name of the file
   */
  static AskedProcedure of(ImportSetup given, Supplier<List<Inferred>> shown, String name) {
    return given
        .procedure()
        .map(p -> new AskedProcedure(p, given.procedureFile().orElseThrow(), Optional.empty()))
        .orElseGet(() -> found(shown.get(), name));
  }

  private static AskedProcedure found(List<Inferred> tests, String name) {
    String from = name.replaceAll("[^\\p{L}\\p{N}._ -]", "_");
    Procedure procedure =
        new Procedure("As found in " + from, "1", tests.stream().map(Inferred::test).toList());
    String note =
        "No procedure was given. Judged was what the file shows: "
            + tests.stream().map(Inferred::words).collect(Collectors.joining("; "))
            + ".";
    return new AskedProcedure(
        procedure,
        new Event.SourceFile("procedure", "as-found.toml", text(procedure, from, tests)),
        Optional.of(note));
  }

  private static String text(Procedure procedure, String from, List<Inferred> tests) {
    StringBuilder text = new StringBuilder();
    text.append("# Written by the program: what ").append(from);
    text.append(" shows, not what anyone ordered.\n");
    text.append("kind = \"procedure\"\nformat = 1\n");
    text.append("name = \"").append(procedure.name()).append("\"\n");
    text.append("version = \"").append(procedure.version()).append("\"\n");
    for (Inferred each : tests) {
      text.append("\n[[test]]\ntest = \"").append(each.test().name()).append("\"\n");
      text.append(each.keys());
    }
    return text.toString();
  }
}
