package org.benchstroke.record;

import java.util.Optional;
import java.util.OptionalLong;
import org.benchstroke.record.signing.PublicHalf;

/**
 * What a record's seal shows.
 *
 * @param state in a word
 * @param detail why it is not simply sealed, as the rest of a sentence; empty if it is
 * @param line the first line that is not as it was sealed or, without a seal, does not follow from
 *     those before it; from 1; empty if there is none, or it can't be told
 * @param key by which it was sealed; empty without a seal that holds
 */
public record Seal(State state, String detail, OptionalLong line, Optional<PublicHalf> key) {
  /** What it is, in words. */
  public enum State {
    /** Every byte is as it was sealed. */
    SEALED("sealed"),
    /** Likewise, but the file had another name then: it may be in another's place. */
    RENAMED("sealed under another name"),
    /** Nobody can tell whether it is as it was written. */
    NOT_SEALED("not sealed"),
    /** It is not what was sealed. */
    BROKEN("broken");

    private final String text;

    State(String text) {
      this.text = text;
    }

    public String text() {
      return text;
    }
  }

  static Seal none(String why) {
    return new Seal(State.NOT_SEALED, why, OptionalLong.empty(), Optional.empty());
  }

  static Seal broken(String how, OptionalLong line, Optional<PublicHalf> key) {
    return new Seal(State.BROKEN, how, line, key);
  }

  /** Whether the record is byte for byte what was sealed. */
  public boolean holds() {
    return state == State.SEALED || state == State.RENAMED;
  }

  /** State and detail, as one text. */
  public String text() {
    return state.text() + (detail.isEmpty() ? "" : ": " + detail);
  }
}
