package org.benchstroke.web.desk;

import org.benchstroke.archive.ArchivedRun.Heading;

/** The addresses of the desk's pages, which can be shared inside the shop. Stateless. */
public final class Links {
  static final String HISTORY = "/desk";
  static final String UNIT = "/desk/unit";
  static final String JOB = "/desk/job";
  static final String RUN = "/desk/run/";
  static final String COMPARE = "/desk/compare";
  static final String BENCHES = "/desk/benches";
  static final String PROCEDURES = "/desk/procedures";
  static final String UNIT_TYPES = "/desk/unit-types";

  /** So many digits tell runs apart: two of a billion runs share them with a chance of 3 %. */
  private static final int DIGITS = 16;

  private Links() {}

  /** A run's, by its record's digest. */
  public static String run(Heading run) {
    return RUN + id(run);
  }

  static String id(Heading run) {
    return run.file().sha256().substring(0, DIGITS);
  }

  /** A unit's. */
  public static String unit(String serial) {
    return Query.NONE.with("serial", serial).on(UNIT);
  }

  /** A job's. */
  public static String job(String order, String serial, boolean simulated) {
    return job(order, serial, simulated, JOB);
  }

  static String job(String order, String serial, boolean simulated, String path) {
    return Query.NONE
        .with("order", order)
        .with("serial", serial)
        .with("runs", simulated ? "simulated" : "real")
        .on(path);
  }

  /** What explains a measure. */
  public static String measure(String key) {
    return "/help/measure/" + Query.encoded(key);
  }
}
