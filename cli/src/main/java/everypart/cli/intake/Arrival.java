package everypart.cli.intake;

/** What comes of one input: a response, or a problem in its place. */
public sealed interface Arrival permits Response, InputProblem {}
