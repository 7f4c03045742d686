# Which demands are called missing, by group: a multilevel model of this study.
#
# Written by @PROGRAM@ beside the table that it reads. Run it in this folder:
#
#     Rscript model.R
#
# It needs R and the package lme4. A new run of study writes this file anew, so
# copy it before you change it.
#
# "Missing" means not found by the program, never not known by the writer.
#
# The model: whether a demand is missing, by logistic regression on the group
# and on the demand that was asked, with a random intercept for each level of
# what answers come from together (class, student, response), so that a class
# in which everybody leaves much open is not taken for many separate answers.
#
# Sources
# - lme4: Bates D, Maechler M, Bolker B, Walker S (2015) Fitting linear
#   mixed-effects models using lme4. J Statistical Software 67(1):1-48.
# - With many demands they get a random intercept too, crossed with the others:
#   Baayen RH, Davidson DJ, Bates DM (2008) Mixed-effects modeling with crossed
#   random effects for subjects and items. J Memory and Language 59:390-412.
# - From odds ratios within a class to odds ratios over all writers: Zeger SL,
#   Liang KY, Albert PS (1988) Models for longitudinal data: a generalized
#   estimating equation approach. Biometrics 44:1049-1060.
# - Likeness on the scale of the logit: Snijders TAB, Bosker RJ (2012)
#   Multilevel Analysis, 2nd ed. London: Sage, section 17.2.

# ---- What the study was asked for --------------------------------------------

demands_file <- "@TABLE@"
groups <- c(@GROUPS@) # columns to compare; each gets a model of its own
clusters <- c(@CLUSTERS@) # what answers come from together, the widest first
draft <- @DRAFT@ # the column that tells drafts apart
left_out <- @LEFT_OUT@ # whether the column left_out says what does not count
level <- @LEVEL@ # of the intervals

# Up to so many demands each has an effect of its own; beyond, they are drawn
# from a normal distribution (a choice, no source).
most_fixed <- 30

# ---- Reading ------------------------------------------------------------------

if (!requireNamespace("lme4", quietly = TRUE)) {
  stop("this script needs the package lme4: install.packages(\"lme4\")")
}
suppressPackageStartupMessages(library(lme4))

rows <- read.csv(demands_file,
  colClasses = "character", check.names = FALSE,
  na.strings = character(0), encoding = "UTF-8"
)

# The program's own columns come first, those of the responses after them, and
# a name may stand in both.
own <- function(name) rows[[match(name, names(rows))]]
given <- function(name) {
  at <- which(enc2utf8(names(rows)) == enc2utf8(name))
  if (length(at) == 0) stop("the table has no column ", name)
  rows[[max(at)]]
}

data <- data.frame(
  missing = as.integer(own("verdict") == "missing"),
  demand = paste(own("prompt_id"), own("part"), own("demand"), sep = " / ")
)
response <- own("response_id")
counts <- own("verdict") != "unchecked"
if (left_out) counts <- counts & given("left_out") == ""
if (!is.null(draft)) data$draft <- given(draft)

# Each level holds the next one; an answer that does not say where it comes
# from stands alone.
unit <- NULL
levels_of_data <- list()
for (name in c(clusters, "response_id")) {
  value <- if (name == "response_id") response else given(name)
  value <- ifelse(trimws(value) == "", paste("response", response), value)
  unit <- if (is.null(unit)) value else paste(unit, value, sep = " / ")
  levels_of_data[[name]] <- unit
}

number <- function(x, digits = 3) formatC(x, digits = digits, format = "f")

# ---- The model of one column ----------------------------------------------------

model <- function(column) {
  cat("\n== By ", column, " ==\n", sep = "")
  data$group <- given(column)
  units <- as.data.frame(levels_of_data, optional = TRUE)[counts, , drop = FALSE]
  data <- data[counts, ]

  # A demand that everybody meets, or nobody, says nothing about the groups.
  several <- length(unique(data$demand)) > 1
  fixed <- length(unique(data$demand)) <= most_fixed
  if (several && fixed) {
    share <- tapply(data$missing, data$demand, mean)
    silent <- names(share)[share == 0 | share == 1]
    if (length(silent) > 0) {
      cat(
        length(silent), "demands are missing in all responses or in none and are left out:",
        paste(silent, collapse = "; "), "\n"
      )
      units <- units[!data$demand %in% silent, , drop = FALSE]
      data <- data[!data$demand %in% silent, ]
    }
  }
  data$group <- factor(data$group, levels = sort(unique(data$group), method = "radix"))
  data$demand <- factor(data$demand)
  rate <- tapply(data$missing, data$group, mean)
  print(data.frame(
    group = names(rate), demands = as.vector(table(data$group)),
    missing = number(as.vector(rate))
  ), row.names = FALSE)
  if (nlevels(data$group) < 2 || any(rate == 0 | rate == 1)) {
    cat("No model: there is one group only, or a group with all or no demands missing.\n")
    return(invisible(NULL))
  }

  # A level counts where it puts together what the next one keeps apart.
  terms <- "group"
  if (nlevels(data$demand) > 1) terms <- c(terms, if (fixed) "demand" else "(1 | demand)")
  if (!is.null(draft) && draft != column && length(unique(data$draft)) > 1) {
    terms <- c(terms, "draft")
  }
  names_of_units <- character(0)
  before <- 1
  for (at in seq_along(units)) {
    here <- length(unique(units[[at]]))
    if (here > before && here < nrow(data)) {
      data[[paste0("unit", at)]] <- factor(units[[at]])
      terms <- c(terms, paste0("(1 | unit", at, ")"))
      names_of_units <- c(names_of_units, setNames(names(units)[at], paste0("unit", at)))
      before <- here
    }
  }
  if (length(names_of_units) == 0) {
    cat("No model: no two demands come from together; plain logistic regression will do.\n")
    return(invisible(NULL))
  }

  # With one random effect the integral is computed by quadrature, else by
  # Laplace's approximation, the only way lme4 has.
  random <- sum(grepl("|", terms, fixed = TRUE))
  formula <- as.formula(paste("missing ~", paste(terms, collapse = " + ")))
  fit <- glmer(formula,
    data = data, family = binomial, nAGQ = if (random == 1) 10 else 1,
    control = glmerControl(optimizer = "bobyqa", optCtrl = list(maxfun = 1e5))
  )
  without <- update(fit, . ~ . - group)

  variances <- as.data.frame(VarCorr(fit))
  spread <- sum(variances$vcov)
  cat("\nWhat answers come from together (standard deviation on the logit scale):\n")
  for (at in seq_len(nrow(variances))) {
    name <- variances$grp[at]
    shown <- if (name %in% names(names_of_units)) names_of_units[[name]] else name
    cat(" ", shown, ": ", number(variances$sdcor[at]), ", likeness ",
      number(variances$vcov[at] / (spread + pi^2 / 3)), "\n",
      sep = ""
    )
  }

  estimates <- coef(summary(fit))
  estimates <- estimates[startsWith(rownames(estimates), "group"), , drop = FALSE]
  z <- qnorm(1 - (1 - level) / 2)
  # Over all writers the same difference looks smaller than within one class.
  shrink <- sqrt(1 + (16 * sqrt(3) / (15 * pi))^2 * spread)
  cat("\nOdds of a missing demand, against ", levels(data$group)[1], ":\n", sep = "")
  print(data.frame(
    group = levels(data$group)[-1],
    odds_ratio = number(exp(estimates[, "Estimate"])),
    low = number(exp(estimates[, "Estimate"] - z * estimates[, "Std. Error"])),
    high = number(exp(estimates[, "Estimate"] + z * estimates[, "Std. Error"])),
    p = number(estimates[, "Pr(>|z|)"], 4),
    over_all_writers = number(exp(estimates[, "Estimate"] / shrink))
  ), row.names = FALSE)
  test <- anova(without, fit)
  cat("\nAny difference of groups (likelihood ratio): chi-squared ",
    number(test$Chisq[2]), " on ", test$Df[2], " df, p = ", number(test$`Pr(>Chisq)`[2], 4), "\n",
    sep = ""
  )
  if (isSingular(fit)) {
    cat("Note: a level shows no likeness beyond chance (its standard deviation is 0).\n")
  }
  few <- length(unique(units[[1]]))
  if (few < 30) {
    cat("Caution: only ", few, " clusters (", names(units)[1], "); these intervals are then too short.",
      " Those of summary.json allow for few clusters.\n",
      sep = ""
    )
  }
  invisible(fit)
}

cat("lme4 ", as.character(packageVersion("lme4")), ", R ", as.character(getRversion()), "; ",
  sum(counts), " demands that were checked, intervals at level ", level, "\n",
  sep = ""
)
for (column in groups) model(column)
