package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Shelf;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.web.desk.Holdings;
import picocli.CommandLine.Model.CommandSpec;

/** What the desk of the bench screen shows, by what a command was told. Stateless. */
final class DeskHoldings {
  private DeskHoldings() {}

  /**
   * Of a shop, or of a demo whose files lie beside its records.
   *
   * @param further bench files that were named
   */
  static Holdings of(
      CommandSpec spec,
      Path records,
      Optional<ArchivePlace> archive,
      Defaults stated,
      List<Path> further)
      throws WrongRequest {
    Path demo = records.resolve("demo").resolve("demo-data");
    Stream<Path> ofDemo =
        stated.shop().isPresent()
            ? Stream.of()
            : Stream.of("benches", "unit-types", "procedures").map(demo::resolve);
    Stream<Path> named = further.stream().map(file -> file.toAbsolutePath().getParent());
    return new Holdings(
        records,
        archive,
        stated,
        Shelf.of(stated, Stream.concat(ofDemo, named).toList()),
        Root.of(spec).clocks(),
        Version.text());
  }
}
