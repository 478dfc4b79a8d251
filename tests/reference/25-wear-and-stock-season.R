# Independent values for the wear of line and the use of bait in the three sample seasons, worked out
# from the CSV files themselves. Own code, base R, survival and jsonlite; no code of the project.
# Run: Rscript 25-wear-and-stock-season.R   (writes 25-wear-and-stock-season.json beside it)
#
# Age of line: fights (hooked fish) on a rod since its last filling, the fish itself counted; a bite
#   without a time comes last on its trip. Trips on a line: trips on which the rod was out or bitten.
# Wear: power law over all spools, age in fights as grouped data (23-wear-and-use.R has the formulas).
# Age of least cost: theta (spool / (fish (beta - 1)))^(1 / beta).
# First break: survfit and survdiff of package survival, one life a spool.
# Rising chance: glm(binomial) of break on age, coefficient for ten fights.
# Use of bait: baits put out plus died, on every trip with soaks; negative binomial by optim, a trip
#   that ran out enters as P(need >= used).
suppressPackageStartupMessages({ library(jsonlite); library(survival) })
args <- commandArgs(FALSE)
here <- dirname(normalizePath(sub("--file=", "", args[grep("--file=", args)])))
read <- function(dir, f) read.csv(file.path(dir, f), colClasses = "character", check.names = FALSE)
minute <- function(x) sapply(strsplit(x, ":"), function(p) if (length(p) < 2) NA else
  60 * as.numeric(p[1]) + as.numeric(p[2]))

season <- function(name, spool_cost, fish) {
  dir <- file.path(here, "../../data-samples", name)
  trips <- read(dir, "trips.csv"); soaks <- read(dir, "soaks.csv"); buys <- read(dir, "bait-buys.csv")
  bites <- unique(read(dir, "bites.csv")); spools <- read(dir, "spools.csv")
  trips$start <- minute(trips$lines_in)
  trips <- trips[order(trips$date, ifelse(is.na(trips$start), 0, trips$start)), ]
  trips$order <- seq_len(nrow(trips))
  spools <- spools[order(spools$rod, spools$date), ]
  spools$id <- seq_len(nrow(spools))
  of_trip <- function(id, what) trips[match(id, trips$trip_id), what]
  spool_of <- function(rod, date) mapply(function(r, d) {
    i <- which(spools$rod == r & spools$date <= d); if (length(i)) max(i) else NA }, rod, date)
  bites$date <- of_trip(bites$trip_id, "date"); bites$order <- of_trip(bites$trip_id, "order")
  soaks$date <- of_trip(soaks$trip_id, "date"); soaks$order <- of_trip(soaks$trip_id, "order")
  bites$spool <- spool_of(bites$rod, bites$date); soaks$spool <- spool_of(soaks$rod, soaks$date)
  start <- of_trip(bites$trip_id, "start"); t <- minute(bites$time)
  t <- ifelse(!is.na(start) & t < start, t + 1440, t)
  bites <- bites[order(bites$order, ifelse(is.na(t), 1e9, t)), ]
  bites$hooked <- bites$outcome != "missed"
  bites$age <- ave(as.numeric(bites$hooked), bites$spool, FUN = cumsum)
  met <- unique(rbind(bites[c("spool", "order")], soaks[c("spool", "order")]))
  met <- met[order(met$spool, met$order), ]
  met$nth <- ave(met$order, met$spool, FUN = seq_along)
  bites$nth <- met$nth[match(paste(bites$spool, bites$order), paste(met$spool, met$order))]
  fights <- bites[bites$hooked, ]
  fights$broke <- fights$lost_to == "line_broke"
  fights$type <- spools$line_type[fights$spool]

  wear <- function(type) {
    f <- fights[fights$type == type, ]
    ends <- tapply(f$age, f$spool, max); a <- f$age[f$broke]; n <- length(a)
    S <- function(b) sum(ends^b)
    lp <- function(b) sum(log(a^b - (a - 1)^b)) + n * (log(n) - log(S(b))) - n
    b <- optimize(lp, c(.05, 20), maximum = TRUE, tol = 1e-10)$maximum
    drop <- function(x) 2 * (lp(b) - lp(x)) - qchisq(.95, 1)
    lo <- uniroot(drop, c(1e-3, b), tol = 1e-12)$root; hi <- uniroot(drop, c(b, 40), tol = 1e-12)$root
    theta <- (S(b) / n)^(1 / b)
    band <- cut(f$nth, c(0, 5, 10, 15, 20, Inf), labels = FALSE)
    g <- glm(broke ~ I(age / 10), binomial, f, control = glm.control(epsilon = 1e-12))
    list(fights = nrow(f), breaks = n, pulled = sum(f$lost_to == "pulled"), beta = b, betaLower = lo,
      betaUpper = hi, theta = theta,
      respoolAge = if (b > 1) theta * (spool_cost[[type]] / (fish * (b - 1)))^(1 / b) else NULL,
      bandFights = I(as.vector(table(factor(band, 1:5)))),
      bandBreaks = I(as.vector(tapply(f$broke, factor(band, 1:5), sum, default = 0))),
      oddsPer10Fights = unname(exp(coef(g)[2])))
  }
  lived <- sort(unique(met$spool))
  first <- sapply(lived, function(s) { f <- fights[fights$spool == s, ]
    if (any(f$broke)) min(f$age[f$broke]) else NA })
  total <- sapply(lived, function(s) sum(fights$spool == s))
  lives <- data.frame(time = ifelse(is.na(first), total, first), event = !is.na(first),
    type = spools$line_type[lived])
  fit <- survfit(Surv(time, event) ~ 1, lives[lives$type == "mono", ], conf.type = "log-log")
  keep <- fit$n.event > 0
  test <- survdiff(Surv(time, event) ~ type, lives)

  soaks$bait[soaks$bait == "mackrel scad"] <- "mackerel scad"
  days <- unique(soaks$trip_id)
  bait <- function(name) {
    put <- tapply(as.numeric(ifelse(soaks$baits_used == "", 1, soaks$baits_used)) * (soaks$bait == name),
      factor(soaks$trip_id, days), sum)
    own <- buys[buys$bait == name, ]
    died <- tapply(as.numeric(own$died), factor(own$trip_id, days), sum, default = 0)
    out <- tapply(own$ran_out == "yes", factor(own$trip_id, days), any, default = FALSE)
    used <- as.vector(put + died); ran <- as.vector(out)
    nll <- function(p) { mu <- exp(p[1]); size <- exp(p[2])
      -sum(ifelse(ran, pnbinom(used - 1, size, mu = mu, lower.tail = FALSE, log.p = TRUE),
        dnbinom(used, size, mu = mu, log = TRUE))[!(ran & used == 0)]) }
    best <- NULL
    for (s in seq(-2, 6, .5)) { o <- optim(c(log(mean(used) + .1), s), nll, control = list(reltol = 1e-14,
      maxit = 5000)); if (is.null(best) || o$value < best$value) best <- o }
    list(bait = name, trips = length(days), deployed = sum(put), died = sum(died), ranOut = sum(ran),
      mean = exp(best$par[1]), size = exp(best$par[2]),
      price = sum(as.numeric(own$count) * as.numeric(own$unit_cost)) / sum(as.numeric(own$count)))
  }
  names <- c("sardine", "halfbeak", "mackerel scad", "bigeye scad", "flathead mullet")
  list(id = name, description = paste("the sample season", name),
    inputs = list(season = name),
    expected = list(mono = wear("mono"), braid = wear("braid"),
      firstBreak = list(time = I(fit$time[keep]), survival = I(fit$surv[keep]), lower = I(fit$lower[keep]),
        upper = I(fit$upper[keep])),
      logRank = list(chiSquare = unname(test$chisq), df = length(test$n) - 1),
      baits = lapply(names, bait)),
    tolerance = list(rel = 1e-6, abs = 1e-8, byKey = list(mean = list(rel = 1e-4), size = list(rel = 1e-3))),
    provenance = "base R; survfit, survdiff; optim (Nelder-Mead from 17 starts) for use")
}
prices <- list(mono = 38, braid = 145)
cases <- lapply(c("port-vellamy", "linnet-quay", "sable-roads"), season, prices, 90)
out <- list(topic = "wear and bait use of whole seasons",
  source = "25-wear-and-stock-season.R", generatedWith = R.version.string, cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = 15, pretty = TRUE, null = "null"),
  file.path(here, "25-wear-and-stock-season.json"))
