package org.benchstroke.archive;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.record.signing.PublicHalf;

/**
 * All that the archive keeps of a run. Immutable.
 *
 * @param file its record
 * @param labels what people typed, as amended
 * @param facts what it was
 * @param result how it was judged
 * @param measures as judged
 * @param causes the likely ones, the likeliest first
 * @param instruments one for each role
 * @param key by which the record was sealed; empty where no seal holds
 */
public record ArchivedRun(
    RecordFile file,
    Labels labels,
    Facts facts,
    Result result,
    List<MeasureRow> measures,
    List<CauseRow> causes,
    List<InstrumentRow> instruments,
    Optional<PublicHalf> key) {
  public ArchivedRun {
    measures = List.copyOf(measures);
    causes = List.copyOf(causes);
    instruments = List.copyOf(instruments);
  }

  /** Without what is kept in rows of their own. */
  public Heading heading() {
    return new Heading(file, labels, facts, result);
  }

  /**
   * A run in a list.
   *
   * @param file its record
   * @param labels what people typed, as amended
   * @param facts what it was
   * @param result how it was judged
   */
  public record Heading(RecordFile file, Labels labels, Facts facts, Result result) {}

  /**
   * The file of a record.
   *
   * @param sha256 of its bytes, 64 hexadecimal digits
   * @param name without folders
   * @param folder where it was when it was read
   * @param bytes how many it has
   * @param amendments how many hold beside it
   * @param seal in a word, as {@link org.benchstroke.record.Seal.State} has it
   * @param sealKey the key's fingerprint; empty where no seal holds
   * @param flaws how many things are wrong with it: damage, a broken seal, amendments that don't
   *     hold
   * @param judgedFrom {@link #RECORD} or {@link #JUDGEMENT}
   */
  public record RecordFile(
      String sha256,
      String name,
      String folder,
      long bytes,
      int amendments,
      String seal,
      Optional<String> sealKey,
      int flaws,
      String judgedFrom) {
    /** It was judged for the archive. */
    public static final String RECORD = "record";

    /** The judgement beside it, which names its digest, was taken. */
    public static final String JUDGEMENT = "judgement";
  }

  /**
   * What people typed; a text is empty where nothing was.
   *
   * @param serial serial number of the unit
   * @param order the customer's order
   * @param customer who ordered the test
   * @param operator who ran it
   * @param tag the unit's tag in its plant; empty where it isn't known
   */
  public record Labels(
      String serial, String order, String customer, String operator, Optional<String> tag) {}

  /**
   * What a run was.
   *
   * @param begun by the wall clock
   * @param ended by the wall clock, or when its last whole line was written
   * @param ending how it ended, as the record says it; {@link #INTERRUPTED} if it doesn't
   * @param bench the bench's name
   * @param place where that stands
   * @param unitType the unit type's name
   * @param procedure the procedure's name
   * @param procedureVersion and its version
   * @param program name and version of the program that recorded it
   * @param simulated whether anything says that the unit was simulated
   * @param imported whether it was recorded elsewhere
   */
  public record Facts(
      Instant begun,
      Instant ended,
      String ending,
      String bench,
      String place,
      String unitType,
      String procedure,
      String procedureVersion,
      String program,
      boolean simulated,
      boolean imported) {
    public static final String INTERRUPTED = "interrupted";
  }

  /**
   * How a run was judged.
   *
   * @param verdict the word, as {@link org.benchstroke.judge.Word} has it
   * @param reason why, in a sentence
   * @param whole whether the run was whole and valid: only then can it pass
   * @param passed whether the whole unit passed in a whole, valid run
   * @param worst the measure nearest to its limit or furthest beyond; empty without one
   */
  public record Result(
      String verdict, String reason, boolean whole, boolean passed, Optional<Worst> worst) {}

  /**
   * The measure that is nearest to its limit.
   *
   * @param margin from the value to the nearer limit, in U: 1 or more passes with a guard band of
   *     U, below 0 is beyond the limit
   * @param kind key of the measure
   * @param place id of the place
   */
  public record Worst(double margin, String kind, String place) {
    /** Of these measures. */
    static Optional<Worst> of(List<MeasureRow> measures) {
      Optional<Worst> worst = Optional.empty();
      for (MeasureRow row : measures) {
        OptionalDouble margin = row.margin();
        if (margin.isPresent()
            && (worst.isEmpty() || margin.getAsDouble() < worst.get().margin())) {
          worst = Optional.of(new Worst(margin.getAsDouble(), row.kind(), row.place()));
        }
      }
      return worst;
    }
  }

  /**
   * A measure as it was judged.
   *
   * @param kind key of {@link org.benchstroke.unit.MeasureKind}
   * @param place id of {@link org.benchstroke.judge.Location}
   * @param setpointPercent of a place at a setpoint, % of travel
   * @param truth by what the position was known
   * @param value in the unit; empty if there is none
   * @param half U, in the unit
   * @param unit the measure's
   * @param low the lower limit, if there is one
   * @param high the upper limit, if there is one
   * @param word how it was judged; empty without a limit
   */
  public record MeasureRow(
      String kind,
      String place,
      OptionalDouble setpointPercent,
      String truth,
      OptionalDouble value,
      OptionalDouble half,
      String unit,
      OptionalDouble low,
      OptionalDouble high,
      Optional<String> word) {
    /** From the value to the nearer limit, in U; empty without a limit, a value or a U above 0. */
    OptionalDouble margin() {
      if (value.isEmpty() || half.isEmpty() || !(half.getAsDouble() > 0.0)) {
        return OptionalDouble.empty();
      }
      double room =
          Math.min(
              value.getAsDouble() - low.orElse(Double.NEGATIVE_INFINITY),
              high.orElse(Double.POSITIVE_INFINITY) - value.getAsDouble());
      return Double.isFinite(room)
          ? OptionalDouble.of(room / half.getAsDouble())
          : OptionalDouble.empty();
    }
  }

  /**
   * A likely cause.
   *
   * @param cause its key
   * @param probability 0 to 1
   * @param named whether it is one of those that the diagnosis names
   */
  public record CauseRow(String cause, double probability, boolean named) {}

  /**
   * What an instrument did in the run.
   *
   * @param role its key
   * @param name on the bench
   * @param maker who made it
   * @param model its model
   * @param serial its serial number
   * @param certificate number of its calibration certificate
   * @param due the last day on which it may be used, YYYY-MM-DD
   */
  public record InstrumentRow(
      String role,
      String name,
      String maker,
      String model,
      String serial,
      String certificate,
      String due) {}
}
