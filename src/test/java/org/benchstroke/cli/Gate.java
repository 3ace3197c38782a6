package org.benchstroke.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * A way between a run and a server on real sockets, which fails once, at a stated request: the
 * network that no one here wrote is the kernel's.
 */
final class Gate implements AutoCloseable {
  /** How it fails. */
  enum Failure {
    /** The connection is reset; whoever comes again is let through. */
    RESET,
    /** The connection is reset, and nobody is let in any more. */
    GONE,
    /** The other side has vanished without a word: nothing comes any more on this connection. */
    HALF_OPEN,
    /** The answer comes one byte at a time, slower than any deadline, on this connection. */
    DRIP
  }

  private static final long DRIP_MILLIS = 400;

  private final ServerSocket listener;
  private final int target;
  private final Failure failure;
  private final AtomicInteger left;
  private final Set<Socket> sockets = ConcurrentHashMap.newKeySet();
  private final ScheduledExecutorService drips = Executors.newSingleThreadScheduledExecutor();

  private Gate(int target, Failure failure, int afterRequests) throws IOException {
    this.listener = new ServerSocket(0, 16, InetAddress.getLoopbackAddress());
    this.target = target;
    this.failure = failure;
    this.left = new AtomicInteger(afterRequests);
  }

  /** Opens a way to a port of this machine. */
  static Gate to(int target, Failure failure, int afterRequests) throws IOException {
    Gate gate = new Gate(target, failure, afterRequests);
    daemon(gate::accept);
    return gate;
  }

  int port() {
    return listener.getLocalPort();
  }

  /** Whether it has failed. */
  boolean failed() {
    return left.get() < 0;
  }

  private void accept() {
    while (!listener.isClosed()) {
      try {
        Socket client = listener.accept();
        Socket server = new Socket(InetAddress.getLoopbackAddress(), target);
        client.setTcpNoDelay(true);
        server.setTcpNoDelay(true);
        sockets.add(client);
        sockets.add(server);
        Way way = new Way(client, server);
        daemon(way::requests);
        daemon(way::answers);
      } catch (IOException e) {
        // Closed: nobody is let in any more.
      }
    }
  }

  /** One connection through it. */
  private final class Way {
    private final Socket client;
    private final Socket server;
    private volatile boolean broken;

    Way(Socket client, Socket server) {
      this.client = client;
      this.server = server;
    }

    void requests() {
      byte[] buffer = new byte[4096];
      try {
        InputStream in = client.getInputStream();
        OutputStream out = server.getOutputStream();
        for (int count = in.read(buffer); count >= 0; count = in.read(buffer)) {
          if (left.getAndDecrement() == 0) {
            fail();
          }
          if (!broken || failure == Failure.DRIP) {
            out.write(buffer, 0, count);
          }
        }
      } catch (IOException e) {
        // Reset, as it was meant to be, or over.
      }
    }

    void answers() {
      byte[] buffer = new byte[4096];
      try (client;
          server) {
        InputStream in = server.getInputStream();
        OutputStream out = client.getOutputStream();
        for (int count = in.read(buffer); count >= 0; count = in.read(buffer)) {
          if (!broken) {
            out.write(buffer, 0, count);
          } else if (failure == Failure.DRIP) {
            for (int i = 0; i < count; i++) {
              byte one = buffer[i];
              var unused =
                  drips.schedule(
                      () -> drip(out, one), (i + 1) * DRIP_MILLIS, TimeUnit.MILLISECONDS);
            }
          }
        }
      } catch (IOException e) {
        // Reset, as it was meant to be, or over.
      }
    }

    private void fail() throws IOException {
      broken = true;
      int port = port();
      if (failure == Failure.GONE) {
        listener.close();
      }
      if (failure == Failure.GONE || failure == Failure.RESET) {
        // A linger of 0 makes a close a reset.
        client.setSoLinger(true, 0);
        client.close();
      }
      if (failure == Failure.GONE) {
        keep(port);
      }
    }

    /** Nobody is let in, and the gate of another run can't open there either. */
    private void keep(int port) throws IOException {
      Socket keeper = new Socket();
      sockets.add(keeper);
      keeper.setReuseAddress(true);
      keeper.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
    }

    private void drip(OutputStream out, byte one) {
      try {
        out.write(one);
      } catch (IOException e) {
        // Nobody waits for it any more.
      }
    }
  }

  private static void daemon(Runnable work) {
    Thread thread = new Thread(work, "gate");
    thread.setDaemon(true);
    thread.start();
  }

  @Override
  public void close() throws IOException {
    listener.close();
    drips.shutdownNow();
    for (Socket socket : sockets) {
      socket.close();
    }
  }
}
