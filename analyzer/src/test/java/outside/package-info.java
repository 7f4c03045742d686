/** Uses the analyzer as a program of somebody else's would: public types only. */
@NullMarked
package outside;

import org.jspecify.annotations.NullMarked;
