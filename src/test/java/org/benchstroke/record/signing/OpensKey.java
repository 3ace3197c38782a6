package org.benchstroke.record.signing;

import java.nio.file.Path;

/** A program that opens the key of a folder when it is told to, and prints its fingerprint. */
final class OpensKey {
  private OpensKey() {}

  public static void main(String[] folder) throws Exception {
    System.out.println("ready");
    int told = System.in.read();
    if (told >= 0) {
      System.out.println(new BenchKeys(Path.of(folder[0])).open("").shared().fingerprint());
    }
  }
}
