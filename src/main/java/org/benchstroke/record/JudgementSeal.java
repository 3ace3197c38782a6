package org.benchstroke.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Optional;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.PublicHalf;
import org.benchstroke.record.signing.SignedText;

/**
 * The seal of the judgement that a run leaves beside its record: who may write to the folder can
 * change a judgement, but not so that it counts as the bench's own. A record proves itself; this
 * only says whether its judgement may be taken without judging again. Stateless.
 */
public final class JudgementSeal {
  private static final int FORMAT = 1;
  private static final int MOST_BYTES = 10_000;

  private JudgementSeal() {}

  /**
   * What it states.
   *
   * @param judgementSeal version of this format
   * @param record SHA-256 of the record's bytes
   * @param judgement SHA-256 of the judgement's bytes
   */
  private record Stated(int judgementSeal, String record, String judgement) {}

  /** The place of a judgement's seal. */
  public static Path of(Path judgement) {
    return judgement.resolveSibling(SealFile.name(judgement) + ".seal");
  }

  /**
   * Seals a judgement.
   *
   * @throws IOException if the record has no seal that holds, or it can't be written
   */
  public static void write(Path record, Path judgement, BenchKey key) throws IOException {
    Seal seal;
    try {
      seal = SealFile.check(record);
    } catch (Unreadable e) {
      throw new IOException("the record " + e.getMessage(), e);
    }
    if (!seal.holds()) {
      throw new IOException("its record is " + seal.text());
    }
    Stated stated =
        new Stated(
            FORMAT, sha256(Files.readAllBytes(record)), sha256(Files.readAllBytes(judgement)));
    WholeFile.write(of(judgement), out -> out.write(SignedText.of(EventJson.text(stated), key)));
  }

  /**
   * Whether a judgement is what was written for this record by whoever sealed the record.
   *
   * @param judgement its file
   * @param bytes what was read of that
   * @param record SHA-256 of the record's bytes
   * @param key by which the record is sealed
   */
  public static boolean holds(Path judgement, byte[] bytes, String record, PublicHalf key) {
    try {
      Optional<SignedText> signed = SignedText.read(GivenFile.bytes(of(judgement), MOST_BYTES));
      return signed.isPresent()
          && signed.get().key().equals(key)
          && EventJson.read(signed.get().object(), Stated.class)
              .equals(new Stated(FORMAT, record, sha256(bytes)));
    } catch (Unreadable | JsonProcessingException e) {
      // None, or none of ours: the record itself is judged.
      return false;
    }
  }

  private static String sha256(byte[] bytes) {
    return HexFormat.of().formatHex(Chain.sha256().digest(bytes));
  }
}
