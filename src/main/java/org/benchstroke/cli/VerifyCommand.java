package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.benchstroke.app.CertificateFiles;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.Reports;
import org.benchstroke.app.Verified;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Json;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.record.Amendment;
import org.benchstroke.record.Amendments;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.Seal;
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
      Commands.VERIFY,
      "Names the first line that is not, and the key. A key proves the bench only to whoever has"
          + " its public half from the bench itself: give that with --key. Needs nothing but the"
          + " record, the files beside it and the public half; of a certificate nothing but the"
          + " certificate, whose pages are not signed: it tells what they must say."
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

  @Parameters(
      paramLabel = "RECORD",
      arity = "1..*",
      description = "Records, .jsonl files, or certificates, .pdf, with their records in them.")
  private List<Path> records;

  @Option(
      names = "--key",
      paramLabel = "FILE",
      description = "The public half of the key that is expected, a PEM file; repeatable.")
  private List<Path> keys = new ArrayList<>();

  @Option(names = "--json", description = "Prints JSON, and nothing else.")
  private boolean json;

  @Spec private CommandSpec spec;

  /** What was found of each, for a program. */
  private final List<Map<String, Object>> found = new ArrayList<>();

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
    if (json) {
      Map<String, Object> told = new LinkedHashMap<>();
      told.put("format", 1);
      told.put("records", found);
      Shown.out(spec).println(Json.line(told));
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

  private int verify(Path file, Map<PublicHalf, Path> expected) {
    if (!CertificateFiles.isOne(file)) {
      return verify(file.toString(), file, expected);
    }
    try (CertificateFiles certificate = CertificateFiles.of(file)) {
      int code = ExitCode.PASSED;
      for (Map.Entry<String, Path> each : certificate.records().entrySet()) {
        String shown = file + ", " + each.getKey();
        code = Math.max(code, verify(shown, each.getValue(), expected));
        code = Math.max(code, judgedAgain(shown, each.getValue()));
      }
      if (certificate.records().isEmpty()) {
        Shown.err(spec).println(file + ": is a PDF file with no record in it");
        return ExitCode.WRONG_REQUEST;
      }
      return code;
    } catch (Unreadable | IOException e) {
      Shown.err(spec).println(file + ": " + e.getMessage());
      return ExitCode.WRONG_REQUEST;
    }
  }

  /** The pages are not signed: what they say is held against what the record gives. */
  private int judgedAgain(String shown, Path record) {
    try {
      JudgedRun run = Reports.judge(record);
      if (json) {
        found.get(found.size() - 1).put("verdict", run.verdict().text());
        found.get(found.size() - 1).put("report", ReportPages.number(run));
        return ExitCode.PASSED;
      }
      Shown.out(spec)
          .println(
              "  the record gives: "
                  + ReportPages.shown(run).ofUnit()
                  + (run.simulated() ? ", SIMULATED" : "")
                  + (run.imported().isPresent() ? ", RECORDED ELSEWHERE" : "")
                  + ", number "
                  + ReportPages.number(run)
                  + "; the pages must say the same, a later issue with -I2, -I3 and so on behind the"
                  + " number");
      return ExitCode.PASSED;
    } catch (RecordReader.NotARecord | FileMistakes e) {
      Shown.err(spec).println(shown + ": can't be judged: " + e.getMessage());
      return ExitCode.NOT_PASSED;
    }
  }

  private int verify(String shown, Path record, Map<PublicHalf, Path> expected) {
    try {
      Verified verified = Verified.of(record);
      Seal seal = verified.seal();
      Amendments amendments = verified.amendments();
      boolean well = well(seal, amendments, expected);
      if (json) {
        found.add(told(shown, well, seal, amendments));
      } else {
        tell(shown, verified, expected);
      }
      return well ? ExitCode.PASSED : ExitCode.NOT_PASSED;
    } catch (Unreadable e) {
      return unreadable(shown, shown + ": " + e.getMessage());
    } catch (RecordReader.NotARecord e) {
      return unreadable(shown, e.getMessage());
    } catch (IOException e) {
      return unreadable(shown, shown + ": can't be read: " + e.getMessage());
    }
  }

  private int unreadable(String shown, String message) {
    Shown.err(spec).println(message);
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("record", shown);
    told.put("well", false);
    told.put("state", "unreadable");
    told.put("detail", message);
    found.add(told);
    return ExitCode.WRONG_REQUEST;
  }

  private static Map<String, Object> told(
      String shown, boolean well, Seal seal, Amendments amendments) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("record", shown);
    told.put("well", well);
    told.put("state", seal.state().name().toLowerCase(Locale.ROOT).replace('_', ' '));
    if (!seal.detail().isEmpty()) {
      told.put("detail", seal.detail());
    }
    seal.key().ifPresent(key -> told.put("key", key.fingerprint()));
    List<Map<String, Object>> amended = new ArrayList<>();
    for (Amendment a : amendments.all()) {
      Map<String, Object> each = new LinkedHashMap<>();
      each.put("field", a.label().key());
      each.put("was", a.was());
      each.put("is", a.is());
      each.put("by", a.by());
      each.put("key", a.key().fingerprint());
      amended.add(each);
    }
    told.put("amendments", amended);
    told.put("flaws", amendments.flaws());
    return told;
  }

  private static boolean well(Seal seal, Amendments amendments, Map<PublicHalf, Path> expected) {
    return seal.state() == Seal.State.SEALED
        && amendments.flaws().isEmpty()
        && seal.key().filter(key -> !trusted(key, expected)).isEmpty()
        && amendments.all().stream().allMatch(a -> trusted(a.key(), expected));
  }

  private void tell(String record, Verified verified, Map<PublicHalf, Path> expected) {
    Seal seal = verified.seal();
    Amendments amendments = verified.amendments();
    Shown out = Shown.out(spec);
    out.println(record + ": " + verified.words());
    seal.key().ifPresent(key -> out.println("  sealed by key " + whose(key, expected)));
    for (Amendment a : amendments.all()) {
      String was = a.was().isBlank() ? "not stated" : a.was();
      out.println(
          "  amended: " + a.label().words() + " " + a.is() + ", was " + was + "; by " + a.by());
      out.println("    sealed by key " + whose(a.key(), expected));
    }
    amendments.flaws().forEach(flaw -> out.println("  an amendment does not hold: " + flaw));
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
