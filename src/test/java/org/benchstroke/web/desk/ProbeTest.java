package org.benchstroke.web.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.benchstroke.web.desk.DeskShop.text;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A live probe of a bench on sockets, asked for at its page; never while somebody has the bench.
 */
@Timeout(300)
class ProbeTest {
  private static final Pattern TOKEN = Pattern.compile("name=\"token\" value=\"([^\"]+)\"");
  private static final String PAGE = "/desk/benches/served.toml";

  @TempDir Path folder;

  @Test
  void aBenchIsProbedOnRequestAndNeverWhileItIsInUse() throws Exception {
    SimulatedBench bench =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    try (DeskShop shop = new DeskShop(folder).open();
        SimulatorServer server = SimulatorServer.start(bench, SystemClock.scaled(1.0), Map.of())) {
      Path file = Files.writeString(folder.resolve("served.toml"), server.benchToml());
      HttpResponse<byte[]> page = shop.get(PAGE);
      Matcher token = TOKEN.matcher(text(page));
      assertThat(token.find()).isTrue();
      String cookie = page.headers().firstValue("Set-Cookie").orElseThrow().replaceFirst(";.*", "");
      String form = "token=" + token.group(1);

      HttpResponse<byte[]> strange = shop.post(shop.request(PAGE + "/probe"), form);
      assertThat(strange.statusCode()).as("sent by another page").isEqualTo(403);

      BenchLinks.Wanted wanted = BenchLinks.Wanted.of(BenchFileReader.read(file), "a run");
      try (BenchLinks run = BenchLinks.of(wanted, Optional.empty(), warning -> {})) {
        assertThat(run.held()).isNotNull();
        HttpResponse<byte[]> refused =
            shop.post(shop.request(PAGE + "/probe").header("Cookie", cookie), form);
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(text(refused)).contains("is in use by a run", "Nothing was done.");
      }

      HttpResponse<byte[]> probed =
          shop.post(shop.request(PAGE + "/probe").header("Cookie", cookie), form);
      assertThat(probed.statusCode()).isEqualTo(200);
      assertThat(text(probed)).contains("Every role answers soundly.", "signal source", " mA");
    }
  }
}
