package org.benchstroke.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * A browser that says exactly what it is told to, over a socket of its own: other clients mend
 * paths and forbid headers. It keeps cookies. One thread at a time.
 */
public final class Caller {
  private static final int PATIENCE_MILLIS = 60_000;
  private static final Pattern TOKEN = Pattern.compile("data-token=\"([^\"]*)\"");

  private final int port;
  private final Map<String, String> headers = new LinkedHashMap<>();
  private final Map<String, String> cookies = new LinkedHashMap<>();

  /** Of the screen at this port of this machine. */
  public Caller(int port) {
    this.port = port;
    headers.put("Host", "127.0.0.1:" + port);
    headers.put("Accept", "text/html");
  }

  /** An answer: its status, its head as it came and its body as text. */
  public record Answer(int status, String head, String body) {
    /** The values of a header. */
    public List<String> headers(String name) {
      return head.lines()
          .filter(
              line -> line.toLowerCase(Locale.ROOT).startsWith(name.toLowerCase(Locale.ROOT) + ":"))
          .map(line -> line.substring(name.length() + 1).strip())
          .toList();
    }

    public String header(String name) {
      return String.join(", ", headers(name));
    }
  }

  /** With another header, or another value of it; an empty one leaves it out. */
  public Caller with(String header, String value) {
    headers.put(header, value);
    return this;
  }

  public Caller cookie(String name, String value) {
    cookies.put(name, value);
    return this;
  }

  public Map<String, String> cookies() {
    return cookies;
  }

  public Answer get(String path) throws IOException {
    return send("GET", path, "");
  }

  /** Posts a form with the token that this browser's pages have. */
  public Answer post(String path, Map<String, String> fields) throws IOException {
    Map<String, String> all = new LinkedHashMap<>(fields);
    all.put("token", token());
    return postOnly(path, all);
  }

  /** Posts these fields and no token. */
  public Answer postOnly(String path, Map<String, String> fields) throws IOException {
    return send("POST", path, form(fields));
  }

  /** What the pages of this browser carry. */
  public String token() throws IOException {
    Matcher token = TOKEN.matcher(get("/sign-in").body());
    if (!token.find()) {
      throw new IOException("a page without a token");
    }
    return token.group(1);
  }

  /** Signs in by name and secret. */
  public Answer signIn(String name, String secret) throws IOException {
    return post("/sign-in", Map.of("name", name, "pin", secret));
  }

  private static String form(Map<String, String> fields) {
    return fields.entrySet().stream()
        .map(e -> e.getKey() + "=" + URLEncoder.encode(e.getValue(), StandardCharsets.UTF_8))
        .collect(Collectors.joining("&"));
  }

  public Answer send(String method, String path, String body) throws IOException {
    byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
    String type =
        bytes.length == 0 && !method.equals("POST")
            ? ""
            : "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: "
                + bytes.length
                + "\r\n";
    try (Socket socket = open()) {
      socket
          .getOutputStream()
          .write((head(method, path) + type + "\r\n").getBytes(StandardCharsets.ISO_8859_1));
      socket.getOutputStream().write(bytes);
      socket.getOutputStream().flush();
      return answer(socket);
    }
  }

  /** A socket on which nothing has been said. */
  public Socket open() throws IOException {
    Socket socket = new Socket(InetAddress.getLoopbackAddress(), port);
    socket.setSoTimeout(PATIENCE_MILLIS);
    return socket;
  }

  /** The beginning of a request, as far as its own headers. */
  public String head(String method, String path) {
    StringBuilder head =
        new StringBuilder(method + " " + path + " HTTP/1.1\r\nConnection: close\r\n");
    headers.forEach(
        (name, value) -> head.append(value.isEmpty() ? "" : name + ": " + value + "\r\n"));
    if (!cookies.isEmpty()) {
      head.append("Cookie: ");
      head.append(
          cookies.entrySet().stream()
              .map(e -> e.getKey() + "=" + e.getValue())
              .collect(Collectors.joining("; ")));
      head.append("\r\n");
    }
    return head.toString();
  }

  /** All that comes until the other side closes. */
  public Answer answer(Socket socket) throws IOException {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    try (InputStream in = socket.getInputStream()) {
      in.transferTo(all);
    }
    String text = all.toString(StandardCharsets.UTF_8);
    int end = text.indexOf("\r\n\r\n");
    if (end < 0) {
      throw new IOException("no answer: " + text);
    }
    Answer answer =
        new Answer(
            Integer.parseInt(text.substring(9, 12)),
            text.substring(0, end),
            text.substring(end + 4));
    answer.headers("Set-Cookie").forEach(this::keep);
    return answer;
  }

  private void keep(String line) {
    String[] pair = line.substring(0, (line + ";").indexOf(';')).split("=", 2);
    cookies.put(pair[0], pair[1]);
  }

  /** The first line of a stream, read until it is whole; the socket stays open. */
  public static Optional<String> firstLine(Socket socket) throws IOException {
    StringBuilder line = new StringBuilder();
    int next = socket.getInputStream().read();
    while (next >= 0 && next != '\n') {
      line.append((char) next);
      next = socket.getInputStream().read();
    }
    return line.isEmpty() ? Optional.empty() : Optional.of(line.toString().strip());
  }

  /** All cookies that this one has, in another browser. */
  public List<String> ids() {
    return new ArrayList<>(cookies.values());
  }
}
