package everypart.cli.intake;

import java.io.Closeable;
import java.util.Iterator;

/** Responses as they come in, one after the other, with a problem in place of each bad one. */
public interface Arrivals extends Iterator<Arrival>, Closeable {}
