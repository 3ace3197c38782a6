package org.benchstroke.io.transport;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.Patience;

/**
 * A serial port, for this program alone. A read sleeps in the library as long as the deadline is
 * further off than the library's time-out, whose steps are 100 ms; then the port is asked again and
 * again until the deadline.
 *
 * <p>The library never says that a port is gone; a read of −1 or a write of 0 does.
 */
final class SerialLink implements ByteLink {
  private static final int PIECE = 256;

  /** The shortest time-out of the library's own reads. */
  private static final int STEP_MILLIS = 100;

  private static final long STEP_NANOS = STEP_MILLIS * 1_000_000L;

  /** The paths that this program has open: the system tells only other programs apart. */
  private static final Set<String> OPEN = ConcurrentHashMap.newKeySet();

  private final Endpoint.Serial endpoint;
  private final SerialPort port;
  private final String path;
  private final Patience patience = new Patience();
  private final SendGuard guard = SendGuard.of(this::close);
  private final byte[] scrap = new byte[PIECE];
  private volatile boolean closed;

  private SerialLink(Endpoint.Serial endpoint, SerialPort port, String path) {
    this.endpoint = endpoint;
    this.port = port;
    this.path = path;
  }

  static SerialLink open(Endpoint.Serial endpoint) throws LinkException {
    SerialPort port = SerialPorts.named(endpoint.port());
    String path = port.getSystemPortPath();
    if (!OPEN.add(path)) {
      throw notOpened(endpoint, path, "this program has it open already, on another line");
    }
    boolean opened = false;
    try {
      configure(port, endpoint, path);
      opened = port.openPort();
      if (!opened) {
        String why = SerialFault.words(port.getLastErrorCode(), windows(), endpoint.settings());
        throw notOpened(endpoint, path, why);
      }
      return new SerialLink(endpoint, port, path);
    } finally {
      if (!opened) {
        OPEN.remove(path);
      }
    }
  }

  private static LinkException notOpened(Endpoint.Serial endpoint, String path, String why) {
    String which = endpoint.text().endsWith(path) ? "" : " (" + path + ")";
    return new LinkException(
        LinkException.Kind.PORT_GONE, "cannot open " + endpoint.text() + which + ": " + why);
  }

  private static void configure(SerialPort port, Endpoint.Serial endpoint, String path)
      throws LinkException {
    SerialSettings settings = endpoint.settings();
    if (settings.flowControl() == SerialSettings.FlowControl.DSR_DTR && !windows()) {
      // The library takes the setting and then does nothing about it.
      throw notOpened(endpoint, path, "this system has no dsr/dtr flow control");
    }
    boolean set =
        port.setComPortParameters(
                settings.speed(), settings.dataBits(), stopBits(settings), parity(settings))
            && port.setFlowControl(flowControl(settings))
            && port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, STEP_MILLIS, 0)
            && (settings.rs485().isEmpty() || switched(port, settings.rs485().get()));
    if (!set) {
      throw notOpened(endpoint, path, "it does not take " + settings.text());
    }
  }

  private static boolean switched(SerialPort port, SerialSettings.Rs485 rs485) {
    return port.setRs485ModeParameters(
        true,
        rs485.rtsActiveHigh(),
        rs485.termination(),
        rs485.receiveDuringSend(),
        rs485.beforeSendMicros(),
        rs485.afterSendMicros());
  }

  private static int parity(SerialSettings settings) {
    return switch (settings.parity()) {
      case NONE -> SerialPort.NO_PARITY;
      case EVEN -> SerialPort.EVEN_PARITY;
      case ODD -> SerialPort.ODD_PARITY;
      case MARK -> SerialPort.MARK_PARITY;
      case SPACE -> SerialPort.SPACE_PARITY;
    };
  }

  private static int stopBits(SerialSettings settings) {
    return switch (settings.stopBits()) {
      case ONE -> SerialPort.ONE_STOP_BIT;
      // POSIX has one flag: 2 stop bits, which with 5 data bits are 1.5.
      case ONE_AND_A_HALF ->
          windows() ? SerialPort.ONE_POINT_FIVE_STOP_BITS : SerialPort.TWO_STOP_BITS;
      case TWO -> SerialPort.TWO_STOP_BITS;
    };
  }

  private static int flowControl(SerialSettings settings) {
    return switch (settings.flowControl()) {
      case NONE -> SerialPort.FLOW_CONTROL_DISABLED;
      case RTS_CTS -> SerialPort.FLOW_CONTROL_RTS_ENABLED | SerialPort.FLOW_CONTROL_CTS_ENABLED;
      case DSR_DTR -> SerialPort.FLOW_CONTROL_DSR_ENABLED | SerialPort.FLOW_CONTROL_DTR_ENABLED;
      case XON_XOFF ->
          SerialPort.FLOW_CONTROL_XONXOFF_IN_ENABLED | SerialPort.FLOW_CONTROL_XONXOFF_OUT_ENABLED;
    };
  }

  private static boolean windows() {
    return System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
  }

  @Override
  public Endpoint endpoint() {
    return endpoint;
  }

  /** The library waits for room for ever; the guard does not. */
  @Override
  public void send(byte[] bytes, Deadline deadline) throws LinkException {
    guard.begin(deadline);
    try {
      for (int sent = 0; sent < bytes.length; ) {
        int count = closed ? -1 : port.writeBytes(bytes, bytes.length - sent, sent);
        if (count <= 0) {
          throw gone();
        }
        sent += count;
      }
    } finally {
      guard.end();
    }
  }

  @Override
  public int receive(byte[] buffer, int offset, int length, Deadline deadline)
      throws LinkException {
    if (deadline.passed()) {
      throw noReply();
    }
    int count = 0;
    while (count == 0 && deadline.remainingWallNanos() > STEP_NANOS) {
      count = read(buffer, offset, length);
    }
    if (count == 0) {
      count = await(buffer, offset, length, deadline);
    }
    if (count == 0) {
      throw noReply();
    }
    return count;
  }

  @Override
  public int drain(long quietNanos, Deadline deadline) throws LinkException {
    int thrown = 0;
    int count = await(scrap, 0, scrap.length, quiet(quietNanos, deadline));
    while (count > 0) {
      thrown += count;
      if (deadline.passed()) {
        throw new LinkException(
            LinkException.Kind.NO_REPLY, endpoint.text() + " does not stop talking");
      }
      count = await(scrap, 0, scrap.length, quiet(quietNanos, deadline));
    }
    return thrown;
  }

  private static Deadline quiet(long quietNanos, Deadline deadline) {
    return Deadline.inWall(deadline.clock(), quietNanos);
  }

  /** What has come by the deadline; 0 if nothing has. Asks at least once. */
  private int await(byte[] buffer, int offset, int length, Deadline deadline) throws LinkException {
    patience.begin();
    try {
      for (int count = readNow(buffer, offset, length); ; ) {
        if (count > 0 || deadline.passed()) {
          return count;
        }
        patience.pause(deadline.remainingWallNanos());
        count = readNow(buffer, offset, length);
      }
    } finally {
      patience.end();
    }
  }

  /** What is there now, without waiting for more. */
  private int readNow(byte[] buffer, int offset, int length) throws LinkException {
    int waiting = closed ? -1 : port.bytesAvailable();
    if (waiting < 0) {
      throw gone();
    }
    return waiting == 0 ? 0 : read(buffer, offset, Math.min(waiting, length));
  }

  /** Waits for the first byte, at most one step of the library. */
  private int read(byte[] buffer, int offset, int length) throws LinkException {
    int count = closed ? -1 : port.readBytes(buffer, length, offset);
    if (count < 0) {
      throw gone();
    }
    return count;
  }

  @Override
  public void close() {
    synchronized (this) {
      if (closed) {
        return;
      }
      closed = true;
    }
    port.closePort();
    guard.forget();
    OPEN.remove(path);
  }

  private LinkException noReply() {
    return new LinkException(
        LinkException.Kind.NO_REPLY, "nothing came from " + endpoint.text() + " in time");
  }

  private LinkException gone() {
    String why =
        guard.stuck()
            ? "it took no bytes in time and was closed"
            : closed ? "it was closed" : "the port or its device is not there any more";
    return new LinkException(
        LinkException.Kind.PORT_GONE, "the link to " + endpoint.text() + " is gone: " + why);
  }
}
