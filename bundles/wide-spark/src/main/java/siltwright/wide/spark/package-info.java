/**
 * Parts worked on by an Apache Spark cluster: the process that drives it, told what to do by {@link
 * siltwright.wide.Cluster}, and the processes that it is made of.
 */
package siltwright.wide.spark;
