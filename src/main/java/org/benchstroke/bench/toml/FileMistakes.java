package org.benchstroke.bench.toml;

import java.util.List;
import java.util.stream.Collectors;

/** All the mistakes of a file, at once. */
public final class FileMistakes extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<Mistake> mistakes;

  public FileMistakes(List<Mistake> mistakes) {
    super(mistakes.stream().map(Mistake::text).collect(Collectors.joining("\n")));
    this.mistakes = List.copyOf(mistakes);
  }

  public List<Mistake> mistakes() {
    return mistakes;
  }
}
