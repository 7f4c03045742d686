# Which demands are called missing, by group: a model of this study that heeds
# what answers come from together.
#
# Written by @PROGRAM@ beside the table that it reads. Run it in this folder:
#
#     python3 model.py
#
# It needs Python 3 with pandas and statsmodels. A new run of study writes this
# file anew, so copy it before you change it.
#
# "Missing" means not found by the program, never not known by the writer.
#
# The model: whether a demand is missing, by logistic regression on the group
# and on the demand that was asked, fitted by generalized estimating equations
# (GEE) with the same correlation for any two demands from one class (or from
# whatever the widest cluster is).
#
# Why GEE and not a model with random intercepts, as model.R has: for yes-or-no
# outcomes statsmodels fits those only as BinomialBayesMixedGLM, by a variational
# approximation, which makes intervals too short, or at the mode of the posterior;
# neither has an interval with a known level. GEE keeps its level even if demands
# of a class are correlated in another way than assumed, and the covariance of
# Mancl and DeRouen corrects it for a small number of classes. It answers another
# question: the odds ratio over all writers, which is nearer to 1 than that
# within a class. model.R prints both, so that the two scripts can be compared.
#
# Sources
# - GEE: Liang KY, Zeger SL (1986) Longitudinal data analysis using generalized
#   linear models. Biometrika 73:13-22.
# - Few clusters: Mancl LA, DeRouen TA (2001) A covariance estimator for GEE with
#   improved small-sample properties. Biometrics 57:126-134. With Student's t on
#   the number of clusters less the number of groups (common practice, no source).
# - Within a class and over all writers: Zeger SL, Liang KY, Albert PS (1988)
#   Models for longitudinal data: a generalized estimating equation approach.
#   Biometrics 44:1049-1060.
# - Variational intervals: Blei DM, Kucukelbir A, McAuliffe JD (2017) Variational
#   inference: a review for statisticians. J American Statistical Association
#   112:859-877.
# - statsmodels: Seabold S, Perktold J (2010) Statsmodels: econometric and
#   statistical modeling with Python. Proc 9th Python in Science Conf, 92-96.

import sys

try:
    import numpy
    import pandas
    import scipy.stats
    import statsmodels
    import statsmodels.api as sm
    import statsmodels.formula.api as smf
except ImportError as e:
    sys.exit("this script needs pandas and statsmodels: %s" % e)

# ---- What the study was asked for -----------------------------------------------

TABLE = "@TABLE@"
GROUPS = [@GROUPS@]  # columns to compare; each gets a model of its own
CLUSTERS = [@CLUSTERS@]  # what answers come from together, the widest first
DRAFT = @DRAFT@  # the column that tells drafts apart
LEFT_OUT = @LEFT_OUT@  # whether the column left_out says what does not count
LEVEL = @LEVEL@  # of the intervals

# The correction for few clusters takes matrices as wide as the largest cluster.
MOST_IN_CLUSTER = 2000

# ---- Reading ----------------------------------------------------------------------

rows = pandas.read_csv(TABLE, header=None, dtype=str, keep_default_na=False, encoding="utf-8")
names = list(rows.iloc[0])
rows = rows.iloc[1:].reset_index(drop=True)


# The program's own columns come first, those of the responses after them, and a
# name may stand in both.
def own(name):
    return rows[names.index(name)]


def given(name):
    if name not in names:
        sys.exit("the table has no column " + name)
    return rows[len(names) - 1 - names[::-1].index(name)]


everything = pandas.DataFrame(
    {
        "missing": (own("verdict") == "missing").astype(int),
        "demand": own("prompt_id") + " / " + own("part") + " / " + own("demand"),
    }
)
counts = own("verdict") != "unchecked"
if LEFT_OUT:
    counts = counts & (given("left_out") == "")
if DRAFT is not None:
    everything["draft"] = given(DRAFT)

# An answer that does not say where it comes from stands alone.
response = own("response_id")
widest = given(CLUSTERS[0]) if CLUSTERS else response
everything["cluster"] = widest.where(widest.str.strip() != "", "response " + response)

# ---- The model of one column --------------------------------------------------------


def model(column):
    print("\n== By %s ==" % column)
    data = everything.copy()
    data["group"] = given(column)
    data = data[counts]

    # A demand that everybody meets, or nobody, says nothing about the groups.
    if data["demand"].nunique() > 1:
        share = data.groupby("demand")["missing"].mean()
        silent = sorted(share.index[(share == 0) | (share == 1)])
        if silent:
            print(
                "%d demands are missing in all responses or in none and are left out: %s"
                % (len(silent), "; ".join(silent))
            )
            data = data[~data["demand"].isin(silent)]
    groups = sorted(data["group"].unique())
    rate = data.groupby("group")["missing"].agg(["size", "mean"])
    for group in groups:
        print("%s: %d demands, %.3f missing" % (group, rate["size"][group], rate["mean"][group]))
    if len(groups) < 2 or ((rate["mean"] == 0) | (rate["mean"] == 1)).any():
        print("No model: there is one group only, or a group with all or no demands missing.")
        return
    clusters = data["cluster"].nunique()
    degrees = clusters - len(groups)
    if degrees < 1:
        print("No model: %d clusters are too few for %d groups." % (clusters, len(groups)))
        return

    terms = ["C(group)"]
    if data["demand"].nunique() > 1:
        terms.append("C(demand)")
    if DRAFT is not None and DRAFT != column and data["draft"].nunique() > 1:
        terms.append("C(draft)")
    data = data.sort_values("cluster", kind="stable")
    sizes = data["cluster"].value_counts()
    alike = sm.cov_struct.Exchangeable() if sizes.max() > 1 else sm.cov_struct.Independence()
    corrected = sizes.max() <= MOST_IN_CLUSTER
    fit = smf.gee(
        "missing ~ " + " + ".join(terms),
        groups="cluster",
        data=data,
        family=sm.families.Binomial(),
        cov_struct=alike,
    ).fit(maxiter=200, cov_type="bias_reduced" if corrected else "robust")

    print("%d clusters; likeness of demands within them: %.3f" % (clusters, likeness(alike)))
    print("Odds of a missing demand over all writers, against %s:" % groups[0])
    t = scipy.stats.t(degrees)
    for group in groups[1:]:
        name = "C(group)[T.%s]" % group
        value, error = fit.params[name], fit.bse[name]
        reach = t.ppf(1 - (1 - LEVEL) / 2) * error
        print(
            "%s: odds ratio %.3f, %.3f to %.3f, p = %.4f"
            % (
                group,
                numpy.exp(value),
                numpy.exp(value - reach),
                numpy.exp(value + reach),
                2 * t.sf(abs(value / error)),
            )
        )
    if not corrected:
        print("Note: clusters are too large for the correction for few clusters; without it.")
    if clusters < 10:
        print(
            "Caution: %d clusters are very few; the figures of summary.json say where an interval"
            " cannot be relied on." % clusters
        )


def likeness(alike):
    return float(alike.dep_params) if isinstance(alike, sm.cov_struct.Exchangeable) else 0.0


print(
    "statsmodels %s, Python %s; %d demands that were checked, intervals at level %s"
    % (statsmodels.__version__, sys.version.split()[0], counts.sum(), LEVEL)
)
for column in GROUPS:
    model(column)
