package org.benchstroke.imported;

import java.util.Locale;
import java.util.stream.Collectors;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.Event;
import org.benchstroke.tests.stroke.StrokeTime;
import org.benchstroke.tests.travel.TravelError;

/** A procedure that was found in a file, written out as a procedure file. Stateless. */
final class ProcedureText {
  private ProcedureText() {}

  static String name(String file) {
    return "As found in " + file.replaceAll("[^\\p{L}\\p{N}._ -]", "_");
  }

  static Event.SourceFile file(Procedure procedure, String file) {
    StringBuilder text = new StringBuilder();
    text.append("# Written by the program: what ").append(name(file).substring(12));
    text.append(" shows, not what anyone ordered.\n");
    text.append("kind = \"procedure\"\nformat = 1\n");
    text.append("name = \"").append(procedure.name()).append("\"\n");
    text.append("version = \"").append(procedure.version()).append("\"\n");
    procedure.tests().forEach(test -> text.append(table(test)));
    return new Event.SourceFile("procedure", "as-found.toml", text.toString());
  }

  private static String table(TestSpec test) {
    String head = "\n[[test]]\ntest = \"" + test.name() + "\"\n";
    if (test instanceof StrokeTime stroke) {
      return head + "repeats = " + stroke.repeats() + "\n";
    }
    if (test instanceof TravelError travel) {
      String points =
          travel.points().stream()
              .map(p -> Numbers.exact(p.percent()))
              .collect(Collectors.joining(", "));
      return head
          + String.format(
                  Locale.ROOT,
                  "points_pct = [%s]%ncycles = %d%nstart_pct = %s%nfirst = \"%s\"%n",
                  points,
                  travel.cycles(),
                  Numbers.exact(travel.start().percent()),
                  travel.upFirst() ? "up" : "down")
              .replace(System.lineSeparator(), "\n");
    }
    throw new IllegalArgumentException("no file shows a " + test.name() + " by itself");
  }
}
