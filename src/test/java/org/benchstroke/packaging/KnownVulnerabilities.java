package org.benchstroke.packaging;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Names the known vulnerabilities of the libraries that are shipped, by a database that answers as
 * OSV's does (openssf.org, OSV schema; its batch query). Where none can be reached it says so, and
 * hinders nothing. Stateless.
 */
public final class KnownVulnerabilities {
  private static final Duration PATIENCE = Duration.ofSeconds(20);
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private KnownVulnerabilities() {}

  /** The list of parts (CycloneDX), the database's address. Ends with 1 if it names any. */
  public static void main(String[] args) throws IOException, InterruptedException {
    List<String> parts = parts(MAPPER.readTree(Path.of(args[0]).toFile()));
    Optional<Map<String, List<String>>> known = of(parts, URI.create(args[1]));
    if (known.isEmpty()) {
      System.out.println("Vulnerabilities: not looked for; no database answers at " + args[1]);
      return;
    }
    known.get().forEach((part, ids) -> System.out.println(part + ": " + String.join(", ", ids)));
    System.out.println(
        "Vulnerabilities: known of " + known.get().size() + " of " + parts.size() + " libraries");
    System.exit(known.get().isEmpty() ? 0 : 1);
  }

  /** The package addresses of a list of parts. */
  static List<String> parts(JsonNode bom) {
    List<String> parts = new ArrayList<>();
    for (JsonNode part : bom.path("components")) {
      // The database knows a package by its name and version, without what qualifies them.
      String purl = part.path("purl").asText().replaceFirst("\\?.*$", "");
      if (!purl.isEmpty()) {
        parts.add(purl);
      }
    }
    return parts;
  }

  /** Their known vulnerabilities, by part; empty if nothing answers. */
  static Optional<Map<String, List<String>>> of(List<String> parts, URI database)
      throws InterruptedException {
    try {
      HttpRequest request =
          HttpRequest.newBuilder(database)
              .timeout(PATIENCE)
              .header("Content-Type", "application/json")
              .POST(HttpRequest.BodyPublishers.ofString(question(parts)))
              .build();
      HttpResponse<String> answer =
          HttpClient.newBuilder()
              .connectTimeout(PATIENCE)
              .build()
              .send(request, HttpResponse.BodyHandlers.ofString());
      return answer.statusCode() == 200
          ? named(parts, MAPPER.readTree(answer.body()).path("results"))
          : Optional.empty();
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  private static String question(List<String> parts) throws IOException {
    List<Object> queries = new ArrayList<>();
    parts.forEach(part -> queries.add(Map.of("package", Map.of("purl", part))));
    return MAPPER.writeValueAsString(Map.of("queries", queries));
  }

  /** The answers are in the order of the questions; another number of them is no answer. */
  private static Optional<Map<String, List<String>>> named(List<String> parts, JsonNode results) {
    if (results.size() != parts.size()) {
      return Optional.empty();
    }
    Map<String, List<String>> named = new LinkedHashMap<>();
    for (int i = 0; i < parts.size(); i++) {
      List<String> ids = new ArrayList<>();
      results
          .get(i)
          .path("vulns")
          .forEach(vulnerability -> ids.add(vulnerability.path("id").asText()));
      if (!ids.isEmpty()) {
        named.put(parts.get(i), ids);
      }
    }
    return Optional.of(named);
  }
}
