package org.benchstroke.web.desk;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.benchstroke.papers.Methods;
import org.benchstroke.procedure.Caution;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/** Help in place: each measure, the words of the trade, the cautions. Any thread. */
public final class HelpPages implements Pages {
  static final String KEY = "help";
  private static final String HELP = "/help";

  private final HelpTexts texts;

  HelpPages(HelpTexts texts) {
    this.texts = texts;
  }

  @Override
  public void register(Routes routes) {
    routes.get(HELP, Right.READ, this::index);
    routes.get(HELP + "/measure/{key}", Right.READ, this::measure);
    routes.get(HELP + "/glossary", Right.READ, this::glossary);
    routes.get(HELP + "/cautions", Right.READ, this::cautions);
  }

  @Override
  public List<Way> ways() {
    return List.of(new Way(KEY, HELP, "Help"));
  }

  /**
   * All that is explained.
   *
   * @param measures by the section of the documents that describes them
   */
  public record IndexPage(Layout layout, Map<String, List<MeasureKind>> measures) {
    /** Where a measure is explained. */
    public String href(MeasureKind kind) {
      return Links.measure(kind.key());
    }
  }

  private void index(Visit visit) {
    Map<String, List<MeasureKind>> sections = new TreeMap<>();
    for (MeasureKind kind : MeasureKind.values()) {
      sections.computeIfAbsent(method(kind).section(), section -> new ArrayList<>()).add(kind);
    }
    visit.show("web/desk/help.jte", new IndexPage(visit.layout("Help", KEY), sections));
  }

  private Methods.Method method(MeasureKind kind) {
    return Methods.of(texts.of(kind).method()).orElseThrow();
  }

  /**
   * A measure.
   *
   * @param kind which
   * @param text what explains it
   * @param method where it is described, and its source
   */
  public record MeasurePage(
      Layout layout, MeasureKind kind, HelpTexts.Explained text, Methods.Method method) {
    /** By what it is known, in words. */
    public String known() {
      return switch (kind.knownBy()) {
        case POSITION ->
            "a position: the unit's own feedback, or an angle reference on the stem where one is"
                + " fitted. The two are never mixed.";
        case CLOCK -> "the bench's clock, on samples of a position.";
        case METER -> "a meter of the bench.";
      };
    }

    /** The document that describes it. */
    public String document() {
      return Methods.DOCUMENT;
    }
  }

  private void measure(Visit visit) throws Refusal {
    MeasureKind kind =
        MeasureKind.ofKey(visit.path("key"))
            .orElseThrow(
                () ->
                    Refusal.notThere(
                        "There is no measure with this key. The help page lists all of them."));
    String title =
        kind.title().substring(0, 1).toUpperCase(Locale.ROOT) + kind.title().substring(1);
    visit.show(
        "web/desk/measure.jte",
        new MeasurePage(visit.layout(title, KEY), kind, texts.of(kind), method(kind)));
  }

  /**
   * The words of the trade.
   *
   * @param words with what they mean, by the alphabet
   */
  public record GlossaryPage(Layout layout, Map<String, String> words) {
    /** The name of a word within the page. */
    public String id(String word) {
      return word.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    }
  }

  private void glossary(Visit visit) {
    visit.show(
        "web/desk/glossary.jte", new GlossaryPage(visit.layout("Words", KEY), texts.words()));
  }

  /**
   * The cautions.
   *
   * @param all as they are shown
   */
  public record CautionsPage(Layout layout, List<Caution> all) {}

  private void cautions(Visit visit) {
    visit.show(
        "web/desk/cautions.jte",
        new CautionsPage(visit.layout("Cautions", KEY), Arrays.asList(Caution.values())));
  }
}
