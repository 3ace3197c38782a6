package org.benchstroke.app;

import static java.util.stream.Collectors.joining;

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
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.archive.ArchivedCheck;
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

  /** Of a line that amends another: a program that does not know amendments must not go on. */
  private static final int AMENDING = 2;

  private static final int MOST_NAMED = 5;
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
   * @param amends which reading it amends; empty unless it is an amendment: then person and from
   *     say who and why
   */
  public record Occasion(
      Instant at,
      String bench,
      boolean simulated,
      String person,
      String from,
      Map<String, Double> readings,
      boolean note,
      boolean newBaseline,
      Optional<Amends> amends) {
    public Occasion {
      readings = Collections.unmodifiableMap(new LinkedHashMap<>(readings));
    }

    /** One that amends nothing. */
    public Occasion(
        Instant at,
        String bench,
        boolean simulated,
        String person,
        String from,
        Map<String, Double> readings,
        boolean note,
        boolean newBaseline) {
      this(at, bench, simulated, person, from, readings, note, newBaseline, Optional.empty());
    }

    private Occasion with(Map<String, Double> other) {
      return new Occasion(at, bench, simulated, person, from, other, note, newBaseline, amends);
    }
  }

  /**
   * What an amendment changes. The line itself stays as it was written.
   *
   * @param digest SHA-256 of the line
   * @param reference the reading's reference
   * @param was its value before
   * @param is its value now; empty if there is to be none
   */
  public record Amends(String digest, String reference, double was, OptionalDouble is) {}

  /**
   * A line of the file.
   *
   * @param text it itself
   * @param digest SHA-256 of it
   * @param occasion what it says
   */
  private record Line(String text, String digest, Occasion occasion) {
    private boolean amends(Line other) {
      return occasion.amends().filter(a -> a.digest().equals(other.digest())).isPresent();
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
    /** Whether it says that the bench is as it was: within 3σ, and not frozen. */
    public boolean holds() {
      CheckState state = check.state();
      return !(state instanceof CheckState.Stop || state instanceof CheckState.Frozen);
    }

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
    fields.put("format", occasion.amends().isPresent() ? AMENDING : FORMAT);
    fields.put("utc", occasion.at().toString());
    fields.put("bench", occasion.bench());
    fields.put("simulated", occasion.simulated());
    fields.put("person", occasion.person());
    fields.put("from", occasion.from());
    fields.put("readings", occasion.readings());
    fields.put("note", occasion.note());
    fields.put("new_baseline", occasion.newBaseline());
    occasion
        .amends()
        .ifPresent(
            a -> {
              fields.put("amends", a.digest());
              fields.put("reference", a.reference());
              fields.put("was", a.was());
              a.is().ifPresent(is -> fields.put("is", is));
            });
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
    return amended(lines(bench, simulated));
  }

  private List<Line> lines(String bench, boolean simulated) throws IOException, WrongRequest {
    return all().stream()
        .filter(o -> o.occasion().bench().equals(bench))
        .filter(o -> o.occasion().simulated() == simulated)
        .toList();
  }

  /** All lines of the file. */
  private List<Line> all() throws IOException, WrongRequest {
    if (!Files.exists(file)) {
      return List.of();
    }
    List<String> lines = Files.readString(file, StandardCharsets.UTF_8).lines().toList();
    List<Line> all = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      Optional<Occasion> read = read(line);
      boolean torn = !lines.get(i).endsWith("}");
      if (read.isEmpty() && !torn) {
        throw new WrongRequest(
            file
                + ":"
                + (i + 1)
                + ": is no check of a bench of a format that this program knows; put the line right"
                + " from a copy, or take it out");
      }
      read.ifPresent(occasion -> all.add(new Line(line, sha256(line), occasion)));
    }
    all.sort(Comparator.comparing(each -> each.occasion().at()));
    return all;
  }

  /**
   * The occasions of lines that the archive holds, in their order, as amended.
   *
   * @throws WrongRequest if one is of a format that this program doesn't know
   */
  public static List<Occasion> of(List<String> lines) throws WrongRequest {
    List<Line> all = new ArrayList<>();
    for (String line : lines) {
      Occasion read =
          read(line)
              .orElseThrow(
                  () ->
                      new WrongRequest(
                          "the archive holds a check of a bench of a format that this program does"
                              + " not know; update this program"));
      all.add(new Line(line, sha256(line), read));
    }
    return amended(all);
  }

  /** Amendments change readings and are no occasions. */
  private static List<Occasion> amended(List<Line> lines) {
    Map<String, Occasion> all = new LinkedHashMap<>();
    lines.stream()
        .filter(l -> l.occasion().amends().isEmpty())
        .forEach(l -> all.put(l.digest(), l.occasion()));
    for (Line line : lines) {
      line.occasion().amends().ifPresent(a -> all.computeIfPresent(a.digest(), (d, o) -> of(o, a)));
    }
    return List.copyOf(all.values());
  }

  private static Occasion of(Occasion occasion, Amends amends) {
    Map<String, Double> readings = new LinkedHashMap<>(occasion.readings());
    if (amends.is().isPresent()) {
      readings.replace(amends.reference(), amends.is().getAsDouble());
    } else {
      readings.remove(amends.reference());
    }
    return occasion.with(readings);
  }

  /**
   * Amends a reading: the line stays, and another says who changed it, when and why.
   *
   * @param at when the reading was taken; to the second, where that says which
   * @param is its value; empty if there is to be none
   * @throws WrongRequest if there is no such reading
   */
  public void amend(
      String bench,
      boolean simulated,
      Instant at,
      String reference,
      OptionalDouble is,
      String person,
      String reason,
      Instant now)
      throws IOException, WrongRequest {
    List<Line> lines = lines(bench, simulated);
    List<Line> then =
        lines.stream()
            .filter(l -> l.occasion().amends().isEmpty())
            .filter(l -> l.occasion().readings().containsKey(reference))
            .filter(l -> l.occasion().at().getEpochSecond() == at.getEpochSecond())
            .toList();
    List<Line> exact = then.stream().filter(l -> l.occasion().at().equals(at)).toList();
    List<Line> meant = exact.isEmpty() ? then : exact;
    if (meant.size() != 1) {
      throw noneOrSeveral(lines, meant, reference, at);
    }
    Line line = meant.get(0);
    List<Line> history = lines.stream().filter(l -> l.equals(line) || l.amends(line)).toList();
    Double was = amended(history).get(0).readings().get(reference);
    if (was == null) {
      throw new WrongRequest(reference + " of " + at + " was taken back already");
    }
    Amends amends = new Amends(line.digest(), reference, was, is);
    append(
        new Occasion(
            now, bench, simulated, person, reason, Map.of(), false, false, Optional.of(amends)));
  }

  private static WrongRequest noneOrSeveral(
      List<Line> lines, List<Line> meant, String reference, Instant at) {
    if (meant.size() > 1) {
      return new WrongRequest(
          "there are several readings of \""
              + reference
              + "\" at "
              + at
              + "; say which: "
              + meant.stream().map(l -> l.occasion().at().toString()).collect(joining(", ")));
    }
    return new WrongRequest(
        "there is no reading of \""
            + reference
            + "\" at "
            + at
            + "; the newest are of "
            + lines.stream()
                .map(Line::occasion)
                .filter(o -> !o.readings().isEmpty())
                .sorted(Comparator.comparing(Occasion::at).reversed())
                .limit(MOST_NAMED)
                .map(
                    o ->
                        o.at().truncatedTo(ChronoUnit.SECONDS)
                            + " ("
                            + String.join(", ", o.readings().keySet())
                            + ")")
                .collect(joining("; ")));
  }

  /** All lines of the file for the archive. */
  public List<ArchivedCheck> archived() throws IOException, WrongRequest {
    List<ArchivedCheck> archived = new ArrayList<>();
    String folder = file.toAbsolutePath().normalize().getParent().toString();
    for (Line line : all()) {
      Occasion o = line.occasion();
      archived.add(
          new ArchivedCheck(
              line.digest(),
              folder,
              o.bench(),
              o.simulated(),
              o.at(),
              o.person(),
              o.from(),
              o.note(),
              o.newBaseline(),
              o.amends().map(Amends::digest),
              o.readings(),
              line.text()));
    }
    return archived;
  }

  /** When a bench was last found good; empty if it never was. */
  public static Optional<Instant> lastGood(List<Occasion> occasions) {
    for (int to = occasions.size(); to > 0; to--) {
      Occasion last = occasions.get(to - 1);
      List<Checked> then = judged(occasions.subList(0, to));
      boolean good =
          !last.readings().isEmpty()
              && then.stream().anyMatch(c -> !(c.check().state() instanceof CheckState.TooFew))
              && then.stream().allMatch(Checked::holds);
      if (good) {
        return Optional.of(last.at());
      }
    }
    return Optional.empty();
  }

  private static String sha256(String line) {
    try {
      byte[] bytes = line.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  private static Optional<Occasion> read(String line) {
    try {
      JsonNode node = MAPPER.readTree(line);
      int format = node.path("format").asInt();
      boolean known = format == FORMAT || (format == AMENDING && node.path("amends").isTextual());
      if (!known || !node.path("readings").isObject()) {
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
              node.path("new_baseline").asBoolean(),
              format == AMENDING ? Optional.of(amends(node)) : Optional.empty()));
    } catch (JsonProcessingException | DateTimeException e) {
      return Optional.empty();
    }
  }

  private static Amends amends(JsonNode node) {
    return new Amends(
        node.path("amends").asText(),
        node.path("reference").asText(),
        node.path("was").asDouble(),
        node.has("is") ? OptionalDouble.of(node.get("is").asDouble()) : OptionalDouble.empty());
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
