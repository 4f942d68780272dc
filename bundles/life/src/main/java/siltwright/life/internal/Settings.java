package siltwright.life.internal;

import java.util.List;
import java.util.Optional;
import siltwright.life.LifeFamily;

/**
 * What the user wants to know.
 *
 * @param families laws to fit
 * @param covariates columns whose effect is wanted, the cleanliness among them
 * @param clean column with the cleanliness
 * @param mode failure mode to study
 * @param shape Weibull shape taken as known
 * @param failureFree whether a Weibull with a failure-free time is wanted too
 * @param histories whether lives are told on the exposure clock
 * @param confidence of one-sided bounds
 * @param atH age at which reliability is wanted, h
 * @param draws draws of a bootstrap, 0 for none
 * @param seed seed of the draws
 */
record Settings(
    List<LifeFamily> families,
    List<String> covariates,
    Optional<String> clean,
    Optional<String> mode,
    Optional<Double> shape,
    boolean failureFree,
    boolean histories,
    double confidence,
    Optional<Double> atH,
    int draws,
    long seed) {}
