# An opinion from outside on the demo season: joins bites to soaks and reels, fits the adjusted
# comparison with trip-clustered CR2 errors (clubSandwich) and prints a verdict for each question.
#   Rscript data-samples/make/verdicts.R data-samples/port-vellamy
# It shares no code with the project. Needs R with clubSandwich; nothing else in the project does.
suppressMessages(library(clubSandwich))
folder <- commandArgs(TRUE)[1]
read <- function(file) read.csv(file.path(folder, file), colClasses = "character")
trips <- read("trips.csv"); soaks <- read("soaks.csv"); bites <- read("bites.csv"); spools <- read("spools.csv")

minute <- function(x) { p <- strsplit(x, ":"); sapply(p, function(v) if (length(v) == 2) as.numeric(v[1]) * 60 + as.numeric(v[2]) else NA) }
bites <- bites[!duplicated(bites), ]
bites$bait <- sub("mackrel", "mackerel", bites$bait)
bites$date <- trips$date[match(bites$trip_id, trips$trip_id)]
start <- minute(trips$lines_in)[match(soaks$trip_id, trips$trip_id)]; start[is.na(start)] <- 0
past <- function(t, s) ifelse(t + 1 < s, t + 1440, t)          # after midnight
soaks$a <- past(minute(soaks$time_in), start); soaks$b <- past(minute(soaks$time_out), start)
bstart <- minute(trips$lines_in)[match(bites$trip_id, trips$trip_id)]; bstart[is.na(bstart)] <- 0
bites$t <- past(minute(bites$time), bstart)
own <- sapply(seq_len(nrow(bites)), function(i) {
  k <- which(soaks$trip_id == bites$trip_id[i] & soaks$position == bites$position[i] & soaks$a <= bites$t[i] & bites$t[i] <= soaks$b)
  if (length(k)) k[which.max(soaks$a[k])] else NA })
bites$leader_lb <- soaks$leader_lb[own]; bites$hook_model <- soaks$hook_model[own]
held <- function(rod, date) { k <- which(spools$rod == rod & spools$date <= date); k[which.max(rank(spools$date[k], ties.method = "first"))] }
reel <- mapply(held, bites$rod, bites$date)
bites$line_type <- spools$line_type[reel]; bites$line_class_lb <- spools$line_class_lb[reel]

bites$reach <- sub("^flat-.*", "flat", sub("^(port|starboard)-", "", bites$position)); bites$reach[bites$reach == ""] <- NA
bites$month <- substr(bites$date, 1, 7)
wind <- as.numeric(trips$wind_kn)[match(bites$trip_id, trips$trip_id)]
bites$wind_band <- findInterval(wind, c(1, 4, 7, 11, 17, 22, 28))
bites$hooked <- as.numeric(bites$outcome != "missed")

verdict <- function(lo, hi, margin = 0.05) if (lo > -margin && hi < margin) "alike" else if (lo > 0 || hi < 0) "clear" else "open"

# Plain clustered difference: one linear model of hooked on the factor, CR2 and Satterthwaite.
plain <- function(d) { m <- lm(hooked ~ x, d); ct <- coef_test(m, vcovCR(m, d$trip_id, "CR2"), test = "Satterthwaite")["x", ]
  ct$beta + c(0, -1, 1) * ct$SE * qt(.975, ct$df_Satt) }

sameday <- function(d) {
  tab <- aggregate(cbind(hooked, n = 1) ~ trip_id + x, d, sum)
  A <- tab[tab$x == 1, ]; B <- tab[tab$x == 0, ]; both <- merge(A, B, by = "trip_id")
  if (nrow(both) < 2) return(c(NA, NA, NA))
  a <- both$hooked.x; n1 <- both$n.x; b <- both$hooked.y; n0 <- both$n.y; w <- n1 * n0 / (n1 + n0); W <- sum(w)
  rd <- sum((a * n0 - b * n1) / (n1 + n0)) / W; u <- ((a * n0 - b * n1) / (n1 + n0) - rd * w) / W; h <- w / W
  v <- sum(u^2 / (1 - h)); ai <- h / (1 - h) ; bi <- ai * h
  df <- 1 / (sum(ai^2) - 2 * sum(ai * bi) + sum(bi)^2)
  rd + c(0, -1, 1) * sqrt(v) * qt(.975, df)
}

adjusted <- function(d) {
  d <- d[complete.cases(d[, c("reach", "bait", "month", "wind_band")]), ]
  if (any(table(d$month, d$x)[, 1] > 0 & table(d$month, d$x)[, 2] > 0) == FALSE) return(rep(NA, 3))
  for (v in c("reach", "bait", "month", "wind_band")) d <- d[ave(d$hooked, d[[v]]) %% 1 != 0, ]
  m <- glm(hooked ~ x + reach + bait + month + factor(wind_band), binomial, d, epsilon = 1e-12)
  V <- vcovCR(m, d$trip_id, "CR2")
  set <- function(x) { X <- model.matrix(m); X[, "x"] <- x; p <- plogis(drop(X %*% coef(m))); list(p = mean(p), g = colMeans(X * p * (1 - p))) }
  one <- set(1); zero <- set(0); g <- one$g - zero$g
  df <- coef_test(m, V, test = "Satterthwaite")["x", "df_Satt"]
  (one$p - zero$p) + c(0, -1, 1) * sqrt(drop(t(g) %*% V %*% g)) * qt(.975, df)
}

truth <- jsonlite::fromJSON(file.path(folder, "truth.json"))$comparisons
show <- function(x) if (is.na(x[1])) "none" else sprintf("%+.1f (%+.1f to %+.1f)", 100 * x[1], 100 * x[2], 100 * x[3])
cat(sprintf("%d trips, %d soaks, %d bites, hookup %.1f %%\n", nrow(trips), nrow(soaks), nrow(bites), 100 * mean(bites$hooked)))
for (i in seq_len(nrow(truth))) {
  f <- truth$factor[i]; l <- truth$between[[i]]
  d <- bites[bites[[f]] %in% l, ]; d$x <- as.numeric(d[[f]] == l[1])
  adj <- adjusted(d); same <- sameday(d)
  first <- if (!is.na(adj[1])) adj else same
  cat(sprintf("%s %s-%s (%d, %d bites): true %+.1f | as logged %s | same day %s | adjusted %s | %s\n", f, l[1], l[2],
    sum(d$x), sum(1 - d$x), 100 * truth$true_difference[i], show(plain(d)), show(same), show(adj),
    if (is.na(first[1])) "tied" else verdict(first[2], first[3])))
}
