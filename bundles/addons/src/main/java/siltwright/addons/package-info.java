/**
 * What add-ons offer, called so that one that fails, hangs or floods is set aside and the rest goes
 * on. Front ends take every service through {@link siltwright.addons.Guard}.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.addons;
