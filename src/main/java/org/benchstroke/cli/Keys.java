package org.benchstroke.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jline.utils.NonBlocking;
import org.jline.utils.NonBlockingReader;

/**
 * What is typed. A thread of its own reads it, so that a wait for an answer can be ended by a stop.
 * At a terminal single keys count without Enter, and what was typed before a question can be
 * forgotten. For one thread.
 */
final class Keys {
  private static final String END = "\u0004";
  private static final int NO_MORE = -1;

  /**
   * So long no key comes if nobody is leaning on one; a held key comes 10 times a second and more.
   */
  private static final long QUIET_MILLIS = 120;

  private static final long POLL_MILLIS = 100;
  private static final char ESCAPE = '\u001b';
  private static final char RUB_OUT = '\u007f';

  /** How what was typed is seen. */
  private enum Echo {
    /** The terminal does it, Enter included. */
    BY_TERMINAL,
    /** We do it. */
    OURS,
    /** Nobody typed it: only a question's line is ended. */
    LINE_END
  }

  private final Input in;
  private final Shown out;
  private final Optional<Tty> tty;
  private final Runnable atEnd;
  private final BlockingQueue<Integer> typed = new LinkedBlockingQueue<>();
  private final StringBuilder line = new StringBuilder();
  private volatile Echo echo;
  private boolean forgetting;

  private Keys(Input in, Shown out, Optional<Tty> tty, Echo echo, Runnable atEnd) {
    this.in = in;
    this.out = out;
    this.tty = tty;
    this.echo = echo;
    this.atEnd = atEnd;
    Thread reader = new Thread(this::readToEnd, "keys");
    reader.setDaemon(true);
    reader.start();
  }

  /**
   * A person's keys at a terminal, one by one.
   *
   * @param in what is read instead where the terminal can't be opened
   * @param out where they are echoed
   * @param atEnd told when no more will come; called from the thread that reads
   */
  static Keys at(Tty tty, Input in, Shown out, Runnable atEnd) {
    return new Keys(in, out, Optional.of(tty), Echo.BY_TERMINAL, atEnd);
  }

  /** Lines of the standard input, whatever it is. */
  static Keys lines(Input in, Shown out) {
    Echo echo = in.canAnswer() ? Echo.BY_TERMINAL : Echo.LINE_END;
    return new Keys(in, out, Optional.empty(), echo, () -> {});
  }

  /**
   * Forgets what was typed until now, and what is typed on until there is a pause. What a file or a
   * pipe says was written beforehand anyway: it stays.
   */
  void forget() {
    if (echo == Echo.LINE_END) {
      return;
    }
    synchronized (typed) {
      forgetting = !typed.contains(NO_MORE);
      typed.removeIf(key -> key != NO_MORE);
    }
    line.setLength(0);
  }

  /** A line, if one is ended within a tenth of a second. */
  Optional<String> poll() {
    return poll("");
  }

  /**
   * A line, or a key that is an answer by itself.
   *
   * @param single the keys that need no Enter if they come first, small letters
   */
  Optional<String> poll(String single) {
    return poll(single, POLL_MILLIS);
  }

  /** Likewise, if that is ended within so many milliseconds of the wall. */
  Optional<String> poll(String single, long millis) {
    try {
      Optional<String> answer = Optional.empty();
      Optional<Integer> key = Optional.ofNullable(typed.poll(millis, TimeUnit.MILLISECONDS));
      while (key.isPresent() && answer.isEmpty()) {
        answer = key.get() == NO_MORE ? ended() : taken((char) key.get().intValue(), single);
        key = answer.isEmpty() ? Optional.ofNullable(typed.poll()) : Optional.empty();
      }
      return answer;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.of(END);
    }
  }

  /** Whether this line says that no more will come. */
  static boolean isEnd(String line) {
    return line.equals(END);
  }

  /** The last line may lack its end; the end itself is met again by whoever asks again. */
  private Optional<String> ended() {
    typed.add(NO_MORE);
    String last = line.toString().strip();
    line.setLength(0);
    return Optional.of(last.isEmpty() ? END : last);
  }

  private Optional<String> taken(char key, String single) {
    if (key == '\r' || key == '\n') {
      String whole = line.toString().strip();
      line.setLength(0);
      endLine("");
      return Optional.of(whole);
    }
    char small = Character.toLowerCase(key);
    if (line.length() == 0 && single.indexOf(small) >= 0) {
      endLine(String.valueOf(key));
      return Optional.of(String.valueOf(small));
    }
    if (key == END.charAt(0) && line.length() == 0) {
      return Optional.of(END);
    }
    edit(key);
    return Optional.empty();
  }

  private void edit(char key) {
    if (key == RUB_OUT || key == '\b') {
      if (line.length() > 0) {
        line.setLength(line.length() - 1);
        if (echo == Echo.OURS) {
          out.control(Shown.Control.RUB_OUT);
        }
      }
    } else if (!Character.isISOControl(key)) {
      line.append(key);
      if (echo == Echo.OURS) {
        out.print(key);
      }
    }
    out.flush();
  }

  private void endLine(String shown) {
    if (echo != Echo.BY_TERMINAL) {
      out.println(echo == Echo.OURS ? shown : "");
    }
  }

  private void readToEnd() {
    try {
      readAll(reader());
    } catch (IOException e) {
      // The terminal is gone: as if it had been closed.
    }
    synchronized (typed) {
      forgetting = false;
      typed.add(NO_MORE);
    }
    atEnd.run();
  }

  private NonBlockingReader reader() {
    Optional<NonBlockingReader> keys = tty.flatMap(Tty::reader);
    if (keys.isPresent()) {
      echo = Echo.OURS;
    }
    return keys.orElseGet(
        () ->
            NonBlocking.nonBlocking(
                "input", NonBlocking.nonBlocking("input", in.stream()), StandardCharsets.UTF_8));
  }

  private void readAll(NonBlockingReader reader) throws IOException {
    int key = reader.read(QUIET_MILLIS);
    while (key != NonBlockingReader.EOF) {
      if (key == ESCAPE) {
        skipSequence(reader);
      } else {
        keep(key);
      }
      key = reader.read(QUIET_MILLIS);
    }
  }

  private void keep(int key) {
    synchronized (typed) {
      if (key == NonBlockingReader.READ_EXPIRED) {
        forgetting = false;
      } else if (!forgetting) {
        typed.add(key);
      }
    }
  }

  /** What an arrow or a function key sends (ECMA-48) is no answer to anything. */
  private static void skipSequence(NonBlockingReader reader) throws IOException {
    int key = reader.read(QUIET_MILLIS);
    if (key == '[' || key == 'O') {
      do {
        key = reader.read(QUIET_MILLIS);
      } while (key >= ' ' && key < '@');
    }
  }
}
