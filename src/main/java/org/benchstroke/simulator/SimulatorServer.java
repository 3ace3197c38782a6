package org.benchstroke.simulator;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.io.transport.Endpoint;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves a simulated bench on sockets of this machine (127.0.0.1) and on serial ports. The unit is
 * stepped up to the clock before each request is answered, and by a ticker in between, always under
 * one lock. All threads are daemons. Safe for any thread.
 */
public final class SimulatorServer implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(SimulatorServer.class);
  private static final long LONGEST_END_MILLIS = 1000;
  private static final byte[] LOCAL = {127, 0, 0, 1};
  private static final double TICK_WALL_NANOS = 20e6;

  private final Object lock = new Object();
  private final SimulatedBench bench;
  private final BenchClock clock;
  private final long start;
  private final Map<Endpoint, ServerSocket> listeners = new LinkedHashMap<>();
  private final Map<Endpoint, SerialPlace> places = new LinkedHashMap<>();
  private final Map<Endpoint, SerialServer> serials = new LinkedHashMap<>();
  private final Set<Socket> clients = ConcurrentHashMap.newKeySet();
  private final List<Thread> threads = new ArrayList<>();
  private volatile boolean closing;

  private SimulatorServer(SimulatedBench bench, BenchClock clock) {
    this.bench = bench;
    this.clock = clock;
    this.start = clock.nanos();
  }

  /**
   * Begins to serve.
   *
   * @param ports the TCP ports to use for the addresses of the bench file; 0, or none given, means
   *     any that is free
   * @throws IOException if a port can't be used
   */
  public static SimulatorServer start(
      SimulatedBench bench, BenchClock clock, Map<Endpoint, Integer> ports) throws IOException {
    return start(bench, clock, ports, List.of(), 0);
  }

  /**
   * Begins to serve, some lines on serial ports at their own speed.
   *
   * @param serial which, and where; the rest is served on TCP
   * @param turnRoundNanos how long an instrument on a serial port thinks before it answers, ns of
   *     the wall
   * @throws IOException if a port can't be used
   */
  public static SimulatorServer start(
      SimulatedBench bench,
      BenchClock clock,
      Map<Endpoint, Integer> ports,
      List<SerialPlace> serial,
      long turnRoundNanos)
      throws IOException {
    SimulatorServer server = new SimulatorServer(bench, clock);
    try {
      for (SerialPlace place : serial) {
        long before = bench.silenceNanos(place.written()) + turnRoundNanos;
        server.places.put(place.written(), place);
        server.serials.put(place.written(), SerialServer.open(place, before));
      }
      for (Endpoint written : bench.ports().keySet()) {
        if (!server.places.containsKey(written)) {
          server.listeners.put(written, listen(ports.getOrDefault(written, 0)));
        }
      }
    } catch (IOException e) {
      server.close();
      throw e;
    }
    server.serials.forEach(
        (written, port) ->
            server.threads.add(
                daemon(
                    "simulator-" + written.text(),
                    () -> port.serve(server.new Connection(written)::answerOpenly))));
    server.listeners.forEach(
        (written, listener) ->
            server.threads.add(
                daemon("simulator-" + written.text(), () -> server.accept(written, listener))));
    server.threads.add(daemon("simulator-ticker", server::tick));
    server.threads.forEach(Thread::start);
    return server;
  }

  /** Where each address of the bench file is really reached, in the file's order. */
  public Map<Endpoint, Endpoint> reached() {
    Map<Endpoint, Endpoint.Tcp> tcp = addresses();
    Map<Endpoint, Endpoint> reached = new LinkedHashMap<>();
    for (Endpoint written : bench.ports().keySet()) {
      SerialPlace place = places.get(written);
      reached.put(written, place == null ? tcp.get(written) : place.nearEnd());
    }
    return reached;
  }

  /** Of these the addresses that are served on TCP. */
  public Map<Endpoint, Endpoint.Tcp> addresses() {
    Map<Endpoint, Endpoint.Tcp> addresses = new LinkedHashMap<>();
    listeners.forEach(
        (written, listener) ->
            addresses.put(written, new Endpoint.Tcp("127.0.0.1", listener.getLocalPort())));
    return addresses;
  }

  /** The bench file that fits. */
  public String benchToml() {
    return benchToml(Optional.empty());
  }

  /**
   * The bench file that fits.
   *
   * @param shared the file by which the clock is shared with who works with the bench, if it is
   */
  public String benchToml(Optional<Path> shared) {
    return bench.benchToml(reached(), clock.scale(), shared);
  }

  /**
   * Turns the hand switch of the motor supply.
   *
   * @return whether it is on now
   */
  public boolean turnMotorSupply() {
    synchronized (lock) {
      bench.motorSupply(!bench.motorSupply());
      return bench.motorSupply();
    }
  }

  /** Stops serving and hangs up on every client; may be repeated. */
  @Override
  public void close() {
    closing = true;
    listeners.values().forEach(SimulatorServer::closeQuietly);
    clients.forEach(SimulatorServer::closeQuietly);
    serials.values().forEach(SerialServer::close);
    threads.forEach(Thread::interrupt);
    try {
      // A port is free only once the thread that waits on it has noticed.
      for (Thread thread : threads) {
        thread.join(LONGEST_END_MILLIS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static ServerSocket listen(int port) throws IOException {
    ServerSocket listener = new ServerSocket();
    try {
      listener.setReuseAddress(true);
      listener.bind(new InetSocketAddress(InetAddress.getByAddress(LOCAL), port));
      return listener;
    } catch (IOException e) {
      closeQuietly(listener);
      throw new IOException(
          "port " + port + " can't be used: " + e.getMessage() + "; choose another", e);
    }
  }

  private void accept(Endpoint written, ServerSocket listener) {
    while (!closing && !listener.isClosed()) {
      try {
        Socket client = listener.accept();
        clients.add(client);
        if (closing) {
          closeQuietly(client);
        }
        String name = "simulator-" + written.text() + "-" + client.getPort();
        daemon(name, () -> serve(written, client)).start();
      } catch (IOException e) {
        LOG.debug("{} stopped listening", written.text(), e);
      }
    }
  }

  private void serve(Endpoint written, Socket client) {
    try (client) {
      client.setTcpNoDelay(true);
      InputStream in = client.getInputStream();
      OutputStream out = client.getOutputStream();
      Connection connection = new Connection(written);
      byte[] buffer = new byte[4096];
      while (connection.isOpen()) {
        int count = in.read(buffer);
        if (count < 0) {
          return;
        }
        connection.answer(
            Arrays.copyOf(buffer, count),
            bytes -> {
              out.write(bytes);
              out.flush();
            });
      }
    } catch (InterruptedException e) {
      LOG.debug("{} is served no more", written.text());
    } catch (IOException e) {
      LOG.debug("a client of {} is gone", written.text(), e);
    } finally {
      clients.remove(client);
    }
  }

  /** One connection to an address; its session is touched under the lock alone. */
  private final class Connection {
    private final Endpoint written;
    private ByteSession session;

    private Connection(Endpoint written) {
      this.written = written;
      synchronized (lock) {
        this.session = bench.connect(written);
      }
    }

    private boolean isOpen() {
      synchronized (lock) {
        bench.advanceTo(clock.nanos() - start);
        return !session.closed();
      }
    }

    /** Sends what the instrument answers, once it is time to, and as slowly as it comes. */
    private void answer(byte[] request, SerialServer.Sender sender)
        throws IOException, InterruptedException {
      byte[] answer;
      long delayNanos;
      List<byte[]> pieces;
      long pauseNanos;
      synchronized (lock) {
        bench.advanceTo(clock.nanos() - start);
        answer = session.feed(request);
        delayNanos = session.delayNanos();
        pieces = session.pieces(answer);
        pauseNanos = session.pauseNanos();
      }
      if (delayNanos > 0) {
        clock.waitUntil(clock.nanos() + delayNanos);
      }
      for (byte[] piece : pieces) {
        sender.send(piece);
        if (pauseNanos > 0) {
          clock.waitUntil(clock.nanos() + pauseNanos);
        }
      }
    }

    /**
     * Likewise on a serial port, which no instrument can close, and whose opening none can see: it
     * is only silent.
     */
    private void answerOpenly(byte[] request, SerialServer.Sender sender)
        throws IOException, InterruptedException {
      synchronized (lock) {
        bench.advanceTo(clock.nanos() - start);
        if (session.closed() || session.deaf()) {
          session = bench.connect(written);
        }
      }
      answer(request, sender);
    }
  }

  private void tick() {
    long tick = (long) (TICK_WALL_NANOS * clock.scale());
    try {
      while (!closing) {
        clock.waitUntil(clock.nanos() + tick);
        synchronized (lock) {
          bench.advanceTo(clock.nanos() - start);
        }
      }
    } catch (InterruptedException e) {
      LOG.debug("the ticker ends");
    }
  }

  private static Thread daemon(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    return thread;
  }

  private static void closeQuietly(AutoCloseable socket) {
    try {
      socket.close();
    } catch (Exception e) {
      LOG.debug("a socket failed to close", e);
    }
  }
}
