# 28 the adjusted comparison on tallies summed as the log sums them, one row a trip and combination of levels, two levels of
# the compared factor: CR2 on summed rows differs a little from CR2 on the rows before. Functions of 22-adjusted-and-index.R.
# All data are made up. Run in this folder: Rscript 28-adjusted-tallies.R   (writes 28-adjusted-tallies.json)
text <- readLines("22-adjusted-and-index.R"); pick <- function(from, to) text[seq(grep(from, text, fixed = TRUE)[1], grep(to, text, fixed = TRUE)[1] - 1)]
eval(parse(text = pick("suppressPackageStartupMessages", "F1 <- cbind"))); eval(parse(text = pick("soaks <- function", "adjusted(\"adjusted-rate\"")))
cases <- list()
tallied <- function(d, by) { counts <- intersect(c("bites", "hooked", "missed", "hours"), names(d)); s <- aggregate(d[counts], d[c(by, "trip")], sum); s <- s[order(s$trip), ]; s[by] <- lapply(s[by], droplevels); s }
two <- function(d) { d <- d[d$bait != "squid", ]; d$bait <- factor(as.character(d$bait), c("mullet", "scad")); d }
share <- function(id, description, d, by, ...) adjusted(id, description, tallied(d, c("line", by)), reformulate(c("line", by), "cbind(hooked, missed)"), binomial(), "line", "braid", "mono", "bites", ...)
rate <- function(id, description, d, by) adjusted(id, description, tallied(two(d), c("bait", by)), reformulate(c("bait", by, "offset(log(hours))"), "bites"), poisson(), "bait", "scad", "mullet", "hours")
share("share-40-trips", "40 trips, three covariates", season(31, 40, 8, .7), c("reach", "bait", "month"))
share("share-whole-trips", "each trip fished one line only", season(32, 24, 7, .6, split = TRUE), c("reach", "bait"))
share("share-few-trips", "6 trips, reach alone", season(33, 6, 9, .5), "reach")
share("share-rare", "braid on one bite in twelve", season(34, 30, 6, .6, braid = .08), "reach")
share("share-high", "nearly every bite is hooked", season(35, 30, 8, .5, hookBase = 2.2), c("reach", "bait"))
share("share-firth", "every bite on braid was hooked", season(36, 16, 6, .6, braid = .2, hookBase = .8, clean = "braid"), "reach", firth = TRUE)
rate("rate-24-trips", "bites per line-hour by bait, reach and month held equal", soaks(37, 24, 7, .5, 3), c("reach", "month"))
rate("rate-8-trips", "the same on 8 trips", soaks(38, 8, 8, .6, 2, months = 2), "reach")
out <- list(topic = "28-adjusted-tallies", source = "as 22-adjusted-and-index", cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", na = "null", pretty = FALSE), "28-adjusted-tallies.json")
