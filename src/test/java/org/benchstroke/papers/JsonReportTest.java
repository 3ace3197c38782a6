package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.junit.jupiter.api.Test;

class JsonReportTest {
  private final JsonReport report = new JsonReport();

  @Test
  void theRunIsThereWithItsVerdict() throws Exception {
    JsonNode json = read(SampleRuns.spanFailWithStem());
    assertThat(json.path("format").asInt()).isEqualTo(1);
    assertThat(json.path("report").asText()).isEqualTo("BS-QT-104-0232-20260304T091230Z");
    assertThat(json.path("unit").path("serial").asText()).isEqualTo("QT-104-0232");
    assertThat(json.path("verdict").asText()).isEqualTo("fail");
    assertThat(json.path("passed").asBoolean()).isFalse();
    assertThat(json.path("complete").asBoolean()).isTrue();
    assertThat(json.path("simulated").asBoolean()).isFalse();
    assertThat(json.path("stem_proven").asBoolean()).isTrue();
    assertThat(json.path("findings")).hasSize(2);
    assertThat(json.path("tests").get(1).path("attempts").asInt()).isEqualTo(2);
    assertThat(json.path("stem")).hasSize(10);
    assertThat(json.path("instruments").get(2).path("roles").get(0).asText())
        .isEqualTo("angle reference");
  }

  @Test
  void aMeasureCarriesEverythingThatItWasJudgedBy() throws Exception {
    JsonNode measure = read(SampleRuns.spanFailWithStem()).path("measures").get(6);
    assertThat(measure.path("kind").asText()).isEqualTo("travel_error_pct");
    assertThat(measure.path("place").asText()).isEqualTo("75 % up");
    assertThat(measure.path("truth").asText()).isEqualTo("feedback");
    assertThat(measure.path("value").doubleValue()).isEqualTo(0.93);
    assertThat(measure.path("unit").asText()).isEqualTo("%");
    double half = SampleRuns.budget().expand(0.95).half();
    assertThat(measure.path("u").doubleValue()).isEqualTo(half);
    assertThat(measure.path("coverage").doubleValue()).isEqualTo(0.95);
    assertThat(measure.path("nu").doubleValue()).isGreaterThan(19.0);
    assertThat(measure.path("limit_low").doubleValue()).isEqualTo(-1.0);
    assertThat(measure.path("limit_high").doubleValue()).isEqualTo(1.0);
    assertThat(measure.path("guard_factor").doubleValue()).isEqualTo(1.0);
    assertThat(measure.path("word").asText()).isEqualTo("conditional pass");
    assertThat(measure.path("probability").doubleValue()).isEqualTo(0.912);
    assertThat(measure.path("method").asText()).isEqualTo("travel-error/1");
    assertThat(measure.path("accuracy_ratio").doubleValue()).isEqualTo(1.0 / half);
    assertThat(measure.path("k_basis").asText()).isEqualTo("shape of the sum");
  }

  @Test
  void aBudgetAddsUpToTheStatedUncertainty() throws Exception {
    JsonNode measure = read(SampleRuns.spanFailWithStem()).path("measures").get(6);
    double squares = 0.0;
    for (JsonNode c : measure.path("budget")) {
      double standard = c.path("known").doubleValue() / c.path("divisor").doubleValue();
      assertThat(c.path("standard").doubleValue()).isCloseTo(standard, within(1e-12));
      double part = Math.abs(c.path("sensitivity").doubleValue()) * standard;
      assertThat(c.path("contribution").doubleValue()).isCloseTo(part, within(1e-12));
      squares += part * part;
      assertThat(c.path("unit").asText()).isNotEmpty();
    }
    double half = measure.path("k").doubleValue() * Math.sqrt(squares);
    assertThat(measure.path("u").doubleValue()).isCloseTo(half, within(1e-9));
  }

  @Test
  void aLimitSaysWhatItsRuleRisks() throws Exception {
    JsonNode limit = read(SampleRuns.spanFailWithStem()).path("limits").get(0);
    assertThat(limit.path("kind").asText()).isEqualTo("travel_error_pct");
    assertThat(limit.path("guard_band").doubleValue()).isEqualTo(limit.path("u").doubleValue());
    // A guard band of U leaves half of the 5 % beyond U on either side.
    assertThat(limit.path("false_accept").doubleValue()).isCloseTo(0.025, within(0.0005));
    assertThat(limit.path("false_reject").doubleValue()).isCloseTo(0.025, within(0.0005));
    assertThat(limit.path("accepted_wrongly").doubleValue()).isBetween(0.0, 0.001);
    assertThat(limit.path("not_accepted_wrongly").doubleValue()).isBetween(0.01, 0.1);
  }

  @Test
  void whatDoesNotExistHasNoKey() throws Exception {
    JsonNode measures = read(SampleRuns.interrupted()).path("measures");
    JsonNode missing = measures.get(4);
    assertThat(missing.path("word").asText()).isEqualTo("no result");
    for (String key : List.of("value", "u", "k", "nu", "probability")) {
      assertThat(missing.has(key)).as(key).isFalse();
    }
    JsonNode clean = read(SampleRuns.cleanPass()).path("measures");
    JsonNode strokeTime = clean.get(clean.size() - 1);
    assertThat(strokeTime.has("u")).isTrue();
    assertThat(strokeTime.has("nu")).as("infinite").isFalse();
    JsonNode unlimited = clean.get(13);
    assertThat(unlimited.has("value")).isTrue();
    assertThat(unlimited.has("limit_high") || unlimited.has("word")).isFalse();
  }

  @Test
  void keysKeepTheirOrder() throws Exception {
    List<String> keys = new ArrayList<>();
    read(SampleRuns.cleanPass()).fieldNames().forEachRemaining(keys::add);
    assertThat(keys)
        .containsExactly(
            "format",
            "report",
            "began_utc",
            "program",
            "unit",
            "bench",
            "place",
            "procedure",
            "procedure_version",
            "verdict",
            "reason",
            "passed",
            "complete",
            "simulated",
            "stem_proven",
            "findings",
            "record_flaws",
            "tests",
            "measures",
            "limits",
            "limits_together",
            "orders",
            "feedback",
            "stem",
            "diagnosis",
            "twin",
            "instruments");
  }

  @Test
  void theSameRunIsTheSameBytesInEveryPlace() {
    String here = report.json(new TwinAndCauses(SampleRuns.cleanPass()));
    String there =
        Elsewhere.call(() -> new JsonReport().json(new TwinAndCauses(SampleRuns.cleanPass())));
    assertThat(there).isEqualTo(here);
    assertThat(here).doesNotContain("\r").endsWith("}\n");
  }

  @Test
  void hostileWordsAreEscaped() throws Exception {
    String hostile = "a\"b\\c\n</script>\u0001";
    assertThat(read(SampleRuns.withSerial(hostile)).path("unit").path("serial").asText())
        .isEqualTo(hostile);
  }

  private JsonNode read(JudgedRun run) throws Exception {
    return new ObjectMapper().readTree(report.json(new TwinAndCauses(run)));
  }
}
