package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.DebianProgram;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The site of the documents: every link leads somewhere, nothing is asked of others, it finds. */
class SiteTest {
  private static final Pattern LINK = Pattern.compile("\\b(href|src|action)=\"([^\"]*)\"");

  @TempDir static Path folder;

  @BeforeAll
  static void make() throws IOException {
    assertThat(Site.make(Path.of(""), folder, "0.0.0-test")).isEqualTo(Pages.all().size());
  }

  private static List<Path> pages() throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(f -> f.toString().endsWith(".html")).sorted().toList();
    }
  }

  @Test
  void everyLinkLeadsSomewhereAndNothingIsAskedOfOthers() throws IOException {
    int seen = 0;
    for (Path page : pages()) {
      String html = Files.readString(page);
      Matcher links = LINK.matcher(html);
      while (links.find()) {
        URI link = URI.create(links.group(2));
        String as = folder.relativize(page) + ": " + link;
        if (link.isAbsolute()) {
          // A person may follow it; the page itself asks for nothing there.
          assertThat(links.group(1)).as(as).isEqualTo("href");
          assertThat(html).contains("<a href=\"" + links.group(2) + "\"");
          continue;
        }
        seen++;
        Path target =
            link.getPath().isEmpty() ? page : page.resolveSibling(link.getPath()).normalize();
        assertThat(target).as(as).isRegularFile();
        if (link.getFragment() != null) {
          assertThat(Files.readString(target)).as(as).contains("id=\"" + link.getFragment() + "\"");
        }
      }
    }
    assertThat(seen).isGreaterThan(1000);
    for (String file : List.of("site.css", "search.js")) {
      assertThat(Files.readString(folder.resolve(file))).doesNotContain("://", "@import", "fetch(");
    }
  }

  /** As a person sees it: Debian's browser opens the file and says what is on the page. */
  @Test
  void theSearchFindsThePage() throws Exception {
    DebianProgram.require("chromium");
    Path profile = Files.createDirectory(folder.resolve("profile"));
    Process browser =
        new ProcessBuilder(
                "chromium",
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--user-data-dir=" + profile,
                "--dump-dom",
                folder.resolve("search.html").toUri() + "?q=user+file+short+names")
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String seen = new String(browser.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(browser.waitFor(120, TimeUnit.SECONDS)).isTrue();
    assertThat(seen)
        .containsPattern("<ol id=\"found\"><li><a href=\"docs/reference/user-file.html\">The user")
        .contains(" pages for “user file short names”");
  }
}
