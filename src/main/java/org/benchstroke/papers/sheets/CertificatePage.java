package org.benchstroke.papers.sheets;

import java.util.List;
import java.util.Optional;

/**
 * A certificate or a test report in words, as the template sets it. Immutable.
 *
 * @param frame what all papers have
 * @param supersedes which paper it supersedes and why; empty for the first issue
 * @param headline what is said first
 * @param unit the unit's serial number and its type
 * @param obstacles why it is no certificate, a sentence each; empty for one
 * @param panels the rest, in order
 * @param closing the last part, kept together with signature and end mark
 * @param signature names and lines beside the QR code
 * @param record what proves the record, beside the code too
 */
public record CertificatePage(
    Frame frame,
    Optional<String> supersedes,
    Headline headline,
    List<String> unit,
    List<String> obstacles,
    List<Panel> panels,
    Panel closing,
    List<Part.Fact> signature,
    List<Part> record) {
  public CertificatePage {
    unit = List.copyOf(unit);
    obstacles = List.copyOf(obstacles);
    panels = List.copyOf(panels);
    signature = List.copyOf(signature);
    record = List.copyOf(record);
  }
}
