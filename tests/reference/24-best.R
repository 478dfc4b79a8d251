# 24 how options rank: chance of being the highest, of lying within a margin of the highest, expected rank.
# Value: trapezoid rule on the log odds (beta) or logarithm (gamma) with a very fine step. Second route:
# stats::integrate over the option's own distribution function. Beliefs made up; two and three options of
# check-values.json (prob-best) among them. Run: Rscript 24-best.R   (writes 24-best.json beside it)
suppressPackageStartupMessages(library(jsonlite))
cases <- list(); arr <- function(x) I(unname(x))
expit <- function(s) 1 / (1 + exp(-s))
# near the upper end 1 - x has no digits, so upper tails are taken at the complement
betaLower <- function(s, a, b) ifelse(s < 0, pbeta(expit(s), a, b), pbeta(expit(-s), b, a, lower.tail = FALSE))
betaDens <- function(s, a, b) exp(a * plogis(s, log.p = TRUE) + b * plogis(-s, log.p = TRUE) - lbeta(a, b))
fine <- function(K, dens, lower, raised, s) { h <- s[2] - s[1]; f <- sapply(1:K, function(i) dens(i, s)); F <- sapply(1:K, function(i) lower(i, s)); R <- sapply(1:K, function(i) raised(i, s))
  list(best = arr(sapply(1:K, function(i) h * sum(f[, i] * apply(F[, -i, drop = FALSE], 1, prod)))),
       nearBest = arr(sapply(1:K, function(i) h * sum(f[, i] * apply(R[, -i, drop = FALSE], 1, prod)))),
       expectedRank = arr(sapply(1:K, function(i) 1 + h * sum(f[, i] * rowSums(1 - F[, -i, drop = FALSE]))))) }
quad <- function(f) integrate(Vectorize(f), 0, 1, rel.tol = 1e-11, abs.tol = 1e-12, subdivisions = 20000)$value
push <- function(id, inputs, e, best2, near2) { d <- max(abs(c(best2 - e$best, near2 - e$nearBest))); cat(id, "routes differ by", d, " sum", sum(e$best) - 1, "\n")
  cases[[length(cases) + 1]] <<- list(id = id, description = "how options rank", inputs = inputs, expected = e, tolerance = list(rel = 0, abs = 1e-8), provenance = "own R trapezoid sums",
    crossChecks = list(list(kind = "second route", what = "best, nearBest", by = "stats::integrate over the distribution function", value = arr(c(best2, near2)), maxRelDiff = d))) }
beta_case <- function(id, a, b, difference) { K <- length(a); s <- seq(-60, 60, by = .002)
  raised <- function(i, s) { x <- expit(s) + difference; ifelse(x >= 1, 1, pbeta(pmin(1, x), a[i], b[i])) }
  e <- fine(K, function(i, s) betaDens(s, a[i], b[i]), function(i, s) betaLower(s, a[i], b[i]), raised, s)
  both <- sapply(c(0, difference), function(m) sapply(1:K, function(i) quad(function(u) prod(pbeta(pmin(1, qbeta(u, a[i], b[i]) + m), a[-i], b[-i])))))
  push(id, list(a = arr(a), b = arr(b), difference = difference), e, both[, 1], both[, 2]) }
gamma_case <- function(id, shape, rate, share) { K <- length(shape); s <- seq(-60, 12, by = .002)
  e <- fine(K, function(i, s) exp(dgamma(exp(s), shape[i], rate[i], log = TRUE) + s), function(i, s) pgamma(exp(s), shape[i], rate[i]), function(i, s) pgamma(exp(s) * (1 + share), shape[i], rate[i]), s)
  both <- sapply(c(0, share), function(m) sapply(1:K, function(i) quad(function(u) prod(pgamma(qgamma(u, shape[i], rate[i]) * (1 + m), shape[-i], rate[-i])))))
  push(id, list(shape = arr(shape), rate = arr(rate), share = share), e, both[, 1], both[, 2]) }
beta_case("beta-two", c(9, 6), c(5, 8), .05)
beta_case("beta-three", c(9, 6, 12), c(5, 8, 12), .05)
beta_case("beta-baits", c(14.3, 5.3, 32.3, 10.3, 2.3, 7.3, 23.3, 4.3, 19.3, 3.3), c(10.3, 8.3, 13.3, 16.3, 6.3, 3.3, 31.3, 11.3, 4.3, 4.3), .05)
beta_case("beta-sharp-and-vague", c(1200, 3.5, .6, 40), c(800, 1.2, .9, 25), .1)
# b < 1: the density has no bound at 1 and both routes above lose digits there. Values of mpmath 1.3.0 at 25 digits, 1 - x = w^5.
cases[[length(cases) + 1]] <- list(id = "beta-near-one", description = "how options rank", inputs = list(a = arr(c(30.4, 12.4, 3.4)), b = arr(c(.4, 1.4, .4)), difference = .02),
  expected = list(best = arr(c(.7303926065535868, .04420875665219791, .2253986367942153)), nearBest = arr(c(.9140854035756529, .159551190188297, .4240375448506156)), expectedRank = arr(c(1.302127054068165, 2.535895630335997, 2.161977315595839))),
  tolerance = list(rel = 0, abs = 1e-8), provenance = "mpmath quad at 25 digits")
beta_case("beta-no-margin", c(3, 4, 5), c(5, 4, 3), 0)
gamma_case("gamma-spots", c(5.3, 2.3, 9.3, 4.3, 3.3, 14.3), c(9.8, 8.3, 11.8, 8.8, 10.8, 10.3), .1)
gamma_case("gamma-sharp-and-vague", c(900, 3.3, .8, 14), c(2100, 9, 2, 30), .1)
out <- list(topic = "24-best", source = list(formulas = "P(best) = integral of a density times the other distribution functions", software = paste0("R ", getRversion())), generatedWith = paste0("R ", getRversion()), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), pretty = 1), "24-best.json")
