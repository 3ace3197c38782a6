package org.benchstroke.commission;

import java.util.List;
import java.util.stream.Collectors;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.modbus.Register;

/**
 * A register map that explains the known points. Immutable.
 *
 * @param register where the value stands and how it is read
 * @param scaleKind where its scale comes from
 * @param words what the scale says
 * @param whole whether its least significant register ever changed; if not, it may be half of one
 *     value and half of another
 * @param misfit the largest distance from a known point, in tolerances of that point
 * @param numbers the number in the register at each point, before scale and offset: the mean
 * @param values the same after scale and offset
 */
public record MapCandidate(
    Register register,
    ScaleKind scaleKind,
    String words,
    boolean whole,
    double misfit,
    List<Double> numbers,
    List<Double> values) {

  /** Where a scale comes from, the likelier first. */
  public enum ScaleKind {
    /** The bench file, or a power of ten. */
    PLAIN,
    /** A usual range of counts. */
    COUNTS,
    /** The points alone: two of them fit any straight line. */
    POINTS_ONLY
  }

  public MapCandidate {
    numbers = List.copyOf(numbers);
    values = List.copyOf(values);
  }

  /** One line for people. */
  public String text() {
    Register r = register;
    String order = r.type().words() > 1 ? " " + r.order() : "";
    return r.table().key()
        + " "
        + r.address()
        + ", "
        + r.type().key()
        + order
        + ", "
        + words
        + ": reads "
        + values.stream().map(v -> Numbers.significant(v, 5)).collect(Collectors.joining(", "));
  }

  /** Whether the register is the same and reads the same. */
  public boolean sameAs(Register other) {
    return register.table() == other.table()
        && register.address() == other.address()
        && register.type() == other.type()
        && (register.type().words() == 1 || register.order() == other.order())
        && near(register.scale(), other.scale())
        && near(register.offset(), other.offset());
  }

  private static boolean near(double a, double b) {
    return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
  }
}
