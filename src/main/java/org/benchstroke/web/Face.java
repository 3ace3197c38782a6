package org.benchstroke.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.TemplateOutput;
import gg.jte.output.StringOutput;
import java.util.List;
import org.benchstroke.core.quantity.Visible;

/**
 * What all pages have in common: their templates, their navigation, and what is said at their foot.
 * Any thread.
 */
final class Face {
  private final TemplateEngine engine = TemplateEngine.createPrecompiled(ContentType.Html);
  private final List<Pages.Way> ways;
  private final String title;
  private final boolean simulated;

  /**
   * Of a screen.
   *
   * @param title of the whole: the shop's name
   * @param simulated whether nothing on it is real
   */
  Face(String title, boolean simulated, List<Pages.Way> ways) {
    this.title = title;
    this.simulated = simulated;
    this.ways = List.copyOf(ways);
  }

  String title() {
    return title;
  }

  boolean simulated() {
    return simulated;
  }

  List<Pages.Way> ways() {
    return ways;
  }

  String rendered(String template, Object page) {
    TemplateOutput output = new StringOutput();
    engine.render(template, page, output);
    return Visible.of(output.toString());
  }
}
