package everypart.cli.intake;

import everypart.analyzer.prompt.Prompt;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** The prompts of one run, by id, in the order they were read. */
public final class PromptSet {
  private final Map<String, Prompt> prompts;
  private final Map<String, String> files;

  PromptSet(Map<String, Prompt> prompts, Map<String, String> files) {
    this.prompts = Collections.unmodifiableMap(new LinkedHashMap<>(prompts));
    this.files = Map.copyOf(files);
  }

  /** Returns the prompts. */
  public Collection<Prompt> all() {
    return prompts.values();
  }

  /** Returns the first prompt. */
  public Prompt first() {
    return prompts.values().iterator().next();
  }

  /** Returns the file a prompt was read from, as the caller named it. */
  public String file(Prompt prompt) {
    return files.getOrDefault(prompt.id(), prompt.id());
  }

  /**
   * Returns the prompt that a response answers: the one it names, or the only one.
   *
   * @throws InputException when it names none and there are several, or names one that is not here
   */
  public Prompt of(Response response) throws InputException {
    Optional<String> id = response.promptId();
    if (id.isEmpty()) {
      if (prompts.size() == 1) {
        return first();
      }
      throw new InputException(
          InputProblem.fault(
              response.place(),
              Sayings.of("promptSet.responseNamesNo", response.id(), prompts.size()),
              Sayings.of("promptSet.fillColumnPrompt")));
    }
    Prompt prompt = prompts.get(id.get());
    if (prompt == null) {
      throw new InputException(
          InputProblem.fault(
              response.place(),
              Sayings.of("promptSet.responsePromptWhich", response.id(), id.get()),
              Sayings.of("promptSet.correctColumnPrompt")));
    }
    return prompt;
  }
}
