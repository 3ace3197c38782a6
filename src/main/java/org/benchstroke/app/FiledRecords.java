package org.benchstroke.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.pdf.Attachment;
import org.benchstroke.papers.pdf.Attachment.Relation;
import org.benchstroke.papers.sheets.Filed;
import org.benchstroke.record.AmendmentFiles;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.record.SealFile;

/** A judged record with the files that a certificate carries. Stateless. */
public final class FiledRecords {
  private static final int MOST_BYTES = 256_000_000;

  private FiledRecords() {}

  /**
   * Reads the files of a record that was judged.
   *
   * @throws WrongRequest if one can't be read, or the record is no longer the one that was judged
   */
  public static Filed of(Path record, TwinAndCauses aids) throws WrongRequest {
    List<Attachment> files = new ArrayList<>();
    byte[] bytes = bytes(record);
    if (!aids.run()
        .record()
        .digest()
        .map(RecordDigest::sha256)
        .equals(Optional.of(sha256(bytes)))) {
      throw new WrongRequest(record + ": was changed while it was read; try again");
    }
    files.add(file(record, "application/jsonl", Relation.SOURCE, "The record", bytes));
    if (Files.exists(SealFile.of(record))) {
      Path seal = SealFile.of(record);
      files.add(file(seal, "application/jsonl", Relation.SUPPLEMENT, "Its seal", bytes(seal)));
    }
    for (Path each : AmendmentFiles.numbered(record)) {
      files.add(file(each, "application/jsonl", Relation.SUPPLEMENT, "An amendment", bytes(each)));
    }
    return new Filed(aids, name(record), files);
  }

  private static Attachment file(
      Path path, String mime, Relation relation, String words, byte[] bytes) {
    return new Attachment(name(path), mime, relation, words, bytes);
  }

  private static String name(Path path) {
    return path.toAbsolutePath().normalize().getFileName().toString();
  }

  private static byte[] bytes(Path path) throws WrongRequest {
    try {
      return GivenFile.bytes(path, MOST_BYTES);
    } catch (Unreadable e) {
      throw new WrongRequest(path + ": " + e.getMessage());
    }
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /**
   * Who issues a paper: the shop by its own file, else the one that the bench file states.
   *
   * @param logo in place of the shop's, if one was named
   */
  public static Optional<Letterhead> letterhead(
      JudgedRun run, Optional<ShopFile> shop, Optional<Path> logo) {
    Optional<Letterhead> stated = shop.map(ShopFile::letterhead);
    return stated
        .or(
            () ->
                run.bench()
                    .laboratory()
                    .map(s -> new Letterhead(s.name(), List.of(s.address()), Optional.empty())))
        .map(head -> new Letterhead(head.name(), head.address(), logo.or(head::logo)));
  }
}
