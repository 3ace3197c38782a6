package org.benchstroke.papers.plot;

/** The colours of a picture, each dark enough to be told from paper in a grey print. */
public enum Ink {
  /** Text, limits and all that must be seen first. */
  BLACK(0x1b1f24),
  /** Axes and secondary lines. */
  SOFT(0x4d555e),
  /** The grid. */
  PALE(0xd9dde2),
  GREY(0x7a828b),
  BLUE(0x1d4f91),
  RUST(0xa3470b),
  /** The ground, inside of hollow marks. */
  PAPER(0xffffff);

  private final int rgb;

  Ink(int rgb) {
    this.rgb = rgb;
  }

  /** Red, green and blue, eight bits each, red first. */
  public int rgb() {
    return rgb;
  }
}
