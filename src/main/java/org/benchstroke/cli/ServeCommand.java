package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.Setting;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.stations.DemoFloor;
import org.benchstroke.app.stations.Floor;
import org.benchstroke.app.stations.Manners;
import org.benchstroke.app.stations.Place;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitTypeReader;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Screen;
import org.benchstroke.web.StationPages;
import org.benchstroke.web.access.Door;
import org.benchstroke.web.access.SignInPages;
import org.benchstroke.web.desk.Desk;
import org.benchstroke.web.setup.SetUpPages;
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
  private static final int DEMO_STATIONS = 4;
  private static final double DEMO_PACE = 5.0;

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

  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description =
          "A bench file; each is a station, A, B and so on, up to 16 (default: the shop's bench).")
  private List<Path> benches = List.of();

  @Option(
      names = "--stations",
      paramLabel = "N",
      description = "With --demo: how many stations, 1 to 16 (default: 4).")
  private Integer stations;

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      description =
          "With --demo: shows it at this many bench seconds per second of real time, 0.1 to 100"
              + " (default: 5).")
  private Double timeScale;

  @Mixin private NetworkOptions network;

  @Mixin private ShopOption shop;

  @Mixin private RecordsOption records;

  @Mixin private ArchiveOption archive;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    requireAllowed();
    Defaults stated = demo ? Defaults.NONE : shop.read(spec);
    // Before anything is opened or written: a screen for nobody is refused.
    Door door = network.door(spec, demo ? Optional.empty() : Optional.of(shop), stated.shop());
    Path folder = demo ? records.apart() : records.folder(stated);
    Optional<ArchivePlace> kept = archive.ifAny(folder, stated);
    Sealing sealing = Sealing.begin(spec, true);
    List<Place> places =
        demo ? demoPlaces(folder, kept, sealing) : places(stated, folder, kept, sealing);
    Floor floor = new Floor(places, Manners.USUAL);
    List<StationPages.ScanCard> cards =
        demo
            ? DemoFloor.JOBS.stream()
                .map(job -> new StationPages.ScanCard(job.serial(), job.order()))
                .toList()
            : List.of();
    SetUpPages setUps = new SetUpPages(floor);
    String title = stated.shop().map(ShopFile::name).orElse("benchstroke");
    try (Desk desk = new Desk(DeskHoldings.of(spec, folder, kept, stated, benches))) {
      StationPages floorPages = new StationPages(floor, stated, cards);
      List<Pages> pages = List.of(floorPages, setUps, desk, new SignInPages(door));
      serve(floor, setUps, folder, door, new Screen.Content(title, demo, pages));
    }
    return ExitCode.PASSED;
  }

  /** Until Ctrl-C: then whatever runs is stopped, and each unit gets its safe signal first. */
  private void serve(Floor floor, SetUpPages setUps, Path folder, Door door, Screen.Content content)
      throws WrongRequest, InterruptedException {
    Shown out = Shown.out(spec);
    Thread ending =
        new Thread(
            () -> {
              setUps.close();
              floor.close();
            },
            "end of the stations");
    Runtime.getRuntime().addShutdownHook(ending);
    try (Screen screen =
        Screen.open(network.address(), port, network.certificate(spec), door, content)) {
      out.println("The bench screen:  " + screen.url());
      out.println("Records:           " + folder);
      if (demo) {
        out.println("Simulated: no real unit is tested, and every job is invented.");
      }
      out.println("Ctrl-C ends it.");
      out.flush();
      new CountDownLatch(1).await();
    }
  }

  private void requireAllowed() throws WrongRequest {
    if (port < 0 || port > HIGHEST_PORT) {
      throw new WrongRequest("--port: found " + port + ", allowed is 0 to " + HIGHEST_PORT);
    }
    if (!demo && (stations != null || timeScale != null)) {
      throw new WrongRequest(
          (stations != null ? "--stations" : "--time-scale") + ": goes with --demo");
    }
    if (demo && !benches.isEmpty()) {
      throw new WrongRequest("--bench: a demo has benches of its own; leave one of the two out");
    }
    if (stations != null && (stations < 1 || stations > Floor.MOST)) {
      throw new WrongRequest("--stations: found " + stations + ", allowed is 1 to " + Floor.MOST);
    }
    if (timeScale != null) {
      SimulateCommand.requireTimeScale(timeScale);
    }
  }

  private List<Place> demoPlaces(Path folder, Optional<ArchivePlace> kept, Sealing sealing)
      throws WrongRequest {
    return DemoFloor.places(
        new DemoFloor.Wanted(
            stations == null ? DEMO_STATIONS : stations,
            timeScale == null ? DEMO_PACE : timeScale,
            folder,
            kept,
            Version.text(),
            sealing::seal));
  }

  private List<Place> places(
      Defaults stated, Path folder, Optional<ArchivePlace> kept, Sealing sealing)
      throws WrongRequest, FileMistakes {
    List<Path> files =
        benches.isEmpty()
            ? stated.file(Setting.BENCH, Optional.empty()).stream().toList()
            : benches;
    Optional<Path> unitType = stated.file(Setting.UNIT_TYPE, Optional.empty());
    Optional<Path> procedure = stated.procedure(Optional.empty(), unitType);
    if (files.isEmpty()) {
      throw new WrongRequest(
          "which bench? Name a bench file with --bench, or a shop file that names one with --shop;"
              + " serve --demo needs neither");
    }
    if (files.size() > Floor.MOST) {
      throw new WrongRequest(
          "--bench: found " + files.size() + " files, allowed are up to " + Floor.MOST);
    }
    requireSound(files, unitType, procedure);
    List<Place> places = new ArrayList<>();
    for (Path file : files) {
      places.add(
          new Place(
              String.valueOf((char) ('A' + places.size())),
              new Place.Real(file),
              unitType,
              procedure,
              stated.shop(),
              folder,
              kept,
              Version.text(),
              sealing::seal));
    }
    return places;
  }

  /** A mistake is told here, and not to the person who takes the first job. */
  private static void requireSound(
      List<Path> benches, Optional<Path> unitType, Optional<Path> procedure) throws FileMistakes {
    GivenFiles given = new GivenFiles();
    benches.forEach(given::bench);
    unitType.ifPresent(file -> given.read(file, UnitTypeReader::read));
    procedure.ifPresent(file -> given.read(file, ProcedureReader::read));
    given.finish();
  }
}
