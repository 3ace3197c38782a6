package org.benchstroke.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.app.stations.Manners;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** A technician's day at a simulated bench, in a real browser, without a pointer. */
@Timeout(300)
class DayByKeyboardTest {
  /** Fast, and yet a person would see it move. */
  private static final OptionalDouble PACE = OptionalDouble.of(40.0);

  private static final Manners MANNERS = new Manners(1, 300, 1000);
  private static final Duration LONGER_THAN_HELD = Duration.ofMillis(900);

  @TempDir Path folder;

  /** Keys in one breath, as a scanner sends them, whatever has the focus. */
  private static void scan(Browser browser, String text) {
    browser.run(
        """
        for (const key of [...arguments[0], 'Enter']) {
          (document.activeElement || document.body).dispatchEvent(
              new KeyboardEvent('keydown', {key, bubbles: true, cancelable: true}));
        }
        """,
        text);
  }

  private static boolean stands(Browser browser, String stage) {
    return browser.has(".station[data-stage=" + stage + "]");
  }

  private static boolean canBeAnswered(Browser browser) {
    return Boolean.TRUE.equals(
        browser.run(
            "const yes = document.getElementById('yes');"
                + " return !!yes && !yes.disabled && yes.checkVisibility()"));
  }

  /** Reads and answers all until it moves, and what is asked on its way; gives the titles. */
  private static List<String> answerAll(Browser browser, String until) {
    List<String> titles = new ArrayList<>();
    while (true) {
      browser.until(
          "it asks or is " + until, () -> stands(browser, until) || canBeAnswered(browser));
      if (stands(browser, until)) {
        return titles;
      }
      String title = browser.text("#question-title");
      titles.add(title);
      if (browser.has("#yes.holds")) {
        browser.hold(Keys.ENTER, LONGER_THAN_HELD);
      } else {
        browser.keys(Keys.ENTER);
      }
      browser.until(
          "another is asked",
          () ->
              stands(browser, until)
                  || !browser.has("#question:not([hidden])")
                  || !browser.text("#question-title").equals(title));
    }
  }

  @Test
  void theWholeDayByKeyboardAlone() throws Exception {
    Browser browser = Browser.fresh();
    try (StationScreen screen = StationScreen.open(folder, PACE, MANNERS)) {
      browser.open(screen.url("/"));
      browser.keys("a").until("station A is there", () -> browser.path().equals("/station/A"));

      // A unit with a zero that is off: typed, then all else by Tab and Enter.
      browser.keys("QT-0043", Keys.TAB, "4711", Keys.TAB, "Ann", Keys.ENTER);
      browser.until("the job is taken", () -> stands(browser, "taken"));
      assertThat(browser.text(".echo")).contains("QT-0043", "4711", "Brief", "Ann");
      assertThat(browser.violations()).isEmpty();

      browser.keys(Keys.ENTER);
      browser.until("it asks", () -> canBeAnswered(browser));
      assertThat(browser.text("#state")).isEqualToIgnoringCase("waiting for you");
      assertThat(browser.violations()).isEmpty();
      assertThat(answerAll(browser, "ended"))
          .containsExactly("Check the place", "Mate and wire", "Clear your hands: it will move");
      assertThat(browser.text(".verdict h1")).isEqualToIgnoringCase("failed");
      assertThat(browser.text(".verdict .worst")).contains("beyond");
      assertThat(browser.violations()).isEmpty();

      // Somebody has turned it: the same label is scanned again, and order and name are known.
      scan(browser, "QT-0043");
      browser.until("the job is taken", () -> stands(browser, "taken"));
      assertThat(browser.text(".warning")).contains("attempt 2 of this job; the first failed");
      browser.keys(Keys.ENTER);
      answerAll(browser, "ended");
      assertThat(browser.text("main")).contains("As found and as left");
      assertThat(browser.all(".attempts li")).hasSize(2);

      // The next one, and the space bar on its way.
      scan(browser, "QT-0042");
      browser.until("the job is taken", () -> stands(browser, "taken"));
      browser.keys(Keys.ENTER);
      browser.until("it asks", () -> canBeAnswered(browser));
      browser.keys(Keys.SPACE);
      browser.until("it has ended", () -> stands(browser, "ended"));
      assertThat(browser.text(".verdict h1")).isEqualToIgnoringCase("no result");
      assertThat(browser.text(".verdict")).contains("stopped at the bench screen");
      assertThat(browser.foreignRequests()).isEmpty();
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @Test
  void aScanIsReadWhereverTheCursorIs() throws Exception {
    Browser browser = Browser.fresh();
    try (StationScreen screen = StationScreen.open(folder, PACE, MANNERS)) {
      browser.open(screen.url("/station/B"));
      browser.run(
          "const order = document.getElementById('order'); order.value = '4711'; order.focus()");
      scan(browser, "QT-0042");
      assertThat(browser.run("return document.getElementById('serial').value"))
          .isEqualTo("QT-0042");
      assertThat(browser.run("return document.getElementById('order').value")).isEqualTo("4711");
      assertThat(browser.run("return document.activeElement.id")).isEqualTo("operator");

      browser.open(screen.url("/"));
      scan(browser, "QT-0042");
      browser.until("a station is asked for", () -> browser.path().equals("/scan"));
      assertThat(browser.all("button.tile")).hasSize(2);
      browser.run("document.querySelector('button.tile').focus()");
      browser.keys(Keys.ENTER);
      browser.until("station A is there", () -> browser.path().equals("/station/A"));
      assertThat(browser.run("return document.getElementById('serial').value"))
          .isEqualTo("QT-0042");
    }
  }

  @Test
  void keysBeforeAQuestionWasShownAnswerNothing() throws Exception {
    Browser browser = Browser.fresh();
    try (StationScreen screen = StationScreen.open(folder, PACE, MANNERS)) {
      browser.open(screen.url("/station/A?serial=QT-0042"));
      browser.keys("4711", Keys.TAB, "Ann", Keys.ENTER);
      browser.until("the job is taken", () -> stands(browser, "taken"));
      browser.keys(Keys.ENTER);
      browser.until("it asks", () -> canBeAnswered(browser));
      browser.keys(Keys.ENTER);
      browser.until(
          "the next",
          () -> browser.text("#question-title").equals("Mate and wire") && canBeAnswered(browser));
      browser.keys(Keys.ENTER);
      browser.until("it will move", () -> browser.has("#yes.holds") && canBeAnswered(browser));
      // Short presses of the key that is to be held.
      browser.keys(Keys.ENTER, Keys.ENTER, Keys.ENTER);
      assertThat(screen.driven().station().seen().asked().orElseThrow().motion()).isTrue();
      browser.keys(Keys.ESCAPE);
      browser.until("it has ended", () -> stands(browser, "ended"));
    }
  }
}
