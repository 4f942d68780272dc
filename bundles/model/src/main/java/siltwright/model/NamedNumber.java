package siltwright.model;

/**
 * A number that a fleet file may give to a law or cost term that it names.
 *
 * @param name its name in fleet files: letters and digits, begins with a letter
 * @param unit its unit; {@code 1} if it has none
 * @param least least value allowed
 * @param most greatest value allowed
 * @param standard the value where a file gives none
 * @param meaning what it is, in one clause
 */
public record NamedNumber(
    String name, String unit, double least, double most, double standard, String meaning) {}
