package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.transport.Capture;
import org.benchstroke.transport.LinkOpener;

/** The links of a command, with the transcripts that {@code --capture} asks for. */
record CaptureOption(LinkOpener opener, Optional<Capture> capture) implements AutoCloseable {
  static CaptureOption of(Optional<Path> folder, LinkOpener links) throws WrongRequest {
    if (folder.isEmpty()) {
      return new CaptureOption(links, Optional.empty());
    }
    try {
      Capture capture = Capture.into(folder.get(), links);
      return new CaptureOption(capture, Optional.of(capture));
    } catch (IOException e) {
      throw new WrongRequest("--capture " + folder.get() + ": " + e.getMessage());
    }
  }

  @Override
  public void close() {
    capture.ifPresent(Capture::close);
  }
}
