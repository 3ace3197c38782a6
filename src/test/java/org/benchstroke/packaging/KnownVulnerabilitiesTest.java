package org.benchstroke.packaging;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.entry;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;

/**
 * The question and the answers of a database of vulnerabilities, in the form of OSV's batch query.
 */
class KnownVulnerabilitiesTest {
  private static final List<String> PARTS =
      List.of("pkg:maven/org.example/sound@1.0", "pkg:maven/org.example/flawed@2.0");

  private static URI at(HttpServer server) {
    return URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/v1/querybatch");
  }

  private static HttpServer answering(String answer, AtomicReference<String> asked)
      throws IOException {
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/",
        exchange -> {
          asked.set(new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
          byte[] bytes = answer.getBytes(StandardCharsets.UTF_8);
          exchange.sendResponseHeaders(200, bytes.length);
          exchange.getResponseBody().write(bytes);
          exchange.close();
        });
    server.start();
    return server;
  }

  @Test
  void whatTheDatabaseKnowsIsNamedByItsPart() throws Exception {
    AtomicReference<String> asked = new AtomicReference<>("");
    HttpServer server =
        answering("{\"results\":[{},{\"vulns\":[{\"id\":\"GHSA-1\"},{\"id\":\"CVE-2\"}]}]}", asked);
    try {
      assertThat(KnownVulnerabilities.of(PARTS, at(server)).orElseThrow())
          .containsExactly(entry(PARTS.get(1), List.of("GHSA-1", "CVE-2")));
      JsonNode question = new ObjectMapper().readTree(asked.get());
      assertThat(question.at("/queries/1/package/purl").asText()).isEqualTo(PARTS.get(1));
    } finally {
      server.stop(0);
    }
  }

  @Test
  void whatIsNoAnswerIsNotTakenForNone() throws Exception {
    HttpServer server = answering("{\"results\":[{}]}", new AtomicReference<>(""));
    try {
      assertThat(KnownVulnerabilities.of(PARTS, at(server))).isEmpty();
    } finally {
      server.stop(0);
    }
    int free;
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      free = socket.getLocalPort();
    }
    assertThat(KnownVulnerabilities.of(PARTS, URI.create("http://127.0.0.1:" + free + "/")))
        .isEmpty();
  }

  @Test
  void partsAreThoseOfTheList() throws Exception {
    JsonNode bom =
        new ObjectMapper()
            .readTree(
                "{\"components\":[{\"purl\":\"pkg:maven/a/b@1?type=jar\"},{\"name\":\"x\"}]}");
    assertThat(KnownVulnerabilities.parts(bom)).containsExactly("pkg:maven/a/b@1");
  }
}
