/**
 * A general model of sentence meaning, in a jar of its own because its runtime is several times as
 * large as the rest of the program.
 *
 * <p>{@link everypart.meaning.MiniLmMeaning} and {@link everypart.meaning.EncoderReader}, which
 * reads a demand beside an answer, are the services that the program finds; {@code WordPieces} cuts
 * sentences into the pieces that the model knows.
 */
@NullMarked
package everypart.meaning;

import org.jspecify.annotations.NullMarked;
