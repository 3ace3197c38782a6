package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.web.Screen;
import org.benchstroke.web.Stations;
import org.benchstroke.web.access.Door;
import org.benchstroke.web.access.SignInPages;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Opens the bench screen. */
@Command(
    name = "serve",
    description = {
      Commands.SERVE,
      "",
      "It is reached from this computer only, unless --address says otherwise. Nothing is asked of"
          + " any other computer.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Examples:",
      "  benchstroke serve --demo",
      "  benchstroke serve --shop shop.toml --port 8080"
    })
final class ServeCommand implements Callable<Integer>, LeavesMore {
  private static final int HIGHEST_PORT = 65_535;

  @Option(
      names = "--demo",
      description = "Shows simulated benches with invented jobs; needs no hardware.")
  private boolean demo;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = "8017",
      description = "The TCP port (default: ${DEFAULT-VALUE}); 0 for any that is free.")
  private int port;

  @Mixin private NetworkOptions network;

  @Mixin private ShopOption shop;

  @Mixin private RecordsOption records;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    if (port < 0 || port > HIGHEST_PORT) {
      throw new WrongRequest("--port: found " + port + ", allowed is 0 to " + HIGHEST_PORT);
    }
    Optional<ShopFile> stated = demo ? Optional.empty() : shop.read(spec);
    Path folder = demo ? records.apart() : records.folder(stated);
    Shown out = Shown.out(spec);
    String title = stated.map(ShopFile::name).orElse("benchstroke");
    Door door = network.door(spec, demo ? Optional.empty() : Optional.of(shop), stated);
    Screen.Content content =
        new Screen.Content(title, demo, List.of(new Stations(), new SignInPages(door)));
    try (Screen screen = Screen.open(network.address(), port, network.certificate(spec), door, content)) {
      out.println("The bench screen:  " + screen.url());
      out.println("Records:           " + folder);
      out.println("Ctrl-C ends it.");
      out.flush();
      new CountDownLatch(1).await();
    }
    return ExitCode.PASSED;
  }
}
