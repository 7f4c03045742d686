package everypart.analyzer.detect;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Text;

/**
 * What a detector is asked: is this demand of this part of this prompt addressed in this response?
 *
 * @param prompt the prompt
 * @param part the part
 * @param demand the demand, one of the part's
 * @param text the whole response
 * @param assignment which words of it answer which part
 */
public record Question(Prompt prompt, Part part, Demand demand, Text text, Assignment assignment) {}
