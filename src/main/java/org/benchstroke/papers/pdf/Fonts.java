package org.benchstroke.papers.pdf;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** The two fonts of all papers; they are within the program file. Any thread. */
enum Fonts {
  PLAIN("DejaVuSans.ttf", 400),
  BOLD("DejaVuSans-Bold.ttf", 700);

  static final String FAMILY = "DejaVu Sans";
  private static final String FOLDER = "/net/sf/jasperreports/fonts/dejavu/";

  /** By the file's name, once for all papers. */
  private static final Map<String, byte[]> READ = new ConcurrentHashMap<>();

  private final String file;
  private final int weight;

  Fonts(String file, int weight) {
    this.file = file;
    this.weight = weight;
  }

  /** As a style sheet writes it. */
  int weight() {
    return weight;
  }

  InputStream open() {
    return new ByteArrayInputStream(READ.computeIfAbsent(file, Fonts::read));
  }

  private static byte[] read(String file) {
    try (InputStream in = Fonts.class.getResourceAsStream(FOLDER + file)) {
      if (in == null) {
        throw new IllegalStateException("the program file is damaged: " + file + " is missing");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged: " + file, e);
    }
  }
}
