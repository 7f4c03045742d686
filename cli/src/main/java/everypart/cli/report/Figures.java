package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.study.statistics.DetectionRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.Proportion;
import everypart.analyzer.study.statistics.SignificanceTest;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Optional;

/** Writes figures as JSON; one that could not be computed is null. */
final class Figures {
  private static final MathContext DIGITS = new MathContext(8);

  private final JsonGenerator json;
  private final Level level;

  Figures(JsonGenerator json, Level level) {
    this.json = json;
    this.level = level;
  }

  /** Writes a number to eight significant digits; one without limit is null. */
  void number(String name, double value) throws IOException {
    json.writeFieldName(name);
    number(value);
  }

  private void number(double value) throws IOException {
    if (Double.isFinite(value)) {
      json.writeNumber(new BigDecimal(value).round(DIGITS).stripTrailingZeros().doubleValue());
    } else {
      json.writeNull();
    }
  }

  void number(String name, Optional<Double> value) throws IOException {
    if (value.isPresent()) {
      number(name, value.get());
    } else {
      json.writeNullField(name);
    }
  }

  /** Writes a number, without a fraction where it has none. */
  private void whole(String name, double value) throws IOException {
    if (value == Math.rint(value)) {
      json.writeNumberField(name, (long) value);
    } else {
      number(name, value);
    }
  }

  /** Writes how a figure was computed. */
  void method(String name, Method method) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeStringField("name", method.name().label());
    json.writeNumberField("clusters", method.clusters());
    number("df", method.degreesOfFreedom());
    json.writeStringField("warning", method.warning().orElse(null));
    json.writeEndObject();
  }

  void interval(String name, Optional<Interval> interval) throws IOException {
    if (interval.isEmpty()) {
      json.writeNullField(name);
      return;
    }
    json.writeArrayFieldStart(name);
    number(interval.get().low());
    number(interval.get().high());
    json.writeEndArray();
  }

  void proportion(String name, Optional<Proportion> proportion) throws IOException {
    if (proportion.isEmpty()) {
      json.writeNullField(name);
      return;
    }
    json.writeObjectFieldStart(name);
    json.writeNumberField("count", proportion.get().hits());
    json.writeNumberField("of", proportion.get().total());
    number("rate", proportion.get().rate());
    interval("wilson", Optional.of(proportion.get().wilson(level)));
    json.writeEndObject();
  }

  /**
   * Writes a share: the counts as they are, and the rate and its interval with sampling weights.
   */
  void share(String name, Optional<Proportion> counts, Optional<Estimate> estimate)
      throws IOException {
    if (counts.isEmpty() || estimate.isEmpty()) {
      proportion(name, counts);
      return;
    }
    json.writeObjectFieldStart(name);
    json.writeNumberField("count", counts.get().hits());
    json.writeNumberField("of", counts.get().total());
    number("rate", estimate.get().value());
    interval("wilson", Optional.of(estimate.get().interval()));
    json.writeEndObject();
  }

  void estimate(String name, Optional<Estimate> estimate) throws IOException {
    if (estimate.isEmpty()) {
      json.writeNullField(name);
      return;
    }
    json.writeObjectFieldStart(name);
    number("value", estimate.get().value());
    interval("interval", Optional.of(estimate.get().interval()));
    json.writeEndObject();
  }

  void test(String name, Optional<SignificanceTest> test) throws IOException {
    if (test.isEmpty()) {
      json.writeNullField(name);
      return;
    }
    json.writeObjectFieldStart(name);
    json.writeStringField("name", test.get().name().label());
    number("statistic", test.get().statistic());
    whole("df", test.get().degreesOfFreedom());
    number("p", test.get().p());
    json.writeEndObject();
  }

  void detection(String name, Optional<DetectionRate> rate) throws IOException {
    if (rate.isEmpty()) {
      json.writeNullField(name);
      return;
    }
    json.writeObjectFieldStart(name);
    number("rate", rate.get().rate());
    number("size", rate.get().size());
    interval("wilson", Optional.of(rate.get().wilson(level)));
    json.writeEndObject();
  }
}
