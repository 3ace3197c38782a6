package org.benchstroke.papers.pdf;

import java.io.IOException;
import java.io.InputStream;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.PDEmbeddedFilesNameTreeNode;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;

/** The files within a PDF file, whoever wrote it. Stateless. */
public final class PdfFiles {
  private static final byte[] BEGINNING = {'%', 'P', 'D', 'F', '-'};

  /** No file within one grows beyond this when it is unpacked. */
  private static final int MOST_BYTES = 256_000_000;

  static {
    NoOtherFonts.set();
  }

  private PdfFiles() {}

  /** Whether a file begins as a PDF file does. */
  public static boolean isPdf(byte[] beginning) {
    for (int i = 0; i < BEGINNING.length; i++) {
      if (i >= beginning.length || beginning[i] != BEGINNING[i]) {
        return false;
      }
    }
    return true;
  }

  /**
   * The files, by their names in order.
   *
   * @param pdf the whole file
   * @throws IOException with the reason if it can't be read, or a file in it is too large
   */
  public static Map<String, byte[]> of(byte[] pdf) throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      PDDocumentNameDictionary names = document.getDocumentCatalog().getNames();
      PDEmbeddedFilesNameTreeNode tree = names == null ? null : names.getEmbeddedFiles();
      Map<String, PDComplexFileSpecification> all =
          tree == null || tree.getNames() == null ? Collections.emptyMap() : tree.getNames();
      for (Map.Entry<String, PDComplexFileSpecification> each : all.entrySet()) {
        PDEmbeddedFile file = each.getValue().getEmbeddedFile();
        if (file != null) {
          files.put(each.getKey(), bytes(each.getKey(), file));
        }
      }
    } catch (RuntimeException e) {
      // whatever a damaged file makes the library trip over
      throw new IOException("it is damaged", e);
    }
    return files;
  }

  private static byte[] bytes(String name, PDEmbeddedFile file) throws IOException {
    try (InputStream in = file.createInputStream()) {
      byte[] bytes = in.readNBytes(MOST_BYTES);
      if (in.read() >= 0) {
        throw new IOException("the file " + name + " in it is larger than 256 MB");
      }
      return bytes;
    }
  }
}
