package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.SvgFile;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The option {@code --svg}, for every command with a picture of its result. */
final class PictureOption {
  @Option(
      names = "--svg",
      paramLabel = "FILE",
      description = "Draws it there, too, as a picture (SVG).")
  private Optional<Path> svg = Optional.empty();

  @Mixin private ForceOption force;

  /** Where it goes, asked for before anything is done; empty if none is wanted. */
  Optional<OutputFiles.Place> place() throws WrongRequest {
    return place(force.outputs());
  }

  /** Likewise, with files that were given. */
  Optional<OutputFiles.Place> place(OutputFiles outputs) throws WrongRequest {
    return outputs.place("--svg", svg, OutputFiles.Kind.PICTURE);
  }

  OutputFiles outputs() {
    return force.outputs();
  }

  /** Draws, where a picture is wanted. */
  static void draw(Optional<OutputFiles.Place> place, List<Drawing> drawings) throws WrongRequest {
    if (place.isPresent() && !drawings.isEmpty()) {
      place.get().write(SvgFile.text(drawings));
    }
  }
}
