# Rates of the sample season port-vellamy by many factors, worked out from its CSV files alone: matching of bites with
# soaks, line-hours, levels, tallies and intervals. Written from the description of the log and of the estimates; no
# code of the project. Run: Rscript 25-season-rates.R   (needs jsonlite, yaml; writes 25-season-rates.json beside it)
#
# Bite and soak: same trip and position, open at the bite's minute, both ends included, the later soak if two; a bite
#   without a time meets the only soak of its trip and position; a timed bite that meets no timed soak meets the only
#   soak there with hours but no times.
# Line-hours: real time from in to out, or hours, less the minutes of the fights on that soak, never below zero.
#   A trip without soak rows has hours fished x lines fished, divided only by what belongs to the whole trip or the clock.
# Levels of a bite: its own cells, then its soak's, then its rod's spool of that day; of a soak: its own, then the spool.
# Per line-hour a bite counts where the level of its own soak is the bite's own, on trips with hours above zero.
# By the hour: a soak's minutes lie in the hours of the clock, a fight takes its own minutes first; what lies beyond the
#   soak's end, or has no time, is taken off the rest in proportion. A soak without times has no hour.
# Age of line: trips on which the rod was out or bitten since its last filling, the trip itself included.
# Proportions: Wilson on N/d with t, CR2 variance over trips, Bell-McCaffrey degrees of freedom; 0 or 1: Clopper-Pearson
#   on N/d with the within-trip correlation of the whole log; one trip: Wilson. Rates: ratio of totals, Garwood on
#   effective events; no events or one trip: Garwood.
suppressPackageStartupMessages({ library(jsonlite); library(yaml) })
options(digits = 15)
args <- commandArgs(FALSE)
here <- dirname(normalizePath(sub("--file=", "", args[grep("--file=", args)])))
dir <- file.path(here, "../../data-samples/port-vellamy")
LEVEL <- 0.95; al <- (1 - LEVEL) / 2

# ---- the log --------------------------------------------------------------------------------------------------
read <- function(name) read.csv(file.path(dir, paste0(name, ".csv")), colClasses = "character", na.strings = "", check.names = FALSE)
clock <- function(x) 60 * as.numeric(sub(":.*", "", x)) + as.numeric(sub(".*:", "", x))
first_of <- function(...) { v <- list(...); out <- v[[1]]; for (w in v[-1]) out[is.na(out)] <- w[is.na(out)]; out }
yaml <- read_yaml(file.path(dir, "season.yaml")); trips <- read("trips"); soaks <- read("soaks"); spools <- read("spools")
bites <- unique(read("bites"))   # one row stands twice
named <- function(x, vocabulary) { for (n in names(vocabulary)) x[tolower(x) %in% tolower(c(n, vocabulary[[n]]))] <- n; x }
bites$bait <- named(bites$bait, yaml$baits); soaks$bait <- named(soaks$bait, yaml$baits)
hook <- function(x) sub("^(\\d+)-0$", "\\1/0", x); bites$hook_size <- hook(bites$hook_size); soaks$hook_size <- hook(soaks$hook_size)
reach <- setNames(vapply(yaml$positions, `[[`, "", "reach"), vapply(yaml$positions, `[[`, "", "name"))
K <- nrow(trips); bites$t <- match(bites$trip_id, trips$trip_id); soaks$t <- match(soaks$trip_id, trips$trip_id)

# ---- real time: minutes since 1970; a clock time belongs to the trip's day or the next, whichever is nearer to the trip
stopifnot(yaml$time_zone == "Indian/Mauritius"); AHEAD <- 240   # minutes ahead of UTC, all year
day <- as.numeric(as.Date(trips$date)) * 1440; real <- function(t, minutes) day[t] + minutes - AHEAD
hour_of <- function(r) as.character(((r + AHEAD) %/% 60) %% 24)
from <- clock(trips$lines_in); to <- clock(trips$lines_out); to <- ifelse(to < from, to + 1440, to)
place <- function(t, m) { gap <- function(v) ifelse(is.na(from[t]), 0, pmax(0, from[t] - v, v - to[t]))
  ifelse(gap(m + 1440) < gap(m), m + 1440, m) }
trips$hours <- first_of((to - from) / 60, as.numeric(trips$hours_fished))
into <- place(soaks$t, clock(soaks$time_in)); out <- clock(soaks$time_out)
out <- ifelse(out < into %% 1440, out + 1440, out) + into %/% 1440 * 1440
soaks$a <- real(soaks$t, into); soaks$z <- real(soaks$t, out); bites$at <- real(bites$t, place(bites$t, clock(bites$time)))

# ---- which soak, which levels ---------------------------------------------------------------------------------
there <- split(seq_len(nrow(soaks)), paste(soaks$t, soaks$position))
bites$s <- vapply(seq_len(nrow(bites)), function(k) {
  mine <- there[[paste(bites$t[k], bites$position[k])]]; at <- bites$at[k]
  if (is.na(at)) return(if (length(mine) == 1) mine else NA_integer_)
  open <- mine[which(soaks$a[mine] <= at & at <= soaks$z[mine])]; bare <- mine[is.na(soaks$a[mine])]
  if (length(open)) open[order(soaks$a[open], open)][length(open)] else if (length(bare) == 1) bare else NA_integer_
}, 0L)
spool_of <- function(rod, t) mapply(function(r, d) { i <- which(spools$rod == r & spools$date <= d)
  if (length(i)) i[order(spools$date[i])][length(i)] else NA_integer_ }, rod, trips$date[t])
soaks$spool <- spool_of(soaks$rod, soaks$t); soaks$line_type <- first_of(soaks$line_type, spools$line_type[soaks$spool])
for (c in c("bait", "rod", "line_type", "hook_size")) bites[[c]] <- first_of(bites[[c]], soaks[[c]][bites$s])
bites$spool <- spool_of(bites$rod, bites$t); bites$line_type <- first_of(bites$line_type, spools$line_type[bites$spool])
bites$reach <- unname(reach[bites$position]); soaks$reach <- unname(reach[soaks$position])
turn <- rank(paste(trips$date, sprintf("%05d", ifelse(is.na(from), 0, from))), ties.method = "first")
used <- unique(rbind(bites[c("rod", "t")], soaks[c("rod", "t")]))
band <- function(d) {
  n <- mapply(function(r, s, t) sum(used$rod == r & trips$date[used$t] >= spools$date[s] & turn[used$t] <= turn[t]),
    d$rod, d$spool, d$t)
  low <- 5 * ((n - 1) %/% 5) + 1; ifelse(n > 20, "21 trips or more", paste0(low, "-", low + 4, " trips")) }
bites$line_age_band <- band(bites); soaks$line_age_band <- band(soaks)
bites$hour_of_day <- hour_of(bites$at)
trips$month <- substr(trips$date, 1, 7)
beaufort <- c(0, 3, 6, 10, 16, 21, 27, 33, 40, 47, 55, 63)   # upper bounds in knots
trips$wind_band <- as.character(findInterval(round(as.numeric(trips$wind_kn)), beaufort, left.open = TRUE))
OF_TRIP <- c("month", "wind_band"); for (c in OF_TRIP) { bites[[c]] <- trips[[c]][bites$t]; soaks[[c]] <- trips[[c]][soaks$t] }

# ---- line-hours -----------------------------------------------------------------------------------------------
is <- function(...) as.numeric(bites$outcome %in% c(...))
bites$bites <- rep(1, nrow(bites)); bites$hooked <- is("lost", "released", "kept"); bites$caught <- is("released", "kept")
bites$released <- is("released"); bites$kept <- is("kept")
fight <- ifelse(bites$hooked == 1, first_of(as.numeric(bites$fight_min), rep(0, nrow(bites))), 0)
fought <- tapply(fight, factor(bites$s, seq_len(nrow(soaks))), sum); fought[is.na(fought)] <- 0
soaks$gross <- first_of(soaks$z - soaks$a, as.numeric(soaks$hours) * 60); soaks$net <- pmax(0, soaks$gross - fought) / 60
bare <- setdiff(seq_len(K), soaks$t)   # trips without soak rows
WANTED <- c("bait", "position", "reach", "line_type", "hook_size", "line_age_band", OF_TRIP)
whole <- as.data.frame(setNames(rep(list(rep(NA_character_, length(bare))), length(WANTED)), WANTED))
whole <- cbind(whole, t = bare, net = trips$hours[bare] * as.numeric(trips$lines_fished[bare]), s = NA_integer_)
for (c in OF_TRIP) whole[[c]] <- trips[[c]][bare]
whole$a <- real(bare, from[bare]); whole$z <- real(bare, to[bare])
soaks$s <- seq_len(nrow(soaks)); effort <- rbind(soaks[names(whole)], whole)
timed <- which(!is.na(effort$a))
by_hour <- do.call(rbind, lapply(timed, function(q) {
  minute <- seq(effort$a[q], effort$z[q] - 1); left <- rep(1, length(minute))
  k <- which(bites$s == effort$s[q] & fight > 0 & !is.na(bites$at))
  for (b in k[order(bites$at[k])]) {   # a fight while another lasts takes the next free minutes
    need <- min(bites$at[b] + fight[b], effort$z[q]) - bites$at[b]
    for (m in c(which(minute >= bites$at[b]), rev(which(minute < bites$at[b])))) {
      take <- min(left[m], need); left[m] <- left[m] - take; need <- need - take }
  }
  share <- tapply(left, hour_of(minute), sum)
  data.frame(q = q, hour_of_day = names(share), net = effort$net[q] * as.numeric(share) / max(1e-9, sum(left)))
}))
by_hour <- cbind(effort[by_hour$q, setdiff(names(effort), "net")], by_hour[c("hour_of_day", "net")])

# ---- intervals ------------------------------------------------------------------------------------------------
bm_df <- function(h, N) { a <- h / (N * (1 - h)); b <- a * h; N^-2 / (sum(a^2) - 2 * sum(a * b) + sum(b)^2) }
wilson <- function(p, n, q) (p + q^2 / (2 * n) + c(-1, 1) * q * sqrt(p * (1 - p) / n + q^2 / (4 * n^2))) / (1 + q^2 / n)
design <- function(x, n, expected) { R <- sum(x) / sum(n); h <- n / sum(n)
  max(1, sum((x - R * n)^2 / (1 - h)) / sum(n)^2 / expected(R, sum(n))) }
figure <- function(x, n, w, d) list(trips = length(n), numerator = sum(x), denominator = sum(n),
  estimate = if (length(n)) sum(x) / sum(n) else NA, lower = w[1], upper = w[2], design_effect = d)
binomial <- function(p, N) p * (1 - p) / N
proportion <- function(x, n, icc) {
  x <- x[n > 0]; n <- n[n > 0]; N <- sum(n); p <- sum(x) / N
  if (length(n) == 0) return(figure(x, n, c(NA, NA), NA))
  if (length(n) == 1) return(figure(x, n, wilson(p, N, qnorm(1 - al)), NA))
  if (p == 0 || p == 1) { d <- 1 + (sum(n^2) / N - 1) * icc; m <- N / d; s <- p * m
    return(figure(x, n, c(if (p == 0) 0 else qbeta(al, s, m - s + 1), if (p == 1) 1 else qbeta(1 - al, s + 1, m - s)), d)) }
  d <- design(x, n, binomial); figure(x, n, wilson(p, N / d, qt(1 - al, bm_df(n / N, N))), d)
}
rate <- function(x, e) {
  x <- x[e > 0]; e <- e[e > 0]; E <- sum(e); C <- sum(x)
  garwood <- function(D) c(qgamma(al, C / D) * D / E, qgamma(1 - al, C / D + 1) * D / E)
  if (length(e) == 0) return(figure(x, e, c(NA, NA), NA))
  if (length(e) == 1 || C == 0) return(figure(x, e, garwood(1), NA))
  d <- design(x, e, function(R, E) R / E)
  figure(x, e, garwood(d * (qt(1 - al, bm_df(e / E, E)) / qnorm(1 - al))^2), d)
}

# ---- tables ---------------------------------------------------------------------------------------------------
COUNTS <- c("bites", "hooked", "caught", "released", "kept")
PROPORTIONS <- list(hookup_rate = c("hooked", "bites"), caught_rate = c("caught", "hooked"),
  release_rate = c("released", "hooked"), bite_to_boat = c("caught", "bites"))
RATES <- list(bites_per_line_hour = "bites", hookups_per_line_hour = "hooked",
  caught_per_line_hour = "caught", released_per_line_hour = "released")
tally <- function(v, t) { out <- numeric(K); r <- rowsum(v, t); out[as.integer(rownames(r))] <- r; out }
icc <- lapply(PROPORTIONS, function(m) {
  x <- tally(bites[[m[1]]], bites$t); n <- tally(bites[[m[2]]], bites$t); k <- n > 0
  min(1, max(0, (design(x[k], n[k], binomial) - 1) / (sum(n^2) / sum(n) - 1))) })
key <- function(d, by) do.call(paste, c(lapply(by, function(c) first_of(d[[c]], rep("not recorded", nrow(d)))), sep = "|"))
table_by <- function(by) {
  e <- if ("hour_of_day" %in% by) by_hour else effort
  if (!all(by %in% c(OF_TRIP, "hour_of_day"))) e <- e[!is.na(e$s), ]   # a whole trip's hours have no bait, no rod
  source_of <- function(d) ifelse(is.na(d$s), paste("trip", d$t), paste("soak", d$s))
  kb <- key(bites, by); ke <- key(e, by); on <- paste(source_of(bites), kb) %in% paste(source_of(e), ke)
  lapply(unique(c(kb, ke)), function(k) {
    b <- bites[kb == k, ]; o <- bites[kb == k & on, ]; h <- e[ke == k, ]
    hours <- if (nrow(h)) tally(h$net, h$t) else numeric(K)
    count <- function(d, what) if (nrow(d)) tally(d[[what]], d$t) else numeric(K)
    shares <- lapply(PROPORTIONS, function(m) c(count(b, m[1]), count(b, m[2])))
    c(list(by = as.list(setNames(strsplit(k, "|", fixed = TRUE)[[1]], by))),
      lapply(setNames(nm = COUNTS), function(c) sum(b[[c]])),
      list(line_hours = if (nrow(h)) sum(h$net) else NA, effort_cover = if (nrow(b)) nrow(o) / nrow(b) else NA,
        measures = c(Map(function(v, r) proportion(v[1:K], v[K + 1:K], r), shares, icc),
          lapply(RATES, function(m) rate(count(o, m), hours)))))
  })
}
FACTORS <- list("bait", "position", "reach", "line_type", "hook_size", "month", "wind_band", "hour_of_day",
  "line_age_band", c("bait", "reach"))
exact <- list(rel = 0, abs = 0); hours <- list(rel = 0, abs = 1e-9)
tolerance <- list(rel = 1e-6, abs = 1e-12, byKey = c(lapply(setNames(nm = c(COUNTS, "trips", "numerator")),
  function(c) exact), list(line_hours = hours, denominator = hours)))
cases <- lapply(FACTORS, function(by) list(id = paste0("port-vellamy-", paste(by, collapse = "-")),
  description = paste("the sample season port-vellamy by", paste(by, collapse = " and ")),
  inputs = list(season = "port-vellamy", by = as.list(by), level = LEVEL),
  expected = list(rows = table_by(by)), tolerance = tolerance, provenance = "own R formulas in 25-season-rates.R"))
writeLines(toJSON(list(topic = "rates of a whole season",
  source = paste("25-season-rates.R; intervals: Bell & McCaffrey 2002; Kott & Carr 1997; Garwood 1936;",
    "Korn & Graubard 1998"), generatedWith = R.version.string, cases = cases),
  auto_unbox = TRUE, digits = I(15), na = "null", pretty = 1), file.path(here, "25-season-rates.json"))
