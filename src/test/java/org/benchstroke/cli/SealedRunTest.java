package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.DebianProgram;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.BenchKeys;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the commands say of sealed, changed and amended records. */
class SealedRunTest {
  /** Made once: a whole run takes its time. */
  @TempDir static Path shared;

  @TempDir Path folder;

  private KeyPlace place;
  private BenchKey key;
  private Path record;

  @BeforeEach
  void aSealedRecord() throws Exception {
    place = new KeyPlace(folder.resolve("keys"), Optional.empty());
    key = place.keys().open("");
    record = copyOf("healthy-b", "20260601-080000-B.jsonl");
    SealFile.write(record, key);
  }

  private Path copyOf(String simulation, String name) throws IOException {
    Path whole = shared.resolve(simulation + ".jsonl");
    if (Files.notExists(whole)) {
      VirtualBench.with(simulation).runInto(whole);
    }
    return Files.copy(whole, folder.resolve(name));
  }

  private Command run(Object... arguments) {
    return Command.keyed(place, arguments);
  }

  @Test
  void aSealedRecordIsToldByEveryCommand() throws Exception {
    Command verify = run("verify", record);
    assertThat(verify.code()).isZero();
    assertThat(verify.out())
        .isEqualTo(
            record
                + ": sealed and whole\n  sealed by key "
                + key.shared().fingerprint()
                + ": whoever made that key; name the bench's with --key to be sure\n");
    Command judge = run("judge", record);
    assertThat(judge.code()).isZero();
    assertThat(judge.out())
        .contains("Sealed by key " + key.shared().fingerprint().substring(0, 16) + "…\n")
        .contains("PASSED");
    JsonNode json = json();
    assertThat(json.get("seal").asText()).isEqualTo("sealed");
    assertThat(json.get("seal_key").asText()).isEqualTo(key.shared().fingerprint());
    assertThat(json.get("passed").asBoolean()).isTrue();
    assertThat(page())
        .contains("Seal of the record", key.shared().fingerprint())
        .doesNotContain("NOT SEALED");
  }

  @Test
  void theExpectedKeyIsToldFromAnother() throws Exception {
    Path expected = place.keys().publicFile();
    assertThat(run("verify", record, "--key", expected).out()).contains(": the one in " + expected);
    assertThat(run("verify", record, "--key", expected).code()).isZero();

    BenchKeys others = new BenchKeys(folder.resolve("others"));
    others.open("");
    Command other = run("verify", record, "--key", others.publicFile());
    assertThat(other.code()).isEqualTo(1);
    assertThat(other.out()).contains("sealed and whole", "NONE OF THOSE that were expected");
    Command both = run("verify", record, "--key", others.publicFile(), "--key", expected);
    assertThat(both.code()).isZero();

    for (Path none : List.of(record, folder, folder.resolve("none.pem"), place.keys().store())) {
      Command wrong = run("verify", record, "--key", none);
      assertThat(wrong.code()).isEqualTo(2);
      assertThat(wrong.err()).startsWith(none + ": ").hasLineCount(1);
    }
  }

  @Test
  void aCutAtALineIsFoundAndPassesNothing() throws Exception {
    List<String> lines = Files.readAllLines(record);
    Files.writeString(record, String.join("\n", lines.subList(0, lines.size() - 1)) + "\n");
    Command verify = run("verify", record);
    assertThat(verify.code()).isEqualTo(1);
    assertThat(verify.out())
        .contains(
            ": CHANGED: line "
                + lines.size()
                + " and all after it were cut off: it was sealed with "
                + lines.size()
                + " lines");
    assertNoPass("the record's seal is broken: line " + lines.size());
  }

  /** Another figure and a chain that fits: nothing but the seal tells. */
  @Test
  void aChainMadeAnewIsFoundAndPassesNothing() throws Exception {
    Path stranger = copyOf("span-error", "x.jsonl");
    Files.copy(stranger, record, StandardCopyOption.REPLACE_EXISTING);
    Command verify = run("verify", record);
    assertThat(verify.code()).isEqualTo(1);
    assertThat(verify.out())
        .contains("line 1 is not the one that was sealed, and its check value was made anew");
    assertNoPass("the record's seal is broken: line 1 is not");
  }

  private void assertNoPass(String why) throws IOException {
    Command judge = run("judge", record);
    assertThat(judge.code()).isNotZero();
    assertThat(judge.out()).contains("! " + why.substring(0, 30)).doesNotContain("PASSED");
    JsonNode json = json();
    assertThat(json.get("seal").asText()).isEqualTo("broken");
    assertThat(json.get("passed").asBoolean()).isFalse();
    assertThat(json.get("complete").asBoolean()).isFalse();
    assertThat(json.get("reason").asText()).contains(why);
    assertThat(page()).contains("CHANGED RECORD: ").doesNotContain("verdict pass");
  }

  @Test
  void aSealThatIsGoneIsToldAndSpoilsNoVerdict() throws Exception {
    Files.delete(SealFile.of(record));
    Command verify = run("verify", record);
    assertThat(verify.code()).isEqualTo(1);
    assertThat(verify.out()).isEqualTo(record + ": NOT SEALED: there is no seal beside it\n");
    Command judge = run("judge", record);
    assertThat(judge.code()).isZero();
    assertThat(judge.out()).contains("! not sealed: there is no seal beside it");
    assertThat(json().get("seal").asText()).isEqualTo("not sealed");
    assertThat(page()).contains("NOT SEALED: there is no seal beside it.");
  }

  @Test
  void recordsUnderEachOthersNamesAreFound() throws Exception {
    Path other = copyOf("span-error", "other.jsonl");
    SealFile.write(other, key);
    Path aside = folder.resolve("aside");
    Files.move(record, aside);
    Files.move(other, record);
    Files.move(aside, other);
    assertThat(run("verify", record).out()).contains("CHANGED: line 1 is not");
    assertThat(run("verify", other).code()).isEqualTo(1);

    Files.move(SealFile.of(record), aside);
    Files.move(SealFile.of(other), SealFile.of(record));
    Files.move(aside, SealFile.of(other));
    Command verify = run("verify", record, other);
    assertThat(verify.code()).isEqualTo(1);
    assertThat(verify.out())
        .contains(record + ": RENAMED, but whole: it was sealed as other.jsonl")
        .contains(other + ": RENAMED, but whole: it was sealed as 20260601-080000-B.jsonl");
    assertThat(run("judge", record).out())
        .contains("! sealed under another name: it was sealed as other.jsonl");
  }

  @Test
  void whatIsNoRecordIsABadRequest() throws Exception {
    Path text = Files.writeString(folder.resolve("text.jsonl"), "hello\n");
    for (Path none : List.of(text, folder, folder.resolve("none.jsonl"))) {
      Command wrong = run("verify", record, none);
      assertThat(wrong.code()).as(none.toString()).isEqualTo(2);
      assertThat(wrong.out()).contains("sealed and whole");
      assertThat(wrong.err()).contains(none.getFileName().toString()).hasLineCount(1);
    }
    assertThat(run("verify").code()).isEqualTo(2);
  }

  @Test
  void aLabelIsAmendedBesideTheRecord() throws Exception {
    byte[] before = Files.readAllBytes(record);
    Command amend = amend("serial", "B-71", "Ann", "digits swapped");
    assertThat(amend.err()).isEmpty();
    assertThat(amend.code()).isZero();
    assertThat(amend.out()).contains("Amended: serial number B-71, was ");
    assertThat(amend("customer", "Example Water Board", "Ann", "not typed").code()).isZero();
    assertThat(amend("serial", "B-72", "Bob", "digit misread").code()).isZero();
    assertThat(Files.readAllBytes(record)).isEqualTo(before);

    JsonNode json = json();
    assertThat(json.get("unit").get("serial").asText()).isEqualTo("B-72");
    assertThat(json.get("customer").asText()).isEqualTo("Example Water Board");
    assertThat(json.get("amendments").findValuesAsText("was")).endsWith("", "B-71");
    assertThat(json.get("amendments").findValuesAsText("by")).containsExactly("Ann", "Ann", "Bob");
    assertThat(json.get("passed").asBoolean()).isTrue();
    assertThat(json.get("report").asText()).endsWith("-A3");
    assertThat(run("judge", record).out())
        .contains("Amended: serial number B-72, was B-71; by Bob");
    assertThat(page()).contains("AMENDED: serial number B-72, was B-71; by Bob", "digit misread");
    Command verify = run("verify", record, "--key", place.keys().publicFile());
    assertThat(verify.code()).isZero();
    assertThat(verify.out()).contains("  amended: serial number B-72, was B-71; by Bob\n");
  }

  /** The reference page names what stands in these files, in order. */
  @Test
  void whatStandsBesideARecordIsDocumented() throws Exception {
    amend("order", "4", "Ann", "x");
    Path amendment = folder.resolve(record.getFileName() + ".amendment-1");
    assertThat(stated(SealFile.of(record))).isEqualTo(documented("## The seal"));
    assertThat(stated(amendment)).isEqualTo(documented("## Amendments"));
  }

  private static List<String> stated(Path file) throws IOException {
    List<String> keys = new ArrayList<>();
    JsonNode statement = new ObjectMapper().readTree(Files.readAllLines(file).get(0));
    statement.fieldNames().forEachRemaining(keys::add);
    assertThat(keys.remove(keys.size() - 1)).isEqualTo("public_key");
    return keys;
  }

  private static List<String> documented(String heading) throws IOException {
    String page = Files.readString(Path.of("docs/reference/record-format.md"));
    String section = page.substring(page.indexOf(heading + "\n") + heading.length());
    int next = section.indexOf("\n## ");
    return Pattern.compile("(?m)^\\| `(\\w+)` \\|")
        .matcher(next < 0 ? section : section.substring(0, next))
        .results()
        .map(row -> row.group(1))
        .toList();
  }

  private Command amend(String field, String to, String by, String reason) {
    return run("amend", record, "--field", field, "--to", to, "--by", by, "--reason", reason);
  }

  @Test
  void figuresAndChangedRecordsAreNotAmended() throws Exception {
    for (String field : List.of("verdict", "value", "limits", "SERIAL", "")) {
      Command amend = amend(field, "1", "Ann", "better");
      assertThat(amend.code()).isEqualTo(2);
      assertThat(amend.err()).contains("allowed are serial, order, customer, operator");
    }
    assertThat(amend("serial", " ", "Ann", "x").code()).isEqualTo(2);
    assertThat(amend("received", "soon", "Ann", "x").err())
        .contains("--to: found \"soon\", allowed is a date such as 2026-06-01");
    assertThat(amend("order", "4", "Ann", "x").code()).isZero();
    assertThat(amend("order", "4", "Ann", "x").err()).contains("is 4 already");
    Path first = folder.resolve(record.getFileName() + ".amendment-1");
    byte[] bytes = Files.readAllBytes(first);
    bytes[bytes.length / 2] ^= 1;
    Files.write(first, bytes);
    assertThat(run("verify", record).out()).contains("an amendment does not hold: ");
    assertThat(run("verify", record).code()).isEqualTo(1);
    assertThat(run("judge", record).code()).isEqualTo(1);
    assertThat(json().get("unit").get("order").asText()).isNotEqualTo("4");
    assertThat(amend("serial", "B-3", "Ann", "x").err()).contains("nothing can be amended");
  }

  @Test
  void anAmendmentOfAnotherRecordOrOutOfItsOrderDoesNotHold() throws Exception {
    amend("order", "4", "Ann", "x");
    amend("order", "5", "Ann", "x");
    Path one = folder.resolve(record.getFileName() + ".amendment-1");
    Path two = folder.resolve(record.getFileName() + ".amendment-2");
    byte[] kept = Files.readAllBytes(one);
    Files.delete(one);
    assertThat(run("verify", record).out()).contains("amendment-2 does not follow");
    Files.write(one, Files.readAllBytes(two));
    assertThat(run("verify", record).out()).contains("amendment-1 does not follow");
    Files.write(one, kept);
    assertThat(run("verify", record).code()).isZero();

    Path other = copyOf("span-error", "other.jsonl");
    SealFile.write(other, key);
    Files.write(folder.resolve("other.jsonl.amendment-1"), kept);
    assertThat(run("verify", other).out()).contains("amendment-1 is of another record");
    assertThat(run("judge", other).code()).isEqualTo(1);
  }

  @Test
  void aKeyIsShownAndMade() throws Exception {
    Command shown = run("key");
    assertThat(shown.code()).isZero();
    assertThat(shown.out()).contains(key.shared().fingerprint(), "bench-key.pem", "bench-key.p12");
    KeyPlace fresh = new KeyPlace(folder.resolve("fresh"), Optional.of("some words of it"));
    Command made = Command.keyed(fresh, "key");
    assertThat(made.code()).isZero();
    assertThat(made.out() + made.err()).doesNotContain("some words");
    assertThat(fresh.toString()).doesNotContain("some words");
    KeyPlace without = new KeyPlace(fresh.folder(), Optional.empty());
    assertThat(Command.keyed(without, "key").code()).isEqualTo(2);
    assertThat(Command.keyed(without, "key").err())
        .contains("needs its passphrase")
        .hasLineCount(1);
    assertThat(Command.keyed(fresh, "key", "--passphrase").err()).contains("there is no terminal");
    Path blocked = Files.writeString(folder.resolve("file"), "");
    KeyPlace nowhere = new KeyPlace(blocked.resolve("below"), Optional.empty());
    assertThat(Command.keyed(nowhere, "key").code()).isEqualTo(2);
    Command amend =
        Command.keyed(
            nowhere,
            new Object[] {
              "amend", record, "--field", "order", "--to", "1", "--by", "A", "--reason", "x"
            });
    assertThat(amend.code()).isEqualTo(2);
    assertThat(amend.err()).contains("An amendment must be sealed: ");
  }

  /** At a real terminal: what is typed is not shown. */
  @Test
  void aPassphraseIsAskedForUnseen() throws Exception {
    try (TerminalSession session = TerminalSession.at(80, place, "key", "--passphrase")) {
      session.begin();
      session.awaitShown("Passphrase until now (Enter: none): ");
      session.type("\n");
      session.awaitShown("New passphrase (Enter: none): ");
      session.type("four words\n");
      session.awaitShown("The new one again: ");
      session.type("four words\n");
      assertThat(session.awaitEnd()).isZero();
      assertThat(session.shown()).contains(key.shared().fingerprint()).doesNotContain("four");
    }
    assertThat(run("key").err()).contains("needs its passphrase");
    assertThat(place.keys().open("four words").shared()).isEqualTo(key.shared());
    try (TerminalSession session = TerminalSession.at(80, place, "key")) {
      session.begin();
      session.awaitShown("Passphrase of this bench's key");
      session.type("four words\n");
      assertThat(session.awaitEnd()).isZero();
      assertThat(session.shown()).contains(key.shared().fingerprint()).doesNotContain("four");
    }
  }

  @Test
  void whatOthersRecordedIsSealedAsItsRecordIsMade() throws Exception {
    Path made = folder.resolve("made.jsonl");
    run(
        "judge",
        "demo-data/recorded/readings.csv",
        "--bench",
        "demo-data/benches/by-hand.toml",
        "--unit-type",
        ShortRun.TYPE,
        "--record",
        made);
    assertThat(run("verify", made, "--key", place.keys().publicFile()).code()).isZero();
  }

  @Test
  void anAmendmentByAnotherKeyIsToldAsSuch() throws Exception {
    KeyPlace office = new KeyPlace(folder.resolve("office"), Optional.empty());
    Command amend =
        Command.keyed(
            office, "amend", record, "--field", "order", "--to", "4", "--by", "A", "--reason", "x");
    assertThat(amend.code()).isZero();
    assertThat(run("judge", record).out()).contains("another key than the record");
    Path bench = place.keys().publicFile();
    assertThat(run("verify", record, "--key", bench).code()).isEqualTo(1);
    Command both = run("verify", record, "--key", bench, "--key", office.keys().publicFile());
    assertThat(both.code()).isZero();
  }

  /** The how-to, with programs of others alone. */
  @Test
  void opensslChecksTheSealWithoutThisProgram() throws Exception {
    DebianProgram.require("openssl");
    DebianProgram.require("sha256sum");
    String page = Files.readString(Path.of("docs/how-to/prove-that-a-record-is-unchanged.md"));
    int begin = page.indexOf("```bash\n") + 8;
    String script = page.substring(begin, page.indexOf("```", begin));
    List<String> shell =
        List.of("bash", "-e", "-c", script, "check", record.toString(), publicFile());
    assertThat(ended(shell)).contains("Signature Verified Successfully").contains(": OK");

    byte[] bytes = Files.readAllBytes(record);
    bytes[bytes.length - 200] ^= 1;
    Files.write(record, bytes);
    assertThat(ended(shell)).contains("FAILED");
    byte[] seal = Files.readAllBytes(SealFile.of(record));
    seal[20] ^= 1;
    Files.write(SealFile.of(record), seal);
    assertThat(ended(shell)).contains("Signature Verification Failure");
  }

  private String publicFile() {
    return place.keys().publicFile().toString();
  }

  private String ended(List<String> command) throws IOException {
    Process process =
        new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).start();
    return new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
  }

  private JsonNode json() throws IOException {
    return new ObjectMapper().readTree(run("judge", "--json", record).out());
  }

  private String page() throws IOException {
    Path page = folder.resolve("page.html");
    List<Object> report = new ArrayList<>(Arrays.asList("report", record, "--out", page));
    run(report.toArray());
    return Files.readString(page);
  }
}
