# 21 profile-likelihood interval of a clustered proportion, the deviance scaled by the design effect.
# survey::svyciprop(method = "likelihood") reads its limits off a spline through a few points of the profile; in
# 02-clustered-proportions that moves them by up to 4e-4. Here the same R code runs on a profile with steps 200 times
# as fine, on the inputs of 02. Run after 02: Rscript 21-scaled-likelihood.R   (writes 21-scaled-likelihood.json)
suppressPackageStartupMessages({ library(jsonlite); library(survey) })
fine <- function(x, n, level) {
  u <- data.frame(cl = rep(seq_along(n), n), y = unlist(Map(function(a, b) rep(1:0, c(a, b - a)), x, n)))
  d <- svydesign(~cl, data = u, weights = ~rep(1, sum(n))); m <- svyglm(y ~ 1, d, family = quasibinomial, control = list(epsilon = 1e-14))
  lambda <- vcov(m)[1] / m$naive.cov[1]
  zmax <- sqrt(qf(pnorm(qt((1 - level) / 2, degf(d)) * sqrt(lambda)) / 2, 1, nrow(d) - 1, lower.tail = FALSE))
  plogis(as.numeric(suppressMessages(suppressWarnings(confint(m, 1, level = level, method = "likelihood", ddf = degf(d), del = zmax / 1000, maxsteps = 20000)))))
}
cases <- list()
for (k in fromJSON("02-clustered-proportions.json", simplifyVector = FALSE)$cases) {
  if (is.null(k$expected$svycipropLikelihood)) next
  b <- fine(unlist(k$inputs$clusterSuccesses), unlist(k$inputs$clusterUnits), k$inputs$level)
  cases[[length(cases) + 1]] <- list(id = k$id, description = k$description, inputs = k$inputs[c("clusterSuccesses", "clusterUnits", "level")],
    expected = list(lower = b[1], upper = b[2]), tolerance = list(rel = 1e-6, abs = 0, note = "R still interpolates between points of the profile"),
    provenance = paste("computed with R survey::confint.svyglm(method = 'likelihood', del = zmax/1000)", packageVersion("survey")))
}
out <- list(topic = "21-scaled-likelihood", generatedWith = paste0("R ", R.version$major, ".", R.version$minor), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", pretty = 1), "21-scaled-likelihood.json")
