# 29 the adjusted comparison where a level of a covariate was met on one trip only, so that trip alone decides its coefficient:
# clubSandwich leaves the direction out of the root of I - H (Moore-Penrose) and takes nothing for it. Tallies as in 28.
# All data are made up. Run in this folder: Rscript 29-levels-of-one-trip.R   (writes 29-levels-of-one-trip.json)
text <- readLines("28-adjusted-tallies.R"); eval(parse(text = text[seq(grep("^text <- readLines", text), grep("^share\\(", text)[1] - 1)]))
one <- function(d, column, trips, level) { v <- as.character(d[[column]]); v[d$trip %in% trips] <- level; d[[column]] <- factor(v, sort(unique(v))); d }
share("month-of-one-trip", "one trip in a month of its own", one(season(51, 30, 7, .6), "month", 30, "2031-07"), c("reach", "bait", "month"))
share("two-of-them", "two months of one trip each, 14 trips", one(one(season(52, 14, 9, .8), "month", 14, "2031-07"), "month", 1, "2031-03"), c("reach", "month"))
share("bait-of-one-trip", "a bait tried on one trip, which fished nothing else", one(season(53, 20, 8, .7), "bait", 7, "squid2"), c("reach", "bait"))
late <- season(54, 24, 8, .6); late <- late[(late$month == "2031-06") == (late$line == "braid") | late$trip == 3, ]; late <- late[late$month != "2031-04" | late$trip %in% c(3, 5), ]
many <- late$trip == 3 & late$line == "braid"; for (k in c("bites", "hooked", "missed")) late[many, k] <- 5 * late[many, k]
share("line-by-month", "the line changed with the month and met the other on one trip", late, c("reach", "month"))
rate("rate-month-of-one-trip", "bites per line-hour where one month has one trip", one(soaks(55, 18, 7, .5, 3), "month", 18, "2031-08"), c("reach", "month"))
out <- list(topic = "29-levels-of-one-trip", source = "as 22-adjusted-and-index", cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = I(15), null = "null", na = "null", pretty = FALSE), "29-levels-of-one-trip.json")
