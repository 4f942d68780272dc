package siltwright.model;

/**
 * A place where machines work.
 *
 * @param id identifier
 * @param name name for people
 */
public record Site(String id, String name) {}
