/**
 * Component life from the user's own records: what do hours, failures and removals say, how surely,
 * and when do they say too little.
 *
 * <p>Records enter as columns ({@link siltwright.life.LifeData}), on hours or, through {@link
 * siltwright.life.ExposureClock}, on the exposure clock. {@link siltwright.life.LifeFitting} finds
 * the Weibull, lognormal or exponential law of greatest likelihood; {@link
 * siltwright.life.KaplanMeier} and {@link siltwright.life.Turnbull} assume no law; {@link
 * siltwright.life.AftModel} adds covariates; {@link siltwright.life.CompetingModes} separates
 * failure modes; {@link siltwright.life.Bootstrap} repeats a fit on resampled records; {@link
 * siltwright.life.RollingBearing} is the standard beside the data. Where the records carry no
 * estimate the answer is a {@link siltwright.life.Refusal} with its reason, never a number.
 *
 * <p>Everything with a law is one log-location-scale model, ln T = x'b + sigma Z, so that one
 * likelihood with one maximiser serves fits, regression, profiles and bootstrap. It is written for
 * primitive columns because a fleet's records reach a million rows.
 *
 * <p>Sources: W. Q. Meeker, L. A. Escobar, Statistical Methods for Reliability Data, 1998; J. F.
 * Lawless, Statistical Models and Methods for Lifetime Data, 1982 (both from memory); ISO 281:2007.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.life;
