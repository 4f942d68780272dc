package siltwright.model.history;

/**
 * An oil sample. Numbers are not a number, and texts empty, where nothing was recorded.
 *
 * @param moment when it was drawn
 * @param sampleNo the laboratory's number
 * @param point where it was drawn
 * @param oilH hours on the oil, h
 * @param countsPerMl particles at or above 4, 6, 14, 21, 38, 70 µm(c), 1/mL, length 6; not copied
 * @param code cleanliness code as reported
 * @param waterPpm water, mg/kg
 * @param viscosity40Mm2PerS viscosity at 40 °C, mm²/s
 * @param ironPpm iron, mg/kg
 * @param siliconPpm silicon, mg/kg
 * @param note anything else
 */
public record OilSample(
    Moment moment,
    String sampleNo,
    String point,
    double oilH,
    double[] countsPerMl,
    String code,
    double waterPpm,
    double viscosity40Mm2PerS,
    double ironPpm,
    double siliconPpm,
    String note) {}
