package org.benchstroke.cli;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Setting;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.quantity.Visible;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/**
 * What a run needs to know and no option says: a person at the terminal is asked, before anything
 * is opened. For one thread.
 */
final class AskedFor {
  private static final int MOST_TRIES = 5;

  private final CommandSpec spec;
  private final Shown talk;
  private final boolean person;

  /**
   * Asks nothing yet.
   *
   * @param json whether the standard output is for a program
   * @param person whether somebody may be asked
   */
  AskedFor(CommandSpec spec, boolean json, boolean person) {
    this.spec = spec;
    this.talk = json ? Shown.err(spec) : Shown.out(spec);
    this.person = person;
  }

  /**
   * What an option says, or what is typed or scanned in its place.
   *
   * @throws CommandLine.ParameterException if nobody says it
   */
  String words(String option, Optional<String> given, String question)
      throws IOException, WrongRequest {
    if (given.isPresent() && !(given.get().isBlank() && mayAsk())) {
      return given.get();
    }
    for (int i = 0; i < MOST_TRIES && mayAsk(); i++) {
      Optional<String> typed = Input.of(spec).line(talk, question);
      if (typed.isPresent()) {
        return readable(option, typed.get());
      }
    }
    throw missing(option);
  }

  /**
   * The customer's order. A scanner that reads the same label twice types the serial number here:
   * then it is asked once more.
   */
  String order(Optional<String> given, String serial) throws IOException, WrongRequest {
    String order = words("--order", given, "Order: ");
    for (int i = 0; i < MOST_TRIES && given.isEmpty() && order.equals(serial); i++) {
      talk.println("That is the serial number, scanned again.");
      order = words("--order", given, "Order: ");
    }
    return order;
  }

  /** Who runs the test: the option's, who is stated, or who says so. */
  String operator(Optional<String> given, Defaults stated) throws IOException, WrongRequest {
    Optional<String> named = stated.text(Setting.OPERATOR, given);
    List<String> listed = stated.shop().map(ShopFile::operators).orElse(List.of());
    String known = listed.isEmpty() ? "" : " (" + String.join(", ", listed) + ")";
    return words("--operator", named, "Who runs the test" + known + "? ");
  }

  /** Who allows a further attempt; empty if nobody is there to be asked. */
  Optional<String> supervisor(int attempts) throws IOException, WrongRequest {
    if (!mayAsk()) {
      return Optional.empty();
    }
    String question =
        attempts + " attempts were made at this job. Which supervisor allows one more? ";
    Optional<String> typed = Input.of(spec).line(talk, question);
    return typed.isPresent()
        ? Optional.of(readable("--supervisor", typed.get()))
        : Optional.empty();
  }

  private boolean mayAsk() {
    return person && Input.of(spec).canAnswer();
  }

  private static String readable(String option, String typed) throws WrongRequest {
    if (typed.chars().anyMatch(Character::isISOControl) || !Visible.of(typed).equals(typed)) {
      throw new WrongRequest(
          option + ": what was typed has control characters in it; type or scan it again");
    }
    return typed;
  }

  private CommandLine.ParameterException missing(String option) {
    String label = option.equals("--operator") ? "NAME" : "TEXT";
    return new CommandLine.ParameterException(
        spec.commandLine(), "Missing required option: '" + option + "=" + label + "'");
  }
}
