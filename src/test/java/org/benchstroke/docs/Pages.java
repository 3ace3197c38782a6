package org.benchstroke.docs;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The project's documents as text: pages, fenced blocks, headings and tables of keys. */
final class Pages {
  private static final Pattern FENCE = Pattern.compile("\\s*```(.*)");
  private static final Pattern CODE = Pattern.compile("`([^`]+)`");

  private Pages() {}

  /** A fenced block: where it is, the words after the fence, and its text. */
  record Block(Path page, String info, String text) {
    @Override
    public String toString() {
      return page + " " + info + ": " + text.lines().findFirst().orElse("");
    }
  }

  /** All documents. */
  static List<Path> all() {
    List<Path> pages = new ArrayList<>(List.of(Path.of("README.md"), Path.of("DEVELOPERS.md")));
    for (String folder : List.of("docs", "demo-data", "simulators", ".github")) {
      try (Stream<Path> files = Files.walk(Path.of(folder))) {
        files.filter(f -> f.toString().endsWith(".md")).sorted().forEach(pages::add);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return pages;
  }

  static String text(Path page) {
    try {
      return Files.readString(page);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The fenced blocks of all pages. */
  static List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    for (Path page : all()) {
      String info = null;
      StringBuilder text = new StringBuilder();
      for (String line : text(page).lines().toList()) {
        Matcher fence = FENCE.matcher(line);
        if (!fence.matches()) {
          text.append(line).append('\n');
        } else if (info == null) {
          info = fence.group(1).strip();
          text.setLength(0);
        } else {
          blocks.add(new Block(page, info, text.toString()));
          info = null;
        }
      }
      if (info != null) {
        throw new IllegalStateException(page + ": a block is never closed");
      }
    }
    return blocks;
  }

  /** A page without its fenced blocks. */
  static String prose(Path page) {
    StringBuilder prose = new StringBuilder();
    boolean inside = false;
    for (String line : text(page).lines().toList()) {
      if (FENCE.matcher(line).matches()) {
        inside = !inside;
      } else if (!inside) {
        prose.append(line).append('\n');
      }
    }
    return prose.toString();
  }

  /** The anchors that a page's headings make. */
  static Set<String> anchors(Path page) {
    return prose(page)
        .lines()
        .filter(line -> line.startsWith("#"))
        .map(line -> line.replaceFirst("^#+ ", "").toLowerCase(Locale.ROOT))
        .map(line -> line.replaceAll("[^\\p{L}\\p{N} _-]", "").replace(' ', '-'))
        .collect(Collectors.toSet());
  }

  /**
   * A row of a table.
   *
   * @param table the code words of the heading above, or its text where it has none, no brackets
   * @param first the code words of the first cell, no brackets
   * @param cells all cells
   */
  record Row(String table, List<String> first, List<String> cells) {}

  /** The rows of those tables on a page whose first column is headed by the word. */
  static List<Row> rows(Path page, String first) {
    List<Row> rows = new ArrayList<>();
    String heading = "";
    boolean inTable = false;
    for (String line : prose(page).lines().toList()) {
      if (line.startsWith("#")) {
        heading = name(line.replaceFirst("^#+ ", ""));
        inTable = false;
      } else if (!line.startsWith("|")) {
        inTable = false;
      } else if (line.startsWith("| " + first + " |")) {
        inTable = true;
      } else if (inTable && !line.startsWith("|---")) {
        List<String> cells = Stream.of(line.split("\\|", -1)).skip(1).map(String::strip).toList();
        rows.add(new Row(heading, codes(cells.get(0)), cells));
      }
    }
    return rows;
  }

  /** The code words in the first column of those tables, by table. */
  static Map<String, Set<String>> tables(Path page, String first) {
    Map<String, Set<String>> tables = new TreeMap<>();
    for (Row row : rows(page, first)) {
      tables.computeIfAbsent(row.table(), t -> new TreeSet<>()).addAll(row.first());
    }
    return tables;
  }

  private static String name(String heading) {
    List<String> codes = codes(heading);
    return codes.isEmpty() ? heading : String.join(" ", codes);
  }

  private static List<String> codes(String text) {
    return CODE.matcher(text)
        .results()
        .map(found -> found.group(1).replaceAll("[\\[\\]]", ""))
        .toList();
  }
}
