"""Fits the judge's weights on coded answers, chooses by left-out folds, and writes the weight files.

    fit.py JUDGED.jsonl FOLDS.csv SMALL_LOG_ODDS.npz READER_LOG_ODDS.npz|- OUT_DIR

JUDGED.jsonl is what ExportJudgements writes; FOLDS.csv has set,prompt_id,fold for sets whose folds are fixed; folds.py has the rule for
the others, and which prompts are set aside (fold 9) and never read here. SMALL_LOG_ODDS.npz and READER_LOG_ODDS.npz (several with commas between) hold in `z`, by
"set id part place", the log-odds of the small reader and of the reader, each from a model that had not seen the prompt. With - the weights
beside the reader are left as they are. Needs numpy, scipy and scikit-learn (Debian: python3-sklearn).
Prints agreement (Cohen's kappa, with both errors of "missing") on the folds left out, by set, kind and style, and the calibration error.
"""
import hashlib, json, sys
import numpy as np
import folds as division
from scipy import sparse
from sklearn.linear_model import LogisticRegression
from sklearn.metrics import roc_auc_score

HEAD = """# Weights of the judge: {what}.
# Written by analyzer/training/fit.py on {date}; licence: as the project, weights only, none of the texts.
# Data: {n} coded demands on {q} prompts, {open} of them open: invented answers of this project, and answers of the Student Response
# Analysis corpus (SemEval-2013 Task 7: Dzikovska et al. 2013, CC BY-SA 3.0) and OpenStax Biology (CC BY 4.0), coded anew for coverage.
# On prompts left out (five folds): kappa {kappa:.3f}, "missing" right {p:.3f}, open ones found {r:.3f}, calibration error {ece:.3f}.
# A feature's weight for a kind of demand is its shared weight plus the one in the kind's column. docs/judge.md has the figures.
# cut: {cut:.3f}
# look-below: {look:.3f}
{sure}# checksum of the lines below (sha-256): {sum}
"""


def kappa(y, q):
    a = (y == q).mean(); e = y.mean() * q.mean() + (1 - y.mean()) * (1 - q.mean())
    return (a - e) / (1 - e) if e < 1 else 1.


def figures(y, p, cut):
    q = (p >= cut).astype(int); tp = ((y == 0) & (q == 0)).sum()
    return dict(n=len(y), open=int((y == 0).sum()), kappa=kappa(y, q), P=tp / max(1, (q == 0).sum()), R=tp / max(1, (y == 0).sum()),
                auc=roc_auc_score(y, p) if 0 < y.sum() < len(y) else float('nan'), ece=ece(y, p))


def ece(y, p, bins=10):
    """Expected calibration error over ten bins of equal width (Naeini, Cooper, Hauskrecht 2015)."""
    b = np.minimum((p * bins).astype(int), bins - 1)
    return sum(abs(y[b == k].mean() - p[b == k].mean()) * (b == k).mean() for k in range(bins) if (b == k).any())


def main(judged, folds, small, reader, out):
    fixed = division.read(folds)
    log_odds = lambda files: {k: float(v) for f in files.split(',') for k, v in np.load(f, allow_pickle=True)['z'].tolist()}
    zs, z = log_odds(small), {} if reader == '-' else log_odds(reader)
    items = []
    for line in open(judged, encoding='utf8'):
        i = json.loads(line); real = i['set'].removeprefix('odd+')
        i['odd'] = i['set'].startswith('odd+')
        i['fold'] = -1 if real in ('answers', 'answers-cut', 'answers-exam') else division.fold(real, i['q'], fixed)
        if i['gate'] not in ('EMPTY', 'NO_ANSWER', 'NO_VALUE'): i['gate'] = ''
        if i['fold'] != 9:
            items.append(i)
    names = sorted({n for i in items for n in i['f']}); at = {n: j for j, n in enumerate(names)}
    kinds = sorted({i['kind'] for i in items})
    X = np.zeros((len(items), len(names) + 2), np.float32)
    for r, i in enumerate(items):
        for n, v in i['f'].items(): X[r, at[n]] = v
    key = lambda i: f"{i['set']} {i['id']} {i['part']} {i['place']}"
    Z = np.array([-4. if i['odd'] else z.get(key(i), np.nan) for i in items]); X[:, -1] = np.nan_to_num(Z)
    ZS = np.array([zs.get(key(i), np.nan) for i in items]); X[:, -2] = np.nan_to_num(ZS); names += ['small reader', 'reader']; n_names = len(names) - 2
    y = np.array([i['label'] for i in items]); K = np.array([kinds.index(i['kind']) for i in items]); F = np.array([i['fold'] for i in items])
    odd = np.array([i['odd'] for i in items]); W = np.array([.5 if i['doubt'] else .7 if i['odd'] else 1. for i in items])
    gate = np.array([bool(i['gate']) for i in items]); S = np.array([i['set'] for i in items])
    one = np.eye(len(kinds), dtype=np.float32)
    for g in sorted({i['gate'] for i in items if i['gate']}):
        m = np.array([i['gate'] == g for i in items])
        print(f'gate {g}: closes {(m & ~odd).sum()} coded demands, wrong on {(m & ~odd & (y == 1)).sum()}; {(m & odd).sum()} of {odd.sum()} unrelated')

    def design(cols):
        A = np.hstack([np.ones((len(items), 1), np.float32), X[:, cols]])
        return sparse.hstack([sparse.csr_matrix(A)] + [sparse.csr_matrix(A * (K == k)[:, None] * .5) for k in range(len(kinds))]).tocsr()

    opinions = []
    for what, file, cols, C, tidy in (('named features and the small reader', 'weights-features.tsv', np.arange(n_names + 1), .05, 4.),
                                      ('named features and the reader', 'weights-reader.tsv', np.r_[:n_names, n_names + 1], .03, 3.))[:1 if reader == '-' else 2]:
        V = np.where(S == 'composites', tidy, W)  # there are few of these, and no other set is like them
        M = design(cols); ok = ~gate & ~np.isnan(Z if cols[-1] == n_names + 1 else ZS)
        fit = lambda m: LogisticRegression(C=C, max_iter=300, solver='liblinear').fit(M[m], y[m], sample_weight=V[m])
        p = np.full(len(items), np.nan)
        for f in range(5):
            te = (F == f) & ok
            p[te] = fit((F != f) & (F >= 0) & ok).predict_proba(M[te])[:, 1]
        p[gate & (F >= 0)] = .03
        m = ~np.isnan(p) & ~odd
        cut = .5  # the likelier of the two; .62 would lift kappa of features alone by .03, with confidences below one half
        conf = np.where(p[m] >= cut, p[m], 1 - p[m]); look = float(np.quantile(conf, .2))
        wrong = (p[m] >= cut) != y[m]
        print(f'\n{what}: cut {cut:.2f}, look below {look:.3f}; the fifth with the lowest confidence holds {wrong[conf < look].sum() / wrong.sum():.2f} of the errors')
        def row(name, mm): print(f'{name:22s}', ' '.join(f'{k} {v:.3f}' if isinstance(v, float) else f'{k} {v}' for k, v in figures(y[mm], p[mm], cut).items()))
        row('all', m)
        for s in sorted(set(S[m])): row(s, m & (S == s))
        for k in kinds: row(k, m & (K == kinds.index(k)))
        for g, pre in (('exam', 'answers-exam'), ('real', 'answers-real'), ('short', 'answers-short'), ('joined', 'joined')): row(g + '*', m & np.array([s.startswith(pre) for s in S]))
        o = odd & ~np.isnan(p)
        print(f'unrelated sentences alone, addressed: {(p[o] >= cut).mean():.4f} of {o.sum()}')
        opinions.append(p); model = fit((F < 9) & ok); w, b, n = model.coef_[0], model.intercept_[0], len(cols) + 1
        rows = ['feature\tshared\t' + '\t'.join(kinds)]
        for j, name in enumerate(['base'] + [names[c] for c in cols]):
            shared = w[j] + (b if j == 0 else 0); own = [.5 * w[(k + 1) * n + j] for k in range(len(kinds))]
            if max(abs(shared), *(abs(x) for x in own)) >= 5e-4: rows.append('\t'.join([name, f'{shared:.3f}'] + [f'{x:.3f}' for x in own]))
        body = '\n'.join(rows) + '\n'; g = figures(y[m], p[m], cut)
        import datetime
        train = (F < 9) & ok & ~odd
        with open(f'{out}/{file}', 'w') as f:
            f.write(HEAD.format(what=what, date=datetime.date.today(), n=train.sum(), q=len({(i['set'], i['q']) for i, t in zip(items, train) if t}), open=int((y[train] == 0).sum()),
                                kappa=g['kappa'], p=g['P'], r=g['R'], ece=g['ece'], cut=cut, look=look, sure=''.join(f'# least-sure-{k}: {np.quantile(conf, k / 100):.3f}\n' for k in range(10, 100, 10)), sum=hashlib.sha256(body.encode()).hexdigest()) + body)

    # What is kept where the reader is asked only about the verdicts that the features are least sure of.
    alone, both = opinions[0], opinions[-1]; m = ~odd & ~np.isnan(alone) & ~np.isnan(both); sure = np.maximum(alone, 1 - alone)
    for share in (0, .1, .2, .4, .6, .8, 1) if len(opinions) == 2 else ():
        p = np.where(sure <= np.quantile(sure[m], share), both, alone) if share else alone
        print(f'reader asked about {share:.0%}:', ', '.join(f'{pre or "all"} {kappa(y[mm], (p[mm] >= .5).astype(int)):.3f}' for pre in ('', 'answers-exam', 'answers-real', 'answers-short')
                                                          for mm in [m & np.array([s.startswith(pre) for s in S])]))

    # What an open demand lacks, by features alone: one column a word.
    LACKS = 'nothing restates not-why no-claim one-side off names-only no-value example dont-know vague'.split()
    m = np.array([i['lack'] in LACKS for i in items]); L = np.array([LACKS.index(i['lack']) if i['lack'] in LACKS else -1 for i in items])
    cols = np.arange(n_names); A = np.hstack([X[:, cols], one[K]])
    fit = lambda mm: LogisticRegression(C=.2, max_iter=60).fit(A[mm], L[mm])
    hit = sum((fit(m & (F != f)).predict(A[m & (F == f)]) == L[m & (F == f)]).sum() for f in range(5))
    print(f'\nwhat open demands lack: {hit / m.sum():.3f} right of {m.sum()} on folds left out')
    model = fit(m); rows = ['feature\t' + '\t'.join(LACKS)]; coef = np.zeros((len(LACKS), A.shape[1])); icpt = np.full(len(LACKS), -9.)
    for c, w, b in zip(model.classes_, model.coef_, model.intercept_): coef[c], icpt[c] = w, b
    for name, w in [('base', icpt)] + [(n, coef[:, j]) for j, n in enumerate([names[c] for c in cols] + ['base ' + k for k in kinds])]:
        if np.abs(w).max() >= 5e-4: rows.append('\t'.join([name] + [f'{x:.3f}' for x in w]))
    with open(f'{out}/weights-lacks.tsv', 'w') as f:
        f.write(f'# What an open demand lacks, by named features; written by analyzer/training/fit.py. Right on {hit / m.sum():.3f} of {m.sum()} open demands of prompts left out.\n' + '\n'.join(rows) + '\n')


if __name__ == '__main__':
    if len(sys.argv) != 6: sys.exit(__doc__)
    main(*sys.argv[1:])
