package siltwright.model.history;

/**
 * A component that was replaced. Texts are empty where nothing was recorded.
 *
 * @param moment when
 * @param component component, as in the fleet file
 * @param cause why
 * @param partNo part fitted
 * @param note anything else
 */
public record ComponentReplacement(
    Moment moment, String component, String cause, String partNo, String note) {}
