# 29 the adjusted comparison where a level of a covariate was met on one trip only, so that trip alone decides its coefficient:
# clubSandwich leaves the direction out of the root of I - H (Moore-Penrose) and takes nothing for it. Tallies as in 28.
# All data are made up. Run in this folder: Rscript 29-levels-of-one-trip.R   (writes 29-levels-of-one-trip.json)
text <- readLines("28-adjusted-tallies.R"); eval(parse(text = text[seq(grep("^text <- readLines", text), grep("^share\\(", text)[1] - 1)]))
# the share of a difference's and an odds ratio's model variance that lies where one trip alone knows anything
alone <- function(d, f) { m <- converge(quiet(glm(f, binomial(), d, epsilon = 1e-14, maxit = 100))); X <- model.matrix(m); R <- qr.R(qr(X * sqrt(m$weights))); Q <- (X * sqrt(m$weights)) %*% solve(R)
  lone <- do.call(cbind, lapply(unique(d$trip), function(t) { e <- eigen(diag(ncol(Q)) - crossprod(Q[d$trip == t, , drop = FALSE]), symmetric = TRUE); e$vectors[, e$values < 1e-9, drop = FALSE] }))
  share <- function(c) { z <- backsolve(R, c, transpose = TRUE); sum(crossprod(lone, z)^2) / sum(z^2) }; set <- function(l) { e <- d; e$line[] <- l; model.matrix(delete.response(terms(m)), e, xlev = m$xlevels) }
  w <- d$bites / sum(d$bites); A <- set("braid"); B <- set("mono"); s <- function(X) { p <- plogis(drop(X %*% coef(m))); p * (1 - p) }; list(difference = share(colSums(w * (s(A) * A - s(B) * B))), linkRatio = share(colSums(w * (A - B)))) }
one <- function(d, column, trips, level) { v <- as.character(d[[column]]); v[d$trip %in% trips] <- level; d[[column]] <- factor(v, sort(unique(v))); d }
share("month-of-one-trip", "one trip in a month of its own", one(season(51, 30, 7, .6), "month", 30, "2031-07"), c("reach", "bait", "month"))
share("two-of-them", "two months of one trip each, 14 trips", one(one(season(52, 14, 9, .8), "month", 14, "2031-07"), "month", 1, "2031-03"), c("reach", "month"))
share("bait-of-one-trip", "a bait tried on one trip, which fished nothing else", one(season(53, 20, 8, .7), "bait", 7, "squid2"), c("reach", "bait"))
late <- season(54, 24, 8, .6); late <- late[(late$month == "2031-06") == (late$line == "braid") | late$trip == 3, ]; late <- late[late$month != "2031-04" | late$trip %in% c(3, 5), ]
many <- late$trip == 3 & late$line == "braid"; for (k in c("bites", "hooked", "missed")) late[many, k] <- 5 * late[many, k]
share("line-by-month", "the line changed with the month and met the other on one trip", late, c("reach", "month"))
cases[[length(cases)]]$expected$alone <- alone(tallied(late, c("line", "reach", "month")), cbind(hooked, missed) ~ line + reach + month)
rate("rate-month-of-one-trip", "bites per line-hour where one month has one trip", one(soaks(55, 18, 7, .5, 3), "month", 18, "2031-08"), c("reach", "month"))
out <- list(topic = "29-levels-of-one-trip", source = "as 22-adjusted-and-index", cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", na = "null", pretty = FALSE), "29-levels-of-one-trip.json")
