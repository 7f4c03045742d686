# Computes every kind of figure of study and agree anew from the rows, by other formulas or other
# programs where there are any, and compares with summary-*.json: Rscript recompute.R [FOLDER].
# Prints a line for each kind of figure; ends with 1 when one differs by more than 1e-6.
suppressPackageStartupMessages({ library(jsonlite) })
have <- function(p) suppressWarnings(requireNamespace(p, quietly = TRUE))
arguments <- commandArgs(TRUE)
if (length(arguments)) setwd(arguments[1])
z <- qnorm(.975)
worst <- list(); counted <- list()
same <- function(kind, expected, found) {
  expected <- as.numeric(unlist(expected)); found <- as.numeric(unlist(found))
  if (length(expected) != length(found)) stop(kind, ": ", length(expected), " figures, and here ", length(found), " are written")
  differ <- abs(expected - found) / pmax(1, abs(expected))
  if (any(is.na(differ))) stop(kind, ": not a number: ", paste(expected, found))
  worst[[kind]] <<- max(c(worst[[kind]], differ)); counted[[kind]] <<- sum(c(counted[[kind]], length(differ)))
}
wilson <- function(p, n, q = z) (p + q^2/2/n + c(-1, 1) * q * sqrt(p*(1-p)/n + q^2/4/n^2)) / (1 + q^2/n)

# Cluster-robust (CR2) from whole matrices, with Satterthwaite's degrees of freedom under a working
# model of exchangeable residuals.
cr2 <- function(X, y, g, l) {
  X <- as.matrix(X) + 0; XX <- solve(crossprod(X)); b <- XX %*% crossprod(X, y); e <- as.vector(y - X %*% b); n <- length(y)
  H <- X %*% XX %*% t(X); I <- diag(n); V <- 0; G <- NULL
  for (k in unique(g)) {
    i <- which(g == k); ev <- eigen(I[i, i, drop = FALSE] - H[i, i], symmetric = TRUE)
    A <- ev$vectors %*% diag(1 / sqrt(ev$values), length(i)) %*% t(ev$vectors)
    w <- A %*% X[i, , drop = FALSE] %*% XX %*% l; V <- V + sum(w * e[i])^2
    a <- rep(0, n); a[i] <- w; G <- cbind(G, (I - H) %*% a)
  }
  sums <- tapply(e, g, sum); size <- tapply(e, g, length)
  rho <- min(1, max(0, sum(sums^2 - tapply(e^2, g, sum)) / sum(size * (size - 1)) / (sum(e^2) / n)))
  M <- t(G) %*% ((1 - rho) * I + rho * outer(g, g, "==")) %*% G
  if (have("clubSandwich") && is.null(counted[["CR2 variance, by clubSandwich"]]) || length(counted) && isTRUE(counted[["CR2 variance, by clubSandwich"]] < 20)) {
    # the variance once more, by another program; it takes its time, so not for every figure
    fit <- lm(y ~ X - 1); C <- clubSandwich::vcovCR(fit, cluster = g, type = "CR2")
    same("CR2 variance, by clubSandwich", t(l) %*% as.matrix(C) %*% l, V)
  }
  list(est = sum(l * b), V = V, df = sum(diag(M))^2 / sum(M * M), rho = rho)
}
tint <- function(r) r$est + c(-1, 1) * qt(.975, r$df) * sqrt(r$V)
ttest <- function(kind, r, json) {
  t <- r$est / sqrt(r$V)
  same(kind, c(t, r$df, 2 * pt(-abs(t), r$df)), c(json$statistic, json$df, json$p))
}
effective <- function(p, V, df) wilson(p, p * (1 - p) / V * (z / qt(.975, df))^2)
clustered <- function(one) grepl("CR2", one$method$name)
alone <- function(one) grepl("alone", one$method$name)

study <- function(name) {
  all <- read.csv("rows.csv", colClasses = c(response = "character", writer = "character"))
  all <- all[all$set == name, ]; d <- all[all$verdict != "unchecked", ]; d$y <- as.numeric(d$verdict == "missing")
  s <- fromJSON(paste0("summary-", name, ".json"), simplifyVector = FALSE)
  part <- function(r) switch(r$by, all = rep(TRUE, nrow(d)), kind = d$kind == r$name, verb = d$verb == r$name,
    position = d$position == as.integer(r$name), length = d$band == r$name, prompt = d$prompt == r$name,
    part = , group = , demand = NULL, NULL)
  for (r in s$rates) {
    i <- part(r)
    if (is.null(i) && r$by == "group") { i <- d[[r$name]] == r$value; if (!is.null(r$kind)) i <- i & d$kind == r$kind }
    if (is.null(i) || is.null(r$omission)) next
    o <- d[i, ]; p <- mean(o$y)
    same("omission rate", c(sum(o$y), nrow(o), p), c(r$omission$count, r$omission$of, r$omission$rate))
    same("Wilson's interval, by prop.test", prop.test(sum(o$y), nrow(o), correct = FALSE)$conf.int, r$omission$wilson)
    if (clustered(r) && !is.null(r$method$df)) {
      m <- cr2(rep(1, nrow(o)), o$y, o$cluster, 1)
      same("clustered interval of a rate", effective(p, m$V, m$df), r$clustered)
      same("design effect", m$V / (p * (1 - p) / nrow(o)), r$designEffect)
      same("degrees of freedom of a rate", m$df, r$method$df)
    }
  }
  for (one in s$comparisons) {
    o <- d[d[[one$column]] %in% c(one$first, one$second), ]; if (!is.null(one$kind)) o <- o[o$kind == one$kind, ]
    f <- o[[one$column]] == one$first; n <- c(sum(f), sum(!f)); x <- c(sum(o$y[f]), sum(o$y[!f])); p <- x / n
    same("rates of groups", c(x, n), c(one$firstOmission$count, one$secondOmission$count, one$firstOmission$of, one$secondOmission$of))
    tab <- matrix(c(x, n - x), 2)
    same("test were each demand alone, by fisher.test", fisher.test(tab)$p.value, one$test$p)
    if (alone(one)) {
      w1 <- wilson(p[1], n[1]); w2 <- wilson(p[2], n[2])
      same("difference of groups, Newcombe", c(p[1] - p[2], p[1] - p[2] - sqrt((p[1] - w1[1])^2 + (w2[2] - p[2])^2), p[1] - p[2] + sqrt((w1[2] - p[1])^2 + (p[2] - w2[1])^2)),
        c(one$difference$value, one$difference$interval))
      k <- if (any(tab == 0)) tab + .5 else tab
      same("odds ratio, Woolf", exp(log(k[1, 1] * k[2, 2] / k[1, 2] / k[2, 1]) + c(0, -1, 1) * z * sqrt(sum(1 / k))), c(one$oddsRatio$value, one$oddsRatio$interval))
    } else if (clustered(one)) {
      r <- cr2(cbind(f, !f), o$y, o$cluster, c(1, -1))
      same("difference of groups, clustered", c(r$est, pmax(-1, pmin(1, tint(r)))), c(one$difference$value, one$difference$interval))
      same("degrees of freedom of a difference", r$df, one$method$df)
      ttest("t test of groups", r, one$clusteredTest)
      if (!is.null(one$oddsRatio)) {
        r <- cr2(cbind(f, !f), o$y, o$cluster, c(1, -1) / (p * (1 - p)))
        same("odds ratio, clustered", exp(log(p[1] / (1 - p[1]) / (p[2] / (1 - p[2]))) + c(0, -1, 1) * qt(.975, r$df) * sqrt(r$V)), c(one$oddsRatio$value, one$oddsRatio$interval))
      }
    }
  }
  for (column in unique(sapply(s$comparisons, `[[`, "column"))) for (whole in c(TRUE, FALSE)) {
    family <- Filter(function(one) one$column == column && is.null(one$kind) == whole, s$comparisons)
    p <- sapply(family, function(one) if (is.null(one$clusteredTest)) 1 else one$clusteredTest$p)
    h <- p.adjust(p, "holm"); tested <- sapply(family, function(one) !is.null(one$holm))
    if (any(tested)) same("Holm, by p.adjust", h[tested], sapply(family[tested], `[[`, "holm"))
  }
  for (one in s$trends) {
    step <- if (one$by == "position") d$position else d$step
    if (clustered(one)) {
      r <- cr2(cbind(1, step), d$y, d$cluster, c(0, 1))
      same("slope of a trend", c(r$est, tint(r)), c(one$slope$value, one$slope$interval)); ttest("t test of a trend", r, one$test)
    } else if (alone(one) && !is.null(one$test)) {
      test <- suppressWarnings(prop.trend.test(tapply(d$y, step, sum), tapply(d$y, step, length), sort(unique(step))))
      same("Cochran-Armitage, by prop.trend.test", c(test$statistic, test$p.value), c(one$test$statistic, one$test$p))
    }
  }
  for (one in s$coOmissions) if (is.null(one$promptId)) {
    a <- tapply(d$y[d$kind == one$first], d$response[d$kind == one$first], max); b <- tapply(d$y[d$kind == one$second], d$response[d$kind == one$second], max)
    both <- intersect(names(a), names(b)); a <- a[both]; b <- b[both]
    same("co-omission", c(sum(a & b), sum(a & !b), sum(!a & b), sum(!a & !b)), c(one$both, one$onlyFirst, one$onlySecond, one$neither))
    if (!is.null(one$phi)) same("phi, by cor", cor(a, b), one$phi)
    if (!is.null(one$lift)) same("lift", mean(a & b) / mean(a) / mean(b), one$lift)
  }
  for (level in s$levels) {
    g <- if (level$column == "response") d$response else d[[level$column]]
    if (!is.null(level$likeness)) { m <- cr2(rep(1, nrow(d)), d$y, paste(g), 1)
      same("likeness", m$rho, level$likeness); same("design effect of a level", m$V / (mean(d$y) * (1 - mean(d$y)) / nrow(d)), level$designEffect) }
  }
  if (!is.null(s$drafts)) {
    key <- function(o) paste(o$writer, o$prompt, o$part, o$demand)
    before <- d[d$round == 1, ]; after <- d[d$round == 2, ]; m <- match(key(before), key(after)); pair <- before[!is.na(m), ]; last <- after[m[!is.na(m)], ]
    ps <- NULL
    for (one in s$drafts$changes) {
      i <- if (is.null(one$kind)) rep(TRUE, nrow(pair)) else pair$kind == one$kind
      b <- pair$y[i]; a <- last$y[i]; k <- c(sum(b & a), sum(b & !a), sum(!b & a), sum(!b & !a))
      same("drafts", k, c(one$missingInBoth, one$missingInFirstOnly, one$missingInLastOnly, one$missingInNeither))
      if (alone(one)) {
        n <- sum(k) + 2; g <- (k[3] + 1) / n; l <- (k[2] + 1) / n
        same("change, adjusted Wald", c((k[3] - k[2]) / sum(k), g - l + c(-1, 1) * z * sqrt((g + l - (g - l)^2) / n)), c(one$change$value, one$change$interval))
        if (!is.null(one$test)) same("McNemar, by binom.test", binom.test(k[2], k[2] + k[3])$p.value, one$test$p)
      } else if (clustered(one)) {
        r <- cr2(rep(1, sum(i)), a - b, pair$cluster[i], 1)
        same("change, clustered", c(r$est, pmax(-1, pmin(1, tint(r)))), c(one$change$value, one$change$interval)); ttest("t test of a change", r, one$test)
      }
      if (!is.null(one$kind)) ps <- rbind(ps, c(if (is.null(one$test)) 1 else one$test$p, if (is.null(one$holm)) NA else one$holm))
    }
    if (!is.null(ps)) { h <- p.adjust(ps[, 1], "holm"); t <- !is.na(ps[, 2]); if (any(t)) same("Holm of drafts, by p.adjust", h[t], ps[t, 2]) }
  }
  agreement(name, s, d)
}

# --- coded demands ---
linear <- function(o, f, values) { # a figure of weighted sums, its variance and degrees of freedom
  w <- o$weight / sum(o$weight) * nrow(o); S <- colSums(w * values); est <- f(S); n <- nrow(o)
  grad <- sapply(seq_along(S), function(k) { h <- 1e-5 * n; up <- S; dn <- S; up[k] <- up[k] + h; dn[k] <- dn[k] - h; (f(up) - f(dn)) / 2 / h })
  u <- as.vector(values %*% grad); kish <- sum(w)^2 / sum(tapply(w, o$cluster, sum)^2) - 1
  if (length(unique(o$stratum)) < 2) {
    c <- tapply(w * u, o$cluster, sum); G <- length(c)
    return(list(est = est, V = sum(c^2) * G / (G - 1), df = kish, w = w, S = S))
  }
  V <- 0; S2 <- 0
  for (h in unique(o$stratum)) {
    i <- o$stratum == h; near <- o$near == o$near[i][1]; kin <- o$kin == o$kin[i][1]
    mass <- i + near / sum(near) + kin / sum(kin); m <- sum(mass * u) / sum(mass)
    own <- sum(i) * mean(w[i])^2 * sum(mass * (u - m)^2) / sum(mass) * (1 - sum(i) / o$size[i][1]); V <- V + own; S2 <- S2 + own^2 / max(1, sum(i) - 1)
  }
  list(est = est, V = V, df = min(kish, V^2 / S2), w = w, S = S)
}
worth <- function(o, r, v) { s <- tapply(r$w * v, o$cluster, sum); sum(s)^2 / sum(s^2) }
score <- function(p, V, df, size) if (V <= 0 || p <= 0 || p >= 1) wilson(p, size) else effective(p, V, df)
pairs <- function(a, b) cbind(n00 = !a & !b, n01 = !a & b, n10 = a & !b, n11 = a & b) + 0
kap <- function(S) { p <- S / sum(S); e <- (p[1] + p[2]) * (p[1] + p[3]) + (p[3] + p[4]) * (p[2] + p[4]); c((p[1] + p[4] - e) / (1 - e), 1 - e) }
alp <- function(S) { n <- 2 * sum(S); c0 <- 2 * S[1] + S[2] + S[3]; c1 <- n - c0; D <- 2 * c0 * c1 / n / (n - 1); c(1 - (S[2] + S[3]) / sum(S) / D, D) }
gwet <- function(S) { q <- (2 * S[4] + S[2] + S[3]) / 2 / sum(S); e <- 2 * q * (1 - q); c(((S[1] + S[4]) / sum(S) - e) / (1 - e), 1 - e) }
# The percentile bootstrap of alpha over items, with the resamples of draws.csv.
boot <- function(f, v) {
  at <- draws[draws$n == nrow(v), ]
  if (nrow(at) != nrow(v) * max(at$resample)) stop("no resamples of ", nrow(v), " items")
  b <- sort(sapply(split(at$item, at$resample), function(i) { a <- f(colSums(v[i, , drop = FALSE]))[1]; if (is.finite(a)) a else 1 }))
  c(b[floor(.025 * (length(b) - 1)) + 1], b[ceiling(.975 * (length(b) - 1)) + 1])
}
draws <- read.csv("draws.csv")

agreement <- function(name, s, d) {
  A <- s$agreement; if (is.null(A)) return()
  all <- read.csv("coded.csv", colClasses = c(response = "character", stratum = "character")); all <- all[all$set == name, ]
  plain <- length(unique(all$cluster)) == nrow(all) && all(all$weight == 1)
  most <- function(o) { k <- cbind(o$c1, o$c2); yes <- rowSums(k, na.rm = TRUE); n <- rowSums(!is.na(k)); ifelse(2 * yes == n, NA, 2 * yes > n) }
  all$truth <- most(all)
  for (sec in A$sections) {
    o <- if (is.null(sec$kind)) all else all[all$kind == sec$kind, ]
    t <- o[!is.na(o$truth), ]
    kish <- function(i, hit) c(sum(t$weight[i] * hit[i]) / sum(t$weight[i]), sum(t$weight[i])^2 / sum(t$weight[i]^2))
    for (x in list(list(!t$truth, t$program == 0, sec$sensitivity), list(t$truth == 1, t$program == 1, sec$specificity))) if (any(x[[1]])) {
      k <- kish(x[[1]], x[[2]]); same("sensitivity and specificity", c(k, wilson(k[1], k[2])), c(x[[3]]$rate, x[[3]]$size, x[[3]]$wilson)) }
    for (pr in sec$pairs) {
      pick <- function(n) switch(n, program = o$program, majority = o$truth, c1 = o$c1, c2 = o$c2)
      a <- pick(pr$first); b <- pick(pr$second); i <- !is.na(a) & !is.na(b); q <- o[i, ]; v <- pairs(a[i] == 1, b[i] == 1)
      k <- colSums(v); same("table of codes", k, unlist(pr$table))
      if (plain) {
        p <- (k[1] + k[4]) / sum(k); same("agreement", c(p, wilson(p, sum(k))), c(pr$agreement$rate, pr$agreement$wilson))
        if (have("vcd")) { K <- vcd::Kappa(matrix(k, 2, byrow = TRUE))$Unweighted
          same("kappa, by vcd", c(K, pmax(-1, pmin(1, K[1] + c(-1, 1) * z * K[2]))), c(pr$kappa$value, pr$kappaStandardError, pr$kappa$interval)) }
        share <- mean((a[i] + b[i]) / 2); e <- 2 * share * (1 - share); ag <- gwet(k)[1]; n <- sum(k)
        inf <- ((a[i] == b[i]) - e) / (1 - e) - 2 * (1 - ag) * ((((a[i] + b[i]) / 2) * (1 - share) + (1 - (a[i] + b[i]) / 2) * share) - e) / (1 - e)
        se <- sqrt(sum((inf - ag)^2) / n / (n - 1))
        same("AC1", c(ag, se, pmax(-1, pmin(1, ag + c(-1, 1) * qt(.975, n - 1) * se))), c(pr$ac1$value, pr$ac1StandardError, pr$ac1$interval))
        if (!is.null(pr$alpha)) same("alpha with its bootstrap interval", c(alp(k)[1], boot(alp, v)), c(pr$alpha$value, pr$alpha$interval))
        for (x in list(list(1, 2, "precision"), list(1, 3, "recall"), list(4, 2, "specificity"))) { m <- k[x[[1]]] + k[x[[2]]]
          if (m > 0) same("precision, recall, specificity", c(k[x[[1]]] / m, wilson(k[x[[1]]] / m, m)), c(pr$missing[[x[[3]]]]$rate, pr$missing[[x[[3]]]]$wilson)) }
      } else if (nrow(q) > 1) {
        one <- rep(1, nrow(q)); whole <- linear(q, function(S) (S[1] + S[4]) / sum(S), v)
        same("agreement, weighted and clustered", c(whole$est, score(whole$est, whole$V, whole$df, worth(q, whole, one))), c(pr$agreement$rate, pr$agreement$wilson))
        for (x in list(list("kappa", kap, pr$kappa, pr$kappaStandardError), list("alpha", alp, pr$alpha, NULL), list("AC1", gwet, pr$ac1, pr$ac1StandardError))) if (!is.null(x[[3]])) {
          r <- linear(q, function(S) x[[2]](S)[1], v); D <- x[[2]](r$S)[2]; differ <- min(1, max(0, (1 - r$est) * D))
          ends <- 1 - rev(score(differ, r$V * D^2, r$df, worth(q, r, one))) / D
          same(paste0(x[[1]], ", weighted and clustered"), c(r$est, max(-1, ends[1]), min(1, ends[2])), c(x[[3]]$value, x[[3]]$interval))
          if (!is.null(x[[4]])) same(paste0("standard error of ", x[[1]]), sqrt(r$V), x[[4]])
        }
        for (x in list(list(1, 2, "precision"), list(1, 3, "recall"), list(4, 2, "specificity"))) {
          w <- v[, x[[1]]] + v[, x[[2]]]; j <- pr$missing[[x[[3]]]]
          if (!is.null(j)) { r <- linear(q, function(S) S[x[[1]]] / (S[x[[1]]] + S[x[[2]]]), v); same("precision, recall, specificity, weighted and clustered", c(r$est, score(r$est, r$V, r$df, worth(q, r, w))), c(j$rate, j$wilson)) }
        }
        same("F1", linear(q, function(S) 2 * S[1] / (2 * S[1] + S[2] + S[3]), v)$est, pr$missing$f1)
      }
    }
    if (!is.null(sec$people)) {
      k <- cbind(o$c1, o$c2); yes <- rowSums(k, na.rm = TRUE); n <- rowSums(!is.na(k)); no <- n - yes; i <- n > 0; q <- o[i, ]
      yes <- yes[i]; no <- no[i]; n <- n[i]; two <- n >= 2
      v <- cbind(two, two * no, two * yes, ifelse(two, (n^2 - yes^2 - no^2) / (n - 1), 0), 1, yes / n, ifelse(two, (yes^2 + no^2 - n) / n / (n - 1), 0))
      fa <- function(S) { t <- S[2] + S[3]; D <- (t^2 - S[2]^2 - S[3]^2) / t / (t - 1); c(1 - S[4] / t / D, D) }
      fg <- function(S) { e <- 2 * S[6] / S[5] * (1 - S[6] / S[5]); c((S[7] / S[1] - e) / (1 - e), 1 - e) }
      for (x in list(list("alpha of people", fa, sec$people$alpha), list("AC1 of people", fg, sec$people$ac1))) if (!is.null(x[[3]])) {
        r <- linear(q, function(S) x[[2]](S)[1], v)
        if (plain && x[[1]] == "alpha of people") same("alpha of people with its bootstrap interval", c(r$est, boot(fa, v)), c(x[[3]]$value, x[[3]]$interval)) else
        if (plain) same(x[[1]], r$est, x[[3]]$value) else {
          D <- x[[2]](r$S)[2]; ends <- 1 - rev(score(min(1, max(0, (1 - r$est) * D)), r$V * D^2, r$df, worth(q, r, rep(1, nrow(q))))) / D
          same(paste0(x[[1]], ", weighted and clustered"), c(r$est, max(-1, ends[1]), min(1, ends[2])), c(x[[3]]$value, x[[3]]$interval)) }
      }
    }
  }
  t <- all[!is.na(all$truth), ]; right <- as.numeric((t$program == 1) == t$truth)
  same("Brier score", mean((right - t$confidence)^2), A$brier)
  bin <- pmin(9, floor(t$confidence * 10)); gap <- 0
  for (b in A$reliability) { i <- bin == round(b$low * 10); same("reliability", c(mean(t$confidence[i]), mean(right[i]), wilson(mean(right[i]), sum(i))), c(b$meanConfidence, b$right$rate, b$right$wilson))
    gap <- gap + sum(i) / nrow(t) * abs(mean(t$confidence[i]) - mean(right[i])) }
  same("calibration error", gap, A$calibrationError)
  for (g in A$groups) {
    x <- t[t[[g$column]] != "", ]; e <- function(o) { m <- o$truth == 0; cbind(o$program == 1 & m, m, o$program == 0 & !m, !m, 1) + 0 }
    for (one in g$errors) {
      q <- x[x[[g$column]] == one$value, ]; v <- e(q)
      for (k in list(list(1, 2, one$overlooked), list(3, 4, one$falseAlarms))) if (!is.null(k[[3]])) {
        r <- linear(q, function(S) S[k[[1]]] / S[k[[2]]], v); same("errors by group", c(r$est, score(r$est, r$V, r$df, worth(q, r, v[, k[[2]]]))), c(k[[3]]$value, k[[3]]$interval)) }
      r <- linear(q, function(S) (S[3] - S[1]) / S[5], v); same("tilt of a group", c(r$est, pmax(-1, pmin(1, tint(r)))), c(one$tilt$value, one$tilt$interval))
    }
    for (one in g$tilts) if (!is.null(one$tilt)) {
      q <- x[x[[g$column]] %in% c(one$first, one$second), ]; m <- e(q); f <- q[[g$column]] == one$first
      r <- linear(q, function(S) S[1] / S[2] - S[3] / S[4], cbind((m[, 3] - m[, 1]) * f, f, (m[, 3] - m[, 1]) * !f, !f))
      same("tilt between groups", c(r$est, pmax(-1, pmin(1, tint(r)))), c(one$tilt$value, one$tilt$interval))
    }
  }
  sizes <- read.csv("sizes.csv"); sizes <- sizes[sizes$set == name, ]
  for (one in s$corrections) if (!is.null(one$corrected)) {
    own <- if (is.null(one$kind)) d else d[d$kind == one$kind, ]
    m <- cr2(rep(1, nrow(own)), own$y, own$cluster, 1)
    deff <- max(1, m$V / (mean(own$y) * (1 - mean(own$y)) / nrow(own)))
    if (nrow(sizes)) {
      h <- if (is.null(one$kind)) sizes else sizes[sizes$kind == one$kind, ]; q <- t[t$stratum %in% h$stratum, ]; N <- sum(h$size)
      n <- sapply(h$stratum, function(k) sum(q$stratum == k)); if (any(n == 0)) next
      x <- sapply(h$stratum, function(k) sum(q$truth[q$stratum == k] == 0)); W <- h$size / N; p <- sum(W * x / n)
      towards <- function(by, to) sapply(seq_along(n), function(k) { i <- by == by[k]; (sum(x[i]) + 2 * to[k]) / (sum(n[i]) + 2) })
      r <- (x + 2 * towards(h$near, towards(h$kin, rep(.5, length(n))))) / (n + 2)
      V <- W^2 * r * (1 - r) / n * (1 - n / h$size); S2 <- sum(V^2 / pmax(1, n - 1)); V <- sum(V) + p * (1 - p) * deff / N
      same("corrected rate, by stratum", c(p, score(p, V, V^2 / S2, nrow(q))), c(one$corrected$value, one$corrected$interval))
    } else {
      se <- one$sensitivity$rate; sp <- one$specificity$rate; n <- one$apparent$of / deff; a <- one$apparent$rate
      plus <- function(j) c((j$rate * j$size + 1) / (j$size + 2), j$size + 2); s1 <- plus(one$sensitivity); s2 <- plus(one$specificity); J <- s1[1] + s2[1] - 1
      N <- n + z^2; r <- (a * n + z^2 / 2) / N; c0 <- (r + s2[1] - 1) / J; v1 <- s1[1] * (1 - s1[1]) / s1[2]; v2 <- s2[1] * (1 - s2[1]) / s2[2]
      V <- (r * (1 - r) / N + c0^2 * v1 + (1 - c0)^2 * v2) / J^2; shift <- 2 * z^2 * (c0 * v1 - (1 - c0) * v2)
      same("corrected rate, Rogan and Gladen", pmax(0, pmin(1, c((a + sp - 1) / (se + sp - 1), c0 + shift + c(-1, 1) * z * sqrt(V)))), c(one$corrected$value, one$corrected$interval))
    }
  }
}
for (name in c("clustered", "alone", "pairs")) study(name)
for (kind in names(worst)) cat(sprintf("%s: %d figures, largest difference %.1e\n", kind, as.integer(counted[[kind]]), worst[[kind]]))
cat(sprintf("kinds: %d, figures: %d, largest difference: %.1e\n", length(worst), as.integer(sum(unlist(counted))), max(unlist(worst))))
if (max(unlist(worst)) > 1e-6) quit(status = 1)
