package org.benchstroke.web.access;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.files.OwnerOnly;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.core.quantity.Visible;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.web.Right;

/**
 * The file of those who may sign in. Immutable; what changes it gives another.
 *
 * @param operators in the order of the file, at least one, each name once
 */
public record OperatorsFile(List<NamedOperator> operators) {
  /** The value of the file's key {@code kind}. */
  public static final String KIND = "operators";

  /** Its name; it lies beside the shop file. */
  public static final String NAME = "operators.toml";

  private static final int LONGEST_NAME = 200;
  private static final Map<String, Right> RIGHTS = rights();

  public OperatorsFile {
    operators = List.copyOf(operators);
  }

  /** Where it is if the shop file is there. */
  public static Path beside(Path shop) {
    return shop.toAbsolutePath().resolveSibling(NAME);
  }

  /**
   * Reads a file that nobody but its owner may read.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static OperatorsFile read(Path path) throws FileMistakes {
    OperatorsFile file = read(TomlDocument.read(path));
    if (!isPrivate(path)) {
      throw new FileMistakes(
          List.of(
              new Mistake(
                  path.toString(),
                  0,
                  "",
                  "others than its owner may read or write it; whoever has a copy can try PINs at"
                      + " leisure. Take their permissions away (chmod 600)")));
    }
    return file;
  }

  private static boolean isPrivate(Path path) {
    try {
      return OwnerOnly.is(path);
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Reads a document that has been opened.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static OperatorsFile read(TomlDocument document) throws FileMistakes {
    document.expect(KIND);
    TomlSection root = document.root();
    List<NamedOperator> operators = new ArrayList<>();
    for (TomlSection section : root.sections("operator")) {
      NamedOperator operator =
          new NamedOperator(name(section), section.choice("right", RIGHTS), secret(section));
      if (operators.stream().anyMatch(o -> o.isCalled(operator.name()))) {
        section.mistake("name", "is \"" + operator.name() + "\" a second time; delete one");
      }
      operators.add(operator);
      section.noOtherKeys();
    }
    root.noOtherKeys();
    document.finish();
    return new OperatorsFile(operators);
  }

  private static Map<String, Right> rights() {
    Map<String, Right> rights = new LinkedHashMap<>();
    for (Right right : Right.values()) {
      rights.put(right.key(), right);
    }
    return rights;
  }

  private static String name(TomlSection section) {
    String name = section.text("name");
    nameFault(name).filter(why -> !name.isEmpty()).ifPresent(why -> section.mistake("name", why));
    return name;
  }

  private static String secret(TomlSection section) {
    String secret = section.text("secret");
    if (!secret.isEmpty() && !Secrets.mayBe(secret)) {
      // Not what was found: it may be a PIN that somebody wrote here as it is.
      section.mistake(
          "secret",
          "is not a hash as \"operator add\" writes it: $argon2id$v=19$m=19456,t=2,p=1$…$…, m"
              + " 19456 to 262144, t 2 to 10");
    }
    return secret;
  }

  /** Why a name can't be one, as the end of a sentence that begins with it; empty if it can. */
  public static Optional<String> nameFault(String name) {
    if (name.isBlank() || name.length() > LONGEST_NAME) {
      return Optional.of("must have 1 to " + LONGEST_NAME + " characters");
    }
    boolean seen = name.chars().noneMatch(Character::isISOControl) && Visible.of(name).equals(name);
    return seen ? Optional.empty() : Optional.of("must have no control characters in it");
  }

  /** Who has this name; capitals don't matter. */
  public Optional<NamedOperator> find(String name) {
    return operators.stream().filter(operator -> operator.isCalled(name)).findFirst();
  }

  /** With this operator, in the place of whoever had the same name. */
  public OperatorsFile with(NamedOperator added) {
    List<NamedOperator> all = new ArrayList<>(operators);
    int at = 0;
    while (at < all.size() && !all.get(at).isCalled(added.name())) {
      at++;
    }
    if (at < all.size()) {
      all.set(at, added);
    } else {
      all.add(added);
    }
    return new OperatorsFile(all);
  }

  /** Without whoever has this name. */
  public OperatorsFile without(String name) {
    return new OperatorsFile(operators.stream().filter(o -> !o.isCalled(name)).toList());
  }

  /**
   * Writes it, for its owner's eyes only; what was there stays if that fails.
   *
   * @throws IOException if it can't be written
   */
  public void write(Path path) throws IOException {
    StringBuilder text = new StringBuilder();
    text.append("# Who may sign in at the bench screen. \"operator add\" and \"operator remove\"");
    text.append(" write this file anew.\n");
    text.append("kind = \"" + KIND + "\"\nformat = 1\n");
    for (NamedOperator each : operators) {
      text.append("\n[[operator]]\n");
      text.append("name = \"" + quoted(each.name()) + "\"\n");
      text.append("right = \"" + each.right().key() + "\"\n");
      text.append("secret = \"" + each.secret() + "\"\n");
    }
    WholeFile.writeForOwner(path, text.toString().getBytes(StandardCharsets.UTF_8));
  }

  private static String quoted(String name) {
    return name.replace("\\", "\\\\").replace("\"", "\\\"");
  }

  /** Whether there is such a file. */
  public static boolean isAt(Path path) {
    return Files.exists(path);
  }
}
