package org.benchstroke.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.benchstroke.app.stations.Asked;
import org.benchstroke.app.stations.Driven;
import org.benchstroke.app.stations.Stage;
import org.benchstroke.app.stations.Station;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The pages of stations over real sockets. */
@Timeout(180)
class StationPagesTest {
  @TempDir Path folder;

  private StationScreen screen;
  private Caller ann;
  private Caller ben;

  @BeforeEach
  void open() throws Exception {
    screen = StationScreen.open(folder, OptionalDouble.empty(), Driven.QUICK);
    ann = new Caller(screen.port());
    ben = new Caller(screen.port());
  }

  @AfterEach
  void close() {
    screen.close();
  }

  private Station station() {
    return screen.driven().station();
  }

  private static Map<String, String> job(String serial) {
    return new HashMap<>(Map.of("serial", serial, "order", "4711", "operator", "Ann"));
  }

  private int answer(Caller who, String deed, long id) throws Exception {
    return who.post("/station/A/" + deed, Map.of("id", Long.toString(id))).status();
  }

  private void take(String serial) throws Exception {
    assertThat(ann.post("/station/A/take", job(serial)).status()).isEqualTo(303);
  }

  /** Says yes to everything until it has ended. */
  private void whole() throws Exception {
    assertThat(ann.post("/station/A/start", Map.of()).status()).isEqualTo(303);
    long last = 0;
    while (true) {
      var asked = screen.driven().asked(station(), last);
      if (asked.isEmpty()) {
        return;
      }
      last = asked.get().id();
      assertThat(answer(ann, "shown", last)).isEqualTo(204);
      if (asked.get().motion()) {
        assertThat(answer(ann, "hold", last)).isEqualTo(204);
      }
      assertThat(answer(ann, "agree", last)).isEqualTo(204);
    }
  }

  @Test
  void aRunIsDrivenAndItsPapersAreTakenAway() throws Exception {
    assertThat(ann.get("/").body()).contains("ready for a unit");
    take("QT-0042");
    assertThat(ann.get("/station/a").body()).contains("QT-0042", "Brief");
    assertThat(ann.get("/hand-over").body())
        .contains("QT-0042, order 4711", "Compare and start", "Scan a unit.", "nothing put on");
    whole();
    String after = ann.get("/station/A").body();
    assertThat(after).contains("data-stage=\"ended\"", "SAFE SIGNAL", "Attempts at this job");
    assertThat(ann.get("/station/A/paper/sheet").body()).startsWith("%PDF-");
    assertThat(ann.get("/station/A/paper/certificate").header("Content-Disposition"))
        .contains("attachment")
        .contains("QT-0042-certificate.pdf");
    assertThat(ann.get("/station/A/paper/json").body()).contains("\"verdict\"");
    assertThat(ann.get("/station/A/paper/record").body()).contains("QT-0042");
    assertThat(ann.get("/station/A/paper/nothing").status()).isEqualTo(404);
    assertThat(ann.get("/station/B/paper/sheet").status()).isEqualTo(404);
    assertThat(ann.get("/station/Z").status()).isEqualTo(404);
    assertThat(ann.post("/station/A/again", Map.of()).status()).isEqualTo(303);
    assertThat(station().seen().stage()).isEqualTo(Stage.TAKEN);
  }

  @Test
  void anotherBrowserSeesTheTruthAndStopsButDoesNotDrive() throws Exception {
    take("QT-0042");
    assertThat(ben.post("/station/A/start", Map.of()).status()).isEqualTo(409);
    ann.post("/station/A/start", Map.of());
    Asked first = screen.driven().asked(station(), 0).orElseThrow();
    assertThat(answer(ben, "shown", first.id())).isEqualTo(409);
    assertThat(answer(ann, "agree", first.id())).isEqualTo(409);
    assertThat(answer(ann, "shown", first.id())).isEqualTo(204);
    Caller.Answer refused =
        ben.with("Accept", "text/plain")
            .post("/station/A/agree", Map.of("id", Long.toString(first.id())));
    assertThat(refused.status()).isEqualTo(409);
    assertThat(refused.body()).startsWith("Ann, at another screen, holds station A");
    assertThat(ben.post("/station/A/stop", Map.of()).status()).isEqualTo(204);
    screen.driven().await(station(), s -> s.stage() == Stage.ENDED);
  }

  @Test
  void whatIsTypedIsShownAsText() throws Exception {
    take("<script>alert(1)</script>");
    assertThat(ann.get("/station/A").body())
        .doesNotContain("<script>alert")
        .contains("&lt;script&gt;");
    assertThat(ann.get("/").body()).doesNotContain("<script>alert");
    assertThat(ann.get("/scan?text=%3Cb%3E").body()).doesNotContain("<b>").contains("&lt;b");
  }

  @Test
  void whatIsWrongIsSaidAndNothingIsTaken() throws Exception {
    Map<String, String> without = job("QT-0042");
    without.put("order", " ");
    Caller.Answer answer = ann.post("/station/A/take", without);
    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.body()).contains("Which order?");
    Map<String, String> elsewhere = job("QT-0042");
    elsewhere.put("procedure", "../../secret.toml");
    assertThat(ann.post("/station/A/take", elsewhere).status()).isEqualTo(422);
    assertThat(ann.post("/station/A/start", Map.of()).status()).isEqualTo(409);
    assertThat(ann.post("/station/A/agree", Map.of("id", "x")).status()).isEqualTo(422);
    assertThat(ann.postOnly("/station/A/stop", Map.of()).status()).isEqualTo(403);
    assertThat(station().seen().stage()).isEqualTo(Stage.FREE);
  }

  /** The next line of news that begins so. */
  private static String next(BufferedReader lines, String begins) throws Exception {
    String line = lines.readLine();
    while (line != null && !line.startsWith(begins)) {
      line = lines.readLine();
    }
    assertThat(line).as("a line that begins with " + begins).isNotNull();
    return line;
  }

  @Test
  void newsComeWholeAtOnceAndAfterwardsWithEveryChange() throws Exception {
    take("QT-0042");
    ann.get("/");
    String cookies =
        ann.cookies().entrySet().stream()
            .map(c -> c.getKey() + "=" + c.getValue())
            .collect(Collectors.joining("; "));
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), screen.port())) {
      socket
          .getOutputStream()
          .write(
              ("GET /station/A/live HTTP/1.1\r\nHost: 127.0.0.1:"
                      + screen.port()
                      + "\r\nCookie: "
                      + cookies
                      + "\r\n\r\n")
                  .getBytes(StandardCharsets.ISO_8859_1));
      BufferedReader lines =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
      assertThat(lines.readLine()).isEqualTo("HTTP/1.1 200 OK");
      next(lines, "event: seen");
      assertThat(next(lines, "data: ")).contains("\"stage\":\"taken\"", "\"mine\":true");
      // Nothing happens: the browser must be able to tell that from a lost link.
      next(lines, "event: beat");
      ann.post("/station/A/start", Map.of());
      Asked first = screen.driven().asked(station(), 0).orElseThrow();
      String data = next(lines, "data: {");
      while (!data.contains("\"asked\":{\"id\":" + first.id())) {
        data = next(lines, "data: {");
      }
      assertThat(data).contains("\"stage\":\"running\"", "Check the place");
    }
    station().stop("");
    screen.driven().await(station(), s -> s.stage() == Stage.ENDED);
  }
}
