package org.benchstroke.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.papers.Json;
import org.benchstroke.papers.sheets.Edition;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.Subject;

/**
 * The issues of a record's certificates: files beside it, numbered from 1, each written before its
 * certificate is. A file of that number is made once, whoever asks, so that no number is given
 * twice. What was issued in another size, language or form at the same time and with the same
 * content is the same issue. One thread.
 */
public final class IssueFiles {
  private static final int FORMAT = 1;
  private static final int MOST_BYTES = 100_000;
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final Path record;
  private final List<Noted> noted;

  private IssueFiles(Path record, List<Noted> noted) {
    this.record = record;
    this.noted = noted;
  }

  /**
   * An issue that was noted.
   *
   * @param base the number without what counts issues
   * @param number of the paper
   * @param issued when
   * @param content SHA-256 of what was issued, whatever its form
   * @param edition which it is
   */
  private record Noted(
      String base, String number, Instant issued, String content, Edition edition) {}

  /**
   * Reads those of a record.
   *
   * @throws WrongRequest if one can't be read: its number must not be given again
   */
  public static IssueFiles of(Path record) throws WrongRequest {
    List<Noted> noted = new ArrayList<>();
    while (Files.exists(place(record, noted.size() + 1), LinkOption.NOFOLLOW_LINKS)) {
      noted.add(read(place(record, noted.size() + 1)));
    }
    return new IssueFiles(record, noted);
  }

  private static Path place(Path record, int number) {
    return record.resolveSibling(record.getFileName() + ".issue-" + number);
  }

  private static Noted read(Path file) throws WrongRequest {
    try {
      JsonNode node = MAPPER.readTree(GivenFile.bytes(file, MOST_BYTES));
      if (node.path("issue").asInt() != FORMAT || node.path("number").asText().isEmpty()) {
        throw spoilt(file, "is no note of an issue that this program knows");
      }
      Optional<Edition.Superseded> superseded =
          node.path("superseded").asText().isEmpty()
              ? Optional.empty()
              : Optional.of(
                  new Edition.Superseded(
                      node.path("superseded").asText(),
                      Instant.parse(node.path("superseded_issued").asText()),
                      node.path("reason").asText()));
      return new Noted(
          node.path("base").asText(),
          node.path("number").asText(),
          Instant.parse(node.path("issued").asText()),
          node.path("content").asText(),
          new Edition(node.path("count").asInt(), superseded));
    } catch (Unreadable e) {
      throw spoilt(file, e.getMessage());
    } catch (IOException | DateTimeException | IllegalArgumentException e) {
      throw spoilt(file, "is no note of an issue");
    }
  }

  private static WrongRequest spoilt(Path file, String why) {
    return new WrongRequest(
        file
            + ": "
            + why
            + "; it says which numbers were given, so nothing is issued: put it back from a copy");
  }

  /** How many were issued. */
  public int count() {
    return noted.size();
  }

  private Optional<Noted> newest() {
    return noted.isEmpty() ? Optional.empty() : Optional.of(noted.get(noted.size() - 1));
  }

  /** With the number that a paper beside the newest certificate bears: a label, an annex. */
  public Issue beside(Subject subject, Issue issue) {
    return newest()
        .filter(n -> n.base().equals(subject.number()))
        .map(n -> issue.as(new Edition(n.edition().count(), Optional.empty())))
        .orElse(issue);
  }

  /**
   * Issues: the same again under its number, or something new under a new one.
   *
   * @param reason why what was issued before is superseded; empty if that was not said
   * @throws WrongRequest if something else was issued before and no reason was given, or it can't
   *     be noted
   */
  public Issue issued(Subject subject, Issue issue, Optional<String> reason) throws WrongRequest {
    String content = content(subject, issue);
    Optional<Noted> before = newest();
    Optional<Noted> same = before.filter(n -> n.content().equals(content));
    if (same.isPresent() && reason.isEmpty()) {
      return issue.as(same.get().edition());
    }
    if (before.isPresent() && reason.isEmpty()) {
      throw new WrongRequest(
          "A certificate of this record was issued as "
              + before.get().number()
              + " on "
              + before.get().issued()
              + ", with other content. For that file again: --issued "
              + before.get().issued()
              + " and the options of then. For a new one that supersedes it: --supersedes with the"
              + " reason");
    }
    if (before.isEmpty() && reason.isPresent()) {
      throw new WrongRequest(
          "--supersedes: no certificate of this record was issued yet, so there is none to supersede");
    }
    int given = (int) noted.stream().filter(n -> n.base().equals(subject.number())).count();
    Edition edition =
        new Edition(
            given + 1,
            before.map(n -> new Edition.Superseded(n.number(), n.issued(), reason.orElseThrow())));
    write(subject.number(), issue.issued(), content, edition);
    return issue.as(edition);
  }

  private void write(String base, Instant issued, String content, Edition edition)
      throws WrongRequest {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("issue", FORMAT);
    fields.put("base", base);
    fields.put("number", base + edition.suffix());
    fields.put("count", edition.count());
    fields.put("issued", issued.toString());
    fields.put("content", content);
    edition
        .superseded()
        .ifPresent(
            was -> {
              fields.put("superseded", was.number());
              fields.put("superseded_issued", was.issued().toString());
              fields.put("reason", was.reason());
            });
    Path file = place(record, noted.size() + 1);
    byte[] bytes = (Json.line(fields) + "\n").getBytes(StandardCharsets.UTF_8);
    try (FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
      ByteBuffer rest = ByteBuffer.wrap(bytes);
      while (rest.hasRemaining()) {
        channel.write(rest);
      }
      channel.force(true);
    } catch (FileAlreadyExistsException e) {
      throw new WrongRequest(
          file
              + ": somebody else issued a certificate of this record at the same moment; try again");
    } catch (IOException e) {
      throw new WrongRequest(
          file
              + ": can't be written, and without it a number may be given twice; copy the record with"
              + " all that stands beside it to a folder that can be written to");
    }
  }

  /** Of whatever a reader may rely on; not of the sheet, the language and the logo. */
  private static String content(Subject subject, Issue issue) {
    List<Object> content = new ArrayList<>();
    content.add(subject.number());
    content.add(subject.digests());
    content.add(subject.adjusted());
    issue.letterhead().ifPresent(head -> content.add(List.of(head.name(), head.address())));
    content.add(issue.issued().toString());
    content.add(issue.zone().getId());
    content.add(issue.authorised().toString());
    content.add(issue.program());
    content.add(issue.said());
    try {
      byte[] text = content.toString().getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(text));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
