package org.benchstroke.judge;

import java.util.Optional;
import java.util.function.Function;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.procedure.TestSpec;

/**
 * A kind of test, as the catalogue lists it. Immutable.
 *
 * @param name what procedure files, records and reports call it
 * @param type the class of its specification
 * @param keys reads its keys in a procedure file
 * @param judge makes its judge
 */
public record TestKind<S extends TestSpec>(
    String name, Class<S> type, Function<TomlSection, S> keys, TestJudge.Of<S> judge) {
  /** The judge of a test of this kind. */
  TestJudge judge(JudgedBench judged, TestSpec spec, Optional<Chapter> attempt) {
    return judge.of(judged, type.cast(spec), attempt);
  }
}
