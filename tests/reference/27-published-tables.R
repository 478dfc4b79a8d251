# 27 published tables of two groups over strata, as the compare path sees them (a trip is a stratum): crude and
# Mantel-Haenszel figures, and the standardised ones of a model group + stratum (g-computation on the whole mix).
#   kidney stones   Charig, Webb, Payne & Wickham 1986, BMJ 292:879-882 (counts as restated in many texts)
#   admissions      Bickel, Hammel & O'Connell 1975, Science 187:398-404: datasets::UCBAdmissions
#   oesophagus      Breslow & Day 1980, Statistical Methods in Cancer Research vol. 1 ch. 4: datasets::esoph, alcohol 80+
#   doctors         Doll & Hill 1966, coronary deaths of British doctors by smoking: boot::breslow; 10,000 person-years
# Run in this folder: Rscript 27-published-tables.R   (needs jsonlite, boot; writes 27-published-tables.json)
suppressPackageStartupMessages({ library(jsonlite); library(boot) })
options(warn = 2)
converge <- function(formula, family, data) glm(formula, family, data, control = glm.control(epsilon = 1e-15, maxit = 100))

share <- function(x) { # columns y1 n1 y0 n0, events and units of A and B
  N <- x$n1 + x$n0; w <- x$n1 * x$n0 / N; a <- x$y1; b <- x$y0; c <- x$n1 - a; d <- x$n0 - b
  mh <- mantelhaen.test(array(rbind(a, c, b, d), c(2, 2, nrow(x))), correct = FALSE)
  long <- data.frame(y = c(a, b), n = c(x$n1, x$n0), g = rep(c("A", "B"), each = nrow(x)), s = factor(rep(seq_len(nrow(x)), 2)))
  m <- converge(cbind(y, n - y) ~ g + s, binomial, long)
  p <- sapply(c("A", "B"), function(k) { long$g <- k; weighted.mean(predict(m, long, type = "response"), long$n) })
  crude <- c(sum(a) / sum(x$n1), sum(b) / sum(x$n0)); odds <- crude / (1 - crude)
  list(asLogged = list(a = crude[1], b = crude[2], difference = -diff(crude), ratio = crude[1] / crude[2], oddsRatio = odds[1] / odds[2]),
    sameDay = list(difference = sum(w * (a / x$n1 - b / x$n0)) / sum(w), ratio = sum(a * x$n0 / N) / sum(b * x$n1 / N),
      oddsRatio = unname(mh$estimate), oddsRatioLower = mh$conf.int[1], oddsRatioUpper = mh$conf.int[2]),
    adjusted = list(a = p[[1]], b = p[[2]], difference = p[[1]] - p[[2]], ratio = p[[1]] / p[[2]], oddsRatio = exp(-coef(m)[["gB"]])))
}
rate <- function(x) { T <- x$n1 + x$n0
  long <- data.frame(y = c(x$y1, x$y0), n = c(x$n1, x$n0), g = rep(c("A", "B"), each = nrow(x)), s = factor(rep(seq_len(nrow(x)), 2)))
  m <- converge(y ~ g + s + offset(log(n)), poisson, long)
  p <- sapply(c("A", "B"), function(k) { long$g <- k; sum(predict(m, long, type = "response")) / sum(long$n) })
  list(asLogged = list(a = sum(x$y1) / sum(x$n1), b = sum(x$y0) / sum(x$n0), ratio = sum(x$y1) / sum(x$n1) / (sum(x$y0) / sum(x$n0))),
    sameDay = list(ratio = sum(x$y1 * x$n0 / T) / sum(x$y0 * x$n1 / T), difference = sum((x$y1 * x$n0 - x$y0 * x$n1) / T) / sum(x$n1 * x$n0 / T)),
    adjusted = list(a = p[[1]], b = p[[2]], ratio = p[[1]] / p[[2]], difference = p[[1]] - p[[2]])) }

kidney <- data.frame(stratum = c("SMALL", "LARGE"), y1 = c(81, 192), n1 = c(87, 263), y0 = c(234, 55), n0 = c(270, 80))
ucb <- UCBAdmissions; admissions <- data.frame(stratum = dimnames(ucb)$Dept, y1 = ucb["Admitted", "Male", ], n1 = colSums(ucb[, "Male", ]), y0 = ucb["Admitted", "Female", ], n0 = colSums(ucb[, "Female", ]))
e <- esoph; e$high <- e$alcgp %in% c("80-119", "120+"); cell <- function(v, h) as.vector(tapply(v[e$high == h], e$agegp[e$high == h], sum))
oesophagus <- data.frame(stratum = levels(e$agegp), y1 = cell(e$ncases, TRUE), n1 = cell(e$ncases + e$ncontrols, TRUE), y0 = cell(e$ncases, FALSE), n0 = cell(e$ncases + e$ncontrols, FALSE))
# R before 4.0.4 had controls that were cases counted in: the table of Breslow & Day has 200 cases and 775 controls.
stopifnot(sum(oesophagus$y1 + oesophagus$y0) == 200, sum(oesophagus$n1 + oesophagus$n0) == 975)
s <- breslow[breslow$smoke == 1, ]; n <- breslow[breslow$smoke == 0, ]
doctors <- data.frame(stratum = s$age, y1 = s$y, n1 = s$n / 1e4, y0 = n$y, n0 = n$n / 1e4)

one <- function(id, source, counts, of) list(id = id, description = source, inputs = list(strata = counts), expected = of(counts),
  tolerance = list(rel = 1e-8, abs = 1e-10), provenance = sprintf("R %s.%s, own formulas, mantelhaen.test, glm", R.version$major, R.version$minor))
cases <- list(one("kidney-stones", "Charig et al. 1986, open surgery (A) and keyhole (B) by size of stone", kidney, share),
  one("admissions", "Bickel et al. 1975, men (A) and women (B) by department", admissions, share),
  one("oesophagus", "Breslow & Day 1980, 80 g of alcohol a day or more (A) and less (B) by age", oesophagus, share),
  one("doctors", "Doll & Hill 1966, smokers (A) and others (B) by age, 10,000 person-years", doctors, rate))
write(toJSON(list(topic = "27-published-tables", source = "R datasets, boot; own R formulas; mantelhaen.test", cases = cases), auto_unbox = TRUE, digits = NA, dataframe = "rows"), "27-published-tables.json")
for (x in cases) { cat(x$id, "\n"); str(x$expected, digits.d = 8) }
