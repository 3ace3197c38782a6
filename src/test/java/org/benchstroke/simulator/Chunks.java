package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Cuts bytes into chunks. */
final class Chunks {
  private Chunks() {}

  static List<byte[]> of(byte[] all, int size) {
    List<byte[]> chunks = new ArrayList<>();
    for (int at = 0; at < all.length; at += size) {
      chunks.add(Arrays.copyOfRange(all, at, Math.min(all.length, at + size)));
    }
    return chunks;
  }
}
