/**
 * The local page: the program for people who never open a terminal.
 *
 * <p>{@link everypart.cli.open.LocalServer} listens on this machine only, lets nothing in but its
 * own page, and stops when the last page is closed. {@code Desk} answers what a page asks about a
 * prompt and an answer; {@code ClassDesk} holds the classes of a visit. Nothing is kept on disk:
 * files of a class stand in a private folder while they are read and are removed at once.
 */
@NullMarked
package everypart.cli.open;

import org.jspecify.annotations.NullMarked;
