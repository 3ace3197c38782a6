package org.benchstroke.record.signing;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.Signature;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.util.HexFormat;

/**
 * The certificate without which a key store takes no private key: the key signs for itself, and it
 * says nothing that anyone should trust. Written by the rules of RFC 5280 and RFC 8410, for the JDK
 * makes none. Stateless.
 */
final class SelfSigned {
  private static final int SEQUENCE = 0x30;
  private static final int SET = 0x31;
  private static final int INTEGER = 0x02;
  private static final int BITS = 0x03;
  private static final int OBJECT = 0x06;
  private static final int UTF8 = 0x0C;
  private static final int TIME = 0x18;
  private static final int VERSION = 0xA0;
  private static final byte[] ED25519 = HexFormat.of().parseHex("2b6570");
  private static final byte[] COMMON_NAME = HexFormat.of().parseHex("550403");

  private SelfSigned() {}

  static Certificate of(KeyPair pair) throws GeneralSecurityException {
    byte[] algorithm = der(SEQUENCE, der(OBJECT, ED25519));
    byte[] name =
        der(
            SEQUENCE,
            der(SET, der(SEQUENCE, der(OBJECT, COMMON_NAME), text(UTF8, "benchstroke bench key"))));
    // No well-defined end (RFC 5280 section 4.1.2.5); the beginning says nothing either.
    byte[] validity = der(SEQUENCE, text(TIME, "20000101000000Z"), text(TIME, "99991231235959Z"));
    byte[] told =
        der(
            SEQUENCE,
            der(VERSION, der(INTEGER, new byte[] {2})),
            der(INTEGER, new byte[] {1}),
            algorithm,
            name,
            validity,
            name,
            pair.getPublic().getEncoded());
    Signature signature = Signature.getInstance(BenchKey.ALGORITHM);
    signature.initSign(pair.getPrivate());
    signature.update(told);
    byte[] whole = der(SEQUENCE, told, algorithm, der(BITS, new byte[] {0}, signature.sign()));
    return CertificateFactory.getInstance("X.509")
        .generateCertificate(new ByteArrayInputStream(whole));
  }

  private static byte[] text(int tag, String text) {
    return der(tag, text.getBytes(StandardCharsets.UTF_8));
  }

  /** A tag, a length in its shortest form, and what it holds: less than 64 kB. */
  private static byte[] der(int tag, byte[]... parts) {
    ByteArrayOutputStream content = new ByteArrayOutputStream();
    for (byte[] part : parts) {
      content.writeBytes(part);
    }
    int length = content.size();
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.write(tag);
    if (length > 255) {
      all.write(0x82);
      all.write(length >> 8);
    } else if (length > 127) {
      all.write(0x81);
    }
    all.write(length);
    all.writeBytes(content.toByteArray());
    return all.toByteArray();
  }
}
