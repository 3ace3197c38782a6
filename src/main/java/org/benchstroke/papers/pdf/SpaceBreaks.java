package org.benchstroke.papers.pdf;

import com.openhtmltopdf.extend.FSTextBreaker;
import java.text.BreakIterator;

/**
 * Lines end at spaces only: never within a number, a date, a serial number or a word. For one
 * thread.
 */
final class SpaceBreaks implements FSTextBreaker {
  private String text = "";
  private int at;

  @Override
  public void setText(String other) {
    text = other;
    at = 0;
  }

  @Override
  public int next() {
    if (at >= text.length()) {
      return BreakIterator.DONE;
    }
    while (at < text.length() && text.charAt(at) != ' ') {
      at++;
    }
    while (at < text.length() && text.charAt(at) == ' ') {
      at++;
    }
    return at;
  }
}
