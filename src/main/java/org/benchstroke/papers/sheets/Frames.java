package org.benchstroke.papers.sheets;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** What all papers have, put together. Stateless. */
final class Frames {
  private Frames() {}

  static Frame of(Subject subject, Issue issue, Words words, String title) {
    List<String> shop = new ArrayList<>();
    issue
        .letterhead()
        .ifPresent(
            head -> {
              shop.add(head.name());
              shop.addAll(head.address());
            });
    return new Frame(
        words,
        title,
        issue.number(subject),
        status(subject, words),
        shop,
        issue
            .letterhead()
            .flatMap(head -> head.logo())
            .map(file -> Logo.of(file).element())
            .orElse(""),
        issue.size().key(),
        style());
  }

  private static String status(Subject subject, Words words) {
    if (subject.simulated()) {
      return words.of("status.simulated");
    }
    return subject.judged().imported().isPresent() ? words.of("status.elsewhere") : "";
  }

  static String style() {
    try (InputStream in = Frames.class.getResourceAsStream("paper.css")) {
      if (in == null) {
        throw new IllegalStateException("the program file is damaged: paper.css is missing");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged: paper.css", e);
    }
  }
}
