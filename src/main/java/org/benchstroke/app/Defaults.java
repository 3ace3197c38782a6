package org.benchstroke.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.PaperSize;

/**
 * What need not be typed, in one order, the first that says it: the option of a command, for a
 * procedure then the unit type file, the environment, the user file, the shop file, what is built
 * in. Immutable.
 */
public final class Defaults {
  /** What is so if nobody says otherwise. */
  private static final Map<Setting, String> BUILT_IN =
      Map.of(Setting.RECORDS, "records", Setting.LANGUAGE, "en", Setting.PAPER, "A4");

  /** Only what is built in. */
  public static final Defaults NONE = new Defaults(Map.of(), Optional.empty(), Optional.empty());

  private final Map<Setting, String> environment;
  private final Optional<UserFile> user;
  private final Optional<ShopFile> shop;

  private Defaults(
      Map<Setting, String> environment, Optional<UserFile> user, Optional<ShopFile> shop) {
    this.environment = environment;
    this.user = user;
    this.shop = shop;
  }

  /** Where a value was stated. */
  public enum Origin {
    /** In a unit type file, of its procedure. */
    UNIT_TYPE_FILE,
    ENVIRONMENT,
    USER_FILE,
    SHOP_FILE,
    BUILT_IN;

    /** In words: "user file". */
    public String words() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /**
   * A value with where it came from.
   *
   * @param text a file's or a folder's from here, an archive's address with whatever it holds
   * @param origin who stated it
   * @param where the variable or the file; empty if it is built in
   */
  public record Value(String text, Origin origin, String where) {}

  /**
   * Of what is stated.
   *
   * @param environment the variables of the settings that are set
   * @throws WrongRequest if a variable says what can't be
   */
  public static Defaults of(
      Map<Setting, String> environment, Optional<UserFile> user, Optional<ShopFile> shop)
      throws WrongRequest {
    require(environment, Setting.PAPER, Stream.of(PaperSize.values()).map(PaperSize::key).toList());
    require(
        environment, Setting.LANGUAGE, Stream.of(Language.values()).map(Language::key).toList());
    Map<Setting, String> set = new EnumMap<>(Setting.class);
    set.putAll(environment);
    return new Defaults(set, user, shop);
  }

  private static void require(
      Map<Setting, String> environment, Setting setting, List<String> allowed) throws WrongRequest {
    String text = environment.getOrDefault(setting, allowed.get(0));
    if (allowed.stream().noneMatch(text::equalsIgnoreCase)) {
      throw new WrongRequest(
          setting.variable()
              + ": found \""
              + text
              + "\", allowed are "
              + allowed.stream().collect(Collectors.joining(", ")));
    }
  }

  public Optional<ShopFile> shop() {
    return shop;
  }

  public Optional<UserFile> user() {
    return user;
  }

  /** The folders in which short names are searched, in their order. */
  public List<Path> folders() {
    List<Path> folders = new ArrayList<>();
    user.ifPresent(u -> folders.addAll(u.stated().folders()));
    shop.ifPresent(s -> folders.addAll(s.stated().folders()));
    return folders.stream().distinct().toList();
  }

  /**
   * What is stated of a setting; empty if nobody does.
   *
   * @throws WrongRequest if a variable names no file
   */
  public Optional<Value> value(Setting setting) throws WrongRequest {
    if (environment.containsKey(setting)) {
      String text = environment.get(setting);
      String found = setting.namesFile() ? named(setting, text).toString() : text;
      return Optional.of(new Value(found, Origin.ENVIRONMENT, setting.variable()));
    }
    return user.flatMap(u -> u.value(setting).map(text -> of(text, u)))
        .or(() -> shop.flatMap(s -> s.value(setting).map(text -> of(text, s))))
        .or(
            () ->
                Optional.ofNullable(BUILT_IN.get(setting))
                    .map(text -> new Value(text, Origin.BUILT_IN, "")));
  }

  private static Value of(String text, UserFile user) {
    return new Value(text, Origin.USER_FILE, user.path().toString());
  }

  private static Value of(String text, ShopFile shop) {
    return new Value(text, Origin.SHOP_FILE, shop.path().toString());
  }

  /** What an option says, or what is stated instead. */
  public Optional<String> text(Setting setting, Optional<String> typed) throws WrongRequest {
    return typed.isPresent() ? typed : value(setting).map(Value::text);
  }

  /**
   * The file that an option names, by its path or its short name, or that is stated instead.
   *
   * @throws WrongRequest if a short name is no file's, or that of several
   */
  public Optional<Path> file(Setting setting, Optional<String> typed) throws WrongRequest {
    return typed.isPresent()
        ? Optional.of(named(setting, typed.get()))
        : value(setting).map(value -> Path.of(value.text()));
  }

  private Path named(Setting setting, String text) throws WrongRequest {
    return new ShortNames(folders()).file(setting, text, Path.of(""));
  }

  /**
   * The procedure: what an option names; else what the unit type file does, for that knows its
   * units; else what is stated for all units.
   *
   * @param unitType the unit type file, if there is one
   * @throws WrongRequest if it names no file
   */
  public Optional<Path> procedure(Optional<String> typed, Optional<Path> unitType)
      throws WrongRequest {
    return typed.isPresent()
        ? file(Setting.PROCEDURE, typed)
        : procedure(unitType).map(value -> Path.of(value.text()));
  }

  /** Likewise, with where it came from; no option says it. */
  public Optional<Value> procedure(Optional<Path> unitType) throws WrongRequest {
    Optional<Value> own = unitType.isEmpty() ? Optional.empty() : ofUnitType(unitType.get());
    return own.isPresent() ? own : value(Setting.PROCEDURE);
  }

  /**
   * The procedure that a unit type file names, if it can be read and does. Mistakes in it are told
   * where it is read as a whole.
   */
  public Optional<Value> ofUnitType(Path file) throws WrongRequest {
    Optional<Object> name;
    try {
      name = TomlDocument.read(file).root().optional("procedure");
    } catch (FileMistakes e) {
      return Optional.empty();
    }
    if (name.isEmpty() || !(name.get() instanceof String text) || text.isBlank()) {
      return Optional.empty();
    }
    Path base = Optional.ofNullable(file.getParent()).orElse(Path.of(""));
    try {
      Path found = new ShortNames(folders()).file(Setting.PROCEDURE, text.strip(), base);
      return Optional.of(new Value(found.toString(), Origin.UNIT_TYPE_FILE, file.toString()));
    } catch (WrongRequest e) {
      throw new WrongRequest(file + ": " + e.getMessage().replaceFirst("^--", ""));
    }
  }
}
