package org.benchstroke.io.transport;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;

class TcpLinkTest extends ByteLinkContract {
  private static final class SocketEnd implements Peer {
    private ServerSocket server;
    private Socket socket;

    SocketEnd() throws IOException {
      server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
    }

    @Override
    public Endpoint endpoint() {
      return new Endpoint.Tcp("127.0.0.1", server.getLocalPort());
    }

    @Override
    public void meet() throws IOException {
      socket = server.accept();
      socket.setTcpNoDelay(true);
    }

    @Override
    public void say(byte[] bytes) throws IOException {
      socket.getOutputStream().write(bytes);
    }

    @Override
    public byte[] hear(int count) throws IOException {
      return socket.getInputStream().readNBytes(count);
    }

    @Override
    public void vanish() throws IOException {
      server.close();
      socket.close();
    }

    @Override
    public void comeBack() throws IOException {
      ServerSocket again = new ServerSocket();
      again.setReuseAddress(true);
      again.bind(server.getLocalSocketAddress());
      server = again;
    }

    @Override
    public void close() throws IOException {
      server.close();
      socket.close();
    }
  }

  @Override
  Peer peer() throws IOException {
    return new SocketEnd();
  }
}
