/** Tests of the model of sentence meaning, and of both jars together. */
@NullMarked
package everypart.meaning;

import org.jspecify.annotations.NullMarked;
