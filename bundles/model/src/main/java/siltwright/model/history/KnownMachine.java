package siltwright.model.history;

import java.time.ZoneId;

/**
 * A machine of which there are records. Texts are empty where nothing is known.
 *
 * @param id id, as in the fleet file
 * @param serial serial number
 * @param name name for people
 * @param machineClass neutral class
 * @param site id of its site
 * @param zone time zone of its site
 */
public record KnownMachine(
    String id, String serial, String name, String machineClass, String site, ZoneId zone) {}
