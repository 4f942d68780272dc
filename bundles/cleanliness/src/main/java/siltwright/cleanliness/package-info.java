/**
 * How clean the oil is and how thick: counts to codes and back, particle sizes, filtration ratios,
 * viscosity.
 *
 * <p>{@link siltwright.cleanliness.ParticleCounts} holds what a counter or a microscope saw, at or
 * above the sizes of the machine model's bands. {@link siltwright.cleanliness.Iso4406}, {@link
 * siltwright.cleanliness.As4059} and {@link siltwright.cleanliness.Nas1638} turn counts into a code
 * or class and say which counts a code or class allows. {@link siltwright.cleanliness.MassShares}
 * turns the counts of a dirt into mass shares of the bands, {@link
 * siltwright.cleanliness.FiltrationRatio} an element's points into efficiencies of each band,
 * {@link siltwright.cleanliness.ViscosityLine} two viscosities into the viscosity at any
 * temperature.
 *
 * <p>Limits of codes and classes are the printed decimals, and a limit belongs to the cleaner
 * class: exactly 20 particles per mL are scale number 11. Counts are therefore compared as the
 * decimals that they print as; nothing here multiplies a count before it is compared.
 *
 * <p>Sources: ISO 4406, SAE AS4059, NAS 1638, ISO 11171, ISO 16889, ISO 3448, ASTM D341 and ASTM
 * D2270, each by way of the reprint named at the table (the CSV files of this package). Everything
 * is immutable and may be used from any thread.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.cleanliness;
