package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;

/** What an assessor looks for on a report (ISO/IEC 17025:2017 7.8.2.1, from memory). */
class AssessorTest {
  private static final Event.Job JOB =
      new Event.Job(
          "Invented Pumps", Map.of(Event.Job.TEMPERATURE, 22.5, Event.Job.HUMIDITY, 41.0));

  /** A clean run for a customer, in a laboratory. */
  private static JudgedRun stated() {
    JudgedRun run = SampleRuns.cleanPass();
    List<Entry> entries = new ArrayList<>(run.record().entries());
    Entry first = entries.get(0);
    entries.add(1, new Entry(2, 0, first.utc(), JOB));
    BenchFile b = run.bench();
    BenchFile bench =
        new BenchFile(
            b.name(),
            b.place(),
            b.samplePeriodSeconds(),
            b.ambient(),
            b.simulation(),
            b.instruments(),
            b.lines(),
            Optional.of(new BenchFile.Laboratory("Invented Shop", "1 Nowhere Street")));
    return new JudgedRun(
        new RunRecord(entries, List.of()),
        bench,
        run.unit(),
        run.procedure(),
        run.tests(),
        run.judgements(),
        run.orders(),
        run.feedback(),
        run.stem(),
        run.traces(),
        run.findings(),
        run.verdict(),
        run.reason(),
        run.complete());
  }

  private static String text(JudgedRun run, Optional<Signatory> authorised) {
    return new HtmlReport()
        .html(new TwinAndCauses(run), Optional.empty(), authorised)
        .replaceAll("<style>[\\s\\S]*?</style>", "")
        .replaceAll("<[^>]*>", " ")
        .replaceAll("\\s+", " ");
  }

  @Test
  void whatWasStatedIsThere() {
    String page = text(stated(), Optional.of(new Signatory("B. Example", "head of the shop")));
    assertThat(page)
        .contains("Laboratory Invented Shop, 1 Nowhere Street")
        .contains("Customer Invented Pumps")
        .contains("Ambient conditions 22.5 °C, 41 % relative humidity")
        .contains("Report authorised by B. Example, head of the shop")
        .contains("Signature ____");
    Signatory by = new Signatory("B. Example", "head of the shop");
    String json = new JsonReport().json(new TwinAndCauses(stated()), Optional.of(by));
    assertThat(json.replaceAll("\\s+", " "))
        .contains("\"authorised\" : { \"name\" : \"B. Example\", \"role\" : \"head of the shop\" }")
        .contains("\"customer\" : \"Invented Pumps\"")
        .contains("\"humidity_pct\" : 41.0")
        .contains("\"address\" : \"1 Nowhere Street\"");
    assertThat(ResultTable.text(stated(), 100))
        .contains("For Invented Pumps.")
        .contains("At the bench: 22.5 °C, 41 % relative humidity.");
  }

  @Test
  void whatNobodyStatedIsCalledThatAndNotInvented() {
    JudgedRun run = SampleRuns.cleanPass();
    assertThat(text(run, Optional.empty()))
        .contains("Laboratory not stated")
        .contains("Customer not stated")
        .contains("Ambient conditions not stated")
        .contains("Report authorised by not stated; this report is not authorised yet")
        .contains("laboratory not stated");
    assertThat(new JsonReport().json(new TwinAndCauses(run)))
        .doesNotContain("customer")
        .doesNotContain("\"authorised\"")
        .doesNotContain("\"ambient\"")
        .doesNotContain("\"laboratory\"");
    assertThat(ResultTable.text(run, 100)).doesNotContain("For ").doesNotContain("At the bench");
  }

  @Test
  void whoTestedAndAlsoAnswersIsSaidSo() {
    JudgedRun run = SampleRuns.cleanPass();
    String operator = run.record().opened().operator();
    assertThat(text(run, Optional.of(new Signatory(operator, "owner"))))
        .contains(operator + ", owner (who also ran the test)");
  }

  @Test
  void methodsAreNamedWithWhereTheyAreDescribed() {
    assertThat(text(SampleRuns.cleanPass(), Optional.empty()))
        .contains("described in docs/explanation/measures.md of the program")
        .contains("travel-error/")
        .contains("in the manner of IEC 61298-2, from memory; not claimed");
  }
}
