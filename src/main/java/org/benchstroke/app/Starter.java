package org.benchstroke.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** A file to begin with, made of a few answers, with comments that say what else there is. */
public enum Starter {
  BENCH(
      SchemaFile.BENCH,
      List.of(
          text("name", "What do people call the bench?", "New bench"),
          text("place", "Where does it stand?", "not stated"),
          address("source_address", "Where is the signal source?", "tcp://192.0.2.10:5025"),
          text("source_serial", "Serial number of the source?", "0"),
          address("position_address", "Where is the position input?", "tcp://192.0.2.12:502"),
          whole("position_unit_id", "Its Modbus unit id?", "1"),
          text("position_serial", "Its serial number?", "0"),
          whole("position_register", "Its first register, counted from 0?", "0"))),
  UNIT_TYPE(
      SchemaFile.UNIT_TYPE,
      List.of(
          text("name", "What do people call this kind of unit?", "New unit type"),
          word("drive", "What drives it?", "motor", "motor", "pneumatic"),
          number("travel_deg", "Full travel of the stem, in degrees?", "90"),
          number("stroke_time_s", "Nominal time for full travel, in s?", "15"),
          number("safe_signal_mA", "Which signal leaves it safe, in mA?", ""),
          word(
              "signal_loss",
              "What was ordered for the loss of the signal?",
              "",
              "close",
              "open",
              "stay"),
          number("dead_band_pct", "Its dead band setting, in % of travel?", "0.5"))),
  PROCEDURE(
      SchemaFile.PROCEDURE,
      List.of(
          text("name", "What is the procedure called?", "New procedure"),
          new Question(
              "points_pct",
              "Points of the travel error, in % of travel?",
              "0, 25, 50, 75, 100",
              Pattern.compile("[0-9.]+(\\s*,\\s*[0-9.]+)+"),
              "numbers with commas between",
              "[%s]"),
          whole("cycles", "How often up and down?", "1")));

  private static final String FOLDER = "/org/benchstroke/starters/";

  private final SchemaFile schema;

  /** Of List.of: nobody can change it. */
  @SuppressWarnings("ImmutableEnumChecker")
  private final List<Question> questions;

  Starter(SchemaFile schema, List<Question> questions) {
    this.schema = schema;
    this.questions = questions;
  }

  /**
   * A question.
   *
   * @param key by which a command may answer it
   * @param words as a person is asked
   * @param otherwise the answer if there is none; empty where nobody may guess it
   * @param allowed what an answer looks like
   * @param allowedWords the same in words
   * @param form how it is written in a file: in quotes, in brackets or as it is
   */
  public record Question(
      String key,
      String words,
      String otherwise,
      Pattern allowed,
      String allowedWords,
      String form) {
    /**
     * An answer, if it is one.
     *
     * @throws WrongRequest if it is not
     */
    public String answered(String text) throws WrongRequest {
      if (!allowed.matcher(text).matches() || text.length() > Form.LONGEST) {
        throw new WrongRequest(key + ": found \"" + text + "\", allowed is " + allowedWords);
      }
      return text;
    }
  }

  /** Apart, for a constant of this enum is made before its own static fields. */
  private static final class Form {
    private static final int LONGEST = 200;
    private static final String QUOTED = "\"%s\"";
    private static final Pattern TEXT =
        Pattern.compile("[^\\p{Cntrl}\"\\\\]*[^\\p{Cntrl}\"\\\\\\s]");
    private static final Pattern ADDRESS = Pattern.compile("(tcp://[^\\s\"]+:\\d+)");
    private static final Pattern WHOLE = Pattern.compile("\\d{1,5}");
    private static final Pattern NUMBER = Pattern.compile("\\d{1,5}(\\.\\d{1,6})?");
  }

  private static Question text(String key, String words, String otherwise) {
    return new Question(
        key, words, otherwise, Form.TEXT, "a text without quotes, not blank", Form.QUOTED);
  }

  private static Question address(String key, String words, String otherwise) {
    return new Question(key, words, otherwise, Form.ADDRESS, "tcp://host:port", Form.QUOTED);
  }

  private static Question whole(String key, String words, String otherwise) {
    return new Question(key, words, otherwise, Form.WHOLE, "a whole number", "%s");
  }

  private static Question number(String key, String words, String otherwise) {
    return new Question(key, words, otherwise, Form.NUMBER, "a number", "%s");
  }

  private static Question word(String key, String words, String otherwise, String... all) {
    return new Question(
        key,
        words,
        otherwise,
        Pattern.compile(String.join("|", all)),
        String.join(" or ", all),
        Form.QUOTED);
  }

  /** As it is typed: "unit-type". */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static Optional<Starter> of(String key) {
    return Arrays.stream(values()).filter(each -> each.key().equals(key)).findFirst();
  }

  /** The schema that its first line names. */
  public SchemaFile schema() {
    return schema;
  }

  public List<Question> questions() {
    return questions;
  }

  /**
   * The file's text.
   *
   * @param answers one for each question, by its key
   * @param found what else was found out, as comments; may be empty
   */
  public String text(Map<String, String> answers, List<String> found) {
    String text = template();
    for (Question question : questions) {
      String answer = answers.get(question.key());
      text =
          text.replace(
              "{{" + question.key() + "}}", String.format(Locale.ROOT, question.form(), answer));
    }
    String comments =
        String.join(
            "\n", found.stream().map(line -> "# " + line.replaceAll("\\p{Cntrl}", "?")).toList());
    return text.replace("{{found}}\n", comments.isEmpty() ? "" : "\n" + comments + "\n");
  }

  private String template() {
    try (InputStream in = Starter.class.getResourceAsStream(FOLDER + key() + ".toml")) {
      if (in == null) {
        throw new IllegalStateException(key() + " is not in the program file");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged", e);
    }
  }
}
