package org.benchstroke.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.stations.Driver;
import org.benchstroke.app.stations.JobSheet;
import org.benchstroke.app.stations.Station;
import org.benchstroke.web.desk.DeskShop;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every page of the screen, found by following its links from the start, in a real browser:
 * axe-core finds nothing against WCAG 2.2 AA, nothing is too small for a glove or too pale, nothing
 * is asked of another machine, nothing is said on the console.
 */
class PagesAreAccessibleTest {
  /** CSS pixels; WCAG 2.2, 2.5.5. */
  private static final int LEAST_TARGET = 44;

  private static final double LEAST_CONTRAST = 4.5;

  @TempDir Path folder;

  /** Of all scripts of a page, the library of its plots among them. */
  private static final long MOST_SCRIPT_BYTES = 100_000;

  @Test
  void everyPageIsSoundOnAMonitorAndOnAPhone() throws Exception {
    try (DeskShop shop = new DeskShop(folder);
        TestScreen screen = TestScreen.here(shop.desk())) {
      Browser browser = Browser.fresh();
      floor(screen);
      Map<String, String> pages = pages(browser, screen);
      assertThat(pages).containsKeys("/", "/sign-in", "/desk/run/{id}", "/help/measure/{key}");
      for (Map.Entry<String, String> page : pages.entrySet()) {
        for (int[] size : List.of(new int[] {1024, 768}, new int[] {390, 844})) {
          browser.size(size[0], size[1]).open(screen.url(page.getValue()));
          // As tall as the page: what stands under the bar at its foot is a matter of scrolling.
          long whole = (Long) browser.run("return document.documentElement.scrollHeight");
          browser.size(size[0], (int) Math.max(whole, size[1]));
          sound(browser, page.getValue() + " at " + size[0] + " × " + size[1]);
        }
      }
    }
  }

  /** One station has a job, so that there is a page of each kind to be found. */
  private static void floor(TestScreen screen) throws Exception {
    Station station = screen.floor().station("B").orElseThrow();
    JobSheet sheet =
        new JobSheet(
            "QT-0042", "4711", "Ann", Optional.empty(), Optional.empty(), Optional.empty());
    screen.floor().take(station, sheet, new Driver("a test", "Ann"));
  }

  private static void sound(Browser browser, String what) {
    assertThat(browser.violations()).as(what).isEmpty();
    assertThat(browser.smallTargets(LEAST_TARGET)).as(what).isEmpty();
    assertThat(browser.overflows()).as(what + ": wider than the window").isFalse();
    assertThat(browser.foreignRequests()).as(what).isEmpty();
    assertThat(browser.complaints()).as(what).isEmpty();
    assertThat(browser.contrasts("h1, p, label, button, .key, td, th").get(0))
        .as(what)
        .isGreaterThanOrEqualTo(LEAST_CONTRAST);
    assertThat(browser.scriptBytes()).as(what).isBetween(1L, MOST_SCRIPT_BYTES);
    assertThat(browser.title()).as(what).isNotBlank();
    assertThat(browser.all("h1")).as(what).hasSize(1);
  }

  /** For each address with a page an example that leads somewhere: the first link met that fits. */
  private static Map<String, String> pages(Browser browser, TestScreen screen) {
    Map<String, String> examples = new LinkedHashMap<>();
    Deque<String> next = new ArrayDeque<>(List.of("/", "/sign-in"));
    while (!next.isEmpty()) {
      String path = next.remove();
      Optional<String> route = screen.route(path);
      if (route.isPresent() && !examples.containsKey(route.get())) {
        browser.open(screen.url(path));
        if (browser.has("main")) {
          examples.put(route.get(), path);
          browser
              .all("a[href^='/']:not([download])")
              .forEach(link -> next.add(String.valueOf(link.getDomAttribute("href"))));
        }
      }
      assertThat(route.isPresent() || path.startsWith("/static/"))
          .as("a link that leads nowhere: " + path)
          .isTrue();
    }
    return examples;
  }
}
