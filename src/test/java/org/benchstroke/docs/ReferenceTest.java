package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.app.ShopFileReader;
import org.benchstroke.app.UserFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.cli.CommandLines;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.record.Event;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.UnitTypeReader;
import org.benchstroke.web.access.OperatorsFile;
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

  private static final String SCPI_BENCH =
      """
      kind = "bench"
      [ambient_c]
      [laboratory]
      [simulation]
      [[line]]
      address = "serial:COM3"
      [line.rs485]
      [[instrument]]
      roles = ["signal source", "loop meter", "supply meter"]
      speaks = "scpi"
      line = "x"
      [instrument.talk]
      [instrument.signal_source]
      [[instrument.signal_source.certified]]
      [instrument.loop_meter]
      [instrument.supply_meter]
      """;

  private static final String MODBUS_BENCH =
      """
      kind = "bench"
      [[instrument]]
      speaks = "modbus tcp"
      roles = ["signal source", "loop meter", "position transmitter", "angle reference", \
      "switches", "motor power", "supply meter"]
      [instrument.signal_source]
      [instrument.signal_source.output]
      [instrument.loop_meter]
      table = "input"
      [instrument.loop_meter.counter]
      [instrument.angle_reference]
      table = "input"
      [instrument.angle_reference.mounting]
      [instrument.switches]
      [instrument.switches.closed]
      [instrument.motor_power]
      [instrument.supply_meter]
      table = "input"
      [instrument.serial_number]
      [instrument.keep_alive]
      [instrument.position_transmitter]
      """;

  private static final String LINE_BENCH =
      """
      kind = "bench"
      [[instrument]]
      speaks = "line"
      roles = ["signal source", "loop meter", "position transmitter", "angle reference", \
      "switches", "motor power", "supply meter"]
      [instrument.talk]
      [instrument.identity]
      [instrument.signal_source]
      set = "{pct:%.3f}"
      unit = "%"
      [instrument.loop_meter]
      unit = "%"
      [instrument.angle_reference]
      [instrument.switches]
      [instrument.motor_power]
      [instrument.supply_meter]
      [instrument.position_transmitter]
      """;

  private static final String TYPED_BENCH =
      """
      kind = "bench"
      [[instrument]]
      speaks = "typed in"
      roles = ["angle reference"]
      [instrument.angle_reference]
      """;

  private static final String BY_HAND_BENCH =
      """
      kind = "bench"
      [[instrument]]
      speaks = "typed in"
      roles = ["position transmitter", "switches"]
      [instrument.switches]
      [instrument.position_transmitter]
      """;

  private static final List<String> BENCHES =
      List.of(
          SCPI_BENCH,
          MODBUS_BENCH + "unit = \"mA\"\n",
          MODBUS_BENCH + "unit = \"%\"\n",
          LINE_BENCH,
          TYPED_BENCH,
          BY_HAND_BENCH + "unit = \"mA\"\n",
          BY_HAND_BENCH + "unit = \"%\"\n");

  private static final String UNIT_TYPE =
      """
      kind = "unit type"
      [signal]
      [feedback]
      [signal_loss]
      action = "close"
      [controller]
      [duty]
      [switches_deg]
      [limits]
      [limits.travel_error_pct]
      [practice]
      """;

  private static final Path TYPE =
      Path.of("demo-data/unit-types/quarter-turn-15s.toml").toAbsolutePath();
  private static final List<String> TESTS = catalogue();
  private static final Pattern RANGE = Pattern.compile("±([\\d.]+)|(-?[\\d.]+) to (-?[\\d.]+)");
  private static final Pattern ALLOWED =
      Pattern.compile("allowed is a (?:whole |list of )?numbers?, (-?[\\d.]+ to -?[\\d.]+)");

  @TempDir Path folder;

  private interface Reader {
    void read(String text) throws FileMistakes;
  }

  @Test
  void benchFile() {
    Map<String, Set<String>> known =
        known(text -> BenchFileReader.read(TomlDocument.parse("bench", text)), BENCHES);
    assertThat(known).isEqualTo(documented("bench-file.md"));
  }

  @Test
  void unitTypeFile() {
    Map<String, Set<String>> known =
        known(t -> UnitTypeReader.read(TomlDocument.parse("unit", t)), List.of(UNIT_TYPE));
    assertThat(known).isEqualTo(documented("unit-type-file.md"));
  }

  @Test
  void procedureFile() {
    Map<String, Set<String>> known = new TreeMap<>();
    for (String test : TESTS) {
      String text = procedureText(test);
      Map<String, Set<String>> one =
          known(t -> ProcedureReader.read(TomlDocument.parse("procedure", t)), List.of(text));
      known.put(TOP, one.get(TOP));
      known.put("test " + test, one.get("test"));
      one.keySet().stream()
          .filter(table -> table.startsWith("test."))
          .forEach(table -> known.put(table, one.get(table)));
    }
    assertThat(known).isEqualTo(documented("procedure-file.md"));
  }

  /** The tests that the reader knows, as it tells them to whoever names another. */
  private static List<String> catalogue() {
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
    return Pattern.compile("\"([a-z ]+)\"")
        .matcher(allowed)
        .results()
        .map(r -> r.group(1))
        .toList();
  }

  @Test
  void shopFile() {
    Map<String, Set<String>> known = known(this::shop, List.of("kind = \"shop\"\n"));
    assertThat(known).isEqualTo(documented("shop-file.md"));
  }

  @Test
  void userFile() {
    Map<String, Set<String>> known = known(this::user, List.of("kind = \"user\"\n"));
    assertThat(known).isEqualTo(documented("user-file.md"));
  }

  private void user(String text) throws FileMistakes {
    assertThat(UserFile.read(written("user.toml", text)).operator()).isEmpty();
  }

  private void shop(String text) throws FileMistakes {
    assertThat(ShopFileReader.read(written("shop.toml", text)).name()).isNotEmpty();
  }

  @Test
  void operatorsFile() {
    Map<String, Set<String>> known =
        known(
            t -> OperatorsFile.read(TomlDocument.parse("operators", t)),
            List.of("kind = \"operators\"\n[[operator]]\n"));
    assertThat(known).isEqualTo(documented("operators-file.md"));
  }

  @Test
  void simulationFile() {
    Map<String, Set<String>> known = known(this::simulation, List.of(simulationText()));
    assertThat(known).isEqualTo(documented("simulation-file.md"));
  }

  private static String procedureText(String test) {
    String inner = test.equals("recorded by hand") ? "[[test.item]]\n" : "";
    return "kind = \"procedure\"\n[[test]]\ntest = \"" + test + "\"\n" + inner;
  }

  private static String simulationText() {
    String type = TYPE.toString().replace("\\", "\\\\");
    return "kind = \"simulation\"\nunit_type = \""
        + type
        + "\"\n"
        + "[motor]\n"
        + "[supply]\n"
        + "[load]\n"
        + "[mechanics]\n"
        + "[sensor]\n"
        + "[[sensor.dead_spot]]\n"
        + "[transmitter]\n"
        + "[input]\n"
        + "[control]\n"
        + "[loss]\n"
        + "[switches]\n"
        + "[heat]\n"
        + "[calibration]\n"
        + "[pneumatic]\n"
        + "[pneumatic.air]\n"
        + "[pneumatic.positioner]\n"
        + "[[fault]]\n"
        + "[[instrument_error]]\n"
        + "[expected]\n";
  }

  private static String simulationHead() {
    return """
    kind = "simulation"
    format = 1
    name = "n"
    shows = "s"
    seed = 1
    angle_reference = "absent"
    unit_type = "%s"
    """
        .formatted(TYPE.toString().replace("\\", "\\\\"));
  }

  private void simulation(String text) throws FileMistakes {
    assertThat(simulated(text).name()).isNotEmpty();
  }

  private Simulation simulated(String text) throws FileMistakes {
    return SimulationReader.read(written("simulation.toml", text));
  }

  private Path written(String name, String text) {
    try {
      return Files.writeString(folder.resolve(name), text);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** A wrong value is answered by the range; the page must state the same one. */
  @Test
  void ranges() {
    Reader bench = t -> BenchFileReader.read(TomlDocument.parse("bench", t));
    Reader unit = t -> UnitTypeReader.read(TomlDocument.parse("unit", t));
    Reader procedure = t -> ProcedureReader.read(TomlDocument.parse("procedure", t));
    ranges("bench-file.md", bench, BENCHES);
    ranges("unit-type-file.md", unit, List.of(UNIT_TYPE));
    ranges("simulation-file.md", this::simulation, List.of(simulationText()));
    ranges(
        "procedure-file.md", procedure, TESTS.stream().map(ReferenceTest::procedureText).toList());
  }

  /** Every number's range on the page is compared with what the reader says of the key. */
  private static void ranges(String page, Reader reader, List<String> texts) {
    Set<String> stated = new TreeSet<>();
    Set<String> compared = new TreeSet<>();
    for (Pages.Row row : Pages.rows(REFERENCE.resolve(page), "key")) {
      Matcher numbers = RANGE.matcher(digits(row.cells().get(1)));
      if (!numbers.find() || row.cells().get(1).contains("port")) {
        continue;
      }
      String range =
          numbers.group(1) == null
              ? numbers.group(2) + " to " + numbers.group(3)
              : "-" + numbers.group(1) + " to " + numbers.group(1);
      String key = row.table() + " " + row.first().get(0);
      stated.add(key);
      for (String text : texts) {
        for (Mistake mistake : ofWrongValue(row, text, reader)) {
          Matcher allowed = ALLOWED.matcher(mistake.message());
          if (mistake.key().replaceAll("\\[\\d+]", "").equals(full(row)) && allowed.find()) {
            assertThat(range).as(page + ": " + key).isEqualTo(allowed.group(1));
            compared.add(key);
          }
        }
      }
    }
    assertThat(compared).as(page).isNotEmpty().isEqualTo(stated);
  }

  /** The mistakes that are told when the row's key holds a word in the place of a number. */
  private static List<Mistake> ofWrongValue(Pages.Row row, String text, Reader reader) {
    String wrong = row.first().get(0) + " = \"?\"\n";
    if (row.table().equals(TOP)) {
      return mistakes(reader, wrong + text);
    }
    boolean otherTest = row.table().startsWith("test ") && !text.contains(named(row.table()));
    String table = row.table().replaceFirst("^test .*", "test");
    String header = text.contains("[[" + table + "]]") ? "[[" + table + "]]" : "[" + table + "]";
    return otherTest || !text.contains(header)
        ? List.of()
        : mistakes(reader, text.replace(header + "\n", header + "\n" + wrong));
  }

  private static String named(String test) {
    return "\"" + test.substring("test ".length()) + "\"";
  }

  private static String full(Pages.Row row) {
    String table = row.table().replaceFirst("^test .*", "test");
    return table.equals(TOP) ? row.first().get(0) : table + "." + row.first().get(0);
  }

  private static List<Mistake> mistakes(Reader reader, String text) {
    return catchThrowableOfType(FileMistakes.class, () -> reader.read(text)).mistakes();
  }

  private static String digits(String cell) {
    return cell.replace('−', '-')
        .replace("10⁹", "1000000000")
        .replace("10¹²", "1000000000000")
        .replace("10⁶", "1000000");
  }

  /** A file that states every default of the page is the same as one that states none. */
  @Test
  void defaultsOfPractice() throws IOException, FileMistakes {
    StringBuilder text = new StringBuilder(Files.readString(TYPE)).append("[practice]\n");
    int stated = 0;
    for (Pages.Row row : Pages.rows(REFERENCE.resolve("unit-type-file.md"), "key")) {
      if (row.table().equals("practice")) {
        text.append(row.first().get(0)).append(" = ");
        text.append(row.cells().get(2).replaceFirst("^no: ", "")).append('\n');
        stated++;
      }
    }
    assertThat(stated).isEqualTo(Practice.class.getRecordComponents().length);
    assertThat(UnitTypeReader.read(TomlDocument.parse("unit", text.toString())).practice())
        .isEqualTo(Practice.USUAL);
  }

  @Test
  void defaultsOfTheModel() throws FileMistakes {
    assertThat(defaults(simulationHead(), table -> !table.startsWith("pneumatic"), 65))
        .isEqualTo(simulated(simulationHead()).parameters());
    String pneumatic = simulationHead() + "[pneumatic]\n";
    assertThat(defaults(pneumatic, table -> table.startsWith("pneumatic"), 15))
        .isEqualTo(simulated(pneumatic).parameters());
  }

  /** The unit of a file that states every default of some tables of the page. */
  private ModelParameters defaults(String head, Predicate<String> tables, int count)
      throws FileMistakes {
    StringBuilder text = new StringBuilder(head);
    String table = "";
    int stated = 0;
    for (Pages.Row row : Pages.rows(REFERENCE.resolve("simulation-file.md"), "key")) {
      String value = digits(row.cells().get(2));
      if (!row.table().equals(TOP) && value.matches("-?[\\d.]+") && tables.test(row.table())) {
        String header = "[" + row.table() + "]\n";
        text.append(row.table().equals(table) || head.endsWith(header) ? "" : header);
        table = row.table();
        text.append(row.first().get(0)).append(" = ").append(value).append('\n');
        stated++;
      }
    }
    assertThat(stated).isEqualTo(count);
    return simulated(text.toString()).parameters();
  }

  @Test
  void record() {
    Map<String, Set<String>> kinds = new TreeMap<>();
    for (Class<?> kind : Event.class.getPermittedSubclasses()) {
      kinds.put(
          snakeCase(kind.getSimpleName()),
          Arrays.stream(kind.getRecordComponents())
              .map(component -> snakeCase(component.getName()))
              .collect(Collectors.toCollection(TreeSet::new)));
    }
    kinds.put("A line", new TreeSet<>(Set.of("n", "kind", "ns", "utc", "step", "body", "check")));
    assertThat(kinds).isEqualTo(documented("record-format.md"));
  }

  private static String snakeCase(String name) {
    return name.replaceAll("([a-z])([A-Z])", "$1_$2").toLowerCase(Locale.ROOT);
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
                      .filter(o -> !o.inherited())
                      .map(o -> o.longestName())
                      .collect(Collectors.toCollection(TreeSet::new));
              if (!options.isEmpty()) {
                commands.put(name, options);
              }
            });
    Path page = REFERENCE.resolve("commands.md");
    assertThat(commands).isEqualTo(Pages.tables(page, "option"));
    Set<String> everywhere =
        CommandLines.all().getCommandSpec().options().stream()
            .filter(o -> !o.usageHelp() && !o.versionHelp())
            .map(o -> o.longestName())
            .collect(Collectors.toSet());
    assertThat(Pages.tables(page, "every command").values()).containsExactly(everywhere);
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
    return Pages.tables(REFERENCE.resolve(page), "key");
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
