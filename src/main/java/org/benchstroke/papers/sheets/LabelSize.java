package org.benchstroke.papers.sheets;

import java.util.Arrays;
import java.util.Optional;

/** Common sizes of labels on a roll. */
public enum LabelSize {
  SMALL("62x29", 62.0, 29.0),
  MEDIUM("100x50", 100.0, 50.0),
  INCHES("4x2in", 101.6, 50.8);

  private final String key;
  private final double width;
  private final double height;

  LabelSize(String key, double width, double height) {
    this.key = key;
    this.width = width;
    this.height = height;
  }

  /** As it is typed. */
  public String key() {
    return key;
  }

  /** Its width, mm. */
  public double width() {
    return width;
  }

  /** Its height, mm. */
  public double height() {
    return height;
  }

  /** The one with this key. */
  public static Optional<LabelSize> of(String key) {
    return Arrays.stream(values()).filter(size -> size.key.equals(key)).findFirst();
  }
}
