package siltwright.life;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The three timing jobs, warm and in process, from records in memory. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(value = 1, jvmArgs = "-Xmx2g")
public class LifeBenchmark {
  private final LifeData regression = TimingRecords.regression();
  private final LifeData survival = TimingRecords.survival();
  private final LifeData bootstrap = TimingRecords.bootstrap();

  /** Weibull regression of 100 000 rows on three covariates, its existence checks included. */
  @Benchmark
  public Object regressionOfHundredThousandRows() {
    return AftModel.fit(regression, LifeFamily.WEIBULL, List.of("code", "temp", "mob")).get();
  }

  /** Kaplan-Meier of a million rows with its log-log band, sorting included. */
  @Benchmark
  public Object survivalOfAMillionRows() {
    return KaplanMeier.of(survival).band(KaplanMeier.Band.LOG_LOG, 0.95);
  }

  /** 1000 Weibull refits of 200 rows, the common pool sharing the work. */
  @Benchmark
  public Object thousandRefits() {
    return Bootstrap.of(bootstrap, LifeFamily.WEIBULL, 1000, 1, true).get();
  }
}
