package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A command header as a manual prints it, {@code SOURce:CURRent[:LEVel]}: capitals are the short
 * form, brackets hold nodes that may be left out (SCPI-1999 volume 1, 6.2).
 */
final class ScpiHeader {
  private static final Pattern NODE = Pattern.compile("(\\[?):?([*A-Za-z]+)\\]?");

  private record Node(String shortForm, String longForm, boolean optional) {
    boolean matches(String word) {
      return word.equalsIgnoreCase(shortForm) || word.equalsIgnoreCase(longForm);
    }
  }

  private final List<Node> nodes = new ArrayList<>();

  ScpiHeader(String printed) {
    Matcher matcher = NODE.matcher(printed);
    while (matcher.find()) {
      String word = matcher.group(2);
      String shortForm = word.replaceAll("[a-z]", "");
      boolean optional = !matcher.group(1).isEmpty();
      nodes.add(new Node(shortForm, word.toUpperCase(Locale.ROOT), optional));
    }
  }

  /** Whether a header without its leading colon and its question mark is this one. */
  boolean matches(String header) {
    return matches(Arrays.asList(header.split(":", -1)), 0, 0);
  }

  private boolean matches(List<String> words, int word, int node) {
    if (node == nodes.size()) {
      return word == words.size();
    }
    Node expected = nodes.get(node);
    boolean taken =
        word < words.size()
            && expected.matches(words.get(word))
            && matches(words, word + 1, node + 1);
    return taken || (expected.optional() && matches(words, word, node + 1));
  }
}
