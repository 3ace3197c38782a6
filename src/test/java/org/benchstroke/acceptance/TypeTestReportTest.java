package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.benchstroke.report.BudgetTable;
import org.benchstroke.report.HtmlReport;
import org.benchstroke.report.JsonReport;
import org.benchstroke.verdict.JudgedRun;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The report of a full type test: its pictures, its budgets and its risks. */
class TypeTestReportTest {
  private static final Path BENCH = Path.of("demo-data/benches/motor-power-relay.toml");
  private static JudgedRun run;
  private static String html;

  @BeforeAll
  static void runIt() throws Exception {
    String text = Files.readString(Path.of("demo-data/procedures/full-type-test.toml"));
    run =
        VirtualBench.with("healthy-b", BENCH)
            .tests(text.substring(text.indexOf("[[test]]")))
            .judge();
    html = new HtmlReport().html(run, Optional.of("type-test.jsonl"));
    Files.writeString(Path.of("target/type-test.html"), html);
    Files.writeString(Path.of("target/type-test.json"), new JsonReport().json(run));
    Files.writeString(Path.of("target/type-test-budgets.txt"), BudgetTable.text(run));
  }

  @Test
  void everyDynamicTestHasItsPictures() {
    assertThat(pictures("step")).hasSize(12);
    assertThat(pictures("ramp")).hasSize(2);
    assertThat(pictures("residual")).hasSize(2);
    assertThat(pictures("stairs")).hasSize(12);
    assertThat(pictures("hold")).hasSize(5);
  }

  private static List<String> pictures(String kind) {
    return Pattern.compile("<title id=\"" + kind + "-plot-\\d+-title\">")
        .matcher(html)
        .results()
        .map(MatchResult::group)
        .distinct()
        .toList();
  }
}
