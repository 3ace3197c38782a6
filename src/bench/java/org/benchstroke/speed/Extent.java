package org.benchstroke.speed;

/** How much of a benchmark is run. */
enum Extent {
  /** All of it, for its figures. */
  WHOLE,

  /** As little as shows that it still runs and that its results agree. */
  SHORT;

  /** How many rounds, samples or seconds this extent has. */
  int of(int whole, int few) {
    return this == WHOLE ? whole : few;
  }
}
