package org.benchstroke.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;

/**
 * A description of an instrument, read as if it stood on a bench: what a bench says of its own one
 * (address, serial number, certificate) is made up where the description leaves it open. For the
 * check of such a file; no run uses it. Immutable.
 *
 * @param bench a made-up bench around it, whose other instruments a person plays
 * @param instrument what it describes
 * @param transcript a file with what such an instrument said, if it names one
 */
public record InstrumentFile(
    BenchFile bench, InstrumentSpec instrument, Optional<Path> transcript) {
  /** The value of the key {@code kind} of such a file. */
  public static final String KIND = InstrumentText.KIND;

  private static final String NAME = "described";

  /** What a bench says of its own instrument, and what is made up in its place. */
  private static final List<List<String>> OPEN =
      List.of(
          List.of("reply_timeout_ms", "500"),
          List.of("serial", "\"1\""),
          List.of("certificate", "\"-\""),
          List.of("calibrated", "2000-01-01"),
          List.of("due", "2000-01-01"));

  private static final String BY_HAND =
      """
      [[instrument]]
      name = "by hand: %1$s"
      roles = ["%1$s"]
      speaks = "typed in"
      serial = "1"
      certificate = "-"
      calibrated = 2000-01-01
      due = 2000-01-01
      [instrument.%2$s]
      %3$s
      """;

  private static final String SOURCE_KEYS =
      "accuracy = \"1 µA\"\nresolution_mA = 0.001\nmin_mA = 0.0\nmax_mA = 24.0";

  private static final String POSITION_KEYS =
      "unit = \"mA\"\naccuracy = \"1 µA\"\nresolution_mA = 0.001\nscatter_mA = 0.001\n"
          + "min_mA = 0.0\nmax_mA = 24.0";

  /**
   * Reads a file.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static InstrumentFile read(Path path) throws FileMistakes {
    InstrumentText described = InstrumentText.read(path);
    StringBuilder text = new StringBuilder();
    List<TomlDocument.Origin> lines = new ArrayList<>();
    TomlDocument root = TomlDocument.read(path);
    List<String> roles = root.root().optionalTexts("roles");
    String speaks = root.root().optionalText("speaks").orElse("");
    add(text, lines, path, head(described, speaks));
    for (InstrumentText.Line line : described.lines()) {
      text.append(line.text()).append('\n');
      lines.add(new TomlDocument.Origin(path.toString(), line.number()));
    }
    if (!roles.contains("signal source")) {
      add(
          text,
          lines,
          path,
          String.format(Locale.ROOT, BY_HAND, "signal source", "signal_source", SOURCE_KEYS));
    }
    if (!roles.contains("position transmitter")) {
      add(
          text,
          lines,
          path,
          String.format(
              Locale.ROOT, BY_HAND, "position transmitter", "position_transmitter", POSITION_KEYS));
    }
    BenchFile bench =
        BenchFileReader.read(TomlDocument.parse(path.toString(), text.toString(), lines));
    InstrumentSpec spec =
        bench.instruments().stream().filter(i -> i.name().equals(NAME)).findFirst().orElseThrow();
    return new InstrumentFile(bench, spec, described.transcript());
  }

  private static String head(InstrumentText described, String speaks) {
    StringBuilder head = new StringBuilder();
    head.append("kind = \"bench\"\nformat = 1\nname = \"-\"\nplace = \"-\"\n");
    head.append("sample_period_ms = 100\n[[instrument]]\nname = \"" + NAME + "\"\n");
    boolean typed = speaks.equals("typed in");
    for (List<String> open : OPEN) {
      boolean wanted = !(typed && open.get(0).equals("reply_timeout_ms"));
      if (wanted && !described.keys().contains(open.get(0))) {
        head.append(open.get(0)).append(" = ").append(open.get(1)).append('\n');
      }
    }
    if (!typed && !described.keys().contains("address")) {
      head.append("address = \"tcp://192.0.2.1:1\"\n");
    }
    if (speaks.startsWith("modbus") && !described.keys().contains("unit_id")) {
      head.append("unit_id = 1\n");
    }
    return head.toString();
  }

  /** What is made up stands at the file's first line: a mistake there is a key that is missing. */
  private static void add(
      StringBuilder text, List<TomlDocument.Origin> lines, Path path, String made) {
    text.append(made);
    made.lines().forEach(line -> lines.add(new TomlDocument.Origin(path.toString(), 1)));
  }
}
