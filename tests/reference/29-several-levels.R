# 29 several levels in one adjusted model, on tallies summed as the log sums them (one row a trip and combination of levels):
#   together  three baits: joint test (clubSandwich Wald_test HTZ on CR2), every pair by standardised difference or ratio with
#             Satterthwaite limits, p by t, Holm's p (stats::p.adjust) and Bonferroni limits
#   within    one line against the other at each reach, from the model with their product: standardised over the bites (or
#             line-hours) of that reach alone; joint test of the product
# Functions of 22-adjusted-and-index.R; all data are made up. Run in this folder: Rscript 29-several-levels.R
text <- readLines("22-adjusted-and-index.R"); pick <- function(from, to) text[seq(grep(from, text, fixed = TRUE)[1], grep(to, text, fixed = TRUE)[1] - 1)]
eval(parse(text = pick("suppressPackageStartupMessages", "F1 <- cbind"))); eval(parse(text = pick("soaks <- function", "adjusted(\"adjusted-rate\"")))
cases <- list()
tallied <- function(d, by) { counts <- intersect(c("bites", "hooked", "missed", "hours"), names(d)); s <- aggregate(d[counts], d[c(by, "trip")], sum); s <- s[order(s$trip), ]; s[by] <- lapply(s[by], droplevels); s }

fitted_ <- function(d, f, family) { m <- converge(quiet(glm(f, family, d, epsilon = 1e-14, maxit = 100))); list(m = m, V = vcovCR(m, d$trip, type = "CR2"), tt = delete.response(terms(m)), d = d, inv = family$linkinv, log = family$link == "log") }
joint <- function(r, k) { C <- diag(length(coef(r$m)))[k, , drop = FALSE]; t <- Wald_test(r$m, constraints = C, vcov = r$V, test = "HTZ"); list(statistic = t$Fstat, df1 = t$df_num, df2 = t$df_denom, p = t$p_val) }
# A less B (and A over B), averaged over rows with weights w; the deciding figure is the ratio of rates, the difference of shares
contrast <- function(r, factor_, A, B, w, count = 1) { at <- function(l) { e <- r$d; e[[factor_]] <- factor(l, levels = levels(r$d[[factor_]])); model.matrix(r$tt, e, xlev = r$m$xlevels) }; XA <- at(A); XB <- at(B); w <- w / sum(w); b <- coef(r$m)
  mean_ <- function(X) function(b) sum(w * r$inv(drop(X %*% b))); pA <- mean_(XA); pB <- mean_(XB); V <- as.matrix(r$V); attributes(V) <- list(dim = dim(r$V))
  figure <- function(fun, back, level) { g <- grad(fun, b, method.args = list(r = 6)); se <- sqrt(drop(g %*% V %*% g)); df <- linear_contrast(r$m, r$V, contrasts = t(g), level = .95)$df; list(l = limits(fun(b), se, df, back, level), p = 2 * pt(-abs(fun(b) / se), df)) }
  diff <- function(b) pA(b) - pB(b); lr <- function(b) log(pA(b) / pB(b)); main <- function(level) if (r$log) figure(lr, exp, level) else figure(diff, identity, level)
  only <- function(l) l[c("estimate", "lower", "upper")]
  list(levels = c(A, B), difference = only(figure(diff, identity, .95)$l), ratio = only(figure(lr, exp, .95)$l), together = only(main(1 - .05 / count)$l), p = main(.95)$p) }
put <- function(id, description, d, f, factor_, by, expected) { inputs <- list(formula = paste(deparse(f, width.cutoff = 400), collapse = ""), data = lapply(d, function(v) arr(if (is.factor(v)) as.character(v) else v)), factor = factor_, levels = arr(levels(d[[factor_]])), by = by)
  add(id, description, inputs, expected, list(rel = 1e-6, abs = 1e-8)) }
together <- function(id, description, d, f, family, weights) { r <- fitted_(d, f, family); lev <- levels(d$bait); pairs <- combn(length(lev), 2); w <- d[[weights]]
  p <- lapply(seq_len(ncol(pairs)), function(i) contrast(r, "bait", lev[pairs[2, i]], lev[pairs[1, i]], w, ncol(pairs))); h <- p.adjust(sapply(p, `[[`, "p"), "holm")
  for (i in seq_along(p)) p[[i]]$pHolm <- h[i]
  put(id, description, d, f, "bait", NULL, list(test = joint(r, grep("^bait", names(coef(r$m)))), pairs = p)) }
within_ <- function(id, description, d, f, family, factor_, weights) { r <- fitted_(d, f, family); lev <- levels(d[[factor_]]); stopifnot(length(lev) == 2)
  rows_ <- lapply(levels(d$reach), function(at) { k <- contrast(r, factor_, lev[2], lev[1], ifelse(d$reach == at, d[[weights]], 0)); list(level = at, difference = k$difference, ratio = k$ratio) })
  put(id, description, d, f, factor_, "reach", list(test = joint(r, grep(":", names(coef(r$m)))), rows = rows_)) }

together("share-three-baits", "40 trips, reach and month held equal", tallied(season(41, 40, 9, .6), c("bait", "reach", "month")), cbind(hooked, missed) ~ bait + reach + month, binomial(), "bites")
together("share-nine-trips", "9 trips, reach held equal", tallied(season(42, 9, 14, .8), c("bait", "reach")), cbind(hooked, missed) ~ bait + reach, binomial(), "bites")
together("rate-three-baits", "bites per line-hour, reach and month held equal", tallied(soaks(43, 30, 7, .5, 3), c("bait", "reach", "month")), bites ~ bait + reach + month + offset(log(hours)), poisson(), "hours")
within_("share-by-reach", "braid against mono at each reach, bait held equal", tallied(season(44, 40, 12, .6), c("line", "reach", "bait")), cbind(hooked, missed) ~ reach + bait + line + reach:line, binomial(), "line", "bites")
two <- function(d) { d <- d[d$bait != "squid", ]; d$bait <- factor(as.character(d$bait), c("mullet", "scad")); d }
within_("rate-by-reach", "scad against mullet per line-hour at each reach, month held equal", tallied(two(soaks(45, 30, 9, .5, 3)), c("bait", "reach", "month")), bites ~ reach + month + bait + reach:bait + offset(log(hours)), poisson(), "bait", "hours")
out <- list(topic = "29-several-levels", source = "as 22-adjusted-and-index; Wald_test (HTZ), p.adjust", cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", na = "null", pretty = FALSE), "29-several-levels.json")
cat(length(cases), "cases\n")
