package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.Evidence;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;

/** What no sentence about a run may say, whatever the run was. */
public final class Sentences {
  private static final Pattern NO_WIDTH = Pattern.compile("± ?0(\\.0+)?(?![.\\d])");
  private static final Pattern RAW = Pattern.compile("\\d\\.\\d{9,}|\\dE-?\\d|\\bNaN\\b|Infinity");
  private static final Pattern RATE =
      Pattern.compile("a sample every ([\\d.]+) s can't .* read at least every ([\\d.]+) s");
  private static final Pattern FAR = Pattern.compile("\\(([-\\d.]+) % instead of ([-\\d.]+) %\\)");
  private static final Pattern NOTHING_AND_PART =
      Pattern.compile("(bytes|part of a line) came.*nothing came|nothing came.*part of a line");

  private Sentences() {}

  private static List<String> of(JudgedRun run, Diagnosis diagnosis) {
    List<String> all = new ArrayList<>(run.sentences());
    all.add(run.reason());
    run.orders().stream().map(AsOrdered::found).forEach(all::add);
    run.judgements().forEach(j -> all.add(j.measure().note()));
    run.tests().forEach(t -> all.add(t.reason()));
    all.addAll(diagnosis.lines());
    return all;
  }

  /** Fails where a sentence about a run contradicts itself, or asks for what was just done. */
  public static void requirePlain(JudgedRun run, Diagnosis diagnosis) {
    of(run, diagnosis).forEach(Sentences::requirePlain);
    diagnosis
        .next()
        .ifPresent(
            next ->
                assertThat(diagnosis.evidence())
                    .extracting(Evidence::sign)
                    .extracting(sign -> sign.shownBy().words())
                    .noneMatch(next::startsWith));
    if (run.stemProven()) {
      assertThat(diagnosis.next().orElse("")).doesNotStartWith("travel error with an angle");
    }
  }

  /** Fails where it contradicts itself. */
  public static void requirePlain(String sentence) {
    assertThat(sentence).doesNotContainPattern(NO_WIDTH);
    assertThat(sentence).doesNotContainPattern(RAW);
    requireOneStory(sentence);
    numbers(RATE, sentence).forEach(n -> assertThat(n[1]).as(sentence).isLessThan(n[0]));
    numbers(FAR, sentence)
        .forEach(n -> assertThat(Math.abs(n[0] - n[1])).as(sentence).isGreaterThan(1.0));
  }

  /** Fails where it tells of a link that nothing came and that something did. */
  public static void requireOneStory(String sentence) {
    assertThat(sentence).doesNotContainPattern(NOTHING_AND_PART);
  }

  private static List<double[]> numbers(Pattern pattern, String sentence) {
    List<double[]> found = new ArrayList<>();
    Matcher matcher = pattern.matcher(sentence);
    while (matcher.find()) {
      found.add(
          new double[] {
            Double.parseDouble(matcher.group(1)), Double.parseDouble(matcher.group(2))
          });
    }
    return found;
  }
}
