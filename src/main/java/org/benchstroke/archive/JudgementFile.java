package org.benchstroke.archive;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.benchstroke.archive.ArchivedRun.CauseRow;
import org.benchstroke.archive.ArchivedRun.InstrumentRow;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.record.JudgementSeal;
import org.benchstroke.record.signing.PublicHalf;

/**
 * The judgement that a run leaves beside its record, as far as the archive wants it. It is taken
 * for a record only if it names that record's digest and is sealed by the key of the record's own
 * seal. Stateless.
 */
final class JudgementFile {
  private static final int FORMAT = 1;
  private static final long MOST_BYTES = 64_000_000;
  private static final ObjectReader READER =
      JsonMapper.builder()
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
          .build()
          .readerFor(Whole.class);

  private JudgementFile() {}

  /** The file's keys that are wanted; what is missing is null, here and nowhere else. */
  record Whole(
      int format,
      Unit unit,
      String bench,
      String place,
      String procedure,
      String procedureVersion,
      String verdict,
      String reason,
      boolean passed,
      boolean complete,
      boolean simulated,
      Source record,
      List<String> recordFlaws,
      List<Measured> measures,
      Diagnosed diagnosis,
      List<Bought> instruments) {
    private boolean isOf(String sha256) {
      return format == FORMAT
          && record != null
          && sha256.equals(record.sha256)
          && Stream.of(unit, bench, place, procedure, procedureVersion, verdict, reason)
              .allMatch(Objects::nonNull)
          && unit.type != null
          && Stream.of(recordFlaws, measures, instruments).allMatch(Objects::nonNull)
          && measures.stream().allMatch(Measured::whole)
          && instruments.stream().allMatch(Bought::whole);
    }

    List<MeasureRow> measureRows() {
      return measures.stream().map(Measured::row).toList();
    }

    List<CauseRow> causeRows() {
      return diagnosis == null ? List.of() : diagnosis.rows();
    }

    List<InstrumentRow> instrumentRows() {
      return instruments.stream().flatMap(Bought::rows).toList();
    }
  }

  record Unit(String type) {}

  record Source(String sha256) {}

  record Measured(
      String kind,
      String placeId,
      Double setpointPct,
      String truth,
      Double value,
      Double u,
      String unit,
      Double limitLow,
      Double limitHigh,
      String word) {
    private boolean whole() {
      return Stream.of(kind, placeId, truth, unit).allMatch(Objects::nonNull);
    }

    private MeasureRow row() {
      return new MeasureRow(
          kind,
          placeId,
          maybe(setpointPct),
          truth,
          maybe(value),
          maybe(u),
          unit,
          maybe(limitLow),
          maybe(limitHigh),
          Optional.ofNullable(word));
    }

    private static OptionalDouble maybe(Double number) {
      return number == null ? OptionalDouble.empty() : OptionalDouble.of(number);
    }
  }

  record Diagnosed(List<Ranked> causes, List<List<String>> named) {
    private List<CauseRow> rows() {
      List<CauseRow> rows = new ArrayList<>();
      for (Ranked each : Optional.ofNullable(causes).orElse(List.of())) {
        boolean isNamed =
            Optional.ofNullable(named).orElse(List.of()).stream()
                .anyMatch(alike -> alike.contains(each.cause));
        rows.add(new CauseRow(each.cause, each.probability, isNamed));
      }
      return rows;
    }
  }

  record Ranked(String cause, double probability) {}

  record Bought(
      String name,
      List<String> roles,
      String maker,
      String model,
      String serial,
      String certificate,
      String due) {
    private boolean whole() {
      return roles != null
          && Stream.of(name, maker, model, serial, certificate, due).allMatch(Objects::nonNull);
    }

    private Stream<InstrumentRow> rows() {
      return roles.stream()
          .map(role -> new InstrumentRow(role, name, maker, model, serial, certificate, due));
    }
  }

  /**
   * The judgement beside a record.
   *
   * @param sha256 of the record's bytes
   * @param key by which the record is sealed
   * @return empty if there is none, it is not sealed by the same key, it is of other bytes, or
   *     lacks what is wanted
   */
  static Optional<Whole> beside(Path record, String sha256, PublicHalf key) {
    String name = record.getFileName().toString().replaceFirst("\\.jsonl$", ".json");
    Path file = record.resolveSibling(name);
    try {
      if (file.equals(record) || !Files.isRegularFile(file) || Files.size(file) > MOST_BYTES) {
        return Optional.empty();
      }
      byte[] bytes = Files.readAllBytes(file);
      if (!JudgementSeal.holds(file, bytes, sha256, key)) {
        return Optional.empty();
      }
      Whole read = READER.readValue(bytes);
      return Optional.ofNullable(read).filter(whole -> whole.isOf(sha256));
    } catch (IOException e) {
      // Whatever it is, the record itself can be judged.
      return Optional.empty();
    }
  }
}
