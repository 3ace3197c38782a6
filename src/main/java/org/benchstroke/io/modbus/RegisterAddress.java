package org.benchstroke.io.modbus;

import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.core.toml.TomlSection;

/**
 * Reads the address of a register: counted from 0 as the protocol does, or as data sheets often
 * print it, with the table's digit in front and counted from 1 (40001 or 400001 is the holding
 * register at 0).
 *
 * <p>Source: MODBUS Application Protocol V1.1b3, 4.4 (registers are numbered from 1, addresses from
 * 0); the leading digit is common practice, no source. Immutable.
 *
 * @param address counted from 0
 * @param written as the file writes it
 */
record RegisterAddress(int address, String written) {
  private static final Pattern PLAIN = Pattern.compile("0|[1-9][0-9]{0,4}");
  private static final Pattern PRINTED = Pattern.compile("[0134][0-9]{4,5}");
  private static final int SHORT_DIGITS = 5;
  private static final int LAST = 65_535;
  private static final RegisterAddress ANY = new RegisterAddress(0, "0");

  static RegisterAddress read(TomlSection section, Register.Table table) {
    Optional<Object> found = section.optional("address");
    if (found.isEmpty()) {
      section.mistake("", "address is missing; write " + allowed(table));
      return ANY;
    }
    boolean readable = found.get() instanceof Long || found.get() instanceof String;
    String text = String.valueOf(found.get()).strip();
    Optional<RegisterAddress> read = readable ? of(section, text, table) : Optional.empty();
    if (read.isEmpty()) {
      String shown = found.get() instanceof String ? "\"" + text + "\"" : text;
      section.mistake("address", "found " + shown + ", allowed is " + allowed(table));
    }
    return read.orElse(ANY);
  }

  /** A text of five or six digits that begins with a table's digit is always the printed form. */
  private static Optional<RegisterAddress> of(
      TomlSection section, String text, Register.Table table) {
    if (PRINTED.matcher(text).matches()) {
      int digit = text.charAt(0) - '0';
      int number = Integer.parseInt(text.substring(1));
      if (digit != table.leadingDigit() && number >= 1) {
        section.mistake(
            "address",
            text
                + " is how data sheets print a "
                + ofDigit(digit).key()
                + " address, but the table is "
                + table.key()
                + "; correct one of the two");
        return Optional.of(ANY);
      }
      int most = text.length() == SHORT_DIGITS ? 9999 : LAST + 1;
      if (number >= 1 && number <= most) {
        return Optional.of(new RegisterAddress(number - 1, text));
      }
      return Optional.empty();
    }
    if (PLAIN.matcher(text).matches() && Integer.parseInt(text) <= LAST) {
      return Optional.of(new RegisterAddress(Integer.parseInt(text), text));
    }
    return Optional.empty();
  }

  private static Register.Table ofDigit(int digit) {
    for (Register.Table table : Register.Table.values()) {
      if (table.leadingDigit() == digit) {
        return table;
      }
    }
    throw new IllegalArgumentException("no table has the digit " + digit);
  }

  private static String allowed(Register.Table table) {
    String digit = Integer.toString(table.leadingDigit());
    return "a whole number, 0 to 65535, counted from 0, or as data sheets print it, \""
        + digit
        + "0001\" to \""
        + digit
        + "9999\" or \""
        + digit
        + "00001\" to \""
        + digit
        + "65536\"";
  }
}
