package org.benchstroke.web.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class SessionsTest {
  private static final String ANN = "Ann";

  private final HandClock clock = new HandClock();
  private final Sessions sessions = new Sessions(clock);

  @Test
  void anIdHas256BitsAndIsNeverMetAgain() {
    Set<String> ids = new HashSet<>();
    for (int i = 0; i < 1000; i++) {
      String id = Ids.fresh();
      assertThat(java.util.Base64.getUrlDecoder().decode(id)).hasSize(32);
      assertThat(Ids.mayBe(id)).isTrue();
      ids.add(id);
    }
    assertThat(ids).hasSize(1000);
    assertThat(Ids.mayBe("short")).isFalse();
    assertThat(Ids.mayBe("A".repeat(42) + ";")).isFalse();
  }

  @Test
  void aTokenBelongsToItsIdAndToThisProgram() {
    Ids ids = new Ids();
    String id = Ids.fresh();
    assertThat(ids.isToken(id, ids.token(id))).isTrue();
    assertThat(ids.isToken(id, ids.token(Ids.fresh()))).isFalse();
    assertThat(ids.isToken(id, "")).isFalse();
    assertThat(new Ids().isToken(id, ids.token(id))).isFalse();
  }

  @Test
  void itEndsWhenNobodyUsesItForAnHour() {
    Session session = sessions.open(ANN, "");
    clock.forward(Duration.ofMinutes(59));
    assertThat(sessions.find(session.id())).contains(session);
    clock.forward(Duration.ofMinutes(59));
    assertThat(sessions.goesOn(session)).isTrue();
    clock.forward(Duration.ofMinutes(2));
    assertThat(sessions.goesOn(session)).isFalse();
    assertThat(sessions.find(session.id())).isEmpty();
    assertThat(sessions.all()).isEmpty();
  }

  @Test
  void anOpenLivePageKeepsItButNotBeyondAShift() {
    Session session = sessions.open(ANN, "");
    session.live().incrementAndGet();
    clock.forward(Duration.ofHours(11));
    assertThat(sessions.goesOn(session)).isTrue();
    clock.forward(Duration.ofHours(2));
    assertThat(sessions.goesOn(session)).isFalse();
  }

  @Test
  void ofOneNameThereAreSixteenAtMost() {
    Session first = sessions.open(ANN, "");
    for (int i = 0; i < 40; i++) {
      clock.forward(Duration.ofSeconds(1));
      sessions.open(ANN, "");
    }
    Session other = sessions.open("Ben", "");
    assertThat(sessions.all()).hasSize(17).contains(other).doesNotContain(first);
  }

  @Test
  void noneShowsItsId() {
    Session session = sessions.open(ANN, "");
    assertThat(session).hasToString("session of Ann");
    sessions.end(session);
    assertThat(sessions.find(session.id())).isEmpty();
  }
}
