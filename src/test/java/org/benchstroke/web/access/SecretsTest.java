package org.benchstroke.web.access;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SecretsTest {
  private static final String HASH = Secrets.hash("482913");

  /** phc-winner-argon2, src/test.c: Argon2id, version 0x13, "password", "somesalt". */
  @Test
  void theHashIsThatOfTheReferenceImplementation() {
    String reference =
        "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ"
            + "$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
    assertThat(Secrets.is(reference, "password")).isTrue();
    assertThat(Secrets.is(reference, "passwore")).isFalse();
  }

  @Test
  void aSecretIsKeptWithASaltOfItsOwn() {
    assertThat(HASH).startsWith("$argon2id$v=19$m=19456,t=2,p=1$").doesNotContain("482913");
    assertThat(Secrets.hash("482913")).isNotEqualTo(HASH);
    assertThat(Secrets.mayBe(HASH)).isTrue();
    assertThat(Secrets.is(HASH, "482913")).isTrue();
    assertThat(Secrets.is(HASH, "482914")).isFalse();
    assertThat(Secrets.is(HASH, "")).isFalse();
    assertThat(Secrets.is(HASH, "4".repeat(1_000_000))).isFalse();
  }

  /** Unicode, UAX 15: é as one character and as e with an accent. */
  @Test
  void anAccentMayBeTypedInEitherWay() {
    String hash = Secrets.hash("caf\u00e9 au lait");
    assertThat(Secrets.is(hash, "cafe\u0301 au lait")).isTrue();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "482913",
        "$argon2id$v=19$m=16,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=9999999,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=19456,t=999,p=1$c29tZXNhbHRzb21lc2FsdA$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2i$v=19$m=19456,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=19456,t=2,p=1$c29t$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$2b$12$GhvMmNVjRW29ulnudl.LbuAnUtN/LRfe1JsBm1Xu6LE3059z5Tr8m"
      })
  void whatIsWeakerDearerOrAnotherIsNoHash(String text) {
    assertThat(Secrets.mayBe(text)).isFalse();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "1", "48291", "secret7", "123456", "987654", "000000", "aaaaaaaa", "abcdefgh"})
  void theFirstThatAnybodyTriesIsRefused(String secret) {
    assertThat(Secrets.fault(secret, "Ann")).isPresent();
  }

  @Test
  void soIsTheNameAndWhatIsEndless() {
    assertThat(Secrets.fault("a. example", "A. Example")).get().asString().contains("the name");
    assertThat(Secrets.fault("x7".repeat(101), "Ann")).get().asString().contains("too long");
    assertThat(Secrets.fault("482913", "Ann")).isEmpty();
    assertThat(Secrets.fault("hex key and a valve", "Ann")).isEmpty();
  }
}
