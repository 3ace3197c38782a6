package org.benchstroke.record.signing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A signed text: nothing of it can be changed, not even what reads as the same. */
class SignedTextTest {
  @TempDir Path folder;

  private BenchKey key;
  private byte[] told;

  @BeforeEach
  void signed() throws Exception {
    key = new BenchKeys(folder).open("");
    told = bytes(SignedText.of("{\"seal\":1,\"record\":\"grün.jsonl\"}", key));
  }

  @Test
  void isReadAsItWasTold() {
    SignedText read = SignedText.read(told).orElseThrow();
    assertThat(read.key()).isEqualTo(key.shared());
    assertThat(read.object()).isEqualTo("{\"seal\":1,\"record\":\"grün.jsonl\"}");
    assertThat(new String(told, StandardCharsets.UTF_8)).contains(key.shared().base64());
    assertThat(bytes(SignedText.of("{\"seal\":1,\"record\":\"grün.jsonl\"}", key))).isEqualTo(told);
  }

  @Test
  void noBitOfItCanBeChanged() {
    for (int bit = 0; bit < told.length * 8; bit++) {
      byte[] other = told.clone();
      other[bit / 8] ^= (byte) (1 << bit % 8);
      assertThat(SignedText.read(other)).as("bit %d", bit).isEmpty();
    }
  }

  @Test
  void nothingCanBeCutOffOrAdded() {
    for (int length = 0; length < told.length; length++) {
      assertThat(SignedText.read(Arrays.copyOf(told, length))).as("%d bytes", length).isEmpty();
    }
    String text = new String(told, StandardCharsets.UTF_8);
    for (String more : new String[] {" ", "\n", "\r\n", "{}", "\u0000"}) {
      assertThat(SignedText.read(bytes(text + more))).isEmpty();
      assertThat(SignedText.read(bytes(more + text))).isEmpty();
    }
    assertThat(SignedText.read(bytes(text.replace("\n", "\r\n")))).isEmpty();
  }

  @Test
  void anotherKeyCantBeNamedInIt() throws Exception {
    PublicHalf other = new BenchKeys(folder.resolve("other")).open("").shared();
    String text = new String(told, StandardCharsets.UTF_8);
    assertThat(SignedText.read(bytes(text.replace(key.shared().base64(), other.base64()))))
        .isEmpty();
  }

  @Test
  void aStatementHasNoKeyAndNoLineEndOfItsOwn() {
    for (String bad : new String[] {"", "seal", "{\"a\":1\n}", "{\"public_key\":\"\"}"}) {
      assertThatThrownBy(() -> SignedText.of(bad, key))
          .isInstanceOf(IllegalArgumentException.class);
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
