/** Tests of the document readers. */
@NullMarked
package everypart.cli.intake.document;

import org.jspecify.annotations.NullMarked;
