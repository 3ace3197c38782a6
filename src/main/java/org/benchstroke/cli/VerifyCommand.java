package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.record.Amendment;
import org.benchstroke.record.Amendments;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.Seal;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.PublicHalf;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tells whether records are as they were sealed, and by whose key. */
@Command(
    name = "verify",
    description = {
      "Tells whether records are byte for byte what was sealed.",
      "Names the first line that is not, and the key. A key proves the bench only to whoever has"
          + " its public half from the bench itself: give that with --key. Needs nothing but the"
          + " record, the files beside it and the public half."
    },
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Exit codes:  0 all are sealed and whole,",
      "             1 one is not sealed, changed, renamed or sealed by another key,",
      "             2 the request was wrong"
    })
final class VerifyCommand implements Callable<Integer> {
  private static final int MOST_KEY_BYTES = 100_000;

  @Parameters(paramLabel = "RECORD", arity = "1..*", description = "Records, .jsonl files.")
  private List<Path> records;

  @Option(
      names = "--key",
      paramLabel = "FILE",
      description = "The public half of the key that is expected, a PEM file; repeatable.")
  private List<Path> keys = new ArrayList<>();

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest {
    Map<PublicHalf, Path> expected = new LinkedHashMap<>();
    for (Path file : keys) {
      expected.put(key(file), file);
    }
    int code = ExitCode.PASSED;
    for (Path record : records) {
      code = Math.max(code, verify(record, expected));
    }
    Shown.out(spec).flush();
    return code;
  }

  private static PublicHalf key(Path file) throws WrongRequest {
    try {
      String text = GivenFile.text(GivenFile.bytes(file, MOST_KEY_BYTES));
      return PublicHalf.ofPem(text)
          .orElseThrow(
              () ->
                  new WrongRequest(
                      file + ": holds no public key of a bench, a PEM file of Ed25519"));
    } catch (Unreadable e) {
      throw new WrongRequest(file + ": " + e.getMessage());
    }
  }

  private int verify(Path record, Map<PublicHalf, Path> expected) {
    try {
      Seal seal = SealFile.check(record);
      // Of what was changed nothing counts, not what was amended of it either.
      Amendments amendments =
          seal.state() == Seal.State.BROKEN
              ? Amendments.NONE
              : RecordReader.read(record).amendments();
      return tell(record, seal, amendments, expected) ? ExitCode.PASSED : ExitCode.NOT_PASSED;
    } catch (Unreadable e) {
      Shown.err(spec).println(record + ": " + e.getMessage());
    } catch (RecordReader.NotARecord e) {
      Shown.err(spec).println(e.getMessage());
    } catch (IOException e) {
      Shown.err(spec).println(record + ": can't be read: " + e.getMessage());
    }
    return ExitCode.WRONG_REQUEST;
  }

  /** Whether all is well. */
  private boolean tell(
      Path record, Seal seal, Amendments amendments, Map<PublicHalf, Path> expected) {
    Shown out = Shown.out(spec);
    boolean well = seal.state() == Seal.State.SEALED && amendments.flaws().isEmpty();
    String word =
        switch (seal.state()) {
          case SEALED -> "sealed and whole";
          case RENAMED -> "RENAMED, but whole: " + seal.detail();
          case NOT_SEALED -> "NOT SEALED: " + seal.detail();
          case BROKEN -> "CHANGED: " + seal.detail();
        };
    out.println(record + ": " + word);
    if (seal.key().isPresent()) {
      out.println("  sealed by key " + whose(seal.key().get(), expected));
      well &= trusted(seal.key().get(), expected);
    }
    for (Amendment a : amendments.all()) {
      String was = a.was().isBlank() ? "not stated" : a.was();
      out.println(
          "  amended: " + a.label().words() + " " + a.is() + ", was " + was + "; by " + a.by());
      out.println("    sealed by key " + whose(a.key(), expected));
      well &= trusted(a.key(), expected);
    }
    amendments.flaws().forEach(flaw -> out.println("  an amendment does not hold: " + flaw));
    return well;
  }

  private static boolean trusted(PublicHalf key, Map<PublicHalf, Path> expected) {
    return expected.isEmpty() || expected.containsKey(key);
  }

  private static String whose(PublicHalf key, Map<PublicHalf, Path> expected) {
    String whose =
        expected.containsKey(key)
            ? "the one in " + expected.get(key)
            : expected.isEmpty()
                ? "whoever made that key; name the bench's with --key to be sure"
                : "NONE OF THOSE that were expected";
    return key.fingerprint() + ": " + whose;
  }
}
