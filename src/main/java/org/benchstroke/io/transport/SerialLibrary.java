package org.benchstroke.io.transport;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import org.benchstroke.core.files.PrivateFolder;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Loads the serial library's native part from a folder that only this user can write. Left alone,
 * the library unpacks it under the temporary folder for all to write, and loads whatever lies there
 * already. Safe for any thread.
 */
final class SerialLibrary {
  private static final Logger LOG = LoggerFactory.getLogger(SerialLibrary.class);

  /** The library takes its folder from this and from nothing else. */
  private static final String TEMPORARY_FOLDER = "java.io.tmpdir";

  private static boolean loaded;

  private SerialLibrary() {}

  /**
   * To be called before the library's first use; does something only once.
   *
   * @throws LinkException if it can't be used on this system
   */
  static synchronized void load() throws LinkException {
    if (loaded) {
      return;
    }
    String usual = System.getProperty(TEMPORARY_FOLDER);
    try {
      System.setProperty(TEMPORARY_FOLDER, PrivateFolder.of().toString());
      LOG.debug("serial library {}", SerialPort.getVersion());
      loaded = true;
    } catch (IOException | LinkageError e) {
      throw new LinkException(
          LinkException.Kind.PORT_GONE,
          "serial ports can't be used on this system: " + e.getMessage(),
          e);
    } finally {
      System.setProperty(TEMPORARY_FOLDER, usual);
    }
  }
}
