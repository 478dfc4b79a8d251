# 24 limits of shrunken rates that count the doubt about the common distribution: every spread (correlation within an option,
# or 1/(1 + shape)) from 0 to 1 equally possible, a common proportion by Jeffreys' rule, a common rate flat in its logarithm. Done here by a fine grid of 300 spreads x 321
# common rates; the project uses 16 x 5 places, hence the tolerance. Data: cases of 07. Run: Rscript 24-doubt.R
suppressPackageStartupMessages(library(jsonlite))
cases <- list(); arr <- function(x) I(unname(x))
push <- function(id, inputs, lo, up) cases[[length(cases) + 1]] <<- list(id = id, description = "limits with the doubt about the prior", inputs = inputs, expected = list(lower = arr(lo), upper = arr(up)), tolerance = list(rel = .01, abs = .003), provenance = "own R sums over a fine grid")
t <- (seq_len(300) - .5) / 300; spread <- t^3; step <- 3 * t^2
quant <- function(F, p, hi) uniroot(function(x) F(x) - p, c(0, hi), tol = 1e-10)$root
bb <- function(id, x, n, level) { u <- seq(-8, 8, by = .05); al <- (1 - level) / 2
  g <- expand.grid(j = seq_along(t), u = u); P <- 1 / spread[g$j] - 1; a <- P * plogis(g$u); b <- P * plogis(-g$u)
  lw <- log(step[g$j]) + .5 * (plogis(g$u, log.p = TRUE) + plogis(-g$u, log.p = TRUE)); for (i in seq_along(x)) lw <- lw + lbeta(x[i] + a, n[i] - x[i] + b) - lbeta(a, b)
  w <- exp(lw - max(lw)); w <- w / sum(w); k <- w > 1e-9
  lim <- function(p) sapply(seq_along(x), function(i) quant(function(q) sum(w[k] * pbeta(q, x[i] + a[k], n[i] - x[i] + b[k])), p, 1))
  push(id, list(successes = arr(x), trials = arr(n), level = level), lim(al), lim(1 - al)) }
gp <- function(id, y, T, level) { al <- (1 - level) / 2; m0 <- sum(y) / sum(T); u <- log(m0) + seq(-9, 9, by = .05)
  g <- expand.grid(j = seq_along(t), u = u); s <- 1 / spread[g$j] - 1; r <- s / exp(g$u); lw <- log(step[g$j])
  for (i in seq_along(y)) lw <- lw + dnbinom(y[i], size = s, mu = exp(g$u) * T[i], log = TRUE)
  w <- exp(lw - max(lw)); w <- w / sum(w); k <- w > 1e-9
  lim <- function(p) sapply(seq_along(y), function(i) quant(function(q) sum(w[k] * pgamma(q, y[i] + s[k], T[i] + r[k])), p, 60 * m0))
  push(id, list(events = arr(y), exposure = arr(T), level = level), lim(al), lim(1 - al)) }
bb("bb-baits", c(12, 3, 30, 8, 0, 5, 21, 2, 17, 1), c(20, 9, 41, 22, 4, 6, 50, 11, 19, 3), .9)
bb("bb-strong-spread", c(0, 10, 9, 0, 1, 8, 0, 10, 0, 7), rep(10, 10), .9)
bb("bb-no-spread", c(5, 5, 6, 4, 5, 5), rep(10, 6), .9)
bb("bb-three", c(3, 40, 10), c(3, 50, 25), .95)
gp("gp-trips", c(3, 0, 7, 2, 1, 12, 4, 0, 5, 2, 9, 1), c(6, 4.5, 8, 5, 7, 6.5, 8, 3, 6, 4, 7.5, 5), .9)
gp("gp-few", c(2, 9, 4), c(5, 6, 7), .95)
gp("gp-no-spread", c(10, 11, 9, 10), c(20, 20, 20, 20), .9)
out <- list(topic = "24-doubt", source = list(formulas = "Daniels 1999 (uniform shrinkage); Jeffreys", software = paste0("R ", getRversion())), generatedWith = paste0("R ", getRversion()), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(10), pretty = 1), "24-doubt.json")
