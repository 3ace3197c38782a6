package org.benchstroke.commission;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.commission.MapCandidate.ScaleKind;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.Registers;

/**
 * Works out how registers are to be read from two or more known values: every type and word order
 * at every address that was read is tried, and what can't be is thrown out. Pure: no I/O, no clock.
 *
 * <p>Method (our own): a candidate must hold finite numbers of a sane size that change from point
 * to point and stand still at a point. Its scale is then the file's, a usual one, or, as a last
 * resort, the straight line through the outermost points, if that is not absurd. Stateless.
 */
public final class MapInference {
  /** A float beyond these is the wrong order of some other number. */
  private static final double TINY = 1e-6;

  private static final double HUGE = 1e9;

  /** Fewer counts than this between two points are no measurement. */
  private static final double FEWEST_COUNTS = 10.0;

  /** A straight line whose zero lies further outside the range than so many spans is absurd. */
  private static final double MOST_SPANS = 2.0;

  /** Misfits, in tolerances, nearer to each other than this don't decide. */
  private static final double SAME_MISFIT = 0.25;

  private final MapQuestion question;

  private MapInference(MapQuestion question) {
    this.question = question;
  }

  /** Looks for the maps that explain the points. */
  public static MapFindings infer(MapQuestion question) {
    return new MapInference(question).infer();
  }

  private MapFindings infer() {
    List<MapCandidate> found = new ArrayList<>();
    for (int at = 0; at < question.registers(); at++) {
      for (Register.Type type : Register.Type.values()) {
        if (type != Register.Type.BIT && at + type.words() <= question.registers()) {
          found.addAll(readAs(type, at));
        }
      }
    }
    found.sort(likelierFirst());
    if (found.isEmpty()) {
      return new MapFindings(Optional.empty(), List.of(), List.of());
    }
    MapCandidate best = found.get(0);
    List<MapCandidate> rest = found.subList(1, found.size());
    return new MapFindings(
        Optional.of(best),
        rest.stream().filter(each -> ties(best, each)).toList(),
        rest.stream().filter(each -> !ties(best, each)).toList());
  }

  /** The candidates of one type at one place; orders that give the same numbers count once. */
  private List<MapCandidate> readAs(Register.Type type, int at) {
    List<MapCandidate> found = new ArrayList<>();
    Set<List<Double>> seen = new HashSet<>();
    for (Register.Order order : orders()) {
      int address = question.firstAddress() + at;
      Register bare = new Register(question.inFile().table(), address, type, order, 1.0, 0.0);
      List<List<Double>> numbers =
          question.points().stream().map(point -> numbers(bare, point, at)).toList();
      boolean fresh = seen.add(numbers.stream().flatMap(List::stream).toList());
      if (fresh && possible(type, numbers)) {
        found.addAll(scaled(bare, numbers));
      }
    }
    return found;
  }

  /** The file's own order first: where orders don't matter, it stays. */
  private List<Register.Order> orders() {
    List<Register.Order> orders = new ArrayList<>(List.of(question.inFile().order()));
    for (Register.Order order : Register.Order.values()) {
      if (!orders.contains(order)) {
        orders.add(order);
      }
    }
    return orders;
  }

  private static List<Double> numbers(Register register, KnownPoint point, int at) {
    int words = register.type().words();
    return point.readings().stream()
        .map(
            reading -> {
              ByteBuffer bytes = ByteBuffer.allocate(2 * words);
              reading.subList(at, at + words).forEach(word -> bytes.putShort(word.shortValue()));
              return Registers.number(register, bytes.array());
            })
        .toList();
  }

  private static boolean possible(Register.Type type, List<List<Double>> numbers) {
    double most = 0.0;
    boolean lowWordAlwaysZero = type.words() > 1 && !type.real();
    for (List<Double> point : numbers) {
      for (double number : point) {
        if (!Double.isFinite(number)) {
          return false;
        }
        most = Math.max(most, Math.abs(number));
        lowWordAlwaysZero &= number % 65_536.0 == 0.0;
      }
    }
    return !lowWordAlwaysZero && (!type.real() || (most >= TINY && most <= HUGE));
  }

  private List<MapCandidate> scaled(Register bare, List<List<Double>> numbers) {
    List<Double> means = numbers.stream().map(MapInference::mean).toList();
    double change =
        means.stream().mapToDouble(d -> d).max().orElseThrow()
            - means.stream().mapToDouble(d -> d).min().orElseThrow();
    if (change == 0.0 || (!bare.type().real() && change < FEWEST_COUNTS)) {
      return List.of();
    }
    List<MapCandidate> found = new ArrayList<>();
    Register file = question.inFile();
    add(found, bare, file.scale(), file.offset(), ScaleKind.PLAIN, "scale as in the file", numbers);
    for (UsualScale usual : UsualScale.of(question)) {
      ScaleKind kind = usual.plain() ? ScaleKind.PLAIN : ScaleKind.COUNTS;
      boolean asInFile = usual.scale() == file.scale() && usual.offset() == file.offset();
      boolean fraction = !usual.plain() && usual.scale() >= question.span();
      if (!asInFile && (!fraction || bare.type().real())) {
        add(found, bare, usual.scale(), usual.offset(), kind, usual.words(), numbers);
      }
    }
    if (found.isEmpty()) {
      addLine(found, bare, means, numbers);
    }
    return found;
  }

  private void addLine(
      List<MapCandidate> found, Register bare, List<Double> means, List<List<Double>> numbers) {
    int low = outermost(Comparator.naturalOrder());
    int high = outermost(Comparator.reverseOrder());
    double valueLow = question.points().get(low).value();
    double change = means.get(high) - means.get(low);
    if (change == 0.0) {
      return;
    }
    double scale = (question.points().get(high).value() - valueLow) / change;
    double offset = valueLow - scale * means.get(low);
    double most = MOST_SPANS * question.span();
    double bottom = Math.min(question.low(), question.high());
    double top = Math.max(question.low(), question.high());
    if (offset >= bottom - most && offset <= top + most) {
      add(found, bare, scale, offset, ScaleKind.POINTS_ONLY, "a line through the points", numbers);
    }
  }

  private int outermost(Comparator<Double> order) {
    List<Double> values = question.points().stream().map(KnownPoint::value).toList();
    return values.indexOf(values.stream().min(order).orElseThrow());
  }

  /** Adds the candidate if it is near every point, stands still there, and holds the range. */
  private void add(
      List<MapCandidate> found,
      Register bare,
      double scale,
      double offset,
      ScaleKind kind,
      String words,
      List<List<Double>> numbers) {
    Register register =
        new Register(bare.table(), bare.address(), bare.type(), bare.order(), scale, offset);
    double misfit = 0.0;
    List<Double> means = new ArrayList<>();
    List<Double> values = new ArrayList<>();
    for (int i = 0; i < numbers.size(); i++) {
      KnownPoint point = question.points().get(i);
      double mean = mean(numbers.get(i));
      double value = mean * scale + offset;
      double scatter = spread(numbers.get(i)) * Math.abs(scale);
      misfit = Math.max(misfit, Math.abs(value - point.value()) / point.tolerance());
      if (scatter > 2.0 * point.tolerance()) {
        return;
      }
      means.add(mean);
      values.add(value);
    }
    if (misfit <= 1.0 && holds(register, question.low()) && holds(register, question.high())) {
      found.add(new MapCandidate(register, kind, words, whole(bare), misfit, means, values));
    }
  }

  /** Half a float beside a constant reads nearly right: the low half must be seen to change. */
  private boolean whole(Register register) {
    int at = register.address() - question.firstAddress();
    int low = register.order().lowWordFirst() ? at : at + register.type().words() - 1;
    return question.points().stream()
            .flatMap(point -> point.readings().stream())
            .map(reading -> reading.get(low))
            .distinct()
            .count()
        > 1;
  }

  private static boolean holds(Register register, double value) {
    try {
      return Registers.bytes(register, value).length > 0;
    } catch (IllegalArgumentException tooFar) {
      return false;
    }
  }

  private Comparator<MapCandidate> likelierFirst() {
    Register file = question.inFile();
    return Comparator.<MapCandidate, Boolean>comparing(c -> c.scaleKind() == ScaleKind.POINTS_ONLY)
        .thenComparing(c -> !c.whole())
        .thenComparing(this::distance)
        .thenComparing(MapCandidate::scaleKind)
        .thenComparing(c -> Math.floor(c.misfit() / SAME_MISFIT))
        .thenComparing(c -> c.register().type() != file.type())
        .thenComparing(c -> c.register().order() != file.order())
        .thenComparing(c -> c.register().type().words())
        .thenComparing(c -> c.register().type())
        .thenComparing(MapCandidate::misfit);
  }

  private int distance(MapCandidate candidate) {
    return Math.abs(candidate.register().address() - question.inFile().address());
  }

  private boolean ties(MapCandidate best, MapCandidate other) {
    return other.scaleKind() == best.scaleKind()
        && other.whole() == best.whole()
        && distance(other) == distance(best)
        && other.misfit() - best.misfit() < SAME_MISFIT;
  }

  private static double mean(List<Double> numbers) {
    return numbers.stream().mapToDouble(d -> d).average().orElseThrow();
  }

  private static double spread(List<Double> numbers) {
    var all = numbers.stream().mapToDouble(d -> d).summaryStatistics();
    return all.getMax() - all.getMin();
  }
}
