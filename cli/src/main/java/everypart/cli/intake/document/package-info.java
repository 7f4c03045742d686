/**
 * From the files that writers hand in to plain text.
 *
 * <p>{@link everypart.cli.intake.document.Documents} is the only door: a file goes in, a {@link
 * everypart.cli.intake.document.Document} or one clear sentence comes out. It also hands out a
 * {@link everypart.cli.intake.document.FileTree}, which walks folders and zip files, and a {@link
 * everypart.cli.intake.document.Sheet}, the rows of a class sheet. Behind the door each file format
 * has one reader, and all of them lay out their text through the same blocks. The room knows
 * nothing of questions and answers; an architecture test holds both.
 *
 * <p>Files come from strangers, so nothing in them is trusted: XML is read without document types
 * and outside entities, everything packed has a bound on what it may unpack to, no name in a zip
 * file is ever used as a path, and nothing is run, fetched or written.
 */
@NullMarked
package everypart.cli.intake.document;

import org.jspecify.annotations.NullMarked;
