suppressPackageStartupMessages({library(survival); library(boot)})
d <- read.csv(commandArgs(TRUE)[1], colClasses = "numeric")
estimate <- function(d, i) {
  fit <- survreg(Surv(hours, event) ~ 1, d[i, ], dist = "weibull")
  c(1 / fit$scale, exp(coef(fit)))
}
set.seed(1)
b <- boot(d, estimate, R = 1000)
cat("shape", format(c(b$t0[1], sd(b$t[, 1])), digits = 6), "\n")
cat("scale", format(c(b$t0[2], sd(b$t[, 2])), digits = 6), "\n")
