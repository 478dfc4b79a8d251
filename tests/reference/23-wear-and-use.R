# Independent values for line wear (power-law process, ages exact or counted in fights) and for bait
# use that may have run out. Own code, base R and jsonlite only; no code of the project under test.
# Run: Rscript 23-wear-and-use.R   (writes 23-wear-and-use.json beside it)
#
# Wear: spools are watched from age `from` to `to`. Expected breaks by age t: (t/theta)^beta.
#   exact ages:   log L = sum log[beta/theta (t/theta)^(beta-1)] - sum [L(to) - L(from)]
#   grouped ages: log L = sum log[L(a) - L(a-1)] - sum [L(to) - L(from)]      (Poisson counts)
#   beta from the textbook score equation (uniroot); the same by a two-parameter search as a check.
#   Limits: twice the fall of the profile log-likelihood = qchisq(.95, 1) (uniroot).
# Use: negative binomial, variance mu + mu^2/size; a trip that ran out enters as P(need >= used).
#   Searched over (log mu, log size) from 60 starts, then polished by Newton steps.
# Predicted use: posterior with flat priors on log mu and log size, size between the bounds given
#   in the case, by a fine grid; all figures are made up and describe no real boat.
suppressPackageStartupMessages(library(jsonlite))
options(digits = 15)
args <- commandArgs(FALSE)
here <- dirname(normalizePath(sub("--file=", "", args[grep("--file=", args)])))
cases <- list()
arr <- function(x) I(unname(x))
add <- function(id, description, inputs, expected, tolerance, provenance, checks = NULL)
  cases[[length(cases) + 1]] <<- c(list(id = id, description = description, inputs = inputs,
    expected = expected, tolerance = tolerance, provenance = provenance),
    if (!is.null(checks)) list(crossChecks = checks))

# ---- wear -------------------------------------------------------------------------------------
spool <- function(to, breaks = numeric(), from = 0) list(from = from, to = to, breaks = breaks)
wear <- function(id, description, spools, grouped) {
  from <- sapply(spools, `[[`, "from"); to <- sapply(spools, `[[`, "to")
  a <- unlist(lapply(spools, `[[`, "breaks")); n <- length(a)
  pw <- function(x, b) ifelse(x > 0, x^b, 0)
  pl <- function(x, b) ifelse(x > 0, x^b * log(x), 0)
  S <- function(b) sum(pw(to, b) - pw(from, b))
  term <- function(b) if (grouped) log(pw(a, b) - pw(a - 1, b)) else log(b) + (b - 1) * log(a)
  slope <- function(b) if (grouped) (pl(a, b) - pl(a - 1, b)) / (pw(a, b) - pw(a - 1, b)) else 1 / b + log(a)
  score <- function(b) sum(slope(b)) - n * sum(pl(to, b) - pl(from, b)) / S(b)
  lp <- function(b) sum(term(b)) + n * (log(n) - log(S(b))) - n
  b <- uniroot(score, c(.02, 40), tol = 1e-14, maxiter = 10000)$root
  drop <- function(x) 2 * (lp(b) - lp(x)) - qchisq(.95, 1)
  lo <- uniroot(drop, c(1e-3, b), tol = 1e-14, maxiter = 10000)$root
  hi <- uniroot(drop, c(b, 40), tol = 1e-14, maxiter = 10000)$root
  theta <- (S(b) / n)^(1 / b)
  full <- function(p) { b <- exp(p[1]); t <- exp(p[2]); L <- function(x) pw(x / t, b)
    -(if (grouped) sum(log(L(a) - L(a - 1))) else sum(log(b / t) + (b - 1) * log(a / t))) + sum(L(to) - L(from)) }
  o <- optim(c(0, log(mean(to))), full, method = "BFGS", control = list(reltol = 1e-15, maxit = 1000))
  add(id, description,
    list(grouped = grouped, spools = lapply(spools, function(s) { s$breaks <- arr(s$breaks); s })),
    list(shape = b, lower = lo, upper = hi, theta = theta, logLik = lp(b), breaks = n),
    list(rel = 1e-8, abs = 1e-10), "score equation and profile likelihood by uniroot, R base",
    list(list(kind = "second route", what = "shape, theta by a two-parameter search",
      value = exp(o$par), maxRelDiff = max(abs(exp(o$par) / c(b, theta) - 1)))))
}
wear("fights-one-spool", "one spool, 60 fights", list(spool(60, c(22, 31, 40, 47, 52, 56, 60))), TRUE)
wear("fights-six-spools", "six spools of unequal life", list(spool(24, c(19)), spool(31, c(12, 28, 31)),
  spool(9), spool(40, c(21, 33, 38, 39)), spool(17, c(16)), spool(28, c(25, 26))), TRUE)
wear("fights-two-breaks", "two breaks only", list(spool(20, 14), spool(18, 17), spool(6)), TRUE)
wear("fights-falling", "breaks early in life (shape below 1)", list(spool(30, c(1, 2, 9)),
  spool(25, c(1, 4)), spool(40, c(1, 3, 17))), TRUE)
wear("fights-tied", "two breaks counted on one fight, many at one age", list(spool(12, c(8, 8, 11)),
  spool(12, c(8, 12)), spool(12, c(8)), spool(15, c(8, 15))), TRUE)
wear("fights-old", "long lives", list(spool(400, c(120, 250, 251, 333, 390)), spool(380, c(310, 360)),
  spool(150, 149)), TRUE)
wear("fights-cut-by-trip", "spools cut into trips, some trips missing", list(spool(5), spool(11, 9, 5),
  spool(16, c(13, 16), 11), spool(6, 6, 0), spool(18, c(14, 18, 18), 12)), TRUE)
set.seed(23); ends <- sample(10:60, 25, TRUE)
wear("fights-25-spools", "25 simulated spools, shape 1.7, theta 22", lapply(ends, function(T) {
  n <- rpois(1, (T / 22)^1.7); spool(T, sort(ceiling(T * runif(n)^(1 / 1.7)))) }), TRUE)
wear("hours-four-spools", "exact ages in line-hours", list(spool(41.5, c(30.2, 38.9)), spool(60.25,
  c(11.4, 44.1, 59.7)), spool(22), spool(35.5, 35.1)), FALSE)
wear("hours-cut-by-trip", "exact ages, watched from above 0", list(spool(41.5, c(30.2, 38.9), 20),
  spool(60.25, c(44.1, 59.7), 40), spool(22), spool(35.5, 35.1, 4.5)), FALSE)

# ---- range near the least cost under minimal repair ----------------------------------------------
near <- function(shape, theta, cs, cb) {
  rate <- function(t) (cs + cb * (t / theta)^shape) / t
  o <- optimize(rate, c(theta * 1e-6, theta * 1e4), tol = 1e-12); T <- theta * (cs / (cb * (shape - 1)))^(1 / shape)
  f <- function(lt) rate(exp(lt)) / rate(T) - 1.05
  lim <- exp(c(uniroot(f, c(log(T) - 30, log(T)), tol = 1e-14)$root, uniroot(f, c(log(T), log(T) + 30), tol = 1e-14)$root))
  add(sprintf("near-best-%g", shape), "ages whose cost rate is within 5 % of the least",
    list(shape = shape, theta = theta, spoolCost = cs, breakCost = cb),
    list(age = T, costRate = rate(T), nearBest = list(lower = lim[1], upper = lim[2])),
    list(rel = 1e-8, abs = 1e-10), "uniroot on the cost rate, R base",
    list(list(kind = "second route", what = "least cost rate by optimize", value = o$objective,
      maxRelDiff = abs(o$objective / rate(T) - 1))))
}
near(1.8, 14, 18, 60); near(2.5, 40, 30, 25); near(1.2, 20, 40, 15); near(6, 50, 10, 200)

# ---- use per trip ---------------------------------------------------------------------------------
loglik <- function(y, out, mu, size) sum(ifelse(out,
  pnbinom(y - 1, size = size, mu = mu, lower.tail = FALSE, log.p = TRUE), dnbinom(y, size = size, mu = mu, log = TRUE)))
newton <- function(f, p, h = 1e-4, rounds = 40) { # Newton steps on five-point differences
  e <- diag(2) * h
  for (i in seq_len(rounds)) {
    g <- sapply(1:2, function(j) (-f(p + 2 * e[, j]) + 8 * f(p + e[, j]) - 8 * f(p - e[, j]) + f(p - 2 * e[, j])) / (12 * h))
    H <- matrix(0, 2, 2)
    for (j in 1:2) for (k in 1:2) H[j, k] <- (f(p + e[, j] + e[, k]) - f(p + e[, j] - e[, k]) - f(p - e[, j] + e[, k]) + f(p - e[, j] - e[, k])) / (4 * h^2)
    s <- solve(H, g); p <- p - s; if (max(abs(s)) < 1e-10) break
  }
  p
}
use <- function(id, description, y, out = integer(), tolerance = list(rel = 1e-6, abs = 1e-8)) {
  o <- seq_along(y) %in% out
  f <- function(p) -loglik(y, o, exp(p[1]), exp(p[2]))
  best <- NULL
  for (ls in seq(-5, 12, length.out = 20)) for (m in c(1, 1.5, 4)) {
    r <- tryCatch(optim(c(log(m * mean(y) + .01), ls), f, method = "Nelder-Mead", control = list(reltol = 1e-14, maxit = 5000)), error = function(e) NULL)
    if (!is.null(r) && (is.null(best) || r$value < best$value)) best <- r
  }
  pois <- optimize(function(lm) -sum(ifelse(o, ppois(y - 1, exp(lm), lower.tail = FALSE, log.p = TRUE), dpois(y, exp(lm), log = TRUE))), log(mean(y)) + c(-1, 3), tol = 1e-12)
  if (best$value > pois$objective - 1e-7 || exp(best$par[2]) > 1e6 * mean(y)) {
    add(id, description, list(used = arr(y), ranOut = arr(out)), list(family = "poisson", mean = exp(pois$minimum), logLikelihood = -pois$objective), tolerance, "no negative binomial beats Poisson; optimize, R base")
  } else {
    p <- newton(f, best$par)
    add(id, description, list(used = arr(y), ranOut = arr(out)), list(family = "negative-binomial", mean = exp(p[1]), size = exp(p[2]), logLikelihood = -f(p)), tolerance,
      "60 starts of optim, Newton steps on differences, R base")
  }
}
zero <- c(0, 0, 0, 0, 3, 0, 0, 12, 0, 0, 0, 27, 0, 0, 1, 0, 0, 0, 8, 0, 0, 41, 0, 0)
use("use-zero-heavy", "24 trips, most use none", zero)
use("use-plain", "12 trips, none ran out", c(12, 18, 7, 25, 16, 9, 31, 14, 11, 20, 6, 17))
use("use-poisson", "10 trips that vary less than Poisson", c(9, 10, 11, 10, 9, 12, 10, 8, 11, 10))
use("use-ran-out-2", "12 trips, the two largest ran out", c(12, 18, 7, 25, 16, 9, 31, 14, 11, 20, 6, 17), c(4, 7))
use("use-ran-out-middle", "20 trips, five ran out at loads of 20 or 24", c(20, 11, 24, 8, 15, 20, 30, 9, 24, 13, 17, 28, 6, 20, 12, 19, 22, 10, 14, 35), c(1, 3, 6, 9, 14), list(rel = 1e-5, abs = 1e-8))
use("use-ran-out-zero-heavy", "zeros and two that ran out", c(zero, 20, 30), c(25, 26), list(rel = 1e-5, abs = 1e-8))
use("use-large", "means of thousands", c(4200, 3900, 6100, 5050, 2800, 4475, 5600, 3300))
use("use-poisson-ran-out", "alike trips, three ran out", c(9, 10, 11, 10, 9, 12, 10, 8, 11, 10), c(2, 4, 7))

# ---- predicted use ----------------------------------------------------------------------------------
predict_use <- function(id, description, y, out = integer(), next_trips = 1, range) {
  o <- seq_along(y) %in% out
  ls <- seq(log(range[1]), log(range[2]), length.out = 241)
  m0 <- log(mean(y)); lm <- seq(m0 - 2.5, m0 + 4, length.out = 601)
  L <- outer(lm, ls, Vectorize(function(a, b) loglik(y, o, exp(a), exp(b))))
  w <- exp(L - max(L)); keep <- w > 1e-12
  M <- exp(matrix(lm, 601, 241))[keep]; S <- exp(matrix(ls, 601, 241, byrow = TRUE))[keep]; w <- w[keep] / sum(w[keep])
  q <- function(p) { k <- 0; f <- function(k) sum(w * pnbinom(k, size = S * next_trips, mu = M * next_trips)); lo <- -1; hi <- 1
    while (f(hi) < p) hi <- 2 * hi
    while (hi - lo > 1) { k <- (lo + hi) %/% 2; if (f(k) < p) lo <- k else hi <- k }; hi }
  ks <- round(mean(y) * next_trips * c(.5, 1, 1.5, 2.5))
  add(id, description, list(used = arr(y), ranOut = arr(out), nextTrips = next_trips, k = arr(ks), sizeRange = range),
    list(cdf = arr(sapply(ks, function(k) sum(w * pnbinom(k, size = S * next_trips, mu = M * next_trips)))), quantile80 = q(.8), quantile95 = q(.95)),
    list(rel = 0, abs = .004, byKey = list(quantile80 = list(rel = .02, abs = 1), quantile95 = list(rel = .02, abs = 1))),
    "posterior over a grid of 601 means by 241 sizes, R base", NULL)
}
plain <- c(12, 18, 7, 25, 16, 9, 31, 14, 11, 20, 6, 17)
predict_use("predict-plain", "next trip after 12", plain, range = c(.05, 80 * mean(plain)))
predict_use("predict-plain-4-trips", "next four trips together", plain, next_trips = 4, range = c(.05, 80 * mean(plain)))
predict_use("predict-six", "next trip after 6", c(12, 18, 7, 25, 16, 9), range = c(.05, 80 * mean(c(12, 18, 7, 25, 16, 9))))
mid <- c(20, 11, 24, 8, 15, 20, 30, 9, 24, 13, 17, 28, 6, 20, 12, 19, 22, 10, 14, 35)
predict_use("predict-ran-out", "next trip after 20, five ran out", mid, c(1, 3, 6, 9, 14), range = c(.05, 1500))

out <- list(topic = "23-wear-and-use", source = "Crow 1974; Barlow & Hunter 1960; Conrad 1976; own formulas above",
  generatedWith = paste0("R ", R.version$major, ".", R.version$minor), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", pretty = 1), file.path(here, "23-wear-and-use.json"))
for (c in cases) cat(sprintf("%-26s %s\n", c$id, paste(names(c$expected), sapply(c$expected, function(v) paste(if (is.character(v)) v else signif(unlist(v), 7), collapse = " ")), collapse = "  ") ), if (!is.null(c$crossChecks)) sprintf("   second route %.1g\n", c$crossChecks[[1]]$maxRelDiff))
