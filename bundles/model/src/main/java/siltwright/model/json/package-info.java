/**
 * Reads fleet files (JSON) into the machine model, strictly.
 *
 * <p>It works in two steps. First each value is held against its declared shape: allowed keys,
 * types, ranges; this is what the JSON Schema of the format says too. Then the records are built,
 * and what one value demands of another is checked: shares that add up, ids that exist, limits in
 * order. Both steps go on after a problem, so that one reading tells all of them. Other files of
 * ours are held against shapes in the same way.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.model.json;
