package siltwright.model;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What an interval must keep to.
 *
 * @param makerMaximumH longest interval that the maker allows, h
 * @param target cleanliness that the oil must hold in running, wash-out after a change left out
 */
public record Limits(OptionalDouble makerMaximumH, Optional<CleanlinessCode> target) {}
