# 24 planning with unequal groups and for rates: what 08-power does not hold.
# Proportions: Hmisc::bsamsize (size) and Hmisc::bpower (power, both tails). Continuity correction: Fleiss 1981,
# eq. 3.19, written out. Rates: the score formula written out; second route for the power is statsmodels
# 0.15.0 power_poisson_diff_2indep(method_var = "score"), whose values are pasted below as `statsmodels`.
# Run: Rscript 24-planning.R   (writes 24-planning.json beside it)
suppressPackageStartupMessages({ library(jsonlite); library(Hmisc) })
cases <- list()
push <- function(id, inputs, expected, provenance, checks = NULL, rel = 1e-9) {
  k <- list(id = id, description = provenance, inputs = inputs, expected = expected,
            tolerance = list(rel = rel, abs = 1e-12), provenance = provenance)
  if (!is.null(checks)) k$crossChecks <- checks
  cases[[length(cases) + 1]] <<- k
}
for (v in list(c(.6, .7, 1, .8), c(.6, .7, .25, .8), c(.6, .7, 4, .9), c(.05, .12, .1, .8), c(.62, .57, 2.37, .8), c(.9, .98, .5, .95))) {
  n <- bsamsize(v[1], v[2], fraction = 1 / (1 + v[3]), power = v[4]); r <- v[3]; d <- abs(v[1] - v[2])
  corrected <- n[[1]] / 4 * (1 + sqrt(1 + 2 * (r + 1) / (n[[1]] * r * d)))^2
  push(sprintf("n-%g-%g-r%g-pw%g", v[1], v[2], r, v[4]), list(p1 = v[1], p2 = v[2], allocation = r, power = v[4], alpha = .05, sided = 2),
       list(unitsA = n[["n1"]], unitsB = n[["n2"]], correctedA = corrected, correctedB = corrected * r), paste("Hmisc::bsamsize", packageVersion("Hmisc"), "and Fleiss 1981, eq. 3.19"))
}
for (v in list(c(.6, .7, 100, 40), c(.2, .35, 30, 120), c(.9, .8, 75, 75), c(.01, .05, 400, 90), c(.5, .51, 20, 10)))
  push(sprintf("power-%g-%g-n%g-%g", v[1], v[2], v[3], v[4]), list(p1 = v[1], p2 = v[2], unitsA = v[3], unitsB = v[4], alpha = .05, sided = 2),
       list(powerBothTails = bpower(v[1], v[2], n1 = v[3], n2 = v[4])[[1]]), paste("Hmisc::bpower", packageVersion("Hmisc")))
statsmodels <- list(c(.1, .15, 300, 300, .05), c(.08, .12, 600, 200, .05), c(.3, .2, 90, 260, .1), c(1.2, 1.5, 80, 80, .01), c(.05, 0, 120, 60, .05), c(.1, .101, 50, 400, .05))
twoRates <- function(a, b, r) { m <- (a + r * b) / (1 + r); list(null = sqrt(m * (1 + 1 / r)), alt = sqrt(a + b / r)) }
given <- c(0.4099681115375939, 0.38428524552033744, 0.5286861857689884, 0.17289519636821546, 0.3736060235464243, 0.04916865202760187)
for (i in seq_along(statsmodels)) { v <- statsmodels[[i]]; s <- twoRates(v[1], v[2], v[4] / v[3]); z <- qnorm(1 - v[5] / 2); e <- sqrt(v[3]) * abs(v[1] - v[2])
  p <- pnorm((e - z * s$null) / s$alt); both <- p + pnorm(-(e + z * s$null) / s$alt)
  push(sprintf("rates-power-%g-%g-t%g-%g", v[1], v[2], v[3], v[4]), list(rateA = v[1], rateB = v[2], exposureA = v[3], exposureB = v[4], alpha = v[5], sided = 2),
       list(power = p, powerBothTails = both), "computed with own R formula", list(list(kind = "second route", what = "powerBothTails", by = "statsmodels 0.15.0 power_poisson_diff_2indep(method_var = 'score')", value = given[i], maxRelDiff = abs(given[i] / both - 1)))) }
for (v in list(c(.1, .15, 1, .8), c(.08, .12, .3, .8), c(.3, .2, 3, .9), c(1.2, 1.32, 1.7, .8))) { s <- twoRates(v[1], v[2], v[3]); t <- ((qnorm(.975) * s$null + qnorm(v[4]) * s$alt) / (v[1] - v[2]))^2
  f <- function(x) { e <- sqrt(x) * abs(v[1] - v[2]); pnorm((e - qnorm(.975) * s$null) / s$alt) - v[4] }
  u <- uniroot(f, c(1, 1e6), tol = 1e-12)$root
  push(sprintf("rates-n-%g-%g-r%g-pw%g", v[1], v[2], v[3], v[4]), list(rateA = v[1], rateB = v[2], allocation = v[3], power = v[4], alpha = .05, sided = 2),
       list(exposureA = t, exposureB = t * v[3]), "computed with own R formula", list(list(kind = "second route", what = "exposureA", by = "stats::uniroot on the power", value = u, maxRelDiff = abs(u / t - 1)))) }
out <- list(topic = "24-planning", source = list(formulas = "Fleiss 1981, ch. 3; Casagrande, Pike & Smith 1978; Poisson variances for rates", software = paste0("R ", getRversion(), ", Hmisc ", packageVersion("Hmisc"))), generatedWith = paste0("R ", getRversion()), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), pretty = 1), "24-planning.json")
for (k in cases) for (q in k$crossChecks) if (q$maxRelDiff > 1e-9) cat(k$id, q$maxRelDiff, "\n")
