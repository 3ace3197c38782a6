package org.benchstroke.core.toml;

import java.util.ArrayList;
import java.util.List;

/** All the mistakes of a file, at once. */
public final class FileMistakes extends Exception {
  private static final long serialVersionUID = 1L;

  /** More scroll out of sight, and mostly follow from those before. */
  private static final int MOST_TOLD = 50;

  private final transient List<Mistake> mistakes;

  public FileMistakes(List<Mistake> mistakes) {
    super(String.join("\n", lines(mistakes)));
    this.mistakes = List.copyOf(mistakes);
  }

  public List<Mistake> mistakes() {
    return mistakes;
  }

  /** Mistakes for people, a line each; of very many the first ones and how many more there are. */
  public static List<String> lines(List<Mistake> mistakes) {
    List<String> lines =
        new ArrayList<>(mistakes.stream().limit(MOST_TOLD).map(Mistake::text).toList());
    if (mistakes.size() > MOST_TOLD) {
      lines.add("and " + (mistakes.size() - MOST_TOLD) + " more; correct these first");
    }
    return lines;
  }
}
