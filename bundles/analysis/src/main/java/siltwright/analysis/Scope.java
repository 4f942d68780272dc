package siltwright.analysis;

/** What an analysis works on. */
public enum Scope {
  /** Its parameters alone. */
  NONE,
  /** One machine of a fleet file; run over a whole fleet, it gives one result a machine. */
  MACHINE,
  /** A fleet file as a whole. */
  FLEET,
  /** A table of the user's records. */
  RECORDS,
  /** The history of a fleet, from a store. */
  HISTORY
}
