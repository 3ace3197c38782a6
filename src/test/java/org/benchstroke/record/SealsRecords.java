package org.benchstroke.record;

import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.BenchKeys;

/** A program that seals copies of a record until it is killed, and prints a line for each. */
final class SealsRecords {
  private SealsRecords() {}

  public static void main(String[] arguments) throws Exception {
    Path record = Path.of(arguments[0]);
    BenchKey key = new BenchKeys(Path.of(arguments[1])).open("");
    for (int i = 0; i < 100_000; i++) {
      Path copy = Files.copy(record, record.resolveSibling("copy-" + i + ".jsonl"));
      SealFile.write(copy, key);
      System.out.println(i);
    }
  }
}
