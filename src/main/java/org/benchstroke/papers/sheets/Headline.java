package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Figures;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.unit.MeasureKind;

/**
 * What a paper says first. Immutable.
 *
 * @param mark the shape beside it
 * @param word large
 * @param sentences what belongs to it, most important first
 */
public record Headline(Word mark, String word, List<String> sentences) {
  private static final int PLACES = 2;

  public Headline {
    sentences = List.copyOf(sentences);
  }

  /** Of a run; what others recorded never shows the word of a run. */
  static Headline of(JudgedRun run, Terms terms) {
    Words words = terms.words();
    List<String> sentences = new ArrayList<>();
    if (run.imported().isPresent()) {
      sentences.add(words.of("headline.elsewhere"));
      sentences.add(words.of("headline.readings", terms.word(ReportPages.shown(run))));
      sentences.add(reason(run, terms));
      return new Headline(Word.NO_RESULT, words.of("headline.not-proven"), sentences);
    }
    sentences.add(reason(run, terms));
    if (!run.stemProven()) {
      sentences.add(words.of("headline.stem"));
    }
    return new Headline(ReportPages.shown(run), terms.word(ReportPages.shown(run)), sentences);
  }

  /** Of a unit as left, which says how it was found. */
  static Headline of(Subject subject, Terms terms) {
    Headline left = of(subject.judged(), terms);
    if (subject.found().isEmpty()) {
      return left;
    }
    JudgedRun found = subject.found().get().run();
    String word = terms.word(ReportPages.shown(found));
    List<String> sentences = new ArrayList<>(left.sentences());
    sentences.add(1, terms.words().of("headline.as-found", word, reason(found, terms)));
    return new Headline(left.mark(), left.word(), sentences);
  }

  /** Why, in a sentence. */
  static String reason(JudgedRun run, Terms terms) {
    Words words = terms.words();
    if (!run.complete() || run.unit().limits().isEmpty()) {
      return Terms.set(run.reason());
    }
    for (Word word :
        List.of(Word.FAIL, Word.NO_RESULT, Word.CONDITIONAL_FAIL, Word.CONDITIONAL_PASS)) {
      List<String> named = named(run, word, terms);
      if (!named.isEmpty()) {
        return words.of("reason." + word.name(), String.join("; ", named));
      }
    }
    boolean lost = run.orders().stream().anyMatch(o -> o.isOf(AsOrdered.Subject.SIGNAL_LOSS));
    return words.of(lost ? "reason.PASS" : "reason.PASS-without-loss")
        + (once(run) ? " " + words.of("reason.once") : "");
  }

  /** Whether each point was met once: then nobody knows how the unit scatters. */
  private static boolean once(JudgedRun run) {
    List<Judgement> sides =
        run.judgements().stream()
            .filter(j -> j.measure().kind() == MeasureKind.TRAVEL_ERROR)
            .filter(j -> j.measure().place() instanceof Location.Side)
            .toList();
    return !sides.isEmpty() && sides.stream().allMatch(Figures::ofReadings);
  }

  private static List<String> named(JudgedRun run, Word word, Terms terms) {
    Map<String, List<String>> places = new LinkedHashMap<>();
    for (Judgement judgement : run.judgements()) {
      if (judgement.word().equals(Optional.of(word))) {
        boolean stem = judgement.measure().truth() == Truth.STEM;
        String title = terms.title(judgement.measure());
        places
            .computeIfAbsent(
                stem ? terms.words().of("headline.of-stem", title) : title,
                key -> new ArrayList<>())
            .add(terms.place(judgement.measure()));
      }
    }
    List<String> names = new ArrayList<>();
    places.forEach((title, at) -> names.add(title + at(at, terms)));
    run.orders().stream().filter(o -> o.word() == word).map(terms::what).forEach(names::add);
    return names;
  }

  private static String at(List<String> places, Terms terms) {
    String first = String.join(", ", places.subList(0, Math.min(PLACES, places.size())));
    int more = places.size() - PLACES;
    return (first.isEmpty() ? "" : " (" + first + ")")
        + (more > 0 ? terms.words().of("headline.more", more) : "");
  }
}
