package org.benchstroke.io.transport;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;

/** A server on 127.0.0.1 that treats each connection as the test says, one after the other. */
public final class SocketPeer implements AutoCloseable {
  /** What it does with one connection; the connection is closed afterwards. */
  public interface Manner {
    void treat(InputStream in, OutputStream out) throws IOException, InterruptedException;
  }

  private final ServerSocket server;
  private final ExecutorService thread = Executors.newSingleThreadExecutor();
  private final Future<?> serving;

  public SocketPeer(Manner... manners) throws IOException {
    server = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
    serving = thread.submit(() -> serve(manners));
  }

  public Endpoint endpoint() {
    return new Endpoint.Tcp("127.0.0.1", server.getLocalPort());
  }

  private Void serve(Manner... manners) throws IOException, InterruptedException {
    for (Manner manner : manners) {
      try (Socket socket = server.accept()) {
        socket.setTcpNoDelay(true);
        treat(manner, socket);
      }
    }
    return null;
  }

  private static void treat(Manner manner, Socket socket) throws InterruptedException {
    try {
      manner.treat(socket.getInputStream(), socket.getOutputStream());
    } catch (IOException clientIsGone) {
      // As it may be: what it makes of that is what the test asks.
    }
  }

  /** Fails unless every connection was made, and heard what its manner expects. */
  public void assertServed() throws Exception {
    serving.get(5, TimeUnit.SECONDS);
  }

  @Override
  public void close() throws IOException {
    server.close();
    thread.shutdownNow();
  }

  /** Reads a line, its line feed included; what has come when the client closes, if it does. */
  public static String line(InputStream in) throws IOException {
    StringBuilder line = new StringBuilder();
    int b = in.read();
    while (b >= 0) {
      line.append((char) b);
      if (b == '\n') {
        return line.toString();
      }
      b = in.read();
    }
    return line.toString();
  }

  /** Waits until the client has closed. */
  public static void untilClosed(InputStream in) throws IOException {
    while (in.read() >= 0) {
      // What else it says does not matter.
    }
  }
}
