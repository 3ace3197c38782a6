package org.benchstroke.io.transport;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import org.benchstroke.core.clock.Deadline;

/** A TCP connection, unbuffered, without Nagle's delay. */
final class TcpLink implements ByteLink {
  private static final long NANOS_PER_MILLI = 1_000_000L;

  private final Endpoint.Tcp endpoint;
  private final Socket socket;
  private final InputStream in;
  private final OutputStream out;
  private final SendGuard guard;

  private TcpLink(Endpoint.Tcp endpoint, Socket socket) throws IOException {
    this.endpoint = endpoint;
    this.socket = socket;
    this.in = socket.getInputStream();
    this.out = socket.getOutputStream();
    this.guard = SendGuard.of(this::close);
  }

  static TcpLink open(Endpoint.Tcp endpoint, Deadline deadline) throws LinkException {
    Socket socket = new Socket();
    try {
      socket.setTcpNoDelay(true);
      InetSocketAddress address = new InetSocketAddress(endpoint.host(), endpoint.port());
      if (address.isUnresolved()) {
        throw new IOException("the name " + endpoint.host() + " is not known");
      }
      socket.connect(address, waitMillis(deadline));
      return new TcpLink(endpoint, socket);
    } catch (IOException e) {
      closeQuietly(socket);
      throw new LinkException(
          LinkException.Kind.PORT_GONE,
          "cannot connect to " + endpoint.text() + ": " + whyNot(e),
          e);
    }
  }

  /** Of a time-out the system says nothing, or it says so in other words each time. */
  private static String whyNot(IOException e) {
    return e instanceof SocketTimeoutException ? "no answer in time" : e.getMessage();
  }

  @Override
  public Endpoint endpoint() {
    return endpoint;
  }

  @Override
  public void send(byte[] bytes, Deadline deadline) throws LinkException {
    guard.begin(deadline);
    try {
      out.write(bytes);
      out.flush();
    } catch (IOException e) {
      throw gone(guard.stuck() ? "it took no bytes in time and was closed" : e.getMessage(), e);
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
    try {
      socket.setSoTimeout(waitMillis(deadline));
      int count = in.read(buffer, offset, length);
      if (count < 0) {
        throw gone("the other side closed the connection", null);
      }
      return count;
    } catch (SocketTimeoutException e) {
      throw noReply();
    } catch (LinkException e) {
      throw e;
    } catch (IOException e) {
      throw gone(e.getMessage(), e);
    }
  }

  @Override
  public int drain(long quietNanos, Deadline deadline) throws LinkException {
    byte[] scrap = new byte[256];
    int thrown = 0;
    try {
      long quietMillis = (quietNanos + NANOS_PER_MILLI - 1) / NANOS_PER_MILLI;
      socket.setSoTimeout((int) Math.max(1, quietMillis));
      while (quietNanos > 0 || in.available() > 0) {
        int count = in.read(scrap);
        if (count < 0) {
          throw gone("the other side closed the connection", null);
        }
        thrown += count;
        if (deadline.passed()) {
          throw new LinkException(
              LinkException.Kind.NO_REPLY, endpoint.text() + " does not stop talking");
        }
      }
      return thrown;
    } catch (SocketTimeoutException quiet) {
      return thrown;
    } catch (LinkException e) {
      throw e;
    } catch (IOException e) {
      throw gone(e.getMessage(), e);
    }
  }

  @Override
  public void close() {
    guard.forget();
    closeQuietly(socket);
  }

  /** A socket's time-out of 0 would mean for ever, so at least 1 ms. */
  private static int waitMillis(Deadline deadline) {
    long millis = (deadline.remainingWallNanos() + NANOS_PER_MILLI - 1) / NANOS_PER_MILLI;
    return (int) Math.max(1L, Math.min(millis, Integer.MAX_VALUE));
  }

  private LinkException noReply() {
    return new LinkException(
        LinkException.Kind.NO_REPLY, "nothing came from " + endpoint.text() + " in time");
  }

  private LinkException gone(String why, Throwable cause) {
    return new LinkException(
        LinkException.Kind.PORT_GONE, "the link to " + endpoint.text() + " is gone: " + why, cause);
  }

  private static void closeQuietly(Socket socket) {
    try {
      socket.close();
    } catch (IOException ignored) {
      // Nothing is lost: a socket that fails to close is gone anyway.
    }
  }
}
