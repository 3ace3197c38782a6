package org.benchstroke.simulator;

/** An error that a SCPI instrument puts into its queue. Numbers and texts: SCPI-1999 volume 2. */
final class ScpiError extends Exception {
  private static final long serialVersionUID = 1L;

  /** The errors that these instruments know. */
  enum Code {
    INVALID_CHARACTER(-101, "Invalid character"),
    PARAMETER_NOT_ALLOWED(-108, "Parameter not allowed"),
    MISSING_PARAMETER(-109, "Missing parameter"),
    MNEMONIC_TOO_LONG(-112, "Program mnemonic too long"),
    UNDEFINED_HEADER(-113, "Undefined header"),
    INVALID_NUMBER(-121, "Invalid character in number"),
    EXPONENT_TOO_LARGE(-123, "Exponent too large"),
    INVALID_SUFFIX(-131, "Invalid suffix"),
    SUFFIX_NOT_ALLOWED(-138, "Suffix not allowed"),
    INVALID_WORD(-141, "Invalid character data"),
    WORD_NOT_ALLOWED(-148, "Character data not allowed"),
    STRING_NOT_ALLOWED(-158, "String data not allowed"),
    OUT_OF_RANGE(-222, "Data out of range"),
    QUEUE_OVERFLOW(-350, "Queue overflow"),
    INPUT_OVERRUN(-363, "Input buffer overrun"),
    UNTERMINATED_AFTER_IDN(-440, "Query UNTERMINATED after indefinite response");

    private final int number;
    private final String text;

    Code(int number, String text) {
      this.number = number;
      this.text = text;
    }

    /** The entry as SYSTem:ERRor? answers it. */
    String entry() {
      return number + ",\"" + text + "\"";
    }

    /** Its bit in the standard event status register (IEEE 488.2 11.5.1). */
    int eventBit() {
      return switch (-number / 100) {
        case 1 -> 0x20;
        case 2 -> 0x10;
        case 3 -> 0x08;
        default -> 0x04;
      };
    }
  }

  private final Code code;

  ScpiError(Code code) {
    super(code.entry(), null, false, false);
    this.code = code;
  }

  Code code() {
    return code;
  }
}
