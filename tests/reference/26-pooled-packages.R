# 26 pooled packages: rates and shares of several boats, each with its own design effect, pooled on the log and the logit
# scale (metafor::rma, REML; test = "knha" is Hartung & Knapp 2001, test = "adhoc" the modified interval of Knapp & Hartung
# 2003), and the modified mean without each boat in turn. All data made up.
# Run: Rscript 26-pooled-packages.R   (writes 26-pooled-packages.json beside it)
suppressPackageStartupMessages({ library(jsonlite); library(metafor) })
fine <- list(threshold = 1e-14, maxiter = 20000, tau2.max = 1e4, tol = 1e-14)
arr <- function(x) I(unname(as.numeric(x)))
limits <- function(fit, back) list(estimate = back(fit$beta[[1]]), lower = back(fit$ci.lb), upper = back(fit$ci.ub))
fleets <- list(
  three = list(x = c(221, 49, 62), N = c(493, 105, 108), h = c(195, 44, 50), d = c(11.9, 8.2, 9.4), dh = c(1.1, 1.3, 1.6)),
  alike = list(x = c(100, 203, 52), N = c(200, 405, 103), h = c(90, 182, 47), d = c(2, 3, 1.5), dh = c(1, 1, 1)),
  two = list(x = c(40, 90), N = c(200, 210), h = c(31, 60), d = c(1, 4), dh = c(1.2, 2)),
  none = list(x = c(0, 6, 19), N = c(40, 80, 160), h = c(0, 6, 11), d = c(1, 1.4, 2.2), dh = c(1, 1, 1.4)),
  seven = list(x = c(12, 80, 33, 150, 9, 61, 240), N = c(60, 300, 90, 800, 20, 150, 610), h = c(9, 71, 30, 122, 9, 40, 200),
               d = c(1, 2.4, 1.7, 6.1, 1, 3.3, 8), dh = c(1, 1.5, 1.2, 2, 1, 1.1, 3)))
cases <- list()
for (name in names(fleets)) for (level in c(.95, .9)) {
  f <- fleets[[name]]
  # Half an event where a logarithm needs one, on the effective counts.
  xe <- f$x / f$d; Ee <- f$N / f$d; ce <- ifelse(xe == 0, .5, xe)
  rate <- list(y = log(ce / Ee), v = 1 / ce, back = exp)
  he <- f$h / f$dh; ne <- f$x / f$dh; keep <- ne > 0
  add <- ifelse(he == 0 | he == ne, .5, 0); yes <- (he + add)[keep]; no <- (ne - he + add)[keep]
  share <- list(y = log(yes / no), v = 1 / yes + 1 / no, back = plogis)
  for (scale in c("rate", "share")) {
    s <- get(scale); fit <- function(test, i = TRUE) suppressWarnings(rma(s$y[i], s$v[i], method = "REML", test = test, level = 100 * level, control = fine))
    k <- length(s$y); fe <- rma(s$y, s$v, method = "FE", level = 100 * level); kn <- fit("knha"); ad <- fit("adhoc")
    one <- if (k > 2) lapply(seq_len(k), function(i) limits(fit("adhoc", -i), s$back)) else list()
    cases[[length(cases) + 1]] <- list(
      id = sprintf("%s-%s-%g", scale, name, 100 * level), description = "counts of boats with design effects, pooled",
      inputs = list(scale = scale, numerator = arr(if (scale == "rate") f$x else f$h[keep]), denominator = arr(if (scale == "rate") f$N else f$x[keep]),
                    designEffect = arr(if (scale == "rate") f$d else f$dh[keep]), level = level),
      expected = list(fixed = limits(fe, s$back), hartungKnapp = limits(kn, s$back), random = limits(ad, s$back), tau2 = kn$tau2, Q = kn$QE,
                      leaveOneOut = one),
      tolerance = list(rel = 1e-6, abs = 1e-8), provenance = paste0("metafor ", packageVersion("metafor"), " rma(FE; REML with knha and adhoc)"))
  }
}
out <- list(topic = "26-pooled-packages", source = list(formulas = "Viechtbauer 2005; Hartung & Knapp 2001; Knapp & Hartung 2003", software = paste0("R ", getRversion(), ", metafor ", packageVersion("metafor"))),
            generatedWith = paste0("R ", getRversion()), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), pretty = 1), "26-pooled-packages.json")
