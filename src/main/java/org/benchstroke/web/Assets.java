package org.benchstroke.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;

/**
 * Scripts, styles and drawings of the pages, from the program file and from nowhere else: a name is
 * a name, never a path. Any thread.
 */
final class Assets {
  private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9-]*\\.(css|js|svg)");
  private static final Map<String, String> TYPES =
      Map.of(
          "css", "text/css; charset=utf-8",
          "js", "text/javascript; charset=utf-8",
          "svg", "image/svg+xml");

  /** A library's files, under names of ours. */
  private static final Map<String, String> OF_LIBRARIES =
      Map.of(
          "uplot.js", "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.iife.min.js",
          "uplot.css", "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.min.css");

  private final Map<String, Optional<byte[]>> read = new ConcurrentHashMap<>();

  void register(JavalinConfig config) {
    config.routes.get("/static/{name}", this::serve);
  }

  private void serve(Context context) throws Refusal {
    String name = context.pathParam("name");
    Optional<byte[]> bytes =
        NAME.matcher(name).matches() ? read.computeIfAbsent(name, Assets::read) : Optional.empty();
    if (bytes.isEmpty()) {
      throw Refusal.notThere("There is no such file.");
    }
    context.header("Cache-Control", "no-cache");
    context.contentType(TYPES.get(name.substring(name.lastIndexOf('.') + 1)));
    context.result(bytes.get());
  }

  private static Optional<byte[]> read(String name) {
    String resource = OF_LIBRARIES.getOrDefault(name, "/org/benchstroke/web/" + name);
    try (InputStream in = Assets.class.getResourceAsStream(resource)) {
      return in == null ? Optional.empty() : Optional.of(in.readAllBytes());
    } catch (IOException e) {
      return Optional.empty();
    }
  }
}
