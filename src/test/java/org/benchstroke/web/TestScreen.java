package org.benchstroke.web;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.ShopFileReader;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.stations.DemoFloor;
import org.benchstroke.app.stations.Floor;
import org.benchstroke.app.stations.Manners;
import org.benchstroke.app.stations.Place;
import org.benchstroke.web.access.Door;
import org.benchstroke.web.access.HandClock;
import org.benchstroke.web.access.NamedOperator;
import org.benchstroke.web.access.Operators;
import org.benchstroke.web.access.OperatorsFile;
import org.benchstroke.web.access.Secrets;
import org.benchstroke.web.access.SignInPages;

/** A screen on this machine with the pages that it has, by a clock that a test puts forward. */
public final class TestScreen implements AutoCloseable {
  /** Ann and Dan drive, Ben looks, C. Instance authorises; each with a PIN of their own. */
  public static final String ANN = "482913";

  public static final String BEN = "705218";
  public static final String DAN = "hex-keys!";
  public static final String CLEO = "hex key and a valve";

  private static final OperatorsFile OPERATORS =
      new OperatorsFile(
          List.of(
              new NamedOperator("Ann", Right.DRIVE, Secrets.hash(ANN)),
              new NamedOperator("Ben", Right.READ, Secrets.hash(BEN)),
              new NamedOperator("Dan", Right.DRIVE, Secrets.hash(DAN)),
              new NamedOperator("C. Instance", Right.AUTHORISE, Secrets.hash(CLEO))));

  private final HandClock clock;
  private final Door door;
  private final Floor floor;
  private final Screen screen;

  private TestScreen(HandClock clock, Door door, Floor floor, Screen screen) {
    this.clock = clock;
    this.door = door;
    this.floor = floor;
    this.screen = screen;
  }

  /** Nobody has to sign in. */
  public static TestScreen here(Pages... more) throws Exception {
    return open(Optional.empty(), more);
  }

  /** Ann, Ben, Dan and C. Instance have to; the shop's only supervisor is C. Instance. */
  public static TestScreen signedIn(Path folder, Pages... more) throws Exception {
    Path file = folder.resolve(OperatorsFile.NAME);
    OPERATORS.write(file);
    return open(Optional.of(file), more);
  }

  private static TestScreen open(Optional<Path> operators, Pages... more) throws Exception {
    HandClock clock = new HandClock();
    Optional<ShopFile> shop =
        operators.isPresent()
            ? Optional.of(ShopFileReader.read(Path.of("demo-data/shop/shop.toml")))
            : Optional.empty();
    Door door = new Door(new Operators(operators, clock), shop, List.of(), false, clock);
    Floor floor = new Floor(places(), Manners.USUAL);
    List<Pages> pages =
        new ArrayList<>(
            List.of(
                new StationPages(floor, Defaults.of(Map.of(), Optional.empty(), shop), List.of()),
                new SignInPages(door)));
    pages.addAll(List.of(more));
    Screen screen =
        Screen.open("127.0.0.1", 0, door, new Screen.Content("A shop, invented", true, pages));
    return new TestScreen(clock, door, floor, screen);
  }

  /** Two simulated stations, whose files are unpacked once. */
  private static List<Place> places() throws WrongRequest, IOException {
    Path records = Files.createTempDirectory("benchstroke-screen-");
    return DemoFloor.places(
        new DemoFloor.Wanted(2, 20.0, records, Optional.empty(), "a test", record -> {}));
  }

  public Floor floor() {
    return floor;
  }

  public HandClock clock() {
    return clock;
  }

  public Door door() {
    return door;
  }

  public int port() {
    return screen.port();
  }

  /** The address of a path. */
  public String url(String path) {
    return "http://127.0.0.1:" + screen.port() + path;
  }

  public List<Routes.Route> routes() {
    return screen.routes();
  }

  /** The route of a page or a file that answers a path with its query. */
  Optional<String> route(String path) {
    String plain = path.replaceFirst("[?#].*$", "");
    return screen.routes().stream()
        .filter(route -> route.method().equals("GET") && !route.live())
        .map(Routes.Route::path)
        .filter(route -> matches(route, plain))
        .findFirst();
  }

  private static boolean matches(String route, String path) {
    String pattern =
        Pattern.compile("\\{[^}]*}|[^{]+")
            .matcher(route)
            .replaceAll(
                part ->
                    part.group().startsWith("{")
                        ? "[^/]+"
                        : Pattern.quote(part.group()).replace("\\", "\\\\"));
    return path.matches(pattern);
  }

  @Override
  public void close() {
    screen.close();
    floor.close();
  }
}
