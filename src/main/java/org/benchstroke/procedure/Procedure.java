package org.benchstroke.procedure;

import java.util.List;

/**
 * A procedure: the tests in their order. The preflight always comes first and isn't listed.
 *
 * @param name what people call it
 * @param version its revision, as printed on reports
 * @param tests the tests
 */
public record Procedure(String name, String version, List<TestSpec> tests) {
  public Procedure {
    tests = List.copyOf(tests);
  }
}
