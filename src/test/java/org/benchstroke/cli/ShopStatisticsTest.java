package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.benchstroke.cli.MadeUpShop.made;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;
import org.benchstroke.ReferenceData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Published data put into an archive, and asked for by the commands. */
class ShopStatisticsTest {
  private static final String HANDBOOK = "nist-handbook-control-charts.json";

  @TempDir Path folder;

  private Path records() {
    return folder.resolve("records");
  }

  private Command command(Object... words) {
    List<Object> arguments = new ArrayList<>(List.of(words));
    arguments.addAll(List.of("--records", records()));
    return Command.run(arguments.toArray());
  }

  private Command table(Object... words) {
    Command asked = command(words);
    assertThat(asked.code()).as(asked.err()).isZero();
    assertThat(asked.err()).isEmpty();
    assertThat(asked.out().lines()).allMatch(line -> line.length() <= 80);
    return asked;
  }

  private JsonNode json(Object... words) throws Exception {
    table(words); // in the same breath: it fits its width
    List<Object> arguments = new ArrayList<>(List.of(words));
    arguments.add("--json");
    Command asked = command(arguments.toArray());
    assertThat(asked.code()).as(asked.err()).isZero();
    return new ObjectMapper().readTree(asked.out());
  }

  private void refused(String message, Object... words) {
    Command asked = command(words);
    assertThat(asked.code()).isEqualTo(2);
    assertThat(asked.out()).isEmpty();
    assertThat(asked.err().strip()).isEqualTo(message);
  }

  private void shop(double... values) throws Exception {
    MadeUpShop shop = new MadeUpShop();
    for (double value : values) {
      shop.add(made().value(value));
    }
    shop.into(records());
  }

  private static double[] numbers(JsonNode list) {
    double[] numbers = new double[list.size()];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = list.get(i).asDouble();
    }
    return numbers;
  }

  /** Source: NIST/SEMATECH e-Handbook 6.3.2.2; results seen quoted, data from memory. */
  @Test
  void trendOfTheHandbooksIndividuals() throws Exception {
    JsonNode example = ReferenceData.json(HANDBOOK).get("individuals_6_3_2_2");
    shop(numbers(example.get("data")));
    JsonNode trend = json("trend", "--type", "QT-15", "--measure", "dead_band_pct");
    JsonNode individuals = trend.get("charts").get(0);
    assertThat(individuals.get("centre").asDouble())
        .isCloseTo(example.get("mean").asDouble(), within(1e-9));
    // the handbook rounds d2 = 1.128379 to 1.128
    double reach = individuals.get("points").get(0).get("high").asDouble();
    double rounded = 1.128379 / 1.128;
    double centre = individuals.get("centre").asDouble();
    assertThat(centre + (reach - centre) * rounded)
        .isCloseTo(example.get("UCL").asDouble(), within(2e-4));
    assertThat(individuals.get("signals")).isEmpty();
    assertThat(trend.get("charts").get(1).get("centre").asDouble())
        .isCloseTo(example.get("MRbar").asDouble(), within(5e-5));
    assertThat(trend.get("values")).hasSize(10);
  }

  @Test
  void aShiftIsNamedAndDrawn() throws Exception {
    MadeUpShop shop = new MadeUpShop();
    for (int i = 0; i < 34; i++) {
      double wave = new double[] {0.02, -0.03, 0.01, -0.01, 0.03, -0.02}[i % 6];
      shop.add(made().serial("QT-" + i).value(0.8 + wave + (i < 25 ? 0.0 : 0.4)));
    }
    shop.add(made().simulated().value(99.0));
    shop.add(made().broken().value(99.0));
    shop.add(made().damaged().value(99.0));
    shop.into(records());
    Path picture = folder.resolve("trend.svg");
    Command trend =
        table("trend", "--type", "QT-15", "--measure", "dead_band_pct", "--svg", picture);
    assertThat(trend.out())
        .contains("Left out: 1 of damaged or changed records, 1 of runs that are not whole.")
        .contains("beyond a limit", "Limits from the first 25 of 34 values")
        .contains("The first 4 are not listed; --most 34 lists all.");
    assertThat(Files.readString(picture))
        .contains("individual values", "moving ranges", "EWMA", "beyond a limit")
        .doesNotContain("SIMULATED");
    JsonNode told = json("trend", "--type", "QT-15", "--measure", "dead_band_pct");
    List<Integer> beyond = new ArrayList<>();
    told.get("charts")
        .get(0)
        .get("signals")
        .forEach(
            signal -> {
              if (signal.get("rule").asText().equals("beyond_limit")) {
                beyond.add(signal.get("index").asInt());
              }
            });
    assertThat(beyond).containsExactly(25, 26, 27, 28, 29, 30, 31, 32, 33);
    JsonNode simulated =
        json("trend", "--type", "QT-15", "--measure", "dead_band_pct", "--simulated");
    assertThat(simulated.get("simulated").asBoolean()).isTrue();
    assertThat(simulated.get("values")).hasSize(1);
    assertThat(simulated.get("no_answer").get("lack").asText()).isEqualTo("too_few");
  }

  @Test
  void whatIsNotOneMeasureIsRefusedInALine() throws Exception {
    new MadeUpShop()
        .add(made().value(1.0))
        .add(
            made()
                .measure(
                    "dead_band_pct",
                    "point 25",
                    "stem",
                    1.0,
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    Optional.empty()))
        .into(records());
    refused(
        "--place: found nothing, in these runs there are \"point 25\", \"point 50\"; name one of"
            + " them",
        "trend",
        "--type",
        "QT-15",
        "--measure",
        "dead_band_pct");
    refused(
        "--truth: found \"feedback\", in these runs there are \"stem\"; name one of them",
        "trend",
        "--type",
        "QT-15",
        "--measure",
        "dead_band_pct",
        "--place",
        "point 50",
        "--truth",
        "feedback");
    refused(
        "trend: values of all units together have no trend; add --serial, --type or --bench",
        "trend",
        "--measure",
        "dead_band_pct");
    refused(
        "--measure: found \"dead band\", allowed is the key of a measure as in a unit type file,"
            + " such as dead_band_pct; all of them stand in docs/reference/unit-type-file.md",
        "capability",
        "--type",
        "QT-15",
        "--measure",
        "dead band");
    refused(
        "no run that is asked for has the measure hysteresis_pct; ask for others",
        "gauge",
        "--measure",
        "hysteresis_pct");
    refused(
        "--since: found \"yesterday\", allowed is a day as YYYY-MM-DD, 2026-06-01",
        "yield",
        "--since",
        "yesterday");
  }

  /** Wilson's intervals, computed with SciPy: each row as a unit type of its own. */
  @Test
  void yieldWithItsInterval() throws Exception {
    JsonNode rows = ReferenceData.json("statistics-scipy.json").get("wilson");
    MadeUpShop shop = new MadeUpShop();
    List<JsonNode> small = new ArrayList<>();
    for (JsonNode row : rows) {
      if (row.get("tested").asInt() <= 300 && row.get("coverage").asDouble() == 0.95) {
        small.add(row);
        for (int i = 0; i < row.get("tested").asInt(); i++) {
          MadeUpShop.Made unit = made().type("type " + (100 + small.size())).serial("U-" + i);
          shop.add(i < row.get("passed").asInt() ? unit : unit.failed());
        }
      }
    }
    assertThat(small).isNotEmpty();
    shop.into(records());
    JsonNode lines = json("yield").get("lines");
    for (int i = 0; i < small.size(); i++) {
      JsonNode line = lines.get(i);
      assertThat(line.get("type").asText()).isEqualTo("type " + (101 + i));
      assertThat(line.get("jobs").asInt()).isEqualTo(small.get(i).get("tested").asInt());
      assertThat(line.get("low").asDouble())
          .isCloseTo(small.get(i).get("low").asDouble(), within(1e-6));
      assertThat(line.get("high").asDouble())
          .isCloseTo(small.get(i).get("high").asDouble(), within(1e-6));
    }
  }

  /** A job counts once, by its first whole run; a simulated one only where it is asked for. */
  @Test
  void yieldIsOfJobsAsFound() throws Exception {
    new MadeUpShop()
        .add(made().order("1").broken())
        .add(made().order("1").failed())
        .add(made().order("1"))
        .add(made().order("2").operator("Ben"))
        .add(made().order("3").simulated())
        .into(records());
    JsonNode all = json("yield", "--by", "operator");
    assertThat(all.get("all").get("jobs").asInt()).isEqualTo(2);
    assertThat(all.get("all").get("first_passes").asInt()).isEqualTo(1);
    assertThat(all.get("lines").get(1).get("operator").asText()).isEqualTo("Ben");
    assertThat(json("yield", "--by", "month").get("lines").get(0).get("month").asText())
        .isEqualTo("2026-01");
    assertThat(json("yield", "--simulated").get("all").get("jobs").asInt()).isEqualTo(1);
    assertThat(table("yield", "--simulated").out()).contains("SIMULATED");
    assertThat(table("yield", "--bench", "none").out())
        .contains("Nothing in the archive is like that.");
  }

  @Test
  void causesAreThoseOfUnitsAsFound() throws Exception {
    new MadeUpShop()
        .add(made().order("1").failed().cause("zero_shift", true).cause("span", false))
        .add(made().order("1").failed().cause("zero_shift", true))
        .add(made().order("2").failed().cause("stiction", true).failing("dead_band_pct"))
        .add(made().order("3").failed().cause("stiction", true).cause("zero_shift", true))
        .add(made().order("4").cause("healthy", true))
        .add(made().order("5").cause("stiction", true).simulated())
        .into(records());
    Path picture = folder.resolve("causes.svg");
    assertThat(table("causes", "--svg", picture).out())
        .contains("Likely causes of 4 jobs as found", "stiction", "zero shift", "100.0 %");
    JsonNode rows = json("causes").get("rows");
    assertThat(rows).hasSize(2);
    assertThat(rows.get(0).get("cause").asText()).isEqualTo("stiction");
    assertThat(rows.get(0).get("count").asInt()).isEqualTo(2);
    assertThat(rows.get(1).get("count").asInt()).isEqualTo(2);
    assertThat(rows.get(1).get("cumulative").asDouble()).isEqualTo(1.0);
    assertThat(Files.readString(picture)).contains("stiction", "2, 50 %");
    JsonNode measures = json("causes", "--measures").get("rows");
    assertThat(measures).hasSize(1);
    assertThat(measures.get(0).get("measure").asText()).isEqualTo("dead_band_pct");
    assertThat(table("causes", "--type", "none").out()).contains("None was seen.");
  }

  /**
   * Source: Cano, Moguerza, Redchuk, Six Sigma with R (2012) chapter 5; data seen. Its parts are
   * units here, its operators operators.
   */
  @Test
  void gaugeOfAPublishedStudy() throws Exception {
    sixSigma("time1");
    JsonNode results = ReferenceData.json("gauge-rr-sixsigma-results.json");
    JsonNode reduced = results.get("reduced_model_without_interaction");
    Path picture = folder.resolve("gauge.svg");
    String[] asked = {"gauge", "--measure", "dead_band_pct"};
    assertThat(table("gauge", "--measure", "dead_band_pct", "--svg", picture).out())
        .contains("repeatability (EV)", "Distinct categories: ");
    JsonNode told = json((Object[]) asked);
    assertThat(told.get("method").asText()).isEqualTo("crossed_pooled");
    assertThat(Math.pow(told.get("gauge").get("deviation").asDouble(), 2))
        .isCloseTo(reduced.get("gauge_rr").asDouble(), within(1e-8));
    assertThat(told.get("gauge").get("percent_of_study").asDouble())
        .isCloseTo(reduced.get("percent_study_variation_grr").asDouble(), within(1e-3));
    assertThat(told.get("distinct_categories").asInt())
        .isEqualTo((int) reduced.get("ndc_untruncated").asDouble());
    JsonNode wide = json("gauge", "--measure", "dead_band_pct", "--tolerance", "1.1");
    assertThat(wide.get("gauge").get("percent_of_tolerance").asDouble())
        .isCloseTo(reduced.get("percent_tolerance_6sigma_0.7_1.8").asDouble(), within(1e-3));
    assertThat(Files.readString(picture)).contains("units (PV)");
    refused(
        "--tolerance: found 0, allowed is above 0",
        "gauge",
        "--measure",
        "dead_band_pct",
        "--tolerance",
        "0");
  }

  private void sixSigma(String column) throws Exception {
    MadeUpShop shop = new MadeUpShop();
    for (Map<String, String> row : ReferenceData.csv("gauge-rr-sixsigma.csv")) {
      shop.add(
          made()
              .serial(row.get("prototype"))
              .operator(row.get("operator"))
              .value(Double.parseDouble(row.get(column))));
    }
    shop.into(records());
  }

  @Test
  void aThinCellOfAGaugeStudyIsNamed() throws Exception {
    new MadeUpShop()
        .add(made().serial("A").value(1.0))
        .add(made().serial("A").value(1.1))
        .add(made().serial("B").operator("Ben").value(1.2))
        .add(made().serial("B").operator("Ben").value(1.3))
        .into(records());
    Command thin = command("gauge", "--measure", "dead_band_pct");
    assertThat(thin.code()).isEqualTo(2);
    assertThat(thin.err()).startsWith("unit A by Ben has 0 values, at least 2 are needed");
  }

  @Test
  void aPlanSaysWhoseTurnItIs() throws Exception {
    Path plan = folder.resolve("plan.toml");
    Object[] made = {
      "gauge-plan",
      "--units",
      "A,B",
      "--operators",
      "Ann,Ben",
      "--repeats",
      "2",
      "--seed",
      "7",
      plan
    };
    Command first = Command.run(made);
    assertThat(first.code()).as(first.err()).isZero();
    String text = Files.readString(plan);
    assertThat(text.lines().filter("[[turn]]"::equals)).hasSize(8);
    Command again =
        Command.run("gauge-plan", "--units", "A,B", "--operators", "Ann", "--seed", "7", plan);
    assertThat(again.code()).isEqualTo(2); // a plan that is under way is not replaced
    Files.writeString(plan, text.replaceFirst("begun = .*", "begun = \"2026-01-01T00:00:00Z\""));

    MadeUpShop shop = new MadeUpShop();
    shop.add(made().serial("A").operator("Ann").value(1.0));
    shop.add(made().serial("other").operator("Ann").value(9.0));
    shop.add(made().serial("A").operator("Ben").broken().value(9.0));
    shop.into(records());
    Command next = command("gauge", "--plan", plan, "--measure", "dead_band_pct");
    assertThat(next.code()).as(next.err()).isZero();
    assertThat(next.out()).startsWith("1 of 8 turns are done.\nNext: unit ");

    double value = 1.0;
    for (String unit : List.of("A", "B", "A", "B")) {
      for (String operator : List.of("Ann", "Ben")) {
        value += unit.equals("A") ? 0.1 : 0.7;
        shop.add(made().serial(unit).operator(operator).value(value));
      }
    }
    shop.into(records());
    JsonNode done = json("gauge", "--plan", plan, "--measure", "dead_band_pct");
    assertThat(done.get("units").asInt()).isEqualTo(2);
    assertThat(done.get("repeats").asInt()).isEqualTo(2);
    Files.writeString(plan, text.replace("crossed", "crosswise"));
    assertThat(command("gauge", "--plan", plan, "--measure", "dead_band_pct").err())
        .contains("plan.toml", "design", "crosswise");
  }

  /**
   * Source: Montgomery, piston rings, limits 73.95 and 74.05 mm; data seen. σ of all 125 values; Pp
   * and its interval computed with SciPy.
   */
  @Test
  void capabilityOfThePistonRings() throws Exception {
    JsonNode computed = ReferenceData.json("statistics-scipy.json").get("piston_ring_pp");
    JsonNode recomputed =
        ReferenceData.json("montgomery-piston-rings-results.json").get("recomputed");
    double[] rings =
        DoubleStream.of(ReferenceData.column("montgomery-piston-rings.csv", "diameter_mm"))
            .limit(125)
            .toArray();
    MadeUpShop shop = new MadeUpShop();
    for (double ring : rings) {
      shop.add(made().value(ring, OptionalDouble.of(73.95), OptionalDouble.of(74.05)));
    }
    shop.add(made().simulated().value(1.0, OptionalDouble.of(0.0), OptionalDouble.of(2.0)));
    shop.into(records());
    JsonNode told = json("capability", "--type", "QT-15", "--measure", "dead_band_pct");
    assertThat(told.get("count").asInt()).isEqualTo(125);
    assertThat(told.get("sigma_overall").asDouble())
        .isCloseTo(recomputed.get("s_overall").asDouble(), within(1e-12));
    assertThat(told.get("pp").get("value").asDouble())
        .isCloseTo(computed.get("pp").asDouble(), within(1e-9));
    assertThat(told.get("pp").get("low").asDouble())
        .isCloseTo(computed.get("low").asDouble(), within(1e-6));
    assertThat(told.get("pp").get("high").asDouble())
        .isCloseTo(computed.get("high").asDouble(), within(1e-6));
    assertThat(told.get("basis").asText()).isEqualTo("normal");
    assertThat(
            json("capability", "--type", "QT-15", "--measure", "dead_band_pct", "--high", "75")
                .has("cp"))
        .isFalse();
  }

  @Test
  void capabilityWantsOneLimit() throws Exception {
    new MadeUpShop()
        .add(made().value(1.0, OptionalDouble.empty(), OptionalDouble.of(2.0)))
        .add(made().value(1.0, OptionalDouble.empty(), OptionalDouble.of(3.0)))
        .into(records());
    refused(
        "these runs have 2 different limits; state one with --low and --high",
        "capability",
        "--type",
        "QT-15",
        "--measure",
        "dead_band_pct");
    assertThat(
            table("capability", "--type", "QT-15", "--measure", "dead_band_pct", "--high", "2")
                .out())
        .contains("No answer: there are 2 values, at least 10 are needed.");
  }

  @Test
  void dueIsOfTheNewestRealRunOfEachBench() throws Exception {
    new MadeUpShop()
        .add(made().bench("Bench A").instrument("OLD", "2026-01-10"))
        .add(made().bench("Bench A").instrument("S-1", "2026-06-20"))
        .add(made().bench("Bench B").instrument("S-2", "2026-05-30"))
        .add(made().bench("Bench C").instrument("S-3", "2027-01-01"))
        .add(made().bench("Bench D").instrument("S-4", "2026-06-01").simulated())
        .into(records());
    JsonNode due = json("due", "--on", "2026-06-01");
    assertThat(due).hasSize(2);
    assertThat(due.get(0).get("serial").asText()).isEqualTo("S-2");
    assertThat(due.get(0).get("overdue").asBoolean()).isTrue();
    assertThat(due.get(1).get("days").asInt()).isEqualTo(19);
    assertThat(table("due", "--on", "2026-01-01").out())
        .isEqualTo("None of 3 instruments is due by 2026-01-31.\n");
    Command given =
        table(
            "due",
            "--days",
            "36500",
            "demo-data/benches/two-wire-feedback.toml",
            "--on",
            "2026-06-01");
    assertThat(given.out()).contains("certificate");
  }
}
