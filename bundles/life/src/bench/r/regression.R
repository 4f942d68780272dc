suppressPackageStartupMessages(library(survival))
file <- commandArgs(TRUE)[1]
d <- read.csv(file, colClasses = "numeric")
fit <- survreg(Surv(hours, event) ~ code + temp + mob, d, dist = "weibull")
se <- sqrt(diag(vcov(fit)))
for (i in 1:4) cat(names(coef(fit))[i], format(c(coef(fit)[i], se[i]), digits = 6), "\n")
cat("sigma", format(c(fit$scale, fit$scale * se[5]), digits = 6), "\n")
