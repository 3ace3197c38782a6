package org.benchstroke.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.logging.Level;
import javax.naming.OperationNotSupportedException;
import org.benchstroke.DebianProgram;
import org.openqa.selenium.By;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/**
 * Debian's Chromium without a window, one for all tests of a process: {@link #fresh} is as good as
 * a new one. One thread at a time.
 */
public final class Browser {
  /** How long something may take before a test gives up; a busy machine is slow. */
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  /** WCAG 2.2 at level AA, as axe-core calls the rules of its parts. */
  private static final List<String> LEVEL_AA =
      List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa");

  private static Browser shared;

  private final ChromeDriver driver;
  private Optional<String> before = Optional.empty();

  private Browser(ChromeDriver driver) {
    this.driver = driver;
  }

  /**
   * The browser with nothing of an earlier test in it, 1024 by 768. Skips the test where Chromium
   * is missing.
   */
  public static synchronized Browser fresh() {
    if (shared == null) {
      shared = new Browser(started());
      Runtime.getRuntime().addShutdownHook(new Thread(shared.driver::quit));
    }
    shared.forgetBeforeScripts();
    shared.driver.get("about:blank");
    shared.driver.executeCdpCommand("Network.clearBrowserCookies", Map.of());
    shared.size(1024, 768);
    shared.scripts(true);
    shared.complaints();
    return shared;
  }

  private static ChromeDriver started() {
    DebianProgram.require("chromium");
    DebianProgram.require("chromedriver");
    ChromeOptions options = new ChromeOptions();
    options.setBinary("/usr/bin/chromium");
    options.addArguments(
        "--headless=new",
        // As root there is no sandbox; all pages are our own.
        "--no-sandbox",
        "--disable-dev-shm-usage",
        "--disable-gpu",
        "--force-prefers-reduced-motion",
        // Nothing leaves this machine.
        "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1 , EXCLUDE localhost",
        "--disable-background-networking",
        "--disable-component-update");
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    options.setCapability("goog:loggingPrefs", logs);
    // Named, so that nothing is looked for or fetched.
    System.setProperty("webdriver.chrome.driver", "/usr/bin/chromedriver");
    return new ChromeDriver(options);
  }

  /** Opens a page and waits until its scripts have run. */
  public Browser open(String url) {
    driver.get(url);
    return this;
  }

  /** As large as this in CSS pixels, whatever a window has around it. */
  public Browser size(int width, int height) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    return this;
  }

  /** Whether scripts of pages run. */
  public Browser scripts(boolean run) {
    driver.executeCdpCommand("Emulation.setScriptExecutionDisabled", Map.of("value", !run));
    return this;
  }

  /** Types at whatever has the focus. */
  public Browser keys(CharSequence... keys) {
    new Actions(driver).sendKeys(keys).perform();
    return this;
  }

  /** Keeps a key down for a time, as a person does who means it. */
  public Browser hold(CharSequence key, Duration time) {
    new Actions(driver).keyDown(key).pause(time).keyUp(key).perform();
    return this;
  }

  public Browser click(String css) {
    find(css).click();
    return this;
  }

  /** Types into a field. */
  public Browser type(String css, String text) {
    find(css).sendKeys(text);
    return this;
  }

  public WebElement find(String css) {
    return driver.findElement(By.cssSelector(css));
  }

  public List<WebElement> all(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  public boolean has(String css) {
    return !all(css).isEmpty();
  }

  /** What is seen of an element. */
  public String text(String css) {
    return find(css).getText();
  }

  public String title() {
    return Objects.requireNonNull(driver.getTitle());
  }

  /** The address without the machine. */
  public String path() {
    return URI.create(Objects.requireNonNull(driver.getCurrentUrl())).getPath();
  }

  /**
   * Waits until something is so.
   *
   * @param what as a sentence ends that begins with "waited until"
   */
  public Browser until(String what, BooleanSupplier condition) {
    new WebDriverWait(driver, PATIENCE, Duration.ofMillis(20))
        .withMessage("waited until " + what)
        .until(d -> condition.getAsBoolean());
    return this;
  }

  /** Has this run in every page before its own scripts. */
  public Browser beforeScripts(String script) {
    forgetBeforeScripts();
    Map<String, Object> added =
        driver.executeCdpCommand("Page.addScriptToEvaluateOnNewDocument", Map.of("source", script));
    before = Optional.of(String.valueOf(added.get("identifier")));
    return this;
  }

  private void forgetBeforeScripts() {
    before.ifPresent(
        id ->
            driver.executeCdpCommand(
                "Page.removeScriptToEvaluateOnNewDocument", Map.of("identifier", id)));
    before = Optional.empty();
  }

  /** Keeps none of the files that it has fetched. */
  public Browser forgetFiles() {
    driver.executeCdpCommand("Network.clearBrowserCache", Map.of());
    return this;
  }

  /** Bytes of the scripts that the page has loaded. */
  public long scriptBytes() {
    return ((Number)
            Objects.requireNonNull(
                driver.executeScript(
                    """
                    return performance.getEntriesByType('resource')
                      .filter(r => r.initiatorType === 'script')
                      .reduce((sum, r) => sum + r.decodedBodySize, 0)
                    """)))
        .longValue();
  }

  /** What a script gives to its last argument, a function that it calls when it is done. */
  public Object runUntilDone(String script, Object... arguments) {
    driver.manage().timeouts().scriptTimeout(Duration.ofMinutes(20));
    return driver.executeAsyncScript(script, arguments);
  }

  /** What a script gives. */
  public Object run(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  /** What a rule of WCAG 2.2 AA finds wrong with the page, a line each, by axe-core. */
  public List<String> violations() {
    try {
      driver.executeScript(new AxeBuilder().getAxeScriptProvider().getScript());
    } catch (IOException | OperationNotSupportedException e) {
      throw new IllegalStateException("axe-core comes with its library", e);
    }
    driver.manage().timeouts().scriptTimeout(PATIENCE);
    Object found =
        driver.executeAsyncScript(
            """
            const done = arguments[arguments.length - 1];
            axe.run(document, {runOnly: {type: 'tag', values: arguments[0]},
                resultTypes: ['violations']})
              .then(r => done({rules: r.passes.length + r.violations.length,
                wrong: r.violations.flatMap(v => v.nodes.map(n =>
                  v.id + ': ' + v.help + ': ' + n.html + ' ' + n.failureSummary))}))
              .catch(e => done({rules: 0, wrong: [String(e)]}));
            """,
            LEVEL_AA);
    Map<?, ?> result = (Map<?, ?>) Objects.requireNonNull(found);
    assertThat((Long) result.get("rules")).as("rules that applied").isGreaterThan(5);
    return texts(result.get("wrong"));
  }

  /** What the console has said of errors since it was last asked, refused content among them. */
  public List<String> complaints() {
    List<String> said = new ArrayList<>();
    driver
        .manage()
        .logs()
        .get(LogType.BROWSER)
        .getAll()
        .forEach(
            entry -> {
              if (entry.getLevel().intValue() >= Level.WARNING.intValue()) {
                said.add(entry.getMessage());
              }
            });
    return said;
  }

  /** What the page has asked of other machines, or of other ports of this one. */
  public List<String> foreignRequests() {
    return texts(
        driver.executeScript(
            """
            return performance.getEntriesByType('resource').map(r => r.name)
              .filter(name => new URL(name, location.href).origin !== location.origin)
            """));
  }

  /**
   * What is to be hit and is smaller than that on either side, CSS pixels. A link in a sentence is
   * as high as its line (WCAG 2.2, 2.5.8 has the same exception); a label counts with its box.
   */
  public List<String> smallTargets(int least) {
    return texts(
        driver.executeScript(
            """
            const least = arguments[0] - 0.5;
            return [...document.querySelectorAll(
                'a[href], button, input:not([type=hidden]), select, textarea, summary')]
              .filter(e => e.checkVisibility() && !e.matches('.skip:not(:focus)'))
              .filter(e => !(e.matches('a') && getComputedStyle(e).display === 'inline'
                  && e.closest('p, td, th, li, dd, figcaption, caption')))
              .filter(e => {
                const hit = e.matches('[type=radio], [type=checkbox]') && e.closest('label') || e;
                const box = hit.getBoundingClientRect();
                return box.width < least || box.height < least;
              })
              .map(e => e.outerHTML + ' ' + JSON.stringify(e.getBoundingClientRect()));
            """,
            least));
  }

  /** The contrast of the text of each such element with what it stands on, the least first. */
  public List<Double> contrasts(String css) {
    Object found =
        driver.executeScript(
            """
            const parse = c => c.match(/[\\d.]+/g).map(Number);
            const over = (top, below) => {
              const a = top.length > 3 ? top[3] : 1;
              return [0, 1, 2].map(i => top[i] * a + below[i] * (1 - a));
            };
            const luminance = c => {
              const [r, g, b] = c.map(v => v / 255)
                .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
              return 0.2126 * r + 0.7152 * g + 0.0722 * b;
            };
            const behind = e => e === null ? [255, 255, 255]
              : over(parse(getComputedStyle(e).backgroundColor), behind(e.parentElement));
            return [...document.querySelectorAll(arguments[0])]
              .filter(e => e.checkVisibility() && e.textContent.trim() !== '')
              .map(e => {
                const ground = behind(e);
                const ink = over(parse(getComputedStyle(e).color), ground);
                const [low, high] = [luminance(ink), luminance(ground)].sort((a, b) => a - b);
                return (high + 0.05) / (low + 0.05);
              }).sort((a, b) => a - b);
            """,
            css);
    return ((List<?>) Objects.requireNonNull(found))
        .stream().map(each -> ((Number) each).doubleValue()).toList();
  }

  /** Whether the page is wider than the window, so that one has to scroll sideways. */
  public boolean overflows() {
    return (Boolean)
        Objects.requireNonNull(
            driver.executeScript(
                "return document.documentElement.scrollWidth > document.documentElement.clientWidth"
                    + " + 1"));
  }

  /** Bytes that the page's scripts hold, after what is not needed was thrown away. */
  public long heapBytes() {
    driver.executeCdpCommand("HeapProfiler.collectGarbage", Map.of());
    Map<String, Object> usage = driver.executeCdpCommand("Runtime.getHeapUsage", Map.of());
    return ((Number) usage.get("usedSize")).longValue();
  }

  /** A picture of what is seen. */
  public void picture(Path file) throws IOException {
    Files.createDirectories(file.toAbsolutePath().getParent());
    Files.write(file, driver.getScreenshotAs(OutputType.BYTES));
  }

  private static List<String> texts(Object list) {
    return ((List<?>) Objects.requireNonNull(list)).stream().map(String::valueOf).toList();
  }
}
