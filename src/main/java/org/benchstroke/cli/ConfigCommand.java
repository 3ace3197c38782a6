package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.Setting;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.UserFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What need not be typed, and who states it. */
@Command(
    name = "config",
    description = {
      Commands.CONFIG,
      "An option comes before all of it; then come the unit type file (of its procedure), the"
          + " environment, the user file, the shop file, what is built in."
    },
    mixinStandardHelpOptions = true)
final class ConfigCommand implements Callable<Integer> {
  @Mixin private ShopOption shop;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  /** A line of the table. */
  private record Row(Setting setting, Optional<Defaults.Value> value) {}

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    Defaults stated = shop.read(spec);
    List<Row> rows = rows(stated);
    Shown out = Shown.out(spec);
    if (json) {
      out.println(Json.line(told(stated, rows)));
    } else {
      tell(out, stated, rows);
    }
    return ExitCode.PASSED;
  }

  private static List<Row> rows(Defaults stated) throws WrongRequest, ArchiveFault {
    List<Row> rows = new ArrayList<>();
    Optional<Path> type = stated.value(Setting.UNIT_TYPE).map(Defaults.Value::text).map(Path::of);
    for (Setting setting : Setting.values()) {
      Optional<Defaults.Value> value =
          setting == Setting.PROCEDURE ? stated.procedure(type) : stated.value(setting);
      rows.add(
          new Row(
              setting,
              setting == Setting.ARCHIVE && value.isPresent()
                  ? Optional.of(shownArchive(value.get()))
                  : value));
    }
    return rows;
  }

  /** As an archive shows itself: without a password. */
  private static Defaults.Value shownArchive(Defaults.Value value) throws ArchiveFault {
    String text =
        value.text().equals(ArchiveOption.NONE)
            ? value.text()
            : ArchivePlace.of(value.text()).toString();
    return new Defaults.Value(text, value.origin(), value.where());
  }

  private void tell(Shown out, Defaults stated, List<Row> rows) {
    for (Row row : rows) {
      out.println(
          String.format(
              Locale.ROOT,
              "%-10s %s",
              row.setting().key(),
              row.value().map(ConfigCommand::shown).orElse(otherwise(row.setting()))));
    }
    out.println();
    out.println("User file: " + file(stated.user().map(UserFile::path), "user.toml"));
    out.println("Shop file: " + file(stated.shop().map(ShopFile::path), "shop.toml"));
    List<Path> folders = stated.folders();
    String searched =
        folders.isEmpty()
            ? "no folders are stated"
            : String.join(", ", folders.stream().map(Path::toString).toList());
    out.println("Short names are searched in: " + searched);
    out.println("Key: " + KeyPlace.of(spec));
    out.flush();
  }

  private static String otherwise(Setting setting) {
    return switch (setting) {
      case OPERATOR -> "asked for";
      case ARCHIVE -> "beside the records";
      default -> "must be named";
    };
  }

  private static String shown(Defaults.Value value) {
    return value.text() + "   (" + (value.origin().words() + " " + value.where()).strip() + ")";
  }

  private String file(Optional<Path> found, String usual) {
    return found
        .map(Path::toString)
        .orElseGet(
            () ->
                Surroundings.of(spec)
                    .usual(usual)
                    .map(path -> "none; it would be " + path)
                    .orElse("none"));
  }

  private Map<String, Object> told(Defaults stated, List<Row> rows) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("format", 1);
    told.put("settings", rows.stream().map(ConfigCommand::told).toList());
    stated.user().ifPresent(user -> told.put("user_file", user.path().toString()));
    stated.shop().ifPresent(found -> told.put("shop_file", found.path().toString()));
    told.put("folders", stated.folders().stream().map(Path::toString).toList());
    told.put("key_folder", KeyPlace.of(spec).toString());
    return told;
  }

  private static Map<String, Object> told(Row row) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("setting", row.setting().key());
    row.value()
        .ifPresent(
            value -> {
              told.put("value", value.text());
              told.put("from", value.origin().words());
              if (!value.where().isEmpty()) {
                told.put("where", value.where());
              }
            });
    return told;
  }
}
