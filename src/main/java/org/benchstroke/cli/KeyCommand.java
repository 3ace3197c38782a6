package org.benchstroke.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.papers.Json;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.BenchKeys;
import org.benchstroke.record.signing.NoKey;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Shows the key by which this bench seals its records. */
@Command(
    name = "key",
    description = {
      Commands.KEY,
      "Makes it if there is none yet. Give the public half to whoever must tell this bench's"
          + " records from others."
    },
    mixinStandardHelpOptions = true)
final class KeyCommand implements Callable<Integer> {
  @Option(
      names = "--passphrase",
      description = "Asks for a new passphrase of the private half; an empty one takes it away.")
  private boolean passphrase;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest {
    BenchKeys keys = KeyPlace.of(spec).keys();
    try {
      BenchKey key = Sealing.key(spec, true);
      if (passphrase) {
        change(keys);
      }
      Shown out = Shown.out(spec);
      if (json) {
        out.println(Json.line(new Told(1, key.shared().fingerprint(), keys)));
        return ExitCode.PASSED;
      }
      out.println("Key:          " + key.shared().fingerprint());
      out.println("Public half:  " + keys.publicFile() + " (for everyone)");
      out.println("Private half: " + keys.store() + " (for nobody but this bench)");
      return ExitCode.PASSED;
    } catch (NoKey e) {
      throw new WrongRequest(e.getMessage());
    }
  }

  /**
   * For a program.
   *
   * @param publicHalf the file for everyone
   * @param privateHalf the file for nobody but this bench
   */
  private record Told(int format, String fingerprint, String publicHalf, String privateHalf) {
    Told(int format, String fingerprint, BenchKeys keys) {
      this(format, fingerprint, keys.publicFile().toString(), keys.store().toString());
    }
  }

  private void change(BenchKeys keys) throws NoKey, WrongRequest {
    Input in = Input.of(spec);
    if (!in.canAnswer()) {
      throw new WrongRequest("--passphrase: there is no terminal to type it at");
    }
    Optional<String> before = in.secret("Passphrase until now (Enter: none): ");
    Optional<String> next = in.secret("New passphrase (Enter: none): ");
    if (!next.equals(in.secret("The new one again: "))) {
      throw new WrongRequest("The two differ; the passphrase stays as it was");
    }
    keys.change(before.orElse(""), next.orElse(""));
  }
}
