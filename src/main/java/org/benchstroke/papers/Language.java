package org.benchstroke.papers;

import java.util.Locale;

/** A language that papers are written in. Each has its file of words. */
public enum Language {
  ENGLISH(Locale.ENGLISH),
  GERMAN(Locale.GERMAN);

  private final Locale locale;

  Language(Locale locale) {
    this.locale = locale;
  }

  /** As a file and a page's {@code lang} write it: {@code en}. */
  public String key() {
    return locale.getLanguage();
  }

  /** What words, dates and pages are set by. Figures keep the decimal point in every language. */
  public Locale locale() {
    return locale;
  }
}
