package siltwright.store;

import java.time.Instant;
import java.util.OptionalLong;

/**
 * Something that a person did to the store, in one piece.
 *
 * @param number its number
 * @param at when
 * @param who who
 * @param verb what, in a word
 * @param detail of what
 * @param made rows it made
 * @param ended rows it ended
 * @param undoes action that it took back, if that is what it did
 * @param undoneBy action that took it back, if any did
 */
public record Action(
    long number,
    Instant at,
    String who,
    String verb,
    String detail,
    long made,
    long ended,
    OptionalLong undoes,
    OptionalLong undoneBy) {}
