package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.papers.pdf.PdfFiles;
import org.benchstroke.papers.sheets.Papers;

/**
 * The records within a certificate, laid out in a folder of their own with what belongs to them, as
 * they lay when it was issued; the folder goes when this is closed. One thread.
 */
public final class CertificateFiles implements AutoCloseable {
  private static final int MOST_BYTES = 512_000_000;
  private static final int BEGINNING = 8;

  /** Nothing that leads out of a folder. */
  private static final Pattern PLAIN = Pattern.compile("[\\p{L}\\p{N}_][\\p{L}\\p{N} ._-]*");

  private final Path folder;
  private final Map<String, Path> records = new LinkedHashMap<>();

  private CertificateFiles(Path folder) {
    this.folder = folder;
  }

  /** Whether a file is a PDF file, which may be a certificate. */
  public static boolean isOne(Path file) {
    try (var in = Files.newInputStream(file)) {
      return PdfFiles.isPdf(in.readNBytes(BEGINNING));
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * Takes the records out of a certificate.
   *
   * @throws Unreadable with the reason, to be put behind the file's name
   * @throws IOException if the folder can't be made
   */
  public static CertificateFiles of(Path certificate) throws Unreadable, IOException {
    byte[] pdf = GivenFile.bytes(certificate, MOST_BYTES);
    CertificateFiles files = new CertificateFiles(Files.createTempDirectory("benchstroke-"));
    try {
      files.lay(PdfFiles.of(pdf));
    } catch (IOException e) {
      files.close();
      throw new IOException("it can't be read as PDF: " + e.getMessage(), e);
    }
    return files;
  }

  private void lay(Map<String, byte[]> within) throws IOException {
    Path found = Files.createDirectory(folder.resolve("as-found"));
    Path left = Files.createDirectory(folder.resolve("as-left"));
    for (Map.Entry<String, byte[]> each : within.entrySet()) {
      String name = each.getKey();
      String bare =
          name.startsWith(Papers.AS_FOUND) ? name.substring(Papers.AS_FOUND.length()) : "";
      boolean apart = within.containsKey(bare);
      String kept = apart ? bare : name;
      if (!PLAIN.matcher(kept).matches()) {
        throw new IOException("it holds a file with a name that leads elsewhere");
      }
      Path place = (apart ? found : left).resolve(kept);
      Files.write(place, each.getValue());
      if (kept.endsWith(RecordFiles.RECORD_END)) {
        records.put(name, place);
      }
    }
  }

  /** The records, by their names in the certificate. */
  public Map<String, Path> records() {
    return records;
  }

  @Override
  public void close() throws IOException {
    List<Path> all = new ArrayList<>();
    try (Stream<Path> walk = Files.walk(folder)) {
      walk.sorted(Comparator.reverseOrder()).forEach(all::add);
    }
    for (Path each : all) {
      Files.deleteIfExists(each);
    }
  }
}
