package org.benchstroke.simulator;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.benchstroke.io.line.LineTalk;

/**
 * One connection to an ask-and-answer instrument: takes messages apart by the ends and check digits
 * of its bench file and puts replies together by them. A message with wrong check digits is not
 * answered.
 */
final class LineSession implements ByteSession {
  private static final int LONGEST_MESSAGE = 4096;

  private final LineTalk talk;
  private final UnaryOperator<String> instrument;
  private final StringBuilder pending = new StringBuilder();

  /**
   * A connection.
   *
   * @param instrument answers a command; with an empty text it does not
   */
  LineSession(LineTalk talk, UnaryOperator<String> instrument) {
    this.talk = talk;
    this.instrument = instrument;
  }

  @Override
  public byte[] feed(byte[] chunk) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    pending.append(new String(chunk, StandardCharsets.ISO_8859_1));
    String end = talk.manner().sendEnd();
    for (int at = pending.indexOf(end); at >= 0; at = pending.indexOf(end)) {
      Optional<String> command = talk.seal().open(pending.substring(0, at));
      pending.delete(0, at + end.length());
      command
          .map(instrument)
          .filter(reply -> !reply.isEmpty())
          .map(reply -> talk.seal().seal(reply) + talk.manner().replyEnd())
          .ifPresent(line -> out.writeBytes(line.getBytes(StandardCharsets.ISO_8859_1)));
    }
    if (pending.length() > LONGEST_MESSAGE) {
      pending.setLength(0);
    }
    return out.toByteArray();
  }

  @Override
  public boolean closed() {
    return false;
  }
}
