package org.benchstroke.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import org.benchstroke.web.Right;
import org.benchstroke.web.access.NamedOperator;
import org.benchstroke.web.access.OperatorsFile;
import org.benchstroke.web.access.Secrets;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Those who may sign in at the bench screen: listed, added, removed. */
@Command(
    name = "operator",
    description = {
      Commands.OPERATOR,
      "They stand in operators.toml beside the shop file, their PINs and passwords hashed. While"
          + " there is no such file, the screen serves this machine alone."
    },
    synopsisSubcommandLabel = "COMMAND",
    mixinStandardHelpOptions = true)
final class OperatorCommand implements Runnable {
  /** Of a line that comes from a pipe. */
  private static final int MOST_BYTES = 1000;

  @Spec private CommandSpec spec;

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  @Command(
      name = "add",
      description = {
        "Adds somebody, or gives them another right and another PIN or password.",
        "It is asked for twice and not shown; from a pipe it is read once, as a line."
      },
      mixinStandardHelpOptions = true)
  int add(
      @Parameters(paramLabel = "NAME", description = "The name, as it stands in records.")
          String name,
      @Option(
              names = "--right",
              paramLabel = "RIGHT",
              description =
                  "read: sees everything; drive: also runs tests; authorise: also answers for"
                      + " papers, allows a further attempt, takes a bench over (default: drive).")
          Optional<Right> right,
      @Mixin ShopOption shop)
      throws FileMistakes, WrongRequest {
    String plain = named(name);
    Optional<ShopFile> stated = shop.read(spec).shop();
    Path path = shop.operators(spec);
    Optional<OperatorsFile> before = there(path);
    boolean again = before.flatMap(file -> file.find(plain)).isPresent();
    NamedOperator operator =
        new NamedOperator(plain, right.orElse(Right.DRIVE), Secrets.hash(secret(plain)));
    write(before.orElse(new OperatorsFile(List.of())).with(operator), path);
    Shown out = Shown.out(spec);
    out.println(operator + (again ? " has another PIN or password in " : " is now in ") + path);
    // The shop file has a list of its own, and both must agree.
    if (operator.right() == Right.AUTHORISE && !maySupervise(stated, operator)) {
      out.println(
          "  The shop file doesn't list them among its supervisors: until it does, they can't"
              + " authorise.");
    }
    return ExitCode.PASSED;
  }

  private static boolean maySupervise(Optional<ShopFile> shop, NamedOperator operator) {
    return shop.map(s -> s.maySupervise(operator.name())).orElse(true);
  }

  /** For a program. */
  private record Listed(String name, String right) {}

  @Command(
      name = "list",
      description = "Lists who may sign in, and what they may do.",
      mixinStandardHelpOptions = true)
  int list(
      @Mixin ShopOption shop,
      @Option(names = "--json", description = "Prints JSON: name and right of each.") boolean json)
      throws FileMistakes, WrongRequest {
    Path path = shop.operators(spec);
    Shown out = Shown.out(spec);
    Optional<OperatorsFile> file = there(path);
    if (json) {
      List<Listed> all =
          file.map(OperatorsFile::operators).orElse(List.of()).stream()
              .map(each -> new Listed(each.name(), each.right().key()))
              .toList();
      out.println(Json.line(all));
      return ExitCode.PASSED;
    }
    if (file.isEmpty()) {
      out.println("Nobody yet; \"operator add NAME\" makes " + path);
    }
    List<List<String>> rows =
        file.map(OperatorsFile::operators).orElse(List.of()).stream()
            .map(each -> List.of(each.name(), each.right().key()))
            .toList();
    if (file.isPresent()) {
      new TextTable(List.of("name", "right"), rows).print(out);
    }
    return ExitCode.PASSED;
  }

  @Command(
      name = "remove",
      description = "Removes somebody: they are signed out wherever they are signed in.",
      mixinStandardHelpOptions = true)
  int remove(
      @Parameters(paramLabel = "NAME", description = "The name.") String name,
      @Mixin ShopOption shop)
      throws FileMistakes, WrongRequest {
    Path path = shop.operators(spec);
    OperatorsFile before =
        there(path)
            .orElseThrow(() -> new WrongRequest(path + ": there is no such file; nobody signs in"));
    if (before.find(name).isEmpty()) {
      throw new WrongRequest("\"" + name + "\" is not in " + path + "; it has " + names(before));
    }
    if (before.operators().size() == 1) {
      throw new WrongRequest(
          "\""
              + name
              + "\" is the only one: without anybody the screen would need no PIN. Add another"
              + " first, or delete "
              + path
              + " if that is what you want");
    }
    write(before.without(name), path);
    Shown.out(spec).println(name + " is no longer in " + path);
    return ExitCode.PASSED;
  }

  private static String names(OperatorsFile file) {
    return String.join(", ", file.operators().stream().map(NamedOperator::name).toList());
  }

  private static String named(String name) throws WrongRequest {
    Optional<String> fault = OperatorsFile.nameFault(name);
    if (fault.isPresent()) {
      throw new WrongRequest("NAME " + fault.get());
    }
    return name.strip();
  }

  private static Optional<OperatorsFile> there(Path path) throws FileMistakes {
    return OperatorsFile.isAt(path) ? Optional.of(OperatorsFile.read(path)) : Optional.empty();
  }

  private static void write(OperatorsFile file, Path path) throws WrongRequest {
    try {
      file.write(path);
    } catch (IOException e) {
      throw WrongRequest.unwritable(path, e);
    }
  }

  private String secret(String name) throws WrongRequest {
    Input in = Input.of(spec);
    String typed = in.canAnswer() ? twice(in, name) : piped(in.stream());
    Optional<String> fault = Secrets.fault(typed, name);
    if (fault.isPresent()) {
      throw new WrongRequest(fault.get());
    }
    return typed;
  }

  private static String twice(Input in, String name) throws WrongRequest {
    Optional<String> typed = in.secret("PIN or password of " + name + ": ");
    if (!typed.equals(in.secret("The same again: "))) {
      throw new WrongRequest("The two differ; nothing was changed");
    }
    return typed.orElse("");
  }

  private static String piped(InputStream in) throws WrongRequest {
    try {
      ByteArrayOutputStream line = new ByteArrayOutputStream();
      for (int next = in.read(); next >= 0 && next != '\n'; next = in.read()) {
        line.write(next);
        if (line.size() > MOST_BYTES) {
          throw new WrongRequest("What comes from the pipe is no line with a PIN or a password");
        }
      }
      return line.toString(StandardCharsets.UTF_8).strip();
    } catch (IOException e) {
      throw new WrongRequest("The pipe can't be read: " + e.getMessage());
    }
  }
}
