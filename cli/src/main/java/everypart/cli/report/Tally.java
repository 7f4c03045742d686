package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Counts verdicts for each demand of each prompt while results come in. */
public final class Tally {
  private final Map<String, PromptTally> prompts = new LinkedHashMap<>();

  /** Makes a tally with a row for each demand of these prompts. */
  public Tally(Collection<Prompt> prompts) {
    prompts.forEach(prompt -> this.prompts.put(prompt.id(), new PromptTally(prompt)));
  }

  /** Counts one result. */
  public void add(Coverage coverage) {
    PromptTally tally = prompts.get(coverage.prompt().id());
    if (tally == null) {
      throw new IllegalArgumentException("no tally for prompt " + coverage.prompt().id());
    }
    tally.add(coverage);
  }

  /** Returns the counts of each prompt, in the prompts' order. */
  public List<PromptTally> prompts() {
    return List.copyOf(prompts.values());
  }

  /** Returns how many results were counted. */
  public long responses() {
    return prompts.values().stream().mapToLong(PromptTally::responses).sum();
  }

  /** Returns in how many responses meanings were compared, because words left something open. */
  public long byMeaning() {
    return prompts.values().stream().mapToLong(prompt -> prompt.byMeaning).sum();
  }

  /** The counts of one prompt. */
  public static final class PromptTally {
    private final Prompt prompt;
    private final List<DemandTally> demands = new ArrayList<>();
    private final EnumMap<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
    private long responses;
    private long byMeaning;

    PromptTally(Prompt prompt) {
      this.prompt = prompt;
      for (Part part : prompt.parts()) {
        int number = 1;
        for (Demand demand : part.demands()) {
          demands.add(new DemandTally(part, number++, demand));
        }
      }
    }

    private void add(Coverage coverage) {
      responses++;
      byMeaning += coverage.assignment().byMeaning() > 0 ? 1 : 0;
      verdicts.merge(coverage.verdict(), 1L, Long::sum);
      List<DemandCoverage> judged =
          coverage.parts().stream().flatMap(part -> part.demands().stream()).toList();
      for (int i = 0; i < demands.size(); i++) {
        demands.get(i).add(judged.get(i));
      }
    }

    /** Returns the prompt. */
    public Prompt prompt() {
      return prompt;
    }

    /** Returns how many responses were counted. */
    public long responses() {
      return responses;
    }

    /** Returns how many whole responses got a verdict. */
    public long count(Verdict verdict) {
      return verdicts.getOrDefault(verdict, 0L);
    }

    /** Returns the counts of each demand, in reading order. */
    public List<DemandTally> demands() {
      return List.copyOf(demands);
    }
  }

  /** The counts of one demand. */
  public static final class DemandTally {
    private final Part part;
    private final int number;
    private final Demand demand;
    private final EnumMap<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
    private long look;

    DemandTally(Part part, int number, Demand demand) {
      this.part = part;
      this.number = number;
      this.demand = demand;
    }

    private void add(DemandCoverage coverage) {
      verdicts.merge(coverage.verdict(), 1L, Long::sum);
      if (coverage.look()) {
        look++;
      }
    }

    /** Returns the part. */
    public Part part() {
      return part;
    }

    /** Returns the running number within the part, from 1. */
    public int number() {
      return number;
    }

    /** Returns the demand. */
    public Demand demand() {
      return demand;
    }

    /** Returns how many responses got a verdict on it. */
    public long count(Verdict verdict) {
      return verdicts.getOrDefault(verdict, 0L);
    }

    /** Returns how many verdicts ask for a person's eye. */
    public long look() {
      return look;
    }
  }
}
