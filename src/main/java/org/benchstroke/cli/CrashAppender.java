package org.benchstroke.cli;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.ThrowableProxy;
import ch.qos.logback.core.AppenderBase;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Where a run is ended in safety although the program failed, the log is told of it as an error:
 * that gets its {@link CrashFile} here. {@code logback.xml} names it. Any thread.
 */
public final class CrashAppender extends AppenderBase<ILoggingEvent> {
  @Override
  protected void append(ILoggingEvent event) {
    if (event.getLevel().isGreaterOrEqual(Level.ERROR)
        && event.getThrowableProxy() instanceof ThrowableProxy failed) {
      Optional<Path> file = CrashFile.write(failed.getThrowable());
      file.ifPresent(f -> System.err.println("What happened inside is in " + f + "."));
    }
  }
}
