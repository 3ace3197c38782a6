package org.benchstroke.commission;

/** Work by hand ends here; the message says why. */
final class HandEnded extends Exception {
  private static final long serialVersionUID = 1L;

  private final HandResult.How how;

  HandEnded(HandResult.How how, String reason) {
    super(reason);
    this.how = how;
  }

  HandResult.How how() {
    return how;
  }
}
