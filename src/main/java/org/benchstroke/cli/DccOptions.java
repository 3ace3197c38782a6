package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.papers.sheets.CalibrationXml;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.Subject;
import picocli.CommandLine.Option;

/** The options for a certificate that programs read. */
final class DccOptions {
  @Option(
      names = "--dcc",
      paramLabel = "FILE",
      description =
          "Writes a digital calibration certificate there, too (XML, schema 3.2.1); needs --country."
              + " What can't be a certificate is refused.")
  private Optional<Path> dcc = Optional.empty();

  @Option(
      names = "--country",
      paramLabel = "CODE",
      description = "With --dcc: where it is issued, two letters of ISO 3166-1, such as DE.")
  private Optional<String> country = Optional.empty();

  boolean asked() {
    return dcc.isPresent();
  }

  /** Where it goes. */
  Optional<OutputFiles.Place> place(OutputFiles outputs) throws WrongRequest {
    if (dcc.isPresent() != country.isPresent()) {
      throw new WrongRequest("--dcc and --country belong together: give both, or neither");
    }
    if (country.isPresent() && !country.get().matches("[A-Z]{2}")) {
      throw new WrongRequest(
          "--country: found \""
              + country.get()
              + "\", allowed are two capital letters of ISO 3166-1, such as DE");
    }
    return outputs.place("--dcc", dcc, OutputFiles.Kind.CALIBRATION_XML);
  }

  /**
   * Refuses what can't be one.
   *
   * @throws WrongRequest with every reason why it can't be a certificate
   */
  void require(Subject subject, Issue issue) throws WrongRequest {
    List<String> obstacles = xml(subject, issue).obstacles();
    if (!obstacles.isEmpty()) {
      throw new WrongRequest(
          "--dcc: this can't be a calibration certificate, and no file was written: "
              + String.join(" ", obstacles));
    }
  }

  /** The text of what can be one. */
  String text(Subject subject, Issue issue) {
    return xml(subject, issue).text();
  }

  private CalibrationXml xml(Subject subject, Issue issue) {
    return new CalibrationXml(subject, issue, country.orElseThrow());
  }
}
