/**
 * The command line. Every {@link siltwright.analysis.Analysis} service becomes a command: options
 * and help come from its parameters, text, JSON and CSV from its result. Nothing here knows any
 * single analysis.
 *
 * <p>{@link siltwright.command.CommandEntry} is the service that the launcher calls; {@link
 * siltwright.command.Commands} does the work and knows no OSGi.
 */
package siltwright.command;
