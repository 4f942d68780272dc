/** Ingress and field efficiency that samples, readings and indicator hours imply. */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.closure;
