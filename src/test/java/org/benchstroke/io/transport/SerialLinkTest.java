package org.benchstroke.io.transport;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.benchstroke.DebianProgram;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.transport.LinkException.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Over pseudo-terminals: all that a serial port does but its wire. */
class SerialLinkTest extends ByteLinkContract {
  @TempDir private Path folder;

  /** The cable's far end, opened by the same class: what it says there has the contract's trust. */
  private static final class CableEnd implements Peer {
    private final SystemClock clock = SystemClock.realTime();
    private final PtyPair pair;
    private ByteLink far;

    CableEnd(Path folder) throws LinkException {
      pair = PtyPair.in(folder);
      far = new SystemLinks().open(pair.far(), ample());
    }

    private Deadline ample() {
      return Deadline.inWall(clock, 20_000 * MILLI);
    }

    @Override
    public Endpoint endpoint() {
      return pair.near();
    }

    @Override
    public void meet() {
      // A cable has nothing to accept.
    }

    @Override
    public void say(byte[] bytes) throws IOException {
      far.send(bytes, ample());
    }

    @Override
    public byte[] hear(int count) throws IOException {
      byte[] all = new byte[count];
      for (int have = 0; have < count; ) {
        have += far.receive(all, have, count - have, ample());
      }
      return all;
    }

    @Override
    public void vanish() {
      pair.pull();
    }

    @Override
    public void comeBack() throws IOException {
      far.close();
      pair.plugIn();
      far = new SystemLinks().open(pair.far(), ample());
    }

    @Override
    public void close() {
      far.close();
      pair.close();
    }
  }

  @Override
  Peer peer() throws IOException {
    return new CableEnd(folder);
  }

  private LinkException refusal(Endpoint endpoint) {
    return catchThrowableOfType(
        LinkException.class,
        () -> new SystemLinks().open(endpoint, Deadline.inWall(clock, 1000 * MILLI)));
  }

  private static Endpoint named(String name, SerialSettings settings) {
    return new Endpoint.Serial(new PortName.Device(name), settings);
  }

  @Test
  void aMissingPortIsSaidWithThoseThere() throws LinkException {
    LinkException refusal = refusal(named("/dev/none-such", PtyPair.SETTINGS));
    assertThat(refusal.kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(refusal).hasMessageStartingWith("there is no port serial:/dev/none-such; ");
    List<SerialPorts.Found> there = SerialPorts.list();
    assertThat(refusal)
        .hasMessageContaining(
            there.isEmpty() ? "this system lists no serial port" : there.get(0).path());
  }

  @Test
  void openedTwiceIsSaid() {
    assertThat(refusal(named(folder.resolve("near").toString(), PtyPair.SETTINGS)))
        .hasMessageContaining("cannot open serial:" + folder.resolve("near") + " (/dev/pts/")
        .hasMessageContaining("this program has it open already");
  }

  @Test
  void openInAnotherProgramIsSaid(@TempDir Path other) throws Exception {
    DebianProgram.require("flock");
    try (PtyPair pair = PtyPair.in(other)) {
      String path = other.resolve("near").toRealPath().toString();
      Process holder = new ProcessBuilder("flock", path, "sh", "-c", "echo held; cat").start();
      try {
        assertThat(holder.inputReader().readLine()).isEqualTo("held");
        assertThat(refusal(pair.near()))
            .hasMessageContaining("in use by another program; close that one");
      } finally {
        // Not destroyed: its shell holds the lock too, and ends with its input.
        holder.getOutputStream().close();
        holder.waitFor();
      }
      new SystemLinks().open(pair.near(), Deadline.inWall(clock, 1000 * MILLI)).close();
    }
  }

  @Test
  @Timeout(20)
  void whatNobodyTakesDoesNotHoldASendUp(@TempDir Path other) throws LinkException {
    SystemClock clock = SystemClock.realTime();
    try (PtyPair cable = PtyPair.in(other);
        ByteLink link = new SystemLinks().open(cable.near(), Deadline.in(clock, 1000 * MILLI))) {
      cable.hang();
      byte[] piece = new byte[1000];
      LinkException stuck =
          catchThrowableOfType(
              LinkException.class,
              () -> {
                // Far more than the system keeps for a port.
                for (int i = 0; i < 1000; i++) {
                  link.send(piece, Deadline.in(clock, 300 * MILLI));
                }
              });
      assertThat(stuck).as("all was taken").isNotNull();
      assertThat(stuck.kind()).isEqualTo(Kind.PORT_GONE);
      assertThat(stuck).hasMessageContaining("took no bytes in time");
    }
  }

  @Test
  void aFileIsNoSerialPort(@TempDir Path other) throws IOException {
    Path file = Files.createFile(other.resolve("notes.txt"));
    assertThat(refusal(named(file.toString(), PtyPair.SETTINGS)))
        .hasMessageContaining("it is not a serial port");
  }

  @Test
  void dsrDtrIsRefusedWhereTheSystemWouldIgnoreIt(@TempDir Path other) {
    SerialSettings settings =
        new SerialSettings(
            9600,
            8,
            SerialSettings.Parity.NONE,
            SerialSettings.StopBits.ONE,
            SerialSettings.FlowControl.DSR_DTR,
            Optional.empty());
    try (PtyPair pair = PtyPair.in(other)) {
      assertThat(refusal(new Endpoint.Serial(pair.near().port(), settings)))
          .hasMessageContaining("no dsr/dtr flow control");
    }
  }

  @Test
  void theNativeLibraryLiesWhereNobodyElseCanWrite() throws IOException {
    List<Path> mapped =
        Files.readAllLines(Path.of("/proc/self/maps")).stream()
            .filter(line -> line.contains("libjSerialComm"))
            .map(line -> Path.of(line.substring(line.indexOf('/'))))
            .distinct()
            .toList();
    assertThat(mapped).hasSize(1);
    Path folder = mapped.get(0);
    while (!folder.getFileName().toString().startsWith("benchstroke")) {
      folder = folder.getParent();
    }
    assertThat(Files.getPosixFilePermissions(folder))
        .containsExactlyInAnyOrder(
            PosixFilePermission.OWNER_READ,
            PosixFilePermission.OWNER_WRITE,
            PosixFilePermission.OWNER_EXECUTE);
    assertThat(System.getProperty("java.io.tmpdir")).doesNotContain("benchstroke");
  }

  @Test
  void anOpenPortDoesNotKeepTheProgramFromEnding(@TempDir Path other) throws Exception {
    try (PtyPair pair = PtyPair.in(other)) {
      Process program =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  System.getProperty("java.class.path"),
                  LeavesOpen.class.getName(),
                  other.resolve("near").toString())
              .redirectErrorStream(true)
              .start();
      assertThat(program.inputReader().readLine()).isEqualTo("open");
      assertThat(program.waitFor(30, TimeUnit.SECONDS)).isTrue();
      assertThat(program.exitValue()).isZero();
      assertThat(pair.near().text()).endsWith("near");
    }
  }

  /** A program that opens a port and ends. */
  static final class LeavesOpen {
    private LeavesOpen() {}

    public static void main(String[] args) throws LinkException {
      ByteLink link =
          new SystemLinks()
              .open(
                  named(args[0], PtyPair.SETTINGS),
                  Deadline.inWall(SystemClock.realTime(), 1000 * MILLI));
      link.send(new byte[] {1, 2, 3}, Deadline.inWall(SystemClock.realTime(), 1000 * MILLI));
      System.out.println("open");
    }
  }
}
