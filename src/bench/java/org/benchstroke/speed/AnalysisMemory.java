package org.benchstroke.speed;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.Locale;
import org.benchstroke.core.analysis.Hunting;
import org.benchstroke.core.analysis.MotionMeter;
import org.benchstroke.core.analysis.PositionNoise;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.analysis.TraceGuards;

/**
 * What the analysis allocates, garbage and all, for a million samples and for ten million: what
 * takes samples one by one, and what looks at a whole trace, must not grow with their number.
 */
final class AnalysisMemory {
  private static final int FEW = 1_000_000;
  private static final int TIMES = 10;

  /** What the machine's own compiler may put in between, bytes. */
  private static final long SLACK = 4096;

  private AnalysisMemory() {}

  /** Gives a number that depends on the work, so that none of it is left out. */
  private interface Work {
    double of(MadeUpTrace made);
  }

  static void run(Extent extent) {
    int count = extent.of(FEW, 20_000);
    MadeUpTrace few = MadeUpTrace.of(count);
    long before = inUse();
    MadeUpTrace many = MadeUpTrace.of(TIMES * count);
    double held = (inUse() - before) / (double) (TIMES * count);
    System.out.printf(
        Locale.ROOT, "%nAllocated for %d and for %d samples, bytes%n", count, TIMES * count);
    same("starts and time in motion, sample by sample", few, many, AnalysisMemory::motion);
    same("mean, deviation and range of a trace", few, many, m -> m.trace().spread().mean());
    same("gaps, saturation, impossible slew", few, many, AnalysisMemory::guards);
    row("hunting, with its turning points", few, many, AnalysisMemory::hunting);
    System.out.printf(Locale.ROOT, "| a trace holds, a sample | %.1f |%n", held);
  }

  private static double motion(MadeUpTrace made) {
    MotionMeter meter = new MotionMeter(0.1, 0.5);
    for (int i = 0; i < made.trace().size(); i++) {
      meter.add(made.trace().seconds(i), made.trace().percent(i));
    }
    return meter.movedSeconds();
  }

  private static double guards(MadeUpTrace made) {
    Trace trace = made.trace();
    return TraceGuards.gap(trace, 1.0).stream().count()
        + TraceGuards.saturated(trace).stream().count()
        + TraceGuards.impossibleSlew(trace, MadeUpTrace.FASTEST, 0.005, MadeUpTrace.RESOLUTION)
            .stream()
            .count();
  }

  /** It keeps the turning points; as the setpoint is stepped here, there are some. */
  private static double hunting(MadeUpTrace made) {
    return Hunting.of(
            made.trace(),
            new PositionNoise(0.005, MadeUpTrace.RESOLUTION),
            0.1,
            2.0,
            MadeUpTrace.SPEED)
        .turns();
  }

  private static void same(String name, MadeUpTrace few, MadeUpTrace many, Work work) {
    long more = row(name, few, many, work);
    if (more > SLACK) {
      throw new IllegalStateException(name + " allocates by the sample: " + more + " bytes more");
    }
  }

  /** Gives by how much the many took more than the few. */
  private static long row(String name, MadeUpTrace few, MadeUpTrace many, Work work) {
    work.of(few);
    long byFew = allocated(work, few);
    long byMany = allocated(work, many);
    System.out.printf(Locale.ROOT, "| %s | %d | %d |%n", name, byFew, byMany);
    return byMany - byFew;
  }

  private static long allocated(Work work, MadeUpTrace made) {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long thread = Thread.currentThread().getId();
    long before = threads.getThreadAllocatedBytes(thread);
    double result = work.of(made);
    long after = threads.getThreadAllocatedBytes(thread);
    if (Double.isNaN(result)) {
      throw new IllegalStateException("no result");
    }
    return after - before;
  }

  private static long inUse() {
    System.gc();
    return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
  }
}
