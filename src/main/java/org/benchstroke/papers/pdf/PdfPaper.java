package org.benchstroke.papers.pdf;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A paper that is ready to be set. Immutable.
 *
 * @param title of the document
 * @param id what makes it different from any other: the file's identifiers follow from it
 * @param locale of its words
 * @param issued the date of the document and of the files in it
 * @param xhtml the page, well-formed, with its style; an element {@code svg} with the name of a
 *     picture as its {@code id} shows it, and says in {@code alt} what it is
 * @param pictures by name
 * @param attachments the files in it
 * @param watermark what stands across every page, below the text
 */
public record PdfPaper(
    String title,
    String id,
    Locale locale,
    Instant issued,
    String xhtml,
    Map<String, Picture> pictures,
    List<Attachment> attachments,
    Optional<String> watermark) {
  public PdfPaper {
    pictures = Map.copyOf(pictures);
    attachments = List.copyOf(attachments);
  }
}
