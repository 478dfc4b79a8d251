# 20 intervals with trips as clusters: the project's own default forms, written out again in R.
# Proportion: Wilson on N/d with t. Rate: Garwood on effective events. Each from its formula, with
# plain loops and sums, so that it shares nothing with the TypeScript. Where clubSandwich can say the same
# (variance CR2 and its Satterthwaite degrees of freedom), it is the second route.
# Run: Rscript 20-trip-intervals.R   (writes 20-trip-intervals.json beside it)
suppressPackageStartupMessages({ library(jsonlite); library(clubSandwich) })
cases <- list()
arr <- function(x) I(unname(x))

parts <- function(y, x) {
  N <- sum(x); R <- sum(y) / N; v <- 0
  a <- b <- numeric(length(x))
  for (i in seq_along(x)) {
    h <- x[i] / N; rest <- sum(x[-i]) / N
    v <- v + (y[i] - R * x[i])^2 / rest / N^2
    a[i] <- h / (N * rest); b[i] <- a[i] * h
  }
  list(N = N, R = R, v = v, df = N^-2 / (sum(a^2) - 2 * sum(a * b) + sum(b)^2), K = length(x))
}
wilson <- function(p, n, q) {
  mid <- (p + q^2 / (2 * n)) / (1 + q^2 / n); half <- q / (1 + q^2 / n) * sqrt(p * (1 - p) / n + q^2 / (4 * n^2))
  c(mid - half, mid + half)
}
club <- function(y, x) {
  r <- y / x; x <- x / mean(x)
  f <- lm(r ~ 1, weights = x)
  w <- vcovCR(f, cluster = seq_along(x), type = "CR2", target = 1 / x)   # working variance of a trip's ratio: 1 / its size
  ct <- suppressWarnings(coef_test(f, vcov = w, test = "Satterthwaite"))
  list(variance = ct$SE[1]^2, df = if (is.null(ct$df_Satt)) ct$df[1] else ct$df_Satt[1])
}
second <- function(y, x, e) {
  if (e$variance < 1e-30) return(NULL)                       # clubSandwich has nothing to say without residuals
  s <- club(y, x)
  list(list(kind = "second route", what = "variance, degreesOfFreedom", by = paste("clubSandwich", packageVersion("clubSandwich")),
            value = arr(c(s$variance, s$df)), maxRelDiff = max(abs(s$variance - e$variance) / max(e$variance, 1e-300), abs(s$df / e$degreesOfFreedom - 1))))
}
push <- function(id, description, inputs, expected, checks = NULL, rel = 1e-9) {
  k <- list(id = id, description = description, inputs = inputs, expected = expected, tolerance = list(rel = rel, abs = 1e-13),
            provenance = "computed with own R formulas, stats::qt/qnorm/qbeta/qgamma")
  if (!is.null(checks)) k$crossChecks <- checks
  cases[[length(cases) + 1]] <<- k
}
correlation <- function(x, n) {
  keep <- n > 0; x <- x[keep]; n <- n[keep]; q <- parts(x, n)
  d <- max(1, q$v / (q$R * (1 - q$R) / q$N)); m <- sum(n^2) / sum(n)
  min(1, max(0, (d - 1) / (m - 1)))
}
proportion <- function(id, description, x, n, level = .95, rho = NULL, rel = 1e-9) {
  keep <- n > 0; xs <- x[keep]; ns <- n[keep]; a <- 1 - level; checks <- NULL
  N <- sum(ns); p <- sum(xs) / N; K <- length(ns)
  if (K == 1) e <- list(estimate = p, clusters = K, designEffect = NULL, degreesOfFreedom = NULL, bounds = wilson(p, N, qnorm(1 - a / 2)))
  else if (p == 0 || p == 1) {
    m <- sum(ns^2) / N; d <- 1 + (m - 1) * (if (is.null(rho)) 0 else rho); k <- N / d
    e <- list(estimate = p, clusters = K, designEffect = d, degreesOfFreedom = NULL, effectiveN = k,
      bounds = c(if (p == 0) 0 else (a / 2)^(1 / k), if (p == 1) 1 else 1 - (a / 2)^(1 / k)))
  } else {
    q <- parts(xs, ns); d <- max(1, q$v / (p * (1 - p) / N))
    e <- list(estimate = p, clusters = K, variance = q$v, designEffect = d, degreesOfFreedom = q$df, effectiveN = N / d, bounds = wilson(p, N / d, qt(1 - a / 2, q$df)))
    checks <- second(xs, ns, e)
  }
  e["lower"] <- e$bounds[1]; e["upper"] <- e$bounds[2]; e$bounds <- NULL
  push(paste0("proportion-", id), description, list(successes = arr(x), units = arr(n), level = level, borrowedCorrelation = rho), e, checks, rel)
}
rate <- function(id, description, c, e, level = .95, rel = 1e-9) {
  keep <- e > 0; cs <- c[keep]; es <- e[keep]; a <- 1 - level; checks <- NULL
  C <- sum(cs); E <- sum(es); K <- length(es)
  garwood <- function(x) base::c(if (x == 0) 0 else qgamma(a / 2, x), qgamma(1 - a / 2, x + 1))
  if (K == 1 || C == 0) out <- list(estimate = C / E, clusters = K, designEffect = NULL, degreesOfFreedom = NULL, bounds = garwood(C) / E)
  else {
    q <- parts(cs, es); dd <- max(1, q$v / (q$R / E)); D <- dd * (qt(1 - a / 2, q$df) / qnorm(1 - a / 2))^2
    out <- list(estimate = q$R, clusters = K, variance = q$v, designEffect = dd, degreesOfFreedom = q$df, effectiveN = C / D, bounds = garwood(C / D) * D / E,
      logT = list(lower = q$R * exp(-qt(1 - a / 2, q$df) * sqrt(q$v) / q$R), upper = q$R * exp(qt(1 - a / 2, q$df) * sqrt(q$v) / q$R)))
    checks <- second(cs, es, out)
  }
  out["lower"] <- out$bounds[1]; out["upper"] <- out$bounds[2]; out$bounds <- NULL
  push(paste0("rate-", id), description, list(events = arr(c), exposure = arr(e), level = level), out, checks, rel)
}

hk <- c(3, 1, 0, 4, 2, 5, 1, 0, 2, 3, 1, 6); bt <- c(5, 4, 3, 6, 4, 7, 2, 3, 5, 5, 2, 8)
for (lv in c(.80, .90, .95, .99)) proportion(sprintf("twelve-%g", 100 * lv), "made-up: hooked of bites on twelve trips", hk, bt, lv)
proportion("zero-denominators", "the same with trips that had no bite", c(0, hk, 0), c(0, bt, 0))
proportion("equal", "ten trips of four bites: df = 9", c(1, 2, 3, 4, 0, 2, 2, 3, 1, 4), rep(4, 10))
proportion("one-bite-each", "one bite a trip: trips are no clusters then", c(1, 0, 1, 1, 0, 0, 1, 1, 0, 1), rep(1, 10))
proportion("very-unequal", "one trip holds most bites", c(0, 1, 0, 30, 2, 1), c(1, 2, 1, 48, 3, 1))
proportion("two-trips", "two trips", c(3, 5), c(8, 7))
proportion("two-unequal", "two trips of 2 and 40 bites", c(0, 31), c(2, 40))
proportion("all-or-nothing-trips", "each trip all or nothing", c(4, 0, 5, 0, 6, 0, 3), c(4, 5, 5, 6, 6, 4, 3))
proportion("same-share", "every trip has the same share: variance 0, d = 1", c(1, 2, 3), c(2, 4, 6))
proportion("huge", "counts near a thousand million", c(4e8, 5e8, 3e8, 2e8), c(1e9, 9e8, 7e8, 6e8))
proportion("tiny-share", "twelve successes in 4e9", c(3, 5, 4, 0), c(1e9, 1.2e9, 9e8, 9e8))
proportion("none-of-borrowed", "0 of 17 in four trips, correlation 0.2 borrowed", c(0, 0, 0, 0), c(3, 5, 2, 7), rho = .2)
proportion("all-of-borrowed", "10 of 10 in three trips, correlation 0.35 borrowed, 90 %", c(3, 5, 2), c(3, 5, 2), .90, rho = .35)
proportion("all-of-borrowed-one", "10 of 10, correlation 1: as many as trips, weighted", c(3, 5, 2), c(3, 5, 2), rho = 1)
proportion("three-of-three", "one bite on each of three trips, correlation does not matter", c(1, 1, 1), c(1, 1, 1), rho = .5)
proportion("none-not-borrowed", "0 of 17, no correlation known", c(0, 0, 0, 0), c(3, 5, 2, 7))
proportion("one-trip", "a single trip", c(4, 0), c(9, 0))
proportion("one-trip-all", "a single trip, all hooked", 6, 6)
push("correlation-twelve", "within-trip correlation of the twelve trips", list(successes = arr(hk), units = arr(bt)), list(correlation = correlation(hk, bt)))
xa <- c(4, 0, 5, 0, 6, 0, 3); na <- c(4, 5, 5, 6, 6, 4, 3)
push("correlation-all-or-nothing", "every trip all or nothing: held to 1", list(successes = arr(xa), units = arr(na)), list(correlation = correlation(xa, na)))
xb <- c(3, 5, 2, 7, 1, 4, 9, 2); nb <- c(5, 8, 6, 9, 4, 14, 11, 7)
push("correlation-eight", "made-up eight trips", list(successes = arr(xb), units = arr(nb)), list(correlation = correlation(xb, nb)))

ct <- c(3, 0, 2, 5, 1, 0, 4, 2, 0, 3); lh <- c(24, 18, 30, 36, 12, 20, 32, 28, 10, 30)
for (lv in c(.80, .90, .95, .99)) rate(sprintf("ten-%g", 100 * lv), "made-up: catch and line-hours on ten trips, dispersion below Poisson", ct, lh, lv)
rate("over-dispersed", "a big day among poor ones", c(0, 1, 14, 0, 2, 0, 6, 1), c(22.5, 31, 40.25, 18, 36, 12.75, 41, 30))
rate("zero-exposure", "the same with a trip without hours", c(0, 1, 14, 0, 0, 2, 0, 6, 1), c(22.5, 31, 40.25, 0, 18, 36, 12.75, 41, 30))
rate("equal", "equal hours: df = 5", c(0, 1, 4, 2, 2, 6), rep(30, 6))
rate("very-unequal", "one trip holds most hours", c(1, 0, 25, 0), c(2, 1.5, 260, 3))
rate("two-trips", "two trips", c(3, 1), c(5, 6))
rate("two-unequal", "two trips, one short: effective events far below 1", c(9, 0), c(300, 1))
rate("single-event", "one event on six trips", c(0, 0, 1, 0, 0, 0), c(20, 24, 31, 18, 26, 22))
rate("huge", "counts near a thousand million", c(4e8, 5e8, 3e8, 2e8), c(1e6, 9e5, 7e5, 6e5))
rate("tiny-rate", "three events in 4e12", c(1, 2, 0, 0), c(1e12, 1.2e12, 9e11, 9e11))
rate("no-events", "no event: Garwood on all hours", c(0, 0, 0), c(20, 31.5, 8))
rate("one-trip", "a single trip: Garwood", 4, 26)

out <- list(topic = "20-trip-intervals", source = list(formulas = "Wilson 1927; Kott & Carr 1997; Dean & Pagano 2015; Garwood 1936; Korn & Graubard 1998; Fay & Feuer 1997; Bell & McCaffrey 2002",
  software = paste0("R ", R.version$major, ".", R.version$minor, ", clubSandwich ", packageVersion("clubSandwich"))), generatedWith = paste0("R ", R.version$major, ".", R.version$minor), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", na = "null", pretty = 1), "20-trip-intervals.json")
for (k in cases) for (q in k$crossChecks) cat(k$id, format(q$maxRelDiff, digits = 3), "\n")
