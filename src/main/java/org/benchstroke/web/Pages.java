package org.benchstroke.web;

import java.util.List;

/** A group of pages. */
public interface Pages {
  /** Says which addresses they answer; once, before the screen opens. */
  void register(Routes routes);

  /** What of them stands in the navigation, in order. */
  default List<Way> ways() {
    return List.of();
  }

  /**
   * An entry of the navigation.
   *
   * @param key by which a page says that it is here
   * @param path where it leads
   * @param name what it is called
   */
  record Way(String key, String path, String name) {}
}
