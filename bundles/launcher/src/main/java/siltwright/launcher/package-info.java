/**
 * Starts the product: reads the feature file that lists its bundles, starts them on an embedded
 * OSGi framework, and hands the command line to the one service that takes it.
 *
 * <p>This is a plain jar outside OSGi. It shares no package of its own with the bundles: the entry
 * point is found by a type of the JDK, {@link java.util.function.ToIntFunction
 * ToIntFunction&lt;String[]&gt;}, and the service property {@code siltwright.entry=command}. So any
 * bundle can bring the commands, and nothing has to be exported to it.
 *
 * <p>What cannot start is never passed over: a bundle without a package it needs, or a component
 * without a service it needs, is named with what it lacks ({@link Diagnosis}).
 */
package siltwright.launcher;
