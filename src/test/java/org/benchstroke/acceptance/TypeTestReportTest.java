package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.analysis.StepResponse;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.papers.BudgetTable;
import org.benchstroke.papers.Elsewhere;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;

/** The report of a full type test: its pictures, its budgets and its risks. */
class TypeTestReportTest {
  private static final Path BENCH = Path.of("demo-data/benches/motor-power-relay.toml");
  private static final Pattern SVG = Pattern.compile("<svg xmlns.*?</svg>", Pattern.DOTALL);
  private static final Pattern ID = Pattern.compile(" id=\"([^\"]+)\"");
  private static JudgedRun run;
  private static String html;

  @BeforeAll
  static void runIt() throws Exception {
    String text = Files.readString(Path.of("demo-data/procedures/full-type-test.toml"));
    run =
        VirtualBench.with("healthy-b", BENCH)
            .tests(text.substring(text.indexOf("[[test]]")))
            .judge();
    html = new HtmlReport().html(new TwinAndCauses(run), Optional.of("type-test.jsonl"));
    Files.writeString(Path.of("target/type-test.html"), html);
  }

  @Test
  void everyDynamicTestHasItsPictures() {
    assertThat(pictures("step")).hasSize(12);
    assertThat(pictures("ramp")).hasSize(2);
    assertThat(pictures("residual")).hasSize(2);
    assertThat(pictures("stairs")).hasSize(12);
    assertThat(pictures("hold")).hasSize(5);
  }

  @Test
  void everyPictureIsWellFormedAndNoNameIsUsedTwice() throws Exception {
    List<String> ids = new ArrayList<>();
    for (MatchResult svg : SVG.matcher(html).results().toList()) {
      Element root =
          DocumentBuilderFactory.newInstance()
              .newDocumentBuilder()
              .parse(new InputSource(new StringReader(svg.group())))
              .getDocumentElement();
      assertThat(root.getElementsByTagName("desc").item(0).getTextContent()).endsWith(".");
      ID.matcher(svg.group()).results().map(id -> id.group(1)).forEach(ids::add);
    }
    assertThat(ids).hasSizeGreaterThan(100).doesNotHaveDuplicates();
  }

  @Test
  void theSameRecordIsTheSameBytesInEveryPlace() {
    String there =
        Elsewhere.call(
            () -> new HtmlReport().html(new TwinAndCauses(run), Optional.of("type-test.jsonl")));
    assertThat(there).isEqualTo(html);
    assertThat(Elsewhere.call(() -> new JsonReport().json(new TwinAndCauses(run))))
        .isEqualTo(new JsonReport().json(new TwinAndCauses(run)));
    assertThat(Elsewhere.call(() -> BudgetTable.text(run))).isEqualTo(BudgetTable.text(run));
  }

  /** Thousands of samples lie behind the pictures; a mail shall carry the page. */
  @Test
  void thePageStaysSmall() {
    assertThat(html.length()).isLessThan(800_000);
  }

  @Test
  void theMarksOfAStepAreTheJudgedFigures() {
    StepResponse response =
        run.traces().stream()
            .filter(TestTrace.OfStep.class::isInstance)
            .map(TestTrace.OfStep.class::cast)
            .filter(s -> s.place().words().equals("10 % up"))
            .findFirst()
            .flatMap(TestTrace.OfStep::response)
            .orElseThrow();
    assertThat(response.deadTime().value()).isEqualTo(value(MeasureKind.DEAD_TIME));
    assertThat(response.t63().value()).isEqualTo(value(MeasureKind.STEP_T63));
    assertThat(response.settling().value()).isEqualTo(value(MeasureKind.STEP_SETTLING));
  }

  @Test
  void theFurthestOfTheDrawnResidualIsTheJudgedOne() {
    TestTrace.OfRamp ramp =
        run.traces().stream()
            .filter(TestTrace.OfRamp.class::isInstance)
            .map(TestTrace.OfRamp.class::cast)
            .findFirst()
            .orElseThrow();
    double drawn =
        ramp.residual().orElseThrow().samples().stream()
            .mapToDouble(s -> Math.abs(s.percent()))
            .max()
            .orElseThrow();
    double judged =
        measures(MeasureKind.RAMP_RESIDUAL, ramp.place().words()).get(0).value().orElseThrow();
    assertThat(drawn).isCloseTo(judged, within(1e-9));
  }

  @Test
  void pageAndTerminalHoldTheSameBudgets() {
    String terminal = BudgetTable.text(run);
    for (Judgement j : run.judgements()) {
      if (j.limit().isPresent() && j.measure().budget().isPresent()) {
        for (Component c : j.measure().budget().get().components()) {
          assertThat(terminal).contains(c.source());
          assertThat(html).contains(c.source());
        }
      }
    }
    assertThat(terminal).contains("from the shape of the sum of these inputs");
    assertThat(html).contains("from the shape of the sum of these inputs");
  }

  /** The sensor jumps within the step: its trace is shown, and nothing is marked in it. */
  @Test
  void aStepWithAnImpossibleSlewHasNoMarks() {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    Simulation worn =
        healthy.withUnit(
            healthy.parameters().with(healthy.parameters().sensor().withDeadSpot(62, 64)));
    JudgedRun jumped =
        VirtualBench.with(worn)
            .tests("[[test]]\ntest = \"step response\"\nat_pct = 50\nsizes_pct = [50]\n")
            .judge();
    assertThat(jumped.judgements().stream().map(Judgement::measure))
        .filteredOn(m -> m.kind() == MeasureKind.STEP_T63)
        .allMatch(m -> m.value().isEmpty());
    assertThat(jumped.traces())
        .filteredOn(TestTrace.OfStep.class::isInstance)
        .allSatisfy(trace -> assertThat(((TestTrace.OfStep) trace).response()).isEmpty());
    String page = new HtmlReport().html(new TwinAndCauses(jumped), Optional.empty());
    assertThat(page).doesNotContain(">T63</text>");
    assertThat(html).contains(">T63</text>");
  }

  private static double value(MeasureKind kind) {
    return measures(kind, "10 % up").get(0).value().orElseThrow();
  }

  private static List<Measure> measures(MeasureKind kind, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.place().words().equals(place))
        .toList();
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
