package siltwright.model.history;

/**
 * A filter element that was changed. Texts are empty where nothing was recorded.
 *
 * @param moment when
 * @param filter which filter
 * @param element element fitted
 * @param procedure way it was changed
 * @param reason why
 * @param person who changed it
 * @param dropKPa pressure drop before the change, kPa; not a number if not read
 * @param note anything else
 */
public record ElementChange(
    Moment moment,
    String filter,
    String element,
    String procedure,
    String reason,
    String person,
    double dropKPa,
    String note) {}
