# 24 pooling: what 11-meta does not hold. Limits of tau2, I2, H2 by profiling Q (metafor::confint), the mean without
# each study in turn (metafor::leave1out), and effect sizes of one group and of rates (metafor::escalc).
# All data made up. Run: Rscript 24-pooling.R   (writes 24-pooling.json beside it)
suppressPackageStartupMessages({ library(jsonlite); library(metafor) })
cases <- list(); arr <- function(x) I(unname(as.numeric(x)))
push <- function(id, inputs, expected, what, rel = 1e-7, abs = 1e-9) cases[[length(cases) + 1]] <<- list(id = id, description = what, inputs = inputs, expected = expected, tolerance = list(rel = rel, abs = abs), provenance = paste0("metafor ", packageVersion("metafor"), " ", what))
data <- list(boats = list(y = c(.31, -.12, .45, .02, .58, .11, -.64), v = c(.060, .045, .110, .038, .150, .052, .030)),
             apart = list(y = c(-1.2, .4, 1.9, .3, -.6), v = c(.02, .05, .04, .01, .08)),
             alike = list(y = c(.20, .21, .19, .22, .20, .21), v = c(.04, .03, .05, .02, .06, .03)),
             two = list(y = c(.1, .9), v = c(.02, .03)))
fine <- list(threshold = 1e-14, maxiter = 20000, tau2.max = 1e4, tol = 1e-14)
for (d in names(data)) for (level in c(.95, .9)) {
  y <- data[[d]]$y; v <- data[[d]]$v
  ci <- suppressWarnings(confint(rma(y, v, method = "REML", control = fine), level = 100 * level, control = list(tol = 1e-14, maxiter = 1e5, tau2.max = 1e4)))$random
  lim <- function(row) list(lower = ci[row, "ci.lb"][[1]], upper = ci[row, "ci.ub"][[1]])
  push(sprintf("limits-%s-%g", d, 100 * level), list(effects = arr(y), variances = arr(v), level = level), list(tau2 = lim("tau^2"), I2percent = lim("I^2(%)"), H2 = lim("H^2")), "confint of rma (Q profile)")
}
for (d in c("boats", "apart")) { y <- data[[d]]$y; v <- data[[d]]$v
  one <- leave1out(rma(y, v, method = "FE")); two <- leave1out(rma(y, v, method = "DL")); three <- leave1out(rma(y, v, method = "REML", control = fine))
  push(sprintf("leave-%s", d), list(effects = arr(y), variances = arr(v), level = .95),
       list(fixed = list(estimate = arr(one$estimate), se = arr(one$se)), derSimonianLaird = list(estimate = arr(two$estimate), se = arr(two$se), tau2 = arr(two$tau2)), reml = list(estimate = arr(three$estimate), se = arr(three$se), tau2 = arr(three$tau2))), "leave1out", rel = 1e-6, abs = 1e-8)
}
x <- c(3, 0, 12, 9); n <- c(10, 7, 12, 41); e <- c(4, 0, 17, 250); T <- c(30, 12.5, 88, 1900); e2 <- c(6, 3, 0, 180); T2 <- c(25, 20, 9, 2100)
lo <- escalc("PLO", xi = x, ni = n, add = .5, to = "only0"); ir <- escalc("IRLN", xi = e, ti = T, add = .5, to = "only0"); rr <- escalc("IRR", x1i = e, t1i = T, x2i = e2, t2i = T2, add = .5, to = "only0")
push("one-group", list(events = arr(x), n = arr(n)), list(logit = arr(lo$yi), variance = arr(lo$vi)), "escalc(PLO, add = 0.5 where a cell is 0)", 1e-11, 1e-14)
push("one-rate", list(events = arr(e), exposure = arr(T)), list(logRate = arr(ir$yi), variance = arr(ir$vi)), "escalc(IRLN, add = 0.5 where 0)", 1e-11, 1e-14)
push("two-rates", list(events1 = arr(e), exposure1 = arr(T), events2 = arr(e2), exposure2 = arr(T2)), list(logRateRatio = arr(rr$yi), variance = arr(rr$vi)), "escalc(IRR, add = 0.5 where 0)", 1e-11, 1e-14)
out <- list(topic = "24-pooling", source = list(formulas = "Viechtbauer 2007 (Q profile); Higgins & Thompson 2002", software = paste0("R ", getRversion(), ", metafor ", packageVersion("metafor"))), generatedWith = paste0("R ", getRversion()), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), pretty = 1), "24-pooling.json")
