package org.benchstroke.papers.sheets;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Language;
import org.benchstroke.tests.Catalogue;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class WordsTest {
  private static final Pattern PLACE = Pattern.compile("\\{\\d}");
  private static final Pattern USED =
      Pattern.compile(
          "(?:words\\(\\)|words|terms\\.words\\(\\))\\s*\\.of\\(\\s*\"([a-z.A-Z-]+)\"[,)]");

  @ParameterizedTest
  @EnumSource(Language.class)
  void everyLanguageHasTheSameKeysWithTheSamePlaces(Language language) {
    Words english = Words.of(Language.ENGLISH);
    Words other = Words.of(language);
    assertThat(other.keys()).isEqualTo(english.keys());
    for (String key : english.keys()) {
      assertThat(places(other.of(key))).as(language + " " + key).isEqualTo(places(english.of(key)));
      assertThat(other.of(key)).as(language + " " + key).isNotBlank();
    }
  }

  private static Set<String> places(String text) {
    Set<String> places = new TreeSet<>();
    Matcher found = PLACE.matcher(text);
    while (found.find()) {
      places.add(found.group());
    }
    return places;
  }

  @Test
  void everyKindOfThingHasItsWords() {
    Set<String> keys = Words.of(Language.ENGLISH).keys();
    assertThat(keys).containsAll(keys("measure.", MeasureKind.values()));
    assertThat(keys).containsAll(keys("truth.", Truth.values()));
    assertThat(keys).containsAll(keys("word.", Word.values()));
    assertThat(keys).containsAll(keys("obstacle.", Standing.Obstacle.values()));
    assertThat(keys).containsAll(keys("role.", Role.values()));
    assertThat(keys).containsAll(keys("fail.", FailAction.values()));
    assertThat(keys).containsAll(keys("switch.", LimitSwitch.values()));
    for (String test : Catalogue.names()) {
      assertThat(keys).contains("named." + test.replace(' ', '-'));
    }
  }

  private static List<String> keys(String prefix, Enum<?>... all) {
    return Arrays.stream(all).map(each -> prefix + each.name()).toList();
  }

  @Test
  void everyKeyThatIsUsedIsThere() throws IOException {
    Set<String> keys = Words.of(Language.ENGLISH).keys();
    Set<String> used = new TreeSet<>();
    for (Path folder :
        List.of(
            Path.of("src/main/java/org/benchstroke/papers/sheets"),
            Path.of("src/main/jte/papers/sheets"))) {
      try (Stream<Path> files = Files.list(folder)) {
        for (Path file : files.toList()) {
          Matcher found = USED.matcher(Files.readString(file));
          while (found.find()) {
            used.add(found.group(1));
          }
        }
      }
    }
    assertThat(used).hasSizeGreaterThan(60);
    assertThat(keys).containsAll(used);
  }

  @Test
  void placesAreFilledAndAnUnknownKeyIsAMistake() {
    Words words = Words.of(Language.ENGLISH);
    assertThat(words.of("limit.range", "13.5", "16.5 s")).isEqualTo("13.5–16.5 s");
    assertThat(words.maybe("no.such")).isEmpty();
    assertThatThrownBy(() -> words.of("no.such")).hasMessageContaining("no.such");
  }

  @Test
  void minusSignsAreTrueOnesAndUnitsStayWithTheirFigures() {
    assertThat(Terms.set("from 51.4 % to -0.5 %, C-2026-01, 2026-01-15, SIM-1, -3.5 mA, 2.4 °"))
        .isEqualTo(
            "from 51.4\u00a0% to −0.5\u00a0%, C-2026-01, 2026-01-15, SIM-1, −3.5\u00a0mA, 2.4°");
    assertThat(Terms.set("+0.05 % ± 0.02 %")).isEqualTo("+0.05\u00a0% ±\u00a00.02\u00a0%");
    assertThat(Terms.set("22.5 °C")).isEqualTo("22.5\u00a0°C");
  }
}
