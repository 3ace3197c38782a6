package org.benchstroke.record.signing;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyFactory;
import java.security.PrivateKey;
import java.security.spec.PKCS8EncodedKeySpec;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Keys and signatures against the test vectors of RFC 8032, section 7.1. */
class Ed25519ReferenceTest {
  private static final HexFormat HEX = HexFormat.of();

  /** PKCS#8 and SubjectPublicKeyInfo up to the 32 bytes of the key: RFC 8410, sections 4 and 7. */
  private static final String SECRET_HEAD = "302e020100300506032b657004220420";

  private static final String PUBLIC_HEAD = "302a300506032b6570032100";

  static List<String[]> vectors() throws Exception {
    return Files.readAllLines(Path.of("src/test/resources/reference/rfc8032-ed25519.csv")).stream()
        .filter(line -> line.startsWith("TEST"))
        .map(line -> line.split(",", -1))
        .toList();
  }

  @Test
  void allFiveAreThere() throws Exception {
    assertThat(vectors()).extracting(v -> v[0]).hasSize(5).contains("TEST 1024", "TEST SHA(abc)");
  }

  @ParameterizedTest
  @MethodSource("vectors")
  void aKeySignsAsTheStandardSays(
      String test, String secret, String open, String message, String signature) throws Exception {
    byte[] text = HEX.parseHex(message);
    BenchKey key = key(secret, open);
    assertThat(HEX.formatHex(key.sign(text))).as(test).isEqualTo(signature);
    assertThat(key.shared().hasSigned(text, HEX.parseHex(signature))).as(test).isTrue();
  }

  @ParameterizedTest
  @MethodSource("vectors")
  void anotherMessageKeyOrSignatureDoesNotFit(
      String test, String secret, String open, String message, String signature) throws Exception {
    byte[] text = HEX.parseHex(message);
    PublicHalf key = key(secret, open).shared();
    byte[] longer = HEX.parseHex(message + "00");
    assertThat(key.hasSigned(longer, HEX.parseHex(signature))).as(test).isFalse();
    for (int bit = 0; bit < 512; bit++) {
      byte[] other = HEX.parseHex(signature);
      other[bit / 8] ^= (byte) (1 << bit % 8);
      assertThat(key.hasSigned(text, other)).as("%s, bit %d", test, bit).isFalse();
    }
    for (String[] vector : vectors()) {
      boolean same = vector[0].equals(test);
      assertThat(key(vector[1], vector[2]).shared().hasSigned(text, HEX.parseHex(signature)))
          .as("%s by the key of %s", test, vector[0])
          .isEqualTo(same);
    }
  }

  private static BenchKey key(String secret, String open) throws Exception {
    PrivateKey hidden =
        KeyFactory.getInstance("Ed25519")
            .generatePrivate(new PKCS8EncodedKeySpec(HEX.parseHex(SECRET_HEAD + secret)));
    byte[] shared = HEX.parseHex(PUBLIC_HEAD + open);
    return new BenchKey(hidden, new PublicHalf(Base64.getEncoder().encodeToString(shared)));
  }
}
