package org.benchstroke.io.transport;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.DebianProgram;

/**
 * Two pseudo-terminals joined like a cable, by socat. What is sent into one comes out of the other.
 */
public final class PtyPair implements AutoCloseable {
  /** A pseudo-terminal has no parity bit. */
  public static final SerialSettings SETTINGS =
      new SerialSettings(
          19200,
          8,
          SerialSettings.Parity.NONE,
          SerialSettings.StopBits.ONE,
          SerialSettings.FlowControl.NONE,
          Optional.empty());

  private static final String READY = "starting data transfer loop";

  private final Path near;
  private final Path far;
  private Process socat;

  private PtyPair(Path near, Path far) {
    this.near = near;
    this.far = far;
  }

  /** Plugs the cable in; its ends are links in the folder, "near" and "far". */
  public static PtyPair in(Path folder) {
    return in(folder, "");
  }

  /** Likewise, with something behind both names, so that several find room in the folder. */
  public static PtyPair in(Path folder, String behind) {
    DebianProgram.require("socat");
    PtyPair pair = new PtyPair(folder.resolve("near" + behind), folder.resolve("far" + behind));
    pair.plugIn();
    return pair;
  }

  /** Plugs it in again, under the same names. */
  public void plugIn() {
    try {
      socat = new ProcessBuilder("socat", "-d", "-d", pty(near), pty(far)).start();
      awaitReady();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Both ends vanish. */
  public void pull() {
    signal("CONT");
    socat.destroy();
    socat.onExit().join();
  }

  /** Nothing comes through any more, though both ends stay: an adapter that hangs. */
  public void hang() {
    signal("STOP");
  }

  private void signal(String name) {
    try {
      new ProcessBuilder("kill", "-" + name, Long.toString(socat.pid())).start().onExit().join();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String pty(Path link) {
    return "pty,raw,echo=0,link=" + link;
  }

  /** Reads on, so that socat never waits for room to say something. */
  private void awaitReady() throws IOException {
    BufferedReader said =
        new BufferedReader(new InputStreamReader(socat.getErrorStream(), StandardCharsets.UTF_8));
    StringBuilder all = new StringBuilder();
    String line = said.readLine();
    while (line != null && !line.contains(READY)) {
      all.append(line).append('\n');
      line = said.readLine();
    }
    if (line == null) {
      throw new IOException("socat did not start: " + all);
    }
    Thread reader = new Thread(() -> readOn(said), "socat");
    reader.setDaemon(true);
    reader.start();
  }

  private static void readOn(BufferedReader said) {
    try {
      while (said.readLine() != null) {
        // What it says once it works is of no use.
      }
    } catch (IOException e) {
      // Its output is closed with it.
    }
  }

  public Endpoint.Serial near() {
    return endpoint(near);
  }

  public Endpoint.Serial far() {
    return endpoint(far);
  }

  private static Endpoint.Serial endpoint(Path link) {
    return new Endpoint.Serial(new PortName.Device(link.toString()), SETTINGS);
  }

  @Override
  public void close() {
    pull();
  }
}
