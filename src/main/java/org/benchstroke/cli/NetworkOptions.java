package org.benchstroke.cli;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.web.Certificate;
import org.benchstroke.web.access.Door;
import org.benchstroke.web.access.Operators;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** From where the bench screen is reached, and by whom. */
final class NetworkOptions {
  private static final String HERE = "127.0.0.1";
  private static final String PASSPHRASE = "BENCHSTROKE_CERTIFICATE_PASSPHRASE";

  @Option(
      names = "--address",
      paramLabel = "ADDRESS",
      defaultValue = HERE,
      description =
          "This computer's address at which the screen is reached (default: ${DEFAULT-VALUE}, from"
              + " this computer only). Any other wants operators with PINs.")
  private String address;

  @Option(
      names = "--name",
      paramLabel = "NAME",
      description =
          "A name by which browsers call this computer, beside its address; may be given several"
              + " times. It wants operators with PINs, too.")
  private List<String> names = new ArrayList<>();

  @Option(
      names = "--certificate",
      paramLabel = "FILE",
      description =
          "A PKCS#12 file with key and certificate: browsers reach the screen over TLS. Its"
              + " passphrase stands in BENCHSTROKE_CERTIFICATE_PASSPHRASE, or is asked for.")
  private Optional<Path> certificate = Optional.empty();

  /**
   * The certificate, if there is one.
   *
   * @throws WrongRequest if it can't be read
   */
  Optional<Certificate> certificate(CommandSpec spec) throws WrongRequest {
    if (certificate.isEmpty()) {
      return Optional.empty();
    }
    String passphrase =
        Optional.ofNullable(System.getenv(PASSPHRASE))
            .or(() -> Input.of(spec).secret("Passphrase of " + certificate.get() + ": "))
            .orElse("");
    return Optional.of(Certificate.read(certificate.get(), passphrase));
  }

  /** At which it is reached. */
  String address() {
    return address;
  }

  /**
   * What lets people in.
   *
   * @param shop names the operators file; empty where there are no operators
   * @param stated what the shop file says
   * @throws WrongRequest if others could reach the screen, and nobody would have to sign in
   * @throws FileMistakes if there is a mistake in the operators file
   */
  Door door(CommandSpec spec, Optional<ShopOption> shop, Optional<ShopFile> stated)
      throws WrongRequest, FileMistakes {
    Optional<Path> file = shop.isPresent() ? shop.get().operatorsIfAny(spec) : Optional.empty();
    Operators operators = new Operators(file, SystemClock.realTime());
    boolean elsewhere = !names.isEmpty() || !isLoopback();
    if (elsewhere && operators.now().isEmpty()) {
      throw new WrongRequest(
          (names.isEmpty() ? "--address: " : "--name: ")
              + "others on the network could move a unit, since nobody has to sign in. First add"
              + " those who may: benchstroke operator add NAME"
              + file.map(path -> ", which makes " + path).orElse(""));
    }
    return new Door(operators, stated, all(), certificate.isPresent(), SystemClock.realTime());
  }

  private List<String> all() {
    List<String> all = new ArrayList<>(names);
    all.add(address);
    return all;
  }

  private boolean isLoopback() throws WrongRequest {
    try {
      return InetAddress.getByName(address).isLoopbackAddress();
    } catch (UnknownHostException e) {
      throw new WrongRequest(
          "--address: found \"" + address + "\", allowed is an address of this computer");
    }
  }
}
