/**
 * Work in parts: a part goes in, what it comes to comes out, in the order of the parts. Where the
 * parts are worked on is a {@link siltwright.wide.BackEnd}: threads here, or the processes of a
 * cluster. The answer is the same to the last bit, since nothing but the parts and their order is
 * in it.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.wide;
