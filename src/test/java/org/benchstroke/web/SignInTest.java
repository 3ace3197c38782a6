package org.benchstroke.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** Signing in as a person does it, in a real browser. */
class SignInTest {
  @TempDir static Path folder;
  private static TestScreen screen;

  @BeforeAll
  static void open() throws Exception {
    screen = TestScreen.signedIn(folder);
  }

  @AfterAll
  static void close() {
    screen.close();
  }

  @Test
  void withAGloveByTheKeysOnTheScreen() {
    Browser browser = Browser.fresh().open(screen.url("/station/A"));
    assertThat(browser.path()).isEqualTo("/sign-in");
    assertThat(browser.smallTargets(44)).isEmpty();
    assertThat(browser.all(".pad button")).hasSize(12);
    assertThat(browser.all(".pad button, .choice"))
        .allMatch(key -> key.getSize().height >= 76)
        .as("20 mm on a monitor of 96 dots an inch");
    browser.click("input[value='Ann']");
    for (char digit : "4829137".toCharArray()) {
      browser.click(".pad button[aria-label='" + digit + "']");
    }
    browser.click(".pad button[aria-label='Take the last one back']");
    browser.click("button.go");
    browser.until("the station is there", () -> browser.path().equals("/station/A"));
    assertThat(browser.text(".head .who p")).isEqualTo("Ann");
    browser.click(".head .who button");
    browser.until("one signs in again", () -> browser.path().equals("/sign-in"));
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void byTheKeyboardAloneAndAMistakeIsSaid() {
    Browser browser = Browser.fresh().open(screen.url("/sign-in"));
    browser.type("input[value='Ben']", Keys.SPACE.toString()).keys(Keys.TAB, "wrong", Keys.ENTER);
    browser.until("the mistake is said", () -> browser.has("[role=alert]"));
    assertThat(browser.text("[role=alert]"))
        .isEqualTo("The name and the PIN or password don't belong together. Try again.");
    assertThat(browser.violations()).isEmpty();
    assertThat(browser.find("input[value='Ben']").isSelected()).isTrue();
    browser.type("#pin", TestScreen.BEN).keys(Keys.ENTER);
    browser.until("it goes on", () -> browser.path().equals("/"));
    assertThat(browser.text(".head .who p")).isEqualTo("Ben");
    // The first attempt was refused, and the console of a browser says that.
    assertThat(browser.complaints()).allMatch(said -> said.contains("403"));
  }

  /** Some type as fast as a scanner does, and a scan would go into an address. */
  @Test
  void aSecretTypedFastIsNoScan() {
    Browser browser = Browser.fresh().open(screen.url("/sign-in"));
    browser.click("input[value='Ben']");
    browser.run(
        """
        const field = document.getElementById('pin');
        for (const key of ['7', '0', '5', '2', '1', '8', 'Enter']) {
          field.dispatchEvent(new KeyboardEvent('keydown', {key, bubbles: true, cancelable: true}));
        }
        """);
    assertThat(browser.path()).isEqualTo("/sign-in");
    browser.type("#pin", TestScreen.BEN + Keys.ENTER);
    browser.until("it goes on", () -> browser.path().equals("/"));
  }

  @Test
  void withoutScriptsToo() {
    Browser browser = Browser.fresh().scripts(false).open(screen.url("/sign-in"));
    browser.click("input[value='Ann']").type("#pin", TestScreen.ANN).keys(Keys.ENTER);
    browser.until("it goes on", () -> browser.path().equals("/"));
    browser.scripts(true);
    assertThat(List.of(browser.text(".head .who p"))).containsExactly("Ann");
  }
}
