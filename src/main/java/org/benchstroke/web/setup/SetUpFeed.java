package org.benchstroke.web.setup;

import java.util.Optional;
import org.benchstroke.app.SetUpDesk;
import org.benchstroke.web.Feed;

/** What goes live to a page of a set-up. The thread of its connection. */
final class SetUpFeed implements Feed {
  private final SetUpDesk desk;
  private final boolean attends;
  private long version = -1;
  private String told = "";

  /**
   * For a browser.
   *
   * @param attends whether whoever sits at it may stop the unit
   */
  SetUpFeed(SetUpDesk desk, boolean attends) {
    this.desk = desk;
    this.attends = attends;
  }

  @Override
  public Optional<News> next(long patienceMillis) throws InterruptedException {
    if (attends) {
      desk.watched();
    }
    desk.await(version, patienceMillis);
    version = desk.version();
    String now = SetUpJson.text(desk.state(), desk.settingUp().plan().unit().travelDegrees());
    if (now.equals(told)) {
      return Optional.empty();
    }
    told = now;
    return Optional.of(new News("live", now));
  }

  @Override
  public void close() {
    // Nothing is held.
  }
}
