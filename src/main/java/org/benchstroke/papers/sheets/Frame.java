package org.benchstroke.papers.sheets;

import java.util.List;

/**
 * What all papers have. Immutable.
 *
 * @param words of its language
 * @param title what it is: "Test certificate"
 * @param number letters, digits and dashes only
 * @param status what stands on the right of every page's head; may be empty
 * @param shop the issuing shop, name first, then its address; empty if nobody stated it
 * @param logo its logo as an element of the page; empty if there is none
 * @param size the sheet, as a style sheet writes it
 * @param style the style sheet
 */
public record Frame(
    Words words,
    String title,
    String number,
    String status,
    List<String> shop,
    String logo,
    String size,
    String style) {
  public Frame {
    shop = List.copyOf(shop);
    if (!number.matches("[A-Za-z0-9-]+")) {
      throw new IllegalArgumentException("a paper's number is letters, digits and dashes");
    }
  }

  /** "page 1 of 2" as the content of a style sheet. */
  public String pages() {
    return "\""
        + words
            .of("page.of")
            .replace("{0}", "\" counter(page) \"")
            .replace("{1}", "\" counter(pages) \"")
        + "\"";
  }

  public String lang() {
    return words.language().key();
  }
}
