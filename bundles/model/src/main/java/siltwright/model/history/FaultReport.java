package siltwright.model.history;

/**
 * A fault that the machine reported. Texts are empty where nothing was recorded.
 *
 * @param moment when
 * @param code code of the fault
 * @param severity severity as reported
 * @param origin what reported it
 * @param description what it says
 */
public record FaultReport(
    Moment moment, String code, String severity, String origin, String description) {}
