package org.benchstroke.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How a record begins and how it ends, without all that lies between: enough to say how its run
 * left the bench, at the same price for a record of any length. Immutable.
 *
 * @param file the record
 * @param begun when, by the wall clock
 * @param opened its first line
 * @param safe what became of the safe signal at its end; empty if its last lines don't say
 * @param closed its last line; empty if it has none: the run was interrupted
 */
public record RecordHeading(
    Path file,
    Instant begun,
    Event.Opened opened,
    Optional<Event.MadeSafe> safe,
    Optional<Event.Closed> closed) {
  private static final int PIECE = 1 << 16;

  /** The opening line holds three files. */
  private static final int LONGEST_FIRST_LINE = 1 << 22;

  /** The last two lines hold a few sentences. */
  private static final int LONGEST_END = 1 << 14;

  /**
   * Reads both ends of a record.
   *
   * @throws RecordReader.NotARecord if it does not begin like one, or can't be read
   */
  public static RecordHeading read(Path file) throws RecordReader.NotARecord {
    if (!Files.isRegularFile(file)) {
      throw new RecordReader.NotARecord(file + ": is not an ordinary file");
    }
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      Entry first = new RecordLines().read(firstLine(channel));
      if (first.event() instanceof Event.Opened opened) {
        List<Event> last = lastEvents(channel);
        return new RecordHeading(
            file, first.utc(), opened, safe(last), last(last, Event.Closed.class, 1));
      }
      throw new RecordReader.NotARecord(file + ": does not begin like a record");
    } catch (RecordLines.OtherFormat e) {
      throw new RecordReader.NotARecord(file + ": can't be read: " + e.getMessage());
    } catch (RecordLines.BadLine e) {
      throw new RecordReader.NotARecord(file + ": its first line is not that of a record");
    } catch (IOException e) {
      throw new RecordReader.NotARecord(file + ": can't be read: " + e.getMessage());
    }
  }

  /** The safe signal is commanded last, whatever happened; the line after it closes the record. */
  private static Optional<Event.MadeSafe> safe(List<Event> last) {
    return last(last, Event.MadeSafe.class, 2);
  }

  private static <E extends Event> Optional<E> last(List<Event> events, Class<E> kind, int place) {
    int at = events.size() - place;
    return at >= 0 && kind.isInstance(events.get(at))
        ? Optional.of(kind.cast(events.get(at)))
        : Optional.empty();
  }

  private static String firstLine(FileChannel channel) throws IOException, RecordLines.BadLine {
    StringBuilder line = new StringBuilder();
    ByteBuffer piece = ByteBuffer.allocate(PIECE);
    long at = 0;
    // Latin-1 keeps the bytes apart; a character may lie across two pieces.
    while (line.length() < LONGEST_FIRST_LINE && channel.read(piece.clear(), at) > 0) {
      at += piece.position();
      String text = new String(piece.array(), 0, piece.position(), StandardCharsets.ISO_8859_1);
      int end = text.indexOf('\n');
      line.append(text, 0, end < 0 ? text.length() : end);
      if (end >= 0) {
        return utf8(line.toString());
      }
    }
    throw new RecordLines.BadLine("it has no end");
  }

  private static List<Event> lastEvents(FileChannel channel) throws IOException {
    return lastLines(channel).stream().map(EventJson.Line::event).toList();
  }

  /** The last two lines, or fewer; those that are cut off or damaged are left out. */
  static List<EventJson.Line> lastLines(FileChannel channel) throws IOException {
    ByteBuffer end = ByteBuffer.allocate(LONGEST_END);
    int count = Math.max(0, channel.read(end, Math.max(0, channel.size() - LONGEST_END)));
    String text = new String(end.array(), 0, count, StandardCharsets.ISO_8859_1);
    List<EventJson.Line> found = new ArrayList<>();
    if (text.endsWith("\n")) {
      String[] lines = text.split("\n", -1);
      for (int i = Math.max(0, lines.length - 3); i < lines.length - 1; i++) {
        line(utf8(lines[i])).ifPresent(found::add);
      }
    }
    return found;
  }

  private static Optional<EventJson.Line> line(String line) {
    try {
      return Optional.of(EventJson.line(line));
    } catch (JsonProcessingException | IllegalArgumentException e) {
      // The beginning of it is cut off, or it is damaged: then it ends otherwise than a record.
      return Optional.empty();
    }
  }

  private static String utf8(String latin) {
    return new String(latin.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8);
  }
}
