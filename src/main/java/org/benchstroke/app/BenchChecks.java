package org.benchstroke.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Baseline;
import org.benchstroke.core.statistics.CheckStandard;
import org.benchstroke.core.statistics.CheckState;
import org.benchstroke.papers.HistoryPlots;
import org.benchstroke.papers.Json;
import org.benchstroke.papers.plot.Drawing;

/**
 * The checks of benches by references of their own, in a file beside the records: a line for each
 * occasion, appended and on the disk before anyone is told. One thread; several programs may append
 * at the same time.
 */
public final class BenchChecks {
  /** What the file is called; it is no record, and its name does not end as theirs do. */
  public static final String NAME = "bench-checks.ndjson";

  /** What a reference that says stop means, in two sentences. */
  public static final String STOPPED =
      "STOP: nothing is tested on this bench until a good check, or a supervisor's note. What was"
          + " tested since the last good check is in doubt: look-back.";

  private static final int FORMAT = 1;
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final Path file;

  /** Beside the records of a folder. */
  public BenchChecks(Path records) {
    file = records.resolve(NAME);
  }

  /**
   * An occasion.
   *
   * @param at when, by the wall clock
   * @param bench the bench's name
   * @param simulated whether the bench was simulated
   * @param person who checked, or the supervisor who answers for a note
   * @param from where the readings are from, or what the note says
   * @param readings by the name of the reference; none of a note
   * @param note whether it answers what was no good before it
   * @param newBaseline whether readings before it are no longer compared with
   */
  public record Occasion(
      Instant at,
      String bench,
      boolean simulated,
      String person,
      String from,
      Map<String, Double> readings,
      boolean note,
      boolean newBaseline) {
    public Occasion {
      readings = Collections.unmodifiableMap(new LinkedHashMap<>(readings));
    }
  }

  /**
   * A reference of a bench with its readings judged.
   *
   * @param reference its name
   * @param check its readings since the newest baseline began
   * @param count how many there are
   * @param newest the newest value
   * @param answered whether a note was written after it
   */
  public record Checked(
      String reference, CheckStandard check, int count, double newest, boolean answered) {
    /** Whether its bench must not test: beyond 3σ, and nobody has answered for it. */
    public boolean stops() {
      return check.state() instanceof CheckState.Stop && !answered;
    }

    /** What it says, in a few words. */
    public String words() {
      CheckState state = check.state();
      String answer = answered ? ", answered by a note" : "";
      if (state instanceof CheckState.TooFew few) {
        return "baseline: " + few.has() + " of " + few.needs();
      }
      if (state instanceof CheckState.InControl in) {
        return "good, " + sigmas(in.score());
      }
      if (state instanceof CheckState.Warning warning) {
        return "WARNING, " + sigmas(warning.score()) + answer;
      }
      if (state instanceof CheckState.Stop stop) {
        return "STOP, " + sigmas(stop.score()) + answer;
      }
      return "FROZEN, " + ((CheckState.Frozen) state).inARow() + " the same" + answer;
    }

    private static String sigmas(double score) {
      return Numbers.minusSigns(Numbers.signed(score, 1)) + "σ";
    }
  }

  public Path file() {
    return file;
  }

  /**
   * Appends an occasion; after it the disk has it.
   *
   * @throws IOException if it can't be written
   */
  public void append(Occasion occasion) throws IOException {
    Files.createDirectories(file.toAbsolutePath().getParent());
    byte[] line = (Json.line(fields(occasion)) + "\n").getBytes(StandardCharsets.UTF_8);
    try (FileChannel channel =
        FileChannel.open(
            file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
      FileLock lock = channel.lock();
      try {
        append(channel, line);
      } finally {
        lock.release();
      }
    }
  }

  private static void append(FileChannel channel, byte[] line) throws IOException {
    long end = channel.size();
    channel.position(end);
    ByteBuffer bytes = ByteBuffer.allocate(line.length + 1);
    if (end > 0 && !endsWithLine(channel, end)) {
      bytes.put((byte) '\n');
    }
    bytes.put(line).flip();
    while (bytes.hasRemaining()) {
      channel.write(bytes);
    }
    channel.force(true);
  }

  private static boolean endsWithLine(FileChannel channel, long end) throws IOException {
    ByteBuffer last = ByteBuffer.allocate(1);
    channel.read(last, end - 1);
    return last.get(0) == '\n';
  }

  private static Map<String, Object> fields(Occasion occasion) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("format", FORMAT);
    fields.put("utc", occasion.at().toString());
    fields.put("bench", occasion.bench());
    fields.put("simulated", occasion.simulated());
    fields.put("person", occasion.person());
    fields.put("from", occasion.from());
    fields.put("readings", occasion.readings());
    fields.put("note", occasion.note());
    fields.put("new_baseline", occasion.newBaseline());
    return fields;
  }

  /**
   * All occasions of a bench in the order of time; none if there is no file. A line that was torn
   * by a fall of the power was never told to anyone, and is left out.
   *
   * @throws WrongRequest if a whole line is no occasion
   * @throws IOException if the file can't be read
   */
  public List<Occasion> of(String bench, boolean simulated) throws IOException, WrongRequest {
    if (!Files.exists(file)) {
      return List.of();
    }
    List<String> lines = Files.readString(file, StandardCharsets.UTF_8).lines().toList();
    List<Occasion> all = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      Optional<Occasion> read = read(lines.get(i));
      boolean torn = !lines.get(i).endsWith("}");
      if (read.isEmpty() && !torn) {
        throw new WrongRequest(
            file
                + ":"
                + (i + 1)
                + ": is no check of a bench of a format that this program knows; put the line right"
                + " from a copy, or take it out");
      }
      read.filter(o -> o.bench().equals(bench) && o.simulated() == simulated).ifPresent(all::add);
    }
    all.sort(Comparator.comparing(Occasion::at));
    return all;
  }

  private static Optional<Occasion> read(String line) {
    try {
      JsonNode node = MAPPER.readTree(line);
      if (node.path("format").asInt() != FORMAT || !node.path("readings").isObject()) {
        return Optional.empty();
      }
      Map<String, Double> readings = new LinkedHashMap<>();
      node.get("readings")
          .properties()
          .forEach(e -> readings.put(e.getKey(), e.getValue().asDouble()));
      return Optional.of(
          new Occasion(
              Instant.parse(node.path("utc").asText()),
              node.path("bench").asText(),
              node.path("simulated").asBoolean(),
              node.path("person").asText(),
              node.path("from").asText(),
              readings,
              node.path("note").asBoolean(),
              node.path("new_baseline").asBoolean()));
    } catch (JsonProcessingException | DateTimeException e) {
      return Optional.empty();
    }
  }

  /** The references of a bench, each judged by its first ten readings since a new baseline. */
  public static List<Checked> judged(List<Occasion> occasions) {
    Map<String, List<CheckStandard.Reading>> readings = new LinkedHashMap<>();
    Map<String, Boolean> answered = new HashMap<>();
    for (Occasion occasion : occasions) {
      if (occasion.newBaseline()) {
        readings.clear();
      }
      if (occasion.note()) {
        answered.replaceAll((reference, no) -> true);
      }
      LocalDate on = LocalDate.ofInstant(occasion.at(), ZoneOffset.UTC);
      occasion
          .readings()
          .forEach(
              (reference, value) -> {
                readings
                    .computeIfAbsent(reference, r -> new ArrayList<>())
                    .add(new CheckStandard.Reading(on, value));
                answered.put(reference, false);
              });
    }
    List<Checked> checked = new ArrayList<>();
    readings.forEach(
        (reference, all) ->
            checked.add(
                new Checked(
                    reference,
                    CheckStandard.of(all, new Baseline.First(Baseline.FEWEST)),
                    all.size(),
                    all.get(all.size() - 1).value(),
                    answered.get(reference))));
    return checked;
  }

  /** A chart for each reference of a bench that has been judged. */
  public static List<Drawing> drawings(BenchFile bench, List<Checked> judged) {
    String marks = bench.simulation().isPresent() ? "SIMULATED: " : "";
    List<Drawing> drawings = new ArrayList<>();
    for (Checked each : judged) {
      if (!each.check().judged().isEmpty()) {
        HistoryPlots.Subject subject =
            new HistoryPlots.Subject(
                "check-" + (drawings.size() + 1),
                marks + bench.name() + ", " + each.reference(),
                each.reference().startsWith("loop at ") ? "loop current, mA" : "reading");
        drawings.add(HistoryPlots.check(subject, each.check()));
      }
    }
    return drawings;
  }

  /** What there is to say of a bench before a run, as the rest of a sentence. */
  List<String> said(String bench, boolean simulated) throws IOException, WrongRequest {
    return judged(of(bench, simulated)).stream()
        .filter(c -> !c.check().state().good() || c.check().state() instanceof CheckState.Warning)
        .filter(c -> !(c.check().state() instanceof CheckState.TooFew))
        .map(c -> "the bench's own check, " + c.reference() + ": " + c.words())
        .toList();
  }

  /**
   * Refuses a bench whose newest check is no good.
   *
   * @throws WrongRequest if one is beyond 3σ and nobody has answered for it
   */
  void requireFit(String bench, boolean simulated) throws IOException, WrongRequest {
    for (Checked each : judged(of(bench, simulated))) {
      if (each.stops()) {
        throw new WrongRequest(
            "Bench "
                + bench
                + ": its own check, "
                + each.reference()
                + ", says "
                + each.words()
                + "; nothing is tested until a good check, or a supervisor's note: bench-check"
                + " --note TEXT --supervisor NAME");
      }
    }
  }
}
