package org.benchstroke.papers.pdf;

/** A file within a PDF file. Immutable: nobody changes the bytes that it is given or gives. */
public final class Attachment {
  private final String name;
  private final String mime;
  private final Relation relation;
  private final String words;
  private final byte[] bytes;

  /** What a file is to the pages (ISO 32000-2:2020 table 43, from memory). */
  public enum Relation {
    /** What the pages were made from. */
    SOURCE("Source"),
    /** The figures of the pages, for other programs. */
    DATA("Data"),
    /** Something beside it. */
    SUPPLEMENT("Supplement");

    private final String key;

    Relation(String key) {
      this.key = key;
    }

    String key() {
      return key;
    }
  }

  /**
   * Of these bytes.
   *
   * @param name without folders
   * @param mime its type: "text/csv"
   * @param relation what it is to the pages
   * @param words what it is, in a sentence
   * @param bytes what is in it
   */
  public Attachment(String name, String mime, Relation relation, String words, byte[] bytes) {
    this.name = name;
    this.mime = mime;
    this.relation = relation;
    this.words = words;
    this.bytes = bytes;
  }

  public String name() {
    return name;
  }

  String mime() {
    return mime;
  }

  Relation relation() {
    return relation;
  }

  String words() {
    return words;
  }

  byte[] bytes() {
    return bytes;
  }

  /** The same under another name. */
  public Attachment named(String other) {
    return new Attachment(other, mime, relation, words, bytes);
  }
}
