# Two ways to compare levels of a factor over trips, written apart from the project's own code:
#   as logged  clustered interval of each level, then square-and-add with the correlation of the trips' residuals
#   same day   Mantel-Haenszel over trips that have both levels, error by trip
# Run in this folder: Rscript 21-lenses.R   (needs jsonlite, clubSandwich, numDeriv; writes 21-lenses.json)
suppressPackageStartupMessages({ library(jsonlite); library(clubSandwich); library(numDeriv) })
options(digits = 15)
cases <- list()

# ---- pieces ---------------------------------------------------------------------------------------------------
# Bell-McCaffrey degrees of freedom by matrices. In units of equal noise, piece i of the variance is the square of
# (e_i - h_i 1) sqrt(h) / sqrt(1 - h_i); Satterthwaite takes the trace of their covariance squared over that of its square.
bm_df <- function(h) {
  G <- sapply(seq_along(h), function(i) ((seq_along(h) == i) - h[i]) * sqrt(h) / sqrt(1 - h[i]))
  P <- crossprod(G)
  sum(diag(P))^2 / sum(P^2)
}
clustered <- function(x, n, level, rate, borrowed = NULL) {
  keep <- n > 0; x <- x[keep]; n <- n[keep]; K <- length(n); N <- sum(n); R <- sum(x) / N; a <- (1 - level) / 2
  out <- function(lo, hi) list(estimate = R, lower = lo, upper = hi)
  garwood <- function(c, E) out(if (c == 0) 0 else qchisq(a, 2 * c) / 2 / E, qchisq(1 - a, 2 * c + 2) / 2 / E)
  wilson <- function(p, m, q) { r <- polyroot(c(p^2, -2 * p - q^2 / m, 1 + q^2 / m)); sort(Re(r)) }
  h <- n / N; res <- x - R * n; v <- sum(res^2 / (1 - h)) / N^2
  if (rate) {
    if (K == 1 || sum(x) == 0) return(garwood(sum(x), N))
    D <- max(1, v / (R / N)) * (qt(1 - a, bm_df(h)) / qnorm(1 - a))^2; c <- sum(x) / D
    return(out(qgamma(a, c) * D / N, qgamma(1 - a, c + 1) * D / N))
  }
  if (K == 1) { w <- wilson(R, N, qnorm(1 - a)); return(out(w[1], w[2])) }
  if (R == 0 || R == 1) {
    m <- sum(n^2) / N; Ne <- N / (1 + (m - 1) * borrowed); s <- R * Ne
    return(out(if (R == 0) 0 else qbeta(a, s, Ne - s + 1), if (R == 1) 1 else qbeta(1 - a, s + 1, Ne - s)))
  }
  d <- max(1, v / (R * (1 - R) / N)); w <- wilson(R, N / d, qt(1 - a, bm_df(h))); out(w[1], w[2])
}
residuals_ <- function(x, n) ifelse(n > 0, x - sum(x[n > 0]) / sum(n) * n, 0)
square_add <- function(A, B, r) { l1 <- A[1] - A[2]; u1 <- A[3] - A[1]; l2 <- B[1] - B[2]; u2 <- B[3] - B[1]
  c(A[1] - B[1], A[1] - B[1] - sqrt(l1^2 + u2^2 - 2 * r * l1 * u2), A[1] - B[1] + sqrt(u1^2 + l2^2 - 2 * r * u1 * l2)) }
est <- function(v) list(estimate = v[[1]], lower = v[[2]], upper = v[[3]])

add <- function(id, description, inputs, expected, second = NULL, rel = 1e-9) {
  cases[[length(cases) + 1]] <<- list(id = id, description = description, inputs = inputs, expected = expected,
    tolerance = list(rel = rel, abs = 1e-12), provenance = "own R formulas in 21-lenses.R", crossChecks = second)
}
route <- function(what, by, got, expected) { d <- max(abs(unlist(got) - unlist(expected)) / pmax(abs(unlist(expected)), 1e-8))
  if (d > 1e-6) stop(what, " disagrees by ", d); list(kind = "second route", what = what, by = by, maxRelDiff = signif(d, 2)) }
pairs_ <- function(x1, n1, x2, n2) lapply(seq_along(x1), function(i) list(x1 = x1[i], n1 = n1[i], x2 = x2[i], n2 = n2[i]))

# ---- as logged ------------------------------------------------------------------------------------------------
as_logged <- function(id, description, x1, n1, x2, n2, level = .95, rate = FALSE, borrowed = NULL) {
  A <- clustered(x1, n1, level, rate, borrowed); B <- clustered(x2, n2, level, rate, borrowed)
  z1 <- residuals_(x1, n1); z2 <- residuals_(x2, n2); s <- sum(z1^2) * sum(z2^2); r <- if (s > 0) sum(z1 * z2) / sqrt(s) else 0
  e <- list(first = A, second = B, correlation = r, difference = est(square_add(unlist(A), unlist(B), r)))
  if (rate) e["logRatio"] <- list(if (A$estimate > 0 && B$estimate > 0) est(exp(square_add(log(unlist(A)), log(unlist(B)), r))))
  add(paste0("as-logged-", id), description, c(list(clusters = pairs_(x1, n1, x2, n2), kind = if (rate) "rate" else "proportion", level = level), if (!is.null(borrowed)) list(borrowedCorrelation = borrowed)), e)
}

# ---- same day -------------------------------------------------------------------------------------------------
# Second routes: for the difference, least squares on the trip-centred 0/1 rows (or hour-weighted rates) with CR2 errors
# and Satterthwaite degrees of freedom; for the log ratio, the slope of log RR in each trip's weight, by differentiation.
same_day <- function(id, description, x1, n1, x2, n2, level = .95, rate = FALSE) {
  all <- pairs_(x1, n1, x2, n2); k <- n1 > 0 & n2 > 0; out <- xor(n1 > 0, n2 > 0); left <- list(clustersUsed = sum(k), clustersLeftOut = sum(out), unitsLeftOut = sum((n1 + n2)[out]))
  a <- x1[k]; b <- x2[k]; n1 <- n1[k]; n2 <- n2[k]; n <- n1 + n2; w <- n1 * n2 / n; W <- sum(w); K <- length(w); q <- function(df) qt((1 + level) / 2, df)
  rd <- sum((a * n2 - b * n1) / n) / W; U <- ((a * n2 - b * n1) / n - rd * w) / W; v <- sum(U^2 / (1 - w / W)); df <- bm_df(w / W)
  d <- list(estimate = rd, lower = rd - q(df) * sqrt(v), upper = rd + q(df) * sqrt(v), standardError = sqrt(v), df = df)
  # two rows a trip (one a level), value = share or rate, weight = units; centred within the trip
  L <- data.frame(trip = rep(1:K, 2), g = rep(1:0, each = K), y = c(a / n1, b / n2), n = c(n1, n2))
  for (j in c("g", "y")) L[[paste0(j, "c")]] <- L[[j]] - ave(seq_len(2 * K), L$trip, FUN = function(i) weighted.mean(L[[j]][i], L$n[i]))
  f <- lm(I(sqrt(n) * yc) ~ 0 + I(sqrt(n) * gc), L); ct <- coef_test(f, vcov = vcovCR(f, cluster = L$trip, type = "CR2"), test = "Satterthwaite")
  cc <- list(route("difference, error, degrees of freedom", paste("clubSandwich", packageVersion("clubSandwich")), c(ct$beta, ct$SE, ct$df), c(rd, sqrt(v), df)))
  e <- c(left, list(difference = d)); r <- a * n2 / n; s <- b * n1 / n; ratio <- NULL
  if (sum(r) > 0 && sum(s) > 0 && sum(r + s > 0) > 1) {
    u <- r / sum(r) - s / sum(s); h <- (r / sum(r) + s / sum(s)) / 2; v2 <- sum(u^2 / (1 - h)); df2 <- bm_df(h); R <- sum(r) / sum(s)
    slope <- grad(function(t) log(sum(t * r)) - log(sum(t * s)), rep(1, K)); cc <- c(cc, list(route("influences on log ratio", paste("numDeriv", packageVersion("numDeriv")), slope + 1, u + 1)))
    ratio <- list(estimate = R, lower = R * exp(-q(df2) * sqrt(v2)), upper = R * exp(q(df2) * sqrt(v2)), standardError = sqrt(v2), df = df2)
  }
  e["ratio"] <- list(ratio)
  if (!rate) { o <- suppressWarnings(tryCatch(mantelhaen.test(array(rbind(a, b, n1 - a, n2 - b), c(2, 2, K)), correct = FALSE, conf.level = level), error = function(x) NULL))
    fine <- !is.null(o) && is.finite(o$estimate) && o$estimate > 0
    e["oddsRatio"] <- list(if (fine) est(unname(c(o$estimate, o$conf.int)))) }
  add(paste0("same-day-", id), description, list(clusters = all, kind = if (rate) "rate" else "proportion", level = level), e, cc)
}

# ---- cases (all made up) --------------------------------------------------------------------------------------
x1 <- c(3, 1, 4, 0, 6, 2, 5, 1); n1 <- c(5, 4, 6, 2, 9, 7, 6, 3); x2 <- c(2, 2, 1, 1, 3, 4, 2, 0); n2 <- c(4, 6, 5, 3, 8, 9, 3, 4)
for (lv in c(.95, .9, .99)) { as_logged(paste0("unequal-", 100 * lv), "8 trips of unequal size, all with both levels", x1, n1, x2, n2, lv); same_day(paste0("unequal-", 100 * lv), "8 trips of unequal size, all with both levels", x1, n1, x2, n2, lv) }
y1 <- c(3, 0, 4, 1, 6, 0, 5, 1, 2); m1 <- c(5, 0, 6, 2, 9, 0, 6, 3, 8); y2 <- c(2, 2, 0, 1, 3, 4, 0, 0, 1); m2 <- c(4, 6, 0, 3, 8, 9, 0, 4, 2)
as_logged("lacking", "some trips lack a level", y1, m1, y2, m2); same_day("lacking", "some trips lack a level", y1, m1, y2, m2)
as_logged("apart", "no trip has both levels: no correlation", c(2, 3, 0, 0, 1), c(4, 5, 0, 0, 3), c(0, 0, 1, 2, 0), c(0, 0, 6, 3, 0))
as_logged("two-trips", "two trips", c(3, 5), c(6, 7), c(1, 4), c(5, 6)); same_day("two-trips", "two trips", c(3, 5), c(6, 7), c(1, 4), c(5, 6))
as_logged("one-trip-each", "each level on one trip of its own", c(3, 0), c(8, 0), c(0, 5), c(0, 7))
as_logged("none-in-first", "no success at the first level: exact limits with a borrowed correlation", c(0, 0, 0, 0), c(3, 2, 4, 1), c(1, 2, 0, 1), c(4, 3, 2, 2), borrowed = .12)
as_logged("all-in-second", "every unit of the second level a success", c(1, 2, 1, 3), c(3, 2, 4, 5), c(2, 3, 1, 4), c(2, 3, 1, 4), borrowed = .3)
same_day("zero-cells", "single bites, many zero cells", c(1, 0, 1, 1, 0, 0, 1), rep(1, 7), c(0, 0, 1, 0, 0, 1, 0), c(1, 2, 1, 2, 1, 1, 3))
same_day("none-in-first", "no success at the first level: a difference but no ratio", c(0, 0, 0), c(3, 2, 4), c(1, 2, 0), c(2, 5, 3))
same_day("one-large", "one trip carries most of the weight", c(210, 1, 2, 0), c(400, 3, 4, 2), c(150, 1, 1, 1), c(420, 2, 4, 3))
same_day("balanced", "ten trips of 3 and 3 (the handbook's within-trip-bait rows, first level A)", c(2, 3, 1, 2, 1, 3, 0, 2, 3, 2), rep(3, 10), c(1, 1, 0, 2, 0, 2, 1, 0, 2, 1), rep(3, 10))
e1 <- c(12.5, 8.25, 0, 15, 6.75, 10); c1 <- c(4, 1, 0, 7, 0, 3); e2 <- c(10, 9.5, 7, 12.25, 0, 4.5); c2 <- c(1, 2, 1, 3, 0, 0)
for (lv in c(.95, .9)) { as_logged(paste0("rates-", 100 * lv), "events and line-hours, some trips lacking a level", c1, e1, c2, e2, lv, TRUE); same_day(paste0("rates-", 100 * lv), "events and line-hours, some trips lacking a level", c1, e1, c2, e2, lv, TRUE) }
as_logged("rates-two-trips", "rates over two trips", c(9, 2), c(11, 12.5), c(3, 4), c(10, 8), rate = TRUE); same_day("rates-two-trips", "rates over two trips", c(9, 2), c(11, 12.5), c(3, 4), c(10, 8), rate = TRUE)
as_logged("rates-none-in-second", "no events at the second level: a difference but no ratio", c(3, 1, 4), c(10, 7, 9), c(0, 0, 0), c(5, 6, 2.5), rate = TRUE)
as_logged("rates-one-trip", "second level on one trip only", c(3, 1, 4), c(10, 7, 9), c(0, 2, 0), c(0, 6, 0), rate = TRUE)

out <- list(topic = "21-lenses", source = "Newcombe 1998; Zou 2007; Zou & Donner 2008; Greenland & Robins 1985; Robins, Breslow & Greenland 1986; Bell & McCaffrey 2002", generatedWith = paste0("R ", getRversion()), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", na = "null", pretty = 1), "21-lenses.json")
cat(length(cases), "cases\n")
