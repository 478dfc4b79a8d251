# 24 the always-valid interval on trip-level differences, written out again in R with plain products and uniroot, so that
# it shares nothing with the TypeScript. Limits: the mean m at which ten bets of equal stake, .1 to 4 evenly on the log
# scale, each cut at 1/(1 + m) and put on a trip in proportion to its weight (ceiling 1.5), have together made 2/alpha.
# Seasons drawn in R (set.seed). Run: Rscript 24-sequence.R   (writes 24-sequence.json beside it)
suppressPackageStartupMessages(library(jsonlite))
cases <- list(); arr <- function(x) I(unname(x))
bets <- exp(seq(log(.1), log(4), length.out = 10))
capital <- function(d, g, m) mean(sapply(bets, function(b) prod(1 + pmin(b, 1 / (1 + m)) * g * (d - m))))
lower <- function(d, g, alpha) { f <- function(m) log(capital(d, g, m)) - log(2 / alpha); est <- sum(g * d) / sum(g)
  if (f(-1) <= 0) return(-1); uniroot(f, c(-1, est), tol = 1e-13)$root }
season <- function(id, description, xa, na, xb, nb, level) { keep <- which(na > 0 & nb > 0); d <- (xa / na - xb / nb)[keep]; w <- (na * nb / (na + nb))[keep]; g <- pmin(w, 1.5) / 1.5; alpha <- 1 - level; K <- length(d)
  lo <- sapply(1:K, function(t) lower(d[1:t], g[1:t], alpha)); up <- sapply(1:K, function(t) -lower(-d[1:t], g[1:t], alpha))
  side <- ifelse(lo > 0, 1, ifelse(up < 0, -1, 0)); first <- which(side != 0); bad <- which(side != side[K])
  since <- if (side[K] == 0) NA else if (length(bad)) max(bad) + 1 else 1
  cases[[length(cases) + 1]] <<- list(id = id, description = description, inputs = list(successesA = arr(xa), unitsA = arr(na), successesB = arr(xb), unitsB = arr(nb), level = level),
    expected = list(trip = arr(keep - 1), estimate = arr(cumsum(g * d) / cumsum(g)), mantelHaenszel = arr(cumsum(w * d) / cumsum(w)), lower = arr(lo), upper = arr(up),
                    firstClear = if (length(first)) keep[first[1]] - 1 else NA, clearSince = if (is.na(since)) NA else keep[since] - 1),
    tolerance = list(rel = 0, abs = 1e-8), provenance = "computed with own R products and stats::uniroot") }
drawn <- function(id, description, seed, K, pa, pb, swing, bites, level = .95) { set.seed(seed); f <- exp(.6 * rnorm(K)); na <- rpois(K, bites[1] * f); nb <- rpois(K, bites[2] * f); day <- swing * rnorm(K)
  season(id, description, rbinom(K, na, plogis(qlogis(pa) + day + swing / 2 * rnorm(K))), na, rbinom(K, nb, plogis(qlogis(pb) + day + swing / 2 * rnorm(K))), nb, level) }
drawn("equal-40", "simulated: no difference, 40 trips", 1, 40, .6, .6, .8, c(3, 3))
drawn("apart-60", "simulated: a clear difference, uneven bites, 60 trips", 2, 60, .8, .5, .8, c(5, 2))
drawn("reverse-60-90", "simulated: B better, 60 trips, 90 %", 3, 60, .45, .7, .5, c(2, 4), .9)
season("nothing-of-all", "made-up: always with A, never with B", rep(3, 12), rep(3, 12), rep(0, 12), rep(2, 12), .95)
season("opens-again", "made-up: clear early, open again later, clear at the end", c(rep(4, 9), rep(0, 6), rep(4, 40)), rep(4, 55), c(rep(1, 9), rep(4, 6), rep(1, 40)), rep(4, 55), .95)
season("one-trip", "made-up: one trip", 2, 3, 1, 4, .95)
season("gaps", "made-up: trips that lack a level are passed over", c(2, 0, 3, 1, 0, 2), c(3, 0, 4, 2, 2, 2), c(1, 2, 0, 0, 0, 1), c(2, 3, 0, 2, 3, 4), .95)
out <- list(topic = "24-sequence", source = list(formulas = "Ville 1939; Howard, Ramdas, McAuliffe & Sekhon 2021; Waudby-Smith & Ramdas 2024", software = paste0("R ", getRversion())), generatedWith = paste0("R ", getRversion()), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), pretty = 1, na = "null"), "24-sequence.json")
for (k in cases) cat(k$id, "last", tail(k$expected$lower, 1), tail(k$expected$upper, 1), "first", k$expected$firstClear, "since", k$expected$clearSince, "\n")
