package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What the report says of methods is what the document says that it names. */
class MethodsTest {
  private static final Pattern ID = Pattern.compile("`([a-z-]+/[0-9]+)`");
  private static final Pattern IN_CODE = Pattern.compile("\"([a-z-]+/[0-9]+)\"");
  private static final List<Path> VERDICT =
      Stream.of("judge", "tests").map(Path.of("src/main/java/org/benchstroke")::resolve).toList();

  /** A row of the document: its section, its cells. */
  private record Row(String section, List<String> cells) {
    String id() {
      Matcher id = ID.matcher(cells.get(cells.size() - 1));
      return id.find() ? id.group(1) : "";
    }
  }

  private static List<Row> rows() throws IOException {
    List<Row> rows = new ArrayList<>();
    String section = "";
    for (String line : Files.readAllLines(Path.of(Methods.DOCUMENT))) {
      if (line.startsWith("## ")) {
        section = line.substring(3);
      } else if (line.startsWith("| ") && ID.matcher(line).find()) {
        String[] cells = line.substring(2, line.length() - 2).split("(?<!\\\\) \\| ", -1);
        rows.add(new Row(section, List.of(cells)));
      }
    }
    return rows;
  }

  @Test
  void everyMethodOfTheDocumentIsNamedWithItsSection() throws IOException {
    assertThat(rows()).hasSizeGreaterThan(50);
    for (Row row : rows()) {
      Methods.Method method = Methods.of(row.id()).orElseThrow(() -> new AssertionError(row.id()));
      boolean elsewhere =
          row.section().equals("As ordered") && row.cells().get(1).startsWith("see ");
      if (!elsewhere && !row.id().startsWith("power-loss")) {
        assertThat(method.section()).as(row.id()).isEqualTo(row.section());
      }
    }
  }

  /**
   * What the document has from memory is not claimed; what it calls common practice has no source.
   */
  @Test
  void noStandardIsClaimedThatTheDocumentDoesNotHave() throws IOException {
    for (Row row : rows()) {
      String source = Methods.of(row.id()).orElseThrow().source();
      if (row.cells().size() == 4 && row.cells().get(2).contains("from memory")) {
        boolean whole = !row.cells().get(2).startsWith("common practice");
        assertThat(!whole || source.contains("from memory; not claimed")).as(row.id()).isTrue();
      }
      for (String standard : List.of("ISA-51.1", "IEC 61298-2", "ISO 22153", "IEV 351")) {
        boolean there =
            rows().stream()
                .filter(r -> r.id().equals(row.id()))
                .anyMatch(r -> r.cells().toString().contains(standard) || asAbove(r));
        assertThat(!source.contains(standard) || there).as(row.id() + " " + standard).isTrue();
      }
    }
  }

  private static boolean asAbove(Row row) {
    return row.cells().contains("as above");
  }

  @Test
  void everyMethodOfTheCodeIsKnown() throws IOException {
    List<String> ids = new ArrayList<>();
    for (Path folder : VERDICT) {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
          IN_CODE.matcher(Files.readString(file)).results().forEach(id -> ids.add(id.group(1)));
        }
      }
    }
    assertThat(ids).hasSizeGreaterThan(25).allMatch(id -> Methods.of(id).isPresent());
  }
}
