package org.benchstroke.papers.sheets;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Base64;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;

/**
 * A shop's logo as an element of a page.
 *
 * @param element the element; empty if the file can't be a logo
 * @param obstacle why it can't, to be put behind the file's name; empty if it can
 */
record Logo(String element, String obstacle) {
  private static final int MOST_BYTES = 2_000_000;
  private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G'};
  private static final Pattern SVG = Pattern.compile("(?s)<svg[\\s>].*</svg>");

  /** What runs, what is fetched, and what grows when it is read. */
  private static final Pattern ACTIVE =
      Pattern.compile(
          "(?i)<script|<!ENTITY|<!DOCTYPE|<foreignObject|href\\s*=\\s*['\"](?!#)"
              + "|url\\(\\s*['\"]?(?!['\"]?#)|@import");

  static Logo of(Path file) {
    byte[] bytes;
    try {
      bytes = GivenFile.bytes(file, MOST_BYTES);
    } catch (Unreadable e) {
      return new Logo("", e.getMessage());
    }
    if (Arrays.equals(PNG, Arrays.copyOf(bytes, PNG.length))) {
      String data = Base64.getEncoder().encodeToString(bytes);
      return new Logo("<img alt=\"logo\" src=\"data:image/png;base64," + data + "\"/>", "");
    }
    String text = new String(bytes, StandardCharsets.UTF_8);
    Matcher svg = SVG.matcher(text);
    if (!svg.find()) {
      return new Logo("", "is neither a PNG nor an SVG picture");
    }
    return ACTIVE.matcher(text).find()
        ? new Logo("", "is an SVG picture that runs or fetches something; name a plain one")
        : new Logo(svg.group().replaceFirst("<svg", "<svg alt=\"logo\""), "");
  }

  /** Why a file can't be a logo; empty if it can. */
  static Optional<String> obstacle(Path file) {
    return Optional.of(of(file).obstacle()).filter(why -> !why.isEmpty());
  }
}
