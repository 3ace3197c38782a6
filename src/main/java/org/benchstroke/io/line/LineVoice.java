package org.benchstroke.io.line;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.instrument.TextReply;
import org.benchstroke.io.instrument.VisibleText;

/** Talks to one instrument: check digits, refusals, patterns. The runner's thread. */
final class LineVoice {
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][+-]?\\d{1,2})?");

  private final String name;
  private final TextLine line;
  private final LineTalk talk;
  private int greetedAt;
  private Optional<Question> before = Optional.empty();

  LineVoice(String name, TextLine line, LineTalk talk) {
    this.name = name;
    this.line = line;
    this.talk = talk;
  }

  /** What was asked last, and what its reply looks like. */
  private record Question(String question, Pattern pattern) {}

  String name() {
    return name;
  }

  /** Opens the connection if it is not open and says what must be said first. */
  void open(Deadline deadline) throws InstrumentException {
    int opened = line.open(name, deadline);
    if (opened == greetedAt) {
      return;
    }
    for (String command : talk.atOpening()) {
      command(command, talk.atOpeningReply(), deadline);
    }
    greetedAt = opened;
  }

  void close() {
    line.close();
  }

  /** Asks; the reply's check digits are off and it is no refusal. */
  TextReply ask(String question, Deadline deadline) throws InstrumentException {
    open(deadline);
    return asked(question, deadline);
  }

  /** Sends a command, and waits for its reply if it has one. */
  TextReply tell(String command, Optional<Pattern> reply, Deadline deadline)
      throws InstrumentException {
    open(deadline);
    return command(command, reply, deadline);
  }

  /** The groups of a reply that must match from end to end. */
  Matcher matched(String question, Pattern pattern, TextReply reply) throws InstrumentException {
    Matcher matcher = pattern.matcher(reply.text());
    if (!matcher.matches()) {
      String late =
          before
              .filter(earlier -> earlier.pattern().matcher(reply.text()).matches())
              .map(earlier -> "late reply: it answers the previous question, " + earlier.question())
              .map(words -> words + "; ")
              .orElse("");
      throw bad(question, reply, late + "the reply does not match " + pattern.pattern());
    }
    before = Optional.of(new Question(question, pattern));
    return matcher;
  }

  /** The number in the group {@code value}, as it stands there. */
  double number(String question, Pattern pattern, TextReply reply) throws InstrumentException {
    Optional<String> text =
        Optional.ofNullable(matched(question, pattern, reply).group("value")).map(String::strip);
    if (text.isEmpty() || !NUMBER.matcher(text.get()).matches()) {
      throw bad(question, reply, "\"" + text.orElse("") + "\" is not a number");
    }
    return Double.parseDouble(text.get());
  }

  InstrumentException bad(String question, TextReply reply, String detail) {
    return line.badReply(name, exchange(question, reply), detail);
  }

  InstrumentException refused(String exchange, String detail) {
    return line.refused(name, exchange, detail);
  }

  /** The exchange as it was. */
  String exchange(String question, TextReply reply) {
    return VisibleText.of(talk.seal().seal(question)) + " -> " + VisibleText.of(reply.text());
  }

  private TextReply asked(String question, Deadline deadline) throws InstrumentException {
    String sealed = talk.seal().seal(question);
    TextReply came = line.ask(name, talk.manner(), sealed, deadline);
    return checked(question, came);
  }

  private TextReply command(String command, Optional<Pattern> reply, Deadline deadline)
      throws InstrumentException {
    if (reply.isPresent()) {
      TextReply came = asked(command, deadline);
      matched(command, reply.get(), came);
      return came;
    }
    String sealed = talk.seal().seal(command);
    long sent = line.tell(name, talk.manner(), sealed, deadline);
    Optional<TextReply> came = line.listen(name, talk.manner(), sealed, sent, deadline);
    if (came.isPresent()) {
      TextReply complaint = checked(command, came.get());
      throw bad(command, complaint, "no reply to this was expected");
    }
    return new TextReply("", sent, sent);
  }

  private TextReply checked(String question, TextReply came) throws InstrumentException {
    Optional<String> text = talk.seal().open(came.text());
    if (text.isEmpty()) {
      throw bad(question, came, "its check digits are wrong: " + talk.seal().checksum().key());
    }
    TextReply bare = new TextReply(text.get(), came.askedNanos(), came.answeredNanos());
    for (Pattern error : talk.errors()) {
      Matcher matcher = error.matcher(bare.text());
      if (matcher.find()) {
        throw refused(exchange(question, came), "it answers " + words(error, matcher));
      }
    }
    return bare;
  }

  private static String words(Pattern error, Matcher matcher) {
    boolean coded = error.pattern().contains("(?<code>") && matcher.group("code") != null;
    return coded
        ? "error " + matcher.group("code")
        : "\"" + VisibleText.of(matcher.group()) + "\", which means an error";
  }
}
