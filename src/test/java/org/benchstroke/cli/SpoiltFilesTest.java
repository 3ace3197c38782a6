package org.benchstroke.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.Counted;
import org.benchstroke.acceptance.VirtualBench;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Real files of every kind with something wrong in them, by seeds: a command either takes a file or
 * tells its mistakes, in bounded time, and never shows its insides. A failure names its seed.
 */
class SpoiltFilesTest {
  private static final Path BY_HAND = Path.of("demo-data/benches/by-hand.toml");
  private static final Path LOGGER = Path.of("demo-data/benches/logger.toml");
  private static final Path UNIT = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final Path READINGS = Path.of("demo-data/recorded/readings.csv");
  private static final Path TRACE = Path.of("demo-data/recorded/trace.csv");
  private static final Path PROCEDURE = Path.of("demo-data/procedures/short-acceptance.toml");

  private static final int CHECKED = Counted.of(1500);
  private static final int READ = Counted.of(150);
  private static final int LONG = Counted.of(25);

  /** Of the processor, not of the wall: a busy machine is no mistake. */
  private static final long MOST_NANOS = 10_000_000_000L;

  private static final Pattern NUMBER = Pattern.compile("(?<![\\w.])-?\\d+(\\.\\d+)?(?![\\w.])");
  private static final Pattern VALUE = Pattern.compile("(?m)(?<==)[^#\n]*");
  private static final List<String> ODD =
      List.of(
          "nan",
          "inf",
          "-inf",
          "1e308",
          "-1e308",
          "1e-308",
          "1e999",
          "-0",
          "-0.0",
          "0",
          "-1",
          "0x7f",
          "0b11",
          "1_000",
          "99999999999999999999",
          "9223372036854775807",
          "0.30000000000000004",
          "2026-06-01",
          "2026-06-01T08:00:00Z",
          "08:00:00",
          "\"\"",
          "\" \"",
          "''",
          "",
          "[]",
          "[[]]",
          "{}",
          "{ a = 1 }",
          "[1, \"a\"]",
          "true",
          "7S",
          "7,5",
          "1e",
          "--1",
          "٣",
          "\"\\u0000\"",
          "\"\"\"\nlong\n\"\"\"",
          "\"a\\u2028b\"",
          "1000000",
          "100.0001",
          "-0.5",
          "3.9",
          "20.5");
  private static final List<String> PIECES =
      List.of(
          "\0",
          "\uFEFF",
          "\"",
          "'",
          "[",
          "]",
          "{",
          "}",
          "\r",
          "\n",
          "\u2028",
          "😀",
          "=",
          ".",
          ",",
          ";",
          "\t",
          "#",
          "\\",
          "\"\"\"",
          "[[",
          "]]",
          "-",
          "e",
          "\u001b[31m");

  @TempDir Path folder;

  private static List<Path> files(String... folders) throws IOException {
    List<Path> all = new ArrayList<>();
    for (String each : folders) {
      try (Stream<Path> walk = Files.walk(Path.of(each))) {
        all.addAll(walk.filter(p -> p.toString().endsWith(".toml")).sorted().toList());
      }
    }
    return all;
  }

  private static String mangled(String text, SplittableRandom random) {
    String changed = text;
    int changes = 1 + random.nextInt(3);
    for (int i = 0; i < changes; i++) {
      changed = changedOnce(changed, random);
    }
    return changed;
  }

  private static String changedOnce(String text, SplittableRandom random) {
    int at = text.isEmpty() ? 0 : random.nextInt(text.length());
    List<String> lines = new ArrayList<>(text.lines().toList());
    int line = lines.isEmpty() ? 0 : random.nextInt(lines.size());
    return switch (random.nextInt(lines.isEmpty() ? 1 : 9)) {
      case 0, 1 -> replaced(text, NUMBER, random);
      case 2, 3 -> replaced(text, VALUE, random);
      case 4 -> text.substring(0, at);
      case 5 -> text.substring(0, at) + pick(PIECES, random) + text.substring(at);
      case 6 -> {
        lines.remove(line);
        yield String.join("\n", lines) + "\n";
      }
      case 7 -> {
        lines.add(random.nextInt(lines.size()), lines.get(line));
        yield String.join("\n", lines) + "\n";
      }
      default -> text.substring(0, at) + text.substring(Math.min(text.length(), at + 1));
    };
  }

  private static String replaced(String text, Pattern what, SplittableRandom random) {
    List<int[]> places = new ArrayList<>();
    Matcher matcher = what.matcher(text);
    while (matcher.find()) {
      places.add(new int[] {matcher.start(), matcher.end()});
    }
    if (places.isEmpty()) {
      return text;
    }
    int[] place = places.get(random.nextInt(places.size()));
    return text.substring(0, place[0]) + pick(ODD, random) + text.substring(place[1]);
  }

  private static String pick(List<String> from, SplittableRandom random) {
    return from.get(random.nextInt(from.size()));
  }

  private static Command sound(long seed, List<Integer> codes, Object... request) {
    long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    try {
      Command command = Command.run(request);
      assertThat(codes).contains(command.code());
      assertThat(command.err().lines().count()).isLessThan(60);
      assertThat(command.out() + command.err()).doesNotContain("\tat ", "fault in the program");
      assertThat(command.code() == 2 && (command.out() + command.err()).isBlank()).isFalse();
      long took = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before;
      assertThat(took).as("ns of the processor").isLessThan(MOST_NANOS);
      return command;
    } catch (AssertionError | RuntimeException e) {
      throw new AssertionError("seed " + seed + ": " + List.of(request), e);
    }
  }

  @Test
  void filesOfEveryKindAreCheckedOrTold() throws IOException {
    List<Path> all = files("demo-data", "simulators");
    Path unit = Files.createDirectories(folder.resolve("demo-data/unit-types"));
    Files.copy(UNIT, unit.resolve(UNIT.getFileName()));
    Path spoilt = Files.createDirectories(folder.resolve("simulators")).resolve("spoilt.toml");
    int wrong = 0;
    for (long seed = 0; seed < CHECKED; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      String text = Files.readString(all.get(random.nextInt(all.size())));
      Files.write(spoilt, mangled(text, random).getBytes(UTF_8));
      wrong += sound(seed, List.of(0, 2), "check", spoilt).code() == 2 ? 1 : 0;
    }
    // Most changes are mistakes, and some are none: the files are looked at, not waved through.
    assertThat(wrong).isBetween(CHECKED / 2, CHECKED - CHECKED / 30);
  }

  @Test
  void aSimulatedUnitIsMadeOrTold() throws IOException {
    List<Path> all = files("simulators");
    Path units = Files.createDirectories(folder.resolve("demo-data/unit-types"));
    for (Path type : files("demo-data/unit-types")) {
      Files.copy(type, units.resolve(type.getFileName()));
    }
    Path spoilt = Files.createDirectories(folder.resolve("simulators")).resolve("spoilt.toml");
    for (long seed = 0; seed < READ; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      String text = Files.readString(all.get(random.nextInt(all.size())));
      Files.write(spoilt, mangled(text, random).getBytes(UTF_8));
      sound(seed, List.of(2), "simulate", spoilt, "--port", "-1");
    }
  }

  @Test
  void readingsAreJudgedOrTold() throws IOException {
    Path spoilt = folder.resolve("spoilt.csv");
    Path bench = folder.resolve("bench.toml");
    Path unit = folder.resolve("unit.toml");
    Path procedure = folder.resolve("procedure.toml");
    for (long seed = 0; seed < READ; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      int which = random.nextInt(4);
      Files.write(spoilt, of(READINGS, which < 2, random));
      Files.write(bench, of(BY_HAND, which == 2, random));
      Files.write(unit, of(UNIT, which == 3, random));
      Files.write(procedure, of(PROCEDURE, which == 3, random));
      Object[] judge = {"judge", spoilt, "--bench", bench, "--unit-type", unit};
      sound(seed, List.of(0, 1, 2, 3), judge);
      if (which == 3) {
        sound(
            seed,
            List.of(0, 1, 2, 3),
            Stream.concat(Stream.of(judge), Stream.of("--procedure", procedure, "--json"))
                .toArray());
      }
    }
  }

  @Test
  void tracesAreJudgedOrTold() throws IOException {
    Path spoilt = folder.resolve("spoilt.csv");
    for (long seed = 0; seed < LONG; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      Files.write(spoilt, of(TRACE, true, random));
      sound(seed, List.of(0, 1, 2, 3), "judge", spoilt, "--bench", LOGGER, "--unit-type", UNIT);
    }
  }

  @Test
  void recordsAreJudgedOrTold() throws IOException {
    Path record = VirtualBench.with("healthy-b").runInto(folder.resolve("r.jsonl"));
    Path spoilt = folder.resolve("spoilt.jsonl");
    Path page = folder.resolve("page.html");
    for (long seed = 0; seed < LONG; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      Files.write(spoilt, of(record, true, random));
      Command judged = sound(seed, List.of(1, 2, 3), "judge", spoilt);
      assertThat(judged.out()).doesNotContain("PASSED");
      sound(seed, List.of(1, 2, 3), "report", spoilt, "--out", page);
    }
  }

  private static byte[] of(Path file, boolean mangle, SplittableRandom random) throws IOException {
    String text = Files.readString(file);
    return (mangle ? mangled(text, random) : text).getBytes(UTF_8);
  }
}
