package siltwright.command;

import java.io.PrintStream;

/**
 * Where output goes.
 *
 * @param out results
 * @param err everything else
 * @param terminal whether a person watches {@code err}, so that progress is worth showing
 */
record Console(PrintStream out, PrintStream err, boolean terminal) {}
