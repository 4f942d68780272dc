package siltwright.model;

/**
 * The oil, with the two points of its viscosity line (ASTM D341).
 *
 * @param id name in the file's catalogue
 * @param grade grade as on the drum, for people
 * @param lowDegC lower of the two temperatures, °C
 * @param viscosityAtLowMm2PerS kinematic viscosity there, mm²/s
 * @param highDegC higher of the two temperatures, °C
 * @param viscosityAtHighMm2PerS kinematic viscosity there, mm²/s, lower than the other
 * @param densityKgPerM3 density, kg/m³
 */
public record Fluid(
    String id,
    String grade,
    double lowDegC,
    double viscosityAtLowMm2PerS,
    double highDegC,
    double viscosityAtHighMm2PerS,
    double densityKgPerM3) {}
