package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.transport.AddressLocks;
import org.benchstroke.io.transport.Capture;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.io.transport.SystemLinks;
import org.benchstroke.io.transport.WireLog;

/**
 * The system's links of a command, its addresses kept to this program, with the transcripts that
 * {@code --capture} asks for.
 *
 * @param opener opens them
 * @param capture writes the transcripts
 * @param held the addresses
 */
public record BenchLinks(LinkOpener opener, Optional<Capture> capture, AddressLocks held)
    implements AutoCloseable {
  private static final DateTimeFormatter SINCE =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss 'UTC'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  /**
   * Addresses, and what for.
   *
   * @param addresses of the instruments, by their names
   * @param work in words, for whoever wants them meanwhile: "a drive by hand"
   */
  public record Wanted(Map<String, Endpoint> addresses, String work) {
    /** All of a bench. */
    public static Wanted of(BenchFile file, String work) {
      Map<String, Endpoint> addresses = new LinkedHashMap<>();
      for (InstrumentSpec each : file.instruments()) {
        addresses.put("\"" + each.name() + "\"", each.endpoint());
      }
      return new Wanted(addresses, work);
    }

    private String names(Endpoint endpoint) {
      List<String> names =
          addresses.entrySet().stream()
              .filter(each -> each.getValue().equals(endpoint))
              .map(Map.Entry::getKey)
              .toList();
      return String.join(", ", names) + " at " + endpoint.text();
    }
  }

  /**
   * Opens no link yet.
   *
   * @param warn is told if nobody can be kept away
   * @throws WrongRequest if an address is in use, or the transcripts can't be written
   */
  public static BenchLinks of(Wanted wanted, Optional<Path> folder, Consumer<String> warn)
      throws WrongRequest {
    return captured(WireLog.around(new SystemLinks()), folder, hold(wanted, warn));
  }

  /**
   * Links of another kind, to a bench that nobody else can reach.
   *
   * @throws WrongRequest if the transcripts can't be written
   */
  static BenchLinks to(LinkOpener links, Optional<Path> folder) throws WrongRequest {
    return captured(WireLog.around(links), folder, AddressLocks.none());
  }

  private static BenchLinks captured(LinkOpener links, Optional<Path> folder, AddressLocks held)
      throws WrongRequest {
    if (folder.isEmpty()) {
      return new BenchLinks(links, Optional.empty(), held);
    }
    try {
      Capture capture = Capture.into(folder.get(), links);
      return new BenchLinks(capture, Optional.of(capture), held);
    } catch (IOException e) {
      held.close();
      throw new WrongRequest("--capture " + folder.get() + ": " + e.getMessage());
    }
  }

  private static AddressLocks hold(Wanted wanted, Consumer<String> warn) throws WrongRequest {
    Collection<Endpoint> addresses = wanted.addresses().values();
    try {
      return AddressLocks.take(AddressLocks.sharedFolder(), addresses, holder(wanted.work()));
    } catch (AddressLocks.InUse e) {
      throw new WrongRequest(
          wanted.names(e.endpoint())
              + " is in use by "
              + e.getMessage()
              + ". Two programs on one bench disturb each other: wait until that has ended."
              + " Nothing was done.");
    } catch (IOException e) {
      warn.accept(
          "WARNING: see for yourself that no other program uses this bench; it can't be noted that"
              + " this one does: "
              + e.getMessage());
      return AddressLocks.none();
    }
  }

  private static String holder(String work) {
    Instant now = SystemClock.realTime().utc();
    return work
        + " (user "
        + System.getProperty("user.name", "unknown")
        + ", process "
        + ProcessHandle.current().pid()
        + ", since "
        + SINCE.format(now)
        + ")";
  }

  @Override
  public void close() {
    capture.ifPresent(Capture::close);
    held.close();
  }
}
