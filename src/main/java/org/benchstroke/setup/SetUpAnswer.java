package org.benchstroke.setup;

import java.util.Map;

/** What a person answers at a step. Immutable. */
public sealed interface SetUpAnswer {
  /** Which kinds are allowed now, {@link SetUpState#allowed()} says. */
  enum Kind {
    READ,
    MOVE,
    BEGIN,
    MARK,
    DONE,
    AGAIN,
    SKIP,
    CAME_SET_UP,
    STOP
  }

  /** Which kind it is. */
  Kind kind();

  /** The caution was read. Allowed only where it moves nothing. */
  record Read() implements SetUpAnswer {
    @Override
    public Kind kind() {
      return Kind.READ;
    }
  }

  /**
   * The caution was read, and the unit may move: a key or a word of its own.
   *
   * @param typed what was typed where the power comes on by it
   */
  record Move(Map<FieldKey, String> typed) implements SetUpAnswer {
    public Move {
      typed = Map.copyOf(typed);
    }

    /** With nothing typed. */
    public Move() {
      this(Map.of());
    }

    @Override
    public Kind kind() {
      return Kind.MOVE;
    }
  }

  /** The unit's own calibration was just started at the unit. */
  record Begin() implements SetUpAnswer {
    @Override
    public Kind kind() {
      return Kind.BEGIN;
    }
  }

  /** The switch was heard to change just now: the angle that is read now is its angle. */
  record Mark() implements SetUpAnswer {
    @Override
    public Kind kind() {
      return Kind.MARK;
    }
  }

  /**
   * The step is done.
   *
   * @param typed what was typed, as it was typed; what is left out is not known
   */
  record Done(Map<FieldKey, String> typed) implements SetUpAnswer {
    public Done {
      typed = Map.copyOf(typed);
    }

    /** With nothing typed. */
    public Done() {
      this(Map.of());
    }

    @Override
    public Kind kind() {
      return Kind.DONE;
    }
  }

  /** What was measured at this step is forgotten and measured anew; a lost link is opened anew. */
  record Again() implements SetUpAnswer {
    @Override
    public Kind kind() {
      return Kind.AGAIN;
    }
  }

  /**
   * The step is left out.
   *
   * @param reason why; not blank
   */
  record Skip(String reason) implements SetUpAnswer {
    @Override
    public Kind kind() {
      return Kind.SKIP;
    }
  }

  /** The unit came set up: all that is left is recorded as that. */
  record CameSetUp() implements SetUpAnswer {
    @Override
    public Kind kind() {
      return Kind.CAME_SET_UP;
    }
  }

  /**
   * The set-up ends here, unfinished.
   *
   * @param reason who or what ended it, in words
   */
  record Stop(String reason) implements SetUpAnswer {
    @Override
    public Kind kind() {
      return Kind.STOP;
    }
  }
}
