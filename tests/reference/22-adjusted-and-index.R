# The adjusted comparison and the index by level over trips, written apart from the project's own code:
#   adjusted  logistic or log-linear model on trip x cell tallies, CR2 over trips, Satterthwaite for the delta-method contrast;
#             Firth's penalised fit (own code) where maximum likelihood separates
#   index     NB2 by maximum likelihood, CR3 x (G-1)/G over trips, Satterthwaite, ln index = ln m_l - ln mean(m)
# All data are made up (over-dispersed trips, unequal sizes); they describe no real boat.
# Run in this folder: Rscript 22-adjusted-and-index.R   (needs MASS, clubSandwich, numDeriv, jsonlite; writes 22-adjusted-and-index.json)
suppressPackageStartupMessages({ library(MASS); library(clubSandwich); library(numDeriv); library(jsonlite) })
options(digits = 15, warn = 1)
cases <- list()
arr <- function(v) I(unname(v)); named <- function(v) as.list(v); rows <- function(m) unname(as.matrix(m))
TOL <- list(rel = 1e-7, abs = 1e-9, byKey = list(df = list(rel = 1e-6, abs = 1e-6), df2 = list(rel = 1e-6, abs = 1e-6), p = list(rel = 1e-6, abs = 1e-10)))
add <- function(id, description, inputs, expected, tolerance = TOL, second = NULL) {
  entry <- list(id = id, description = description, inputs = inputs, expected = expected, tolerance = tolerance,
    provenance = sprintf("R %s.%s, clubSandwich %s, own code in 22-adjusted-and-index.R", R.version$major, R.version$minor, packageVersion("clubSandwich")))
  if (length(second)) { cat(sprintf("%-26s %s\n", id, paste(sprintf("%s %.1e", names(second), unlist(second)), collapse = "; "))); entry$secondRoutes <- second; stopifnot(unlist(second) < 1e-5) }
  cases[[length(cases) + 1]] <<- entry
}
off <- function(a, b) max(abs(a - b) / pmax(abs(b), 1e-8))

# ---- fits, run on until the score is gone (glm stops when the deviance stands still) -----------------------------
# Returns a glm object whose coefficients, means and weights are those of the converged fit.
converge <- function(m) { X <- model.matrix(m); f <- m$family; y <- m$y; w <- m$prior.weights; o <- if (is.null(m$offset)) 0 else m$offset; b <- coef(m)
  for (i in 1:300) { eta <- drop(X %*% b) + o; mu <- f$linkinv(eta); d <- f$mu.eta(eta); v <- f$variance(mu); st <- solve(crossprod(X * sqrt(w * d^2 / v)), crossprod(X, w * d / v * (y - mu))); b <- b + drop(st); if (max(abs(st)) < 1e-14) break }
  eta <- drop(X %*% b) + o; mu <- f$linkinv(eta); d <- f$mu.eta(eta); wt <- w * d^2 / f$variance(mu)
  m$coefficients <- b; m$linear.predictors <- eta; m$fitted.values <- mu; m$weights <- wt; m$residuals <- (y - mu) / d
  # sandwich::bread reads the information from the QR of the weighted design
  m$qr <- qr(X * sqrt(wt)); m$R <- qr.R(m$qr); m$deviance <- sum(f$dev.resids(y, mu, w)); m }
quiet <- function(e) suppressWarnings(e)

# ---- CR2 and Satterthwaite by full matrices, on the response scale, for any model given as X, mean, slope, variance, residual ----
halfInverse <- function(B) { e <- eigen(B, symmetric = TRUE); k <- e$values > 1e-10 * max(e$values); e$vectors[, k, drop = FALSE] %*% (e$values[k]^-0.5 * t(e$vectors[, k, drop = FALSE])) }
byHand <- function(X, slope, phi, res, trip, type = "CR2") { U <- slope * X; W <- 1 / phi; M <- solve(crossprod(U * sqrt(W))); N <- nrow(X); IH <- diag(N) - U %*% M %*% t(U * W)
  E <- matrix(0, ncol(X), N); for (t in unique(trip)) { g <- which(trip == t); A <- if (type == "CR2") { D <- diag(sqrt(phi[g]), length(g)); D %*% halfInverse(D %*% IH[g, g, drop = FALSE] %*% diag(phi[g], length(g)) %*% D) %*% D } else solve(IH[g, g, drop = FALSE]); E[, g] <- M %*% t(U[g, , drop = FALSE] * W[g]) %*% A }
  V <- Reduce(`+`, lapply(unique(trip), function(t) { g <- which(trip == t); tcrossprod(E[, g, drop = FALSE] %*% res[g]) }))
  df <- function(c) { P <- sapply(unique(trip), function(t) { a <- rep(0, N); g <- trip == t; a[g] <- drop(c %*% E[, g, drop = FALSE]); t(IH) %*% a }); Q <- crossprod(P * sqrt(phi)); sum(diag(Q))^2 / sum(Q^2) }
  list(V = V, M = M, df = df) }

limits <- function(value, se, df, back = identity, level = .95) { q <- qt(1 - (1 - level) / 2, df); list(estimate = back(value), lower = back(value - q * se), upper = back(value + q * se), standardError = se, degreesOfFreedom = df) }

# ---- the adjusted comparison ------------------------------------------------------------------------------------
adjusted <- function(id, description, d, f, family, factor_, A, B, weights, firth = FALSE, wald = NULL) {
  y <- all.vars(f)[1]; log_ <- family$link == "log"
  if (!firth) { m <- converge(quiet(glm(f, family, d, epsilon = 1e-14, maxit = 100))); b <- coef(m); X <- model.matrix(m); phi <- family$variance(m$fitted.values) / m$prior.weights
    Vc <- vcovCR(m, d$trip, type = "CR2"); V <- as.matrix(Vc); attributes(V) <- list(dim = dim(Vc)); M <- solve(crossprod(X * sqrt(m$weights)))
    hand <- byHand(X, family$mu.eta(m$linear.predictors), phi, m$y - m$fitted.values, d$trip); dfOf <- function(c) linear_contrast(m, Vc, contrasts = t(c), level = .95)$df; tt <- delete.response(terms(m)); xlev <- m$xlevels
  } else { X <- model.matrix(f, d); tt <- delete.response(terms(f)); xlev <- lapply(d[sapply(d, is.factor)], levels); n <- d$bites; s <- d[[y]]; b <- rep(0, ncol(X)); names(b) <- colnames(X)
    # Firth's score: leverage h adds h/2 successes and h/2 failures' worth of pull towards one half
    U <- function(b) { p <- plogis(drop(X %*% b)); w <- n * p * (1 - p); M <- solve(crossprod(X * sqrt(w))); h <- rowSums((X * sqrt(w)) %*% M * (X * sqrt(w))); list(r = s - n * p + h * (.5 - p), M = M, p = p, w = w) }
    for (i in 1:5000) { u <- U(b); st <- drop(u$M %*% crossprod(X, u$r)); b <- b + st; if (max(abs(st)) < 1e-14) break }
    u <- U(b); M <- u$M; pen <- function(b) { p <- plogis(drop(X %*% b)); sum(s * log(p) + (n - s) * log(1 - p)) + .5 * log(det(crossprod(X * sqrt(n * p * (1 - p))))) }
    stopifnot(max(abs(grad(pen, b))) < 1e-5)
    hand <- byHand(X, u$p * (1 - u$p), u$p * (1 - u$p) / n, u$r / n, d$trip); V <- hand$V; dfOf <- function(c) hand$df(c) }
  at <- function(l) { e <- d; e[[factor_]] <- factor(l, levels = levels(d[[factor_]])); model.matrix(tt, e, xlev = xlev[names(xlev) %in% all.vars(tt)]) }
  XA <- at(A); XB <- at(B); w <- d[[weights]] / sum(d[[weights]]); inv <- if (log_) exp else plogis
  pA <- function(b) sum(w * inv(drop(XA %*% b))); pB <- function(b) sum(w * inv(drop(XB %*% b)))
  scale1 <- if (log_) log else qlogis
  figure <- function(fun, back) { g <- grad(fun, b, method.args = list(r = 6)); se <- sqrt(drop(g %*% V %*% g)); if (firth) se <- max(se, sqrt(drop(g %*% M %*% g))); limits(fun(b), se, dfOf(g), back) }
  back1 <- if (log_) exp else plogis
  e <- list(coefficients = named(b), CR2 = rows(V), modelSe = arr(sqrt(diag(M))), a = figure(function(b) scale1(pA(b)), back1), b = figure(function(b) scale1(pB(b)), back1), difference = figure(function(b) pA(b) - pB(b), identity),
    ratio = figure(function(b) log(pA(b) / pB(b)), exp), linkRatio = figure(function(b) sum(w * drop((XA - XB) %*% b)), exp))
  second <- list(CR2byHand = off(hand$V, V)); g <- grad(function(b) pA(b) - pB(b), b); second$dfByHand <- off(hand$df(g), dfOf(g))
  if (!is.null(wald) && !firth) { k <- grep(paste0("^", wald), names(b)); C <- diag(length(b))[k, , drop = FALSE]; t2 <- Wald_test(m, constraints = C, vcov = Vc, test = c("chi-sq", "HTZ"))
    e$wald <- list(chiSquare = t2$Fstat[1] * length(k), df = length(k), p = t2$p_val[1], f = list(statistic = t2$Fstat[2], df1 = t2$df_num[2], df2 = t2$df_denom[2], p = t2$p_val[2])) }
  inputs <- list(formula = paste(deparse(f, width.cutoff = 400), collapse = ""), family = family$family, link = family$link, factorLevels = lapply(d[sapply(d, is.factor)], function(v) arr(levels(v))), data = lapply(d, function(v) arr(if (is.factor(v)) as.character(v) else v)), clusterColumn = "trip", factor = factor_, A = A, B = B, estimator = if (firth) "firth" else "maximum-likelihood")
  if (!is.null(wald)) inputs$wald <- wald
  tl <- TOL; for (k in c("a", "b", "difference", "ratio", "linkRatio")) tl$byKey[[k]] <- list(rel = 1e-7, abs = 1e-8); tl$byKey$degreesOfFreedom <- list(rel = 1e-6, abs = 1e-6); tl$byKey$lower <- list(rel = 1e-6, abs = 1e-8); tl$byKey$upper <- list(rel = 1e-6, abs = 1e-8)
  add(id, description, inputs, e, tl, second) }

# ---- made-up tallies --------------------------------------------------------------------------------------------
season <- function(seed, trips, size, spread, braid = .4, hookBase = .5, split = FALSE, clean = NULL) { set.seed(seed)
  out <- do.call(rbind, lapply(seq_len(trips), function(t) { u <- rnorm(1, 0, spread); n <- 1 + rnbinom(1, 2, mu = size); month <- c("2031-04", "2031-05", "2031-06")[1 + (3 * (t - 1)) %/% trips]
    line <- if (split) rep(c("mono", "braid")[1 + (t %% 3 == 0)], n) else sample(c("mono", "braid"), n, TRUE, c(1 - braid, braid)); reach <- sample(c("short", "middle", "long"), n, TRUE, c(.5, .3, .2)); bait <- sample(c("scad", "mullet", "squid"), n, TRUE)
    eta <- hookBase + u + .5 * (line == "braid") + .3 * (reach == "long") - .4 * (bait == "squid") + .2 * (month == "2031-06"); hooked <- rbinom(n, 1, plogis(eta)); if (!is.null(clean)) hooked[line == clean] <- 1
    data.frame(trip = t, month, line, reach, bait, hooked) }))
  d <- aggregate(cbind(bites = 1, hooked) ~ line + reach + bait + month + trip, out, sum); d$missed <- d$bites - d$hooked
  d$line <- factor(d$line, c("mono", "braid")); d$reach <- factor(d$reach, intersect(c("short", "middle", "long"), d$reach)); d$bait <- factor(d$bait, intersect(c("mullet", "scad", "squid"), d$bait)); d$month <- factor(d$month, sort(unique(d$month))); d }
F1 <- cbind(hooked, missed) ~ line + reach + bait + month
adjusted("adjusted-30-trips", "30 trips, unequal sizes, four covariates", season(1, 30, 7, .6), F1, binomial(), "line", "braid", "mono", "bites", wald = "bait")
adjusted("adjusted-12-trips", "12 trips of very unequal size, between-trip spread large", season(2, 12, 10, 1), F1, binomial(), "line", "braid", "mono", "bites", wald = "reach")
adjusted("adjusted-few-trips", "5 trips", season(3, 5, 9, .5), cbind(hooked, missed) ~ line + reach, binomial(), "line", "braid", "mono", "bites", wald = "reach")
adjusted("adjusted-whole-trips", "each trip fished one line only: the contrast lies between trips", season(4, 18, 6, .7, split = TRUE), cbind(hooked, missed) ~ line + reach + bait, binomial(), "line", "braid", "mono", "bites")
adjusted("adjusted-rare-level", "braid on one bite in twelve", season(5, 25, 6, .6, braid = .08), cbind(hooked, missed) ~ line + reach, binomial(), "line", "braid", "mono", "bites")
adjusted("adjusted-interaction", "the line's effect differs by reach", season(6, 24, 7, .6), cbind(hooked, missed) ~ line * reach + bait, binomial(), "line", "braid", "mono", "bites", wald = "linebraid:")
adjusted("adjusted-high-rate", "nearly every bite is hooked", season(7, 30, 8, .5, hookBase = 2.2), cbind(hooked, missed) ~ line + reach, binomial(), "line", "braid", "mono", "bites")
adjusted("firth-one-level-clean", "every bite on braid was hooked: maximum likelihood has no end", season(8, 14, 6, .6, braid = .2, hookBase = .8, clean = "braid"), cbind(hooked, missed) ~ line + reach, binomial(), "line", "braid", "mono", "bites", firth = TRUE)
adjusted("firth-small-season", "7 trips, every bite on braid hooked, three covariates", season(19, 7, 5, .5, braid = .3, clean = "braid"), cbind(hooked, missed) ~ line + reach + bait, binomial(), "line", "braid", "mono", "bites", firth = TRUE)
adjusted("firth-not-separated", "the penalised fit where maximum likelihood would also do", season(10, 20, 6, .6), cbind(hooked, missed) ~ line + reach, binomial(), "line", "braid", "mono", "bites", firth = TRUE)

# ---- rates and the index ----------------------------------------------------------------------------------------
soaks <- function(seed, trips, per, spread, size, months = 4, base = -.4) { set.seed(seed)
  d <- do.call(rbind, lapply(seq_len(trips), function(t) { n <- 2 + rpois(1, per); u <- rnorm(1, 0, spread); month <- sprintf("2031-%02d", 3 + (months * (t - 1)) %/% trips); reach <- sample(c("short", "middle", "long"), n, TRUE); bait <- sample(c("mullet", "scad", "squid"), n, TRUE)
    hours <- round(runif(n, .5, 7) * 4) / 4; mu <- hours * exp(base + u + c(0, .4, -.3, .2, .1, 0)[1 + (months * (t - 1)) %/% trips] + c(short = 0, middle = -.3, long = .2)[reach] + c(mullet = 0, scad = .25, squid = -.2)[bait]); data.frame(trip = t, month, reach, bait, hours, bites = rnbinom(n, size = size, mu = mu)) }))
  d$month <- factor(d$month); d$reach <- factor(d$reach, c("short", "middle", "long")); d$bait <- factor(d$bait, c("mullet", "scad", "squid")); d }
adjusted("adjusted-rate", "bites per line-hour by bait, log-linear with ln(hours) as offset", soaks(11, 24, 6, .5, 3), bites ~ bait + reach + month + offset(log(hours)), poisson(), "bait", "scad", "mullet", "hours", wald = "month")
adjusted("adjusted-rate-few-trips", "the same on 8 trips", soaks(12, 8, 8, .6, 2, months = 2), bites ~ bait + reach + offset(log(hours)), poisson(), "bait", "scad", "mullet", "hours")

nbFit <- function(f, d) { m <- quiet(glm.nb(f, d, control = glm.control(epsilon = 1e-14, maxit = 200))); y <- m$y; th <- m$theta
  for (i in 1:300) { g <- converge(glm(f, negative.binomial(th), d, epsilon = 1e-14, maxit = 100)); mu <- g$fitted.values; t2 <- th
    for (j in 1:100) { sc <- sum(digamma(t2 + y) - digamma(t2) + log(t2) + 1 - log(t2 + mu) - (y + t2) / (mu + t2)); inf <- sum(-trigamma(t2 + y) + trigamma(t2) - 1 / t2 + 2 / (mu + t2) - (y + t2) / (mu + t2)^2); st <- sc / inf; t2 <- t2 + st; if (abs(st) < 1e-14 * t2) break }
    if (abs(t2 - th) < 1e-13 * th) break; th <- t2 }
  list(g = converge(glm(f, negative.binomial(th), d, epsilon = 1e-14, maxit = 100)), theta = th, seTheta = 1 / sqrt(inf), m = m) }
index <- function(id, description, d, f, factor_) { r <- nbFit(f, d); g <- r$g; b <- coef(g); X <- model.matrix(g); G <- length(unique(d$trip)); y <- g$y; o <- log(d$hours); th <- r$theta
  Vc <- vcovCR(g, d$trip, type = "CR3"); V <- as.matrix(Vc); attributes(V) <- list(dim = dim(Vc)); VJ <- V * (G - 1) / G; lev <- levels(d[[factor_]]); tt <- delete.response(terms(g)); w <- d$hours / sum(d$hours)
  Xl <- lapply(lev, function(l) { e <- d; e[[factor_]] <- factor(l, levels = lev); model.matrix(tt, e, xlev = g$xlevels) }); m_ <- function(b) sapply(Xl, function(X) sum(w * exp(drop(X %*% b))))
  one <- function(k) { fun <- function(b) log(m_(b)[k]) - log(mean(m_(b))); c <- grad(fun, b, method.args = list(r = 6)); se <- sqrt(drop(c %*% VJ %*% c)); df <- linear_contrast(g, Vc, contrasts = t(c), level = .95)$df; q <- qt(.975, df); v <- fun(b)
    list(level = lev[k], index = exp(v), perUnit = m_(b)[k], logStandardError = se, degreesOfFreedom = df, interval = if (df < 4) NULL else list(lower = exp(v - q * se), upper = exp(v + q * se)), .c = c) }
  e <- lapply(seq_along(lev), one); hand <- byHand(X, g$fitted.values, g$fitted.values + g$fitted.values^2 / th, y - g$fitted.values, d$trip, "CR3")
  # theta with its error by trip: joint sandwich of (b, theta) from a numerically differentiated log-likelihood
  ll <- function(p, i = seq_along(y)) sum(dnbinom(y[i], size = p[length(p)], mu = exp(drop(X[i, , drop = FALSE] %*% p[-length(p)]) + o[i]), log = TRUE)); p0 <- c(b, th)
  H <- -hessian(ll, p0, method.args = list(r = 6)); S <- t(sapply(unique(d$trip), function(t) grad(ll, p0, i = which(d$trip == t), method.args = list(r = 6)))); J <- solve(H) %*% crossprod(S) %*% solve(H) * G / (G - 1)
  for (k in seq_along(e)) e[[k]]$.c <- NULL
  add(id, description, list(formula = paste(deparse(f, width.cutoff = 400), collapse = ""), family = "nb", link = "log", factorLevels = lapply(d[sapply(d, is.factor)], function(v) arr(levels(v))), data = lapply(d, function(v) arr(if (is.factor(v)) as.character(v) else v)), clusterColumn = "trip", indexFactor = factor_),
    list(coefficients = named(b), theta = th, seTheta = r$seTheta, clusterSeTheta = sqrt(J[length(p0), length(p0)]), CR3J = rows(VJ), index = e),
    list(rel = 1e-6, abs = 1e-8, byKey = list(clusterSeTheta = list(rel = 1e-5, abs = 1e-7), theta = list(rel = 1e-7, abs = 1e-8), seTheta = list(rel = 1e-6, abs = 1e-8), coefficients = list(rel = 1e-7, abs = 1e-9))),
    list(CR3byHand = off(hand$V, V), dfByHand = off(hand$df(one(1)$.c), one(1)$degreesOfFreedom), glmNbTheta = off(r$m$theta, th))) }
IF <- bites ~ month + reach + bait + offset(log(hours))
index("index-30-trips", "four months, 30 trips, soaks of unequal length", soaks(21, 30, 7, .5, 2), IF, "month")
index("index-few-trips", "three months, 9 trips: some contrasts have fewer than 4 degrees of freedom", soaks(22, 9, 8, .5, 2.5, months = 3), IF, "month")
index("index-interaction", "the month's effect differs by reach, so the mix matters", soaks(23, 24, 8, .4, 3, months = 3), bites ~ month * reach + bait + offset(log(hours)), "month")
index("index-zero-heavy", "rare bites, most soaks without any", soaks(24, 30, 8, .6, .5, base = -2.2), IF, "month")

# ---- a fit R's own stopping rule leaves 2e-8 short (see 06-glm, birthwt-cloglog) --------------------------------------
bw <- read.csv("data/birthwt.csv"); bw$smokef <- factor(bw$smoke > 0); m <- glm(low ~ lwt + smokef, binomial("cloglog"), bw, epsilon = 1e-15, maxit = 200); cv <- converge(m); Xc <- model.matrix(cv)
llc <- function(b) sum(dbinom(bw$low, 1, -expm1(-exp(drop(Xc %*% b))), log = TRUE))
add("cloglog", "complementary log-log link on data/birthwt.csv, Fisher scoring carried on until the step is below 1e-14", list(formula = "low ~ lwt + smokef", family = "binomial", link = "cloglog", dataset = "data/birthwt.csv", factorLevels = list(smokef = arr(c("FALSE", "TRUE")))),
  list(coefficients = named(coef(cv)), vcov = rows(solve(crossprod(Xc * sqrt(cv$weights)))), deviance = cv$deviance), list(rel = 1e-10, abs = 1e-11), list(score = max(abs(grad(llc, coef(cv))))))

out <- list(topic = "22-adjusted-and-index", source = "own R code; clubSandwich (CR2, CR3, Satterthwaite, HTZ), MASS (negative binomial start), numDeriv (gradients, Hessian). Formulas: Bell & McCaffrey 2002; Pustejovsky & Tipton 2018; Firth 1993; Lane & Nelder 1982", cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", na = "null", pretty = FALSE), "22-adjusted-and-index.json")
cat(length(cases), "cases\n")
