package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.UnitTypeReader;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.Mistake;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.cli.CommandLines;
import org.benchstroke.procedure.ProcedureReader;
import org.benchstroke.record.Event;
import org.benchstroke.simulator.SimulationReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The tables of the reference pages list what the program knows, no more and no less. What a reader
 * knows it tells itself: a key that it does not know gets a mistake that lists the known ones.
 */
class ReferenceTest {
  private static final Path REFERENCE = Path.of("docs/reference");
  private static final String TOP = "Top of the file";
  private static final String STRANGER = "no_such_key_here";
  private static final Pattern KNOWN = Pattern.compile("; known: (.*)$");
  private static final Pattern HEADER = Pattern.compile("(?m)^(\\[.*])$");

  @TempDir Path folder;

  private interface Reader {
    void read(String text) throws FileMistakes;
  }

  @Test
  void benchFile() {
    String scpi =
        """
        kind = "bench"
        [simulation]
        [[instrument]]
        roles = ["signal source", "loop meter"]
        speaks = "scpi"
        [instrument.signal_source]
        [instrument.loop_meter]
        """;
    String modbus =
        """
        kind = "bench"
        [[instrument]]
        speaks = "modbus tcp"
        roles = ["loop meter", "position transmitter", "angle reference", "switches", "motor power"]
        [instrument.loop_meter]
        table = "input"
        [instrument.angle_reference]
        table = "input"
        [instrument.switches]
        [instrument.switches.closed]
        [instrument.motor_power]
        [instrument.serial_number]
        table = "holding"
        [instrument.position_transmitter]
        table = "input"
        """;
    Map<String, Set<String>> known =
        known(
            text -> BenchFileReader.read(TomlDocument.parse("bench", text)),
            List.of(scpi, modbus + "unit = \"mA\"\n", modbus + "unit = \"%\"\n"));
    assertThat(known).isEqualTo(documented("bench-file.md"));
  }

  @Test
  void unitTypeFile() {
    String text =
        """
        kind = "unit type"
        [signal]
        [feedback]
        [signal_loss]
        action = "close"
        [controller]
        [switches_deg]
        [limits]
        [limits.travel_error_pct]
        [practice]
        """;
    Map<String, Set<String>> known =
        known(t -> UnitTypeReader.read(TomlDocument.parse("unit", t)), List.of(text));
    assertThat(known).isEqualTo(documented("unit-type-file.md"));
  }

  @Test
  void procedureFile() {
    Map<String, Set<String>> known = new TreeMap<>();
    for (String test : List.of("exercise", "stroke time", "travel error", "signal loss")) {
      String text = "kind = \"procedure\"\n[[test]]\ntest = \"" + test + "\"\n";
      Map<String, Set<String>> one =
          known(t -> ProcedureReader.read(TomlDocument.parse("procedure", t)), List.of(text));
      known.put(TOP, one.get(TOP));
      known.put("test " + test, one.get("test"));
    }
    assertThat(known).isEqualTo(documented("procedure-file.md"));
    FileMistakes unknown =
        catchThrowableOfType(
            FileMistakes.class,
            () ->
                ProcedureReader.read(
                    TomlDocument.parse("p", "kind = \"procedure\"\n[[test]]\ntest = \"?\"\n")));
    String allowed =
        unknown.mistakes().stream()
            .filter(m -> m.key().equals("test[1].test"))
            .map(Mistake::message)
            .findFirst()
            .orElseThrow();
    Set<String> catalogue =
        Pattern.compile("\"([a-z ]+)\"")
            .matcher(allowed)
            .results()
            .map(r -> "test " + r.group(1))
            .collect(Collectors.toCollection(TreeSet::new));
    catalogue.add(TOP);
    assertThat(catalogue).as("the catalogue of tests").isEqualTo(known.keySet());
  }

  @Test
  void simulationFile() {
    String type = Path.of("demo-data/unit-types/quarter-turn-15s.toml").toAbsolutePath().toString();
    String text =
        "kind = \"simulation\"\nunit_type = \""
            + type.replace("\\", "\\\\")
            + "\"\n[motor]\n[load]\n[mechanics]\n[sensor]\n[transmitter]\n[input]\n[control]\n"
            + "[loss]\n[switches]\n";
    Map<String, Set<String>> known = known(this::simulation, List.of(text));
    assertThat(known).isEqualTo(documented("simulation-file.md"));
  }

  private void simulation(String text) throws FileMistakes {
    Path file = folder.resolve("simulation.toml");
    try {
      Files.writeString(file, text);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    SimulationReader.read(file);
  }

  @Test
  void record() {
    Map<String, Set<String>> kinds = new TreeMap<>();
    for (Class<?> kind : Event.class.getPermittedSubclasses()) {
      kinds.put(
          kind.getSimpleName().toLowerCase(Locale.ROOT),
          Arrays.stream(kind.getRecordComponents())
              .map(RecordComponent::getName)
              .collect(Collectors.toCollection(TreeSet::new)));
    }
    kinds.put("A line", new TreeSet<>(Set.of("n", "kind", "ns", "utc", "body", "check")));
    assertThat(kinds).isEqualTo(documented("record-format.md"));
  }

  @Test
  void commands() {
    Map<String, Set<String>> commands = new TreeMap<>();
    CommandLines.all()
        .getSubcommands()
        .forEach(
            (name, command) -> {
              Set<String> options =
                  command.getCommandSpec().options().stream()
                      .filter(o -> !o.hidden() && !o.usageHelp() && !o.versionHelp())
                      .map(o -> o.longestName())
                      .collect(Collectors.toCollection(TreeSet::new));
              if (!options.isEmpty()) {
                commands.put(name, options);
              }
            });
    Path page = REFERENCE.resolve("commands.md");
    assertThat(commands).isEqualTo(sorted(Pages.tables(page, "option")));
    Set<String> headings = Pages.anchors(page);
    assertThat(headings).containsAll(CommandLines.all().getSubcommands().keySet());
  }

  /** Every documented key with its required, range and meaning: no empty cell. */
  @Test
  void noCellIsEmpty() throws IOException {
    try (Stream<Path> pages = Files.list(REFERENCE)) {
      for (Path page : pages.toList()) {
        assertThat(Pages.prose(page).lines().filter(l -> l.matches("\\|.*\\|\\s*\\|.*")))
            .filteredOn(line -> !page.endsWith("instruments.md"))
            .as(page.toString())
            .isEmpty();
      }
    }
  }

  private static Map<String, Set<String>> documented(String page) {
    return sorted(Pages.tables(REFERENCE.resolve(page), "key"));
  }

  private static Map<String, Set<String>> sorted(Map<String, Set<String>> tables) {
    Map<String, Set<String>> sorted = new TreeMap<>();
    tables.forEach((name, keys) -> sorted.put(name, new TreeSet<>(keys)));
    return sorted;
  }

  /** What a reader knows in each table of the texts, all of them together. */
  private static Map<String, Set<String>> known(Reader reader, List<String> texts) {
    Map<String, Set<String>> known = new TreeMap<>();
    for (String text : texts) {
      String strange = STRANGER + " = 1\n";
      String with = strange + HEADER.matcher(text).replaceAll("$1\n" + strange);
      FileMistakes mistakes = catchThrowableOfType(FileMistakes.class, () -> reader.read(with));
      long strangers = 0;
      for (Mistake mistake : mistakes.mistakes()) {
        Matcher keys = KNOWN.matcher(mistake.message());
        if (mistake.key().endsWith(STRANGER) && keys.find()) {
          strangers++;
          known
              .computeIfAbsent(table(mistake.key()), t -> new TreeSet<>())
              .addAll(List.of(keys.group(1).split(", ")));
        }
      }
      assertThat(strangers)
          .as("tables that were read\n" + mistakes.getMessage())
          .isEqualTo(with.lines().filter(strange.strip()::equals).count());
    }
    return known;
  }

  /** "instrument[1].switches.no_such_key_here" is in "instrument.switches". */
  private static String table(String key) {
    String table = key.replaceAll("\\[\\d+]", "").replaceAll("\\.?" + STRANGER + "$", "");
    return table.isEmpty() ? TOP : table;
  }
}
