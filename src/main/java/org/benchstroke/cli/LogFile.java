package org.benchstroke.cli;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.encoder.PatternLayoutEncoder;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.FileAppender;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.SystemClock;
import org.slf4j.LoggerFactory;

/**
 * A log in a file, while one command goes on: what went over the wire, what was left out, stacks.
 * Loaded only where a log is asked for. One at a time.
 */
final class LogFile implements AutoCloseable {
  /** The first line begins so: what is no log is not written to. */
  static final String MARK = "# benchstroke log";

  private static final String OURS = "org.benchstroke";
  private static final String PATTERN =
      "%d{yyyy-MM-dd'T'HH:mm:ss.SSS'Z', UTC} %-5level %logger{0}:"
          + " %replace(%msg){'[\\x00-\\x1f\\x7f-\\x9f]', '?'}%n%ex";

  private final LoggerContext context;
  private final FileAppender<ILoggingEvent> appender;
  private final Level before;

  private LogFile(LoggerContext context, FileAppender<ILoggingEvent> appender, Level before) {
    this.context = context;
    this.appender = appender;
    this.before = before;
  }

  /**
   * Begins; what is in the file already stays before it.
   *
   * @param arguments of the command
   * @throws WrongRequest if it can't be written, or is something else than a log
   */
  static LogFile begin(Path file, String level, List<String> arguments) throws WrongRequest {
    writeHead(file, arguments);
    LoggerContext context = (LoggerContext) LoggerFactory.getILoggerFactory();
    PatternLayoutEncoder encoder = new PatternLayoutEncoder();
    encoder.setContext(context);
    encoder.setPattern(PATTERN);
    encoder.start();
    FileAppender<ILoggingEvent> appender = new FileAppender<>();
    appender.setContext(context);
    appender.setFile(file.toString());
    appender.setEncoder(encoder);
    appender.start();
    Logger ours = context.getLogger(OURS);
    LogFile log = new LogFile(context, appender, ours.getLevel());
    context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME).addAppender(appender);
    ours.setLevel(Level.toLevel(level));
    return log;
  }

  private static void writeHead(Path file, List<String> arguments) throws WrongRequest {
    try {
      if (Files.exists(file) && Files.size(file) > 0 && !isLog(file)) {
        throw new WrongRequest(
            "--log: " + file + ": exists, and is not a log of this program; name another file");
      }
      String head =
          MARK
              + ", "
              + Version.text()
              + ", "
              + SystemClock.realTime().utc()
              + ", "
              + CrashFile.withoutSecrets(arguments)
              + "\n";
      Files.writeString(file, head, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw WrongRequest.unwritable(file, e);
    }
  }

  private static boolean isLog(Path file) throws IOException {
    try (var in = Files.newInputStream(file)) {
      return new String(in.readNBytes(MARK.length()), java.nio.charset.StandardCharsets.UTF_8)
          .equals(MARK);
    }
  }

  /** What a command says of itself. */
  void tell(String line) {
    context.getLogger(LogFile.class).info(line);
  }

  /** What it failed at, with its stack. */
  void failed(Throwable e) {
    context.getLogger(LogFile.class).info("it failed", e);
  }

  @Override
  public void close() {
    context.getLogger(OURS).setLevel(before);
    context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME).detachAppender(appender);
    appender.stop();
  }
}
