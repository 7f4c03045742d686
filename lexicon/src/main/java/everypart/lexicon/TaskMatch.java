package everypart.lexicon;

/**
 * Something of the task-verb lexicon that was found in a line of words.
 *
 * @param found the verb or rule
 * @param range where it stands
 */
public record TaskMatch<T>(T found, TokenRange range) {}
