package org.benchstroke.web.desk;

import java.util.List;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Routes;

/**
 * The desk: history, runs, charts, benches, files and help. It reads and never drives; the one
 * thing that it asks of a bench is a probe, which sources and switches nothing. Any thread.
 */
public final class Desk implements Pages, AutoCloseable {
  private final Books books;
  private final List<Pages> groups;

  /** Of a shop; opens nothing yet. */
  public Desk(Holdings holdings) {
    this.books = new Books(holdings.archive());
    Judgements judgements = new Judgements();
    HelpTexts texts = HelpTexts.read();
    this.groups =
        List.of(
            new HistoryPages(books, judgements),
            new RunPages(holdings, books, judgements, texts),
            new ChartPages(books),
            new BenchPages(holdings, books),
            new FilePages(holdings),
            new HelpPages(texts));
  }

  @Override
  public void register(Routes routes) {
    groups.forEach(group -> group.register(routes));
  }

  @Override
  public List<Way> ways() {
    return groups.stream().flatMap(group -> group.ways().stream()).toList();
  }

  @Override
  public void close() {
    books.close();
  }
}
