package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.web.LocalAccess;
import org.benchstroke.web.Screen;
import org.benchstroke.web.Stations;
import org.benchstroke.web.desk.Desk;
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
      "It is reached from this computer only. Nothing is asked of any other computer.",
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
  private static final String HERE = "127.0.0.1";
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

  @Mixin private ShopOption shop;

  @Mixin private RecordsOption records;

  @Mixin private ArchiveOption archive;

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
    Desk desk =
        new Desk(DeskHoldings.of(spec, folder, archive.ifAny(folder, stated), stated, List.of()));
    Screen.Content content = new Screen.Content(title, demo, List.of(new Stations(), desk));
    try (desk;
        Screen screen = Screen.open(HERE, port, new LocalAccess(), content)) {
      out.println("The bench screen:  " + screen.url());
      out.println("Records:           " + folder);
      out.println("Ctrl-C ends it.");
      out.flush();
      new CountDownLatch(1).await();
    }
    return ExitCode.PASSED;
  }
}
