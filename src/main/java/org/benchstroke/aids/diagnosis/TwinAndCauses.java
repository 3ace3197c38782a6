package org.benchstroke.aids.diagnosis;

import java.util.Optional;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.LimitRisks;

/**
 * The aids to a judged run, no part of its verdict: its twin, its likely causes, and what its
 * limits risk. Each is computed when it is first asked for and once only, for the twin takes a
 * while to fit. For one thread.
 */
public final class TwinAndCauses {
  private final JudgedRun run;
  private Optional<Twin> twin = Optional.empty();
  private Optional<Diagnosis> diagnosis = Optional.empty();
  private Optional<LimitRisks> risks = Optional.empty();

  /** Of this run; computes nothing yet. */
  public TwinAndCauses(JudgedRun run) {
    this.run = run;
  }

  public JudgedRun run() {
    return run;
  }

  public Twin twin() {
    if (twin.isEmpty()) {
      twin = Optional.of(Twin.of(run));
    }
    return twin.get();
  }

  /** What most likely is behind the figures; fits the twin only where an advice needs it. */
  public Diagnosis diagnosis() {
    if (diagnosis.isEmpty()) {
      diagnosis = Optional.of(Diagnosis.of(run, Likelihoods.builtIn(), this::twin));
    }
    return diagnosis.get();
  }

  public LimitRisks risks() {
    if (risks.isEmpty()) {
      risks = Optional.of(LimitRisks.of(run.judgements()));
    }
    return risks.get();
  }
}
