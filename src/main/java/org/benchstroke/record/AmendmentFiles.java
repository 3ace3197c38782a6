package org.benchstroke.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.SignedText;

/**
 * The amendments of a record: files beside it, numbered from 1, each sealed, each naming the record
 * and the one before by their digests. The record itself is never changed. Stateless.
 */
public final class AmendmentFiles {
  private static final int FORMAT = 1;
  private static final int MOST_BYTES = 100_000;
  private static final int GAP = 10;

  private AmendmentFiles() {}

  /**
   * What an amendment states.
   *
   * @param amendment version of this format
   * @param record the record's name, without folders
   * @param sha256 of the record's bytes
   * @param number of the amendment, from 1
   * @param before SHA-256 of the amendment before; empty if there is none
   * @param field which label
   * @param was what stood there
   * @param is what stands there now
   * @param by who amended it
   * @param reason why
   * @param utc when
   */
  private record Stated(
      int amendment,
      String record,
      String sha256,
      int number,
      String before,
      String field,
      String was,
      String is,
      String by,
      String reason,
      String utc) {}

  private static String stem(Path record) {
    return SealFile.name(record) + ".amendment-";
  }

  /**
   * Amends a label of a record.
   *
   * @param file the record's
   * @param record what was read of it: its seal is not broken, its amendments have no flaws
   * @param utc now
   * @return the file that was written
   * @throws IOException if it can't be written
   */
  public static Path write(
      Path file,
      RunRecord record,
      Label label,
      String is,
      String by,
      String reason,
      Instant utc,
      BenchKey key)
      throws IOException {
    int number = record.amendments().all().size() + 1;
    Stated stated =
        new Stated(
            FORMAT,
            SealFile.name(file),
            record.digest().orElseThrow().sha256(),
            number,
            number == 1 ? "" : sha256(Files.readAllBytes(place(file, number - 1))),
            label.key(),
            record.label(label),
            is,
            by,
            reason,
            utc.toString());
    Path place = place(file, number);
    byte[] bytes = SignedText.of(EventJson.text(stated), key).getBytes(StandardCharsets.UTF_8);
    // No other one of this number may be replaced.
    try (FileChannel channel =
        FileChannel.open(place, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
      ByteBuffer rest = ByteBuffer.wrap(bytes);
      while (rest.hasRemaining()) {
        channel.write(rest);
      }
      channel.force(true);
    }
    return place;
  }

  private static Path place(Path record, int number) {
    return record.resolveSibling(stem(record) + number);
  }

  private static String sha256(byte[] bytes) {
    return HexFormat.of().formatHex(Chain.sha256().digest(bytes));
  }

  /**
   * Reads those of a record, up to the first that does not hold.
   *
   * @param record what was read of the file, without them
   */
  static Amendments read(Path file, RunRecord record) {
    Amendments read = Amendments.NONE;
    String before = "";
    for (Path each : numbered(file)) {
      String name = each.getFileName().toString();
      try {
        byte[] bytes = GivenFile.bytes(each, MOST_BYTES);
        Amendment next = amendment(bytes, record, read, before);
        List<Amendment> all = new ArrayList<>(read.all());
        all.add(next);
        read = new Amendments(all, List.of());
        before = sha256(bytes);
      } catch (Unreadable | Unfit e) {
        return new Amendments(read.all(), List.of(name + " " + e.getMessage()));
      }
    }
    return read;
  }

  /** Their places, in order; past a gap it is looked a little further, so that it shows. */
  public static List<Path> numbered(Path record) {
    List<Path> found = new ArrayList<>();
    for (int number = 1; number <= found.size() + 1 + GAP; number++) {
      if (Files.exists(place(record, number), LinkOption.NOFOLLOW_LINKS)) {
        found.add(place(record, number));
      }
    }
    return found;
  }

  private static Amendment amendment(
      byte[] bytes, RunRecord record, Amendments earlier, String before) throws Unfit {
    SignedText signed =
        SignedText.read(bytes)
            .orElseThrow(() -> new Unfit("was changed, or is not signed by the key that it names"));
    Stated stated = stated(signed);
    if (!stated.sha256().equals(record.digest().orElseThrow().sha256())) {
      throw new Unfit("is of another record, " + stated.record() + ", or that was changed");
    }
    if (stated.number() != earlier.all().size() + 1 || !stated.before().equals(before)) {
      throw new Unfit(
          "does not follow from the amendments before it: one is missing or was changed");
    }
    Optional<Label> label = Label.of(stated.field());
    if (label.isEmpty()
        || !stated.was().equals(earlier.now(label.get(), record.label(label.get())))) {
      throw new Unfit("amends what the record does not say");
    }
    try {
      return new Amendment(
          label.get(),
          stated.was(),
          stated.is(),
          stated.by(),
          stated.reason(),
          Instant.parse(stated.utc()),
          signed.key());
    } catch (DateTimeException e) {
      throw new Unfit("has no date");
    }
  }

  private static Stated stated(SignedText signed) throws Unfit {
    try {
      return EventJson.read(signed.object(), Stated.class);
    } catch (JsonProcessingException e) {
      throw new Unfit("is not an amendment");
    }
  }

  /** A file that is no amendment of the record. */
  private static final class Unfit extends Exception {
    private static final long serialVersionUID = 1L;

    Unfit(String message) {
      super(message);
    }
  }
}
