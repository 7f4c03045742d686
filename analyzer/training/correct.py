"""Corrects the judge's weights by coded answers that neither reader has seen.

    correct.py JUDGED.jsonl FOLDS.csv DIR [SAID.npz]

JUDGED.jsonl is what ExportJudgements wrote of such sets, their joined+ and odd+ sets among them; the log-odds of the small reader stand there.
DIR has the weights to correct: those of the first jar, or, with SAID.npz (the log-odds of the reader, which small_items.py wrote beside its packed
items), those beside the reader. They are written anew. Text of parts-2 is mostly placed wrongly, so nothing is learned from it.

The correction is a logistic regression that begins at the verdicts of before: some more or less for each feature, each kind of demand and the
reader's log-odds by kind, held near nought by a ridge. Since all of it is linear, it goes into the weights. The strength of the ridge and the weight of
unrelated remarks were chosen by folds left out. Settings in the head of a file (cut, look-below, least-sure) stay. Needs numpy and scipy; half a minute.
"""
import datetime, hashlib, json, sys
import numpy as np
from scipy.optimize import minimize
import folds as division

RIDGE, REMARK = 1000., .3  # how strong the ridge is, and what a remark weighs where a coded demand weighs one
SHARE = 3.  # log-odds are divided by this, so that the ridge holds them as it holds the features


def odds(v): return 1 / (1 + np.exp(-v))


def kappa(y, q):
    a = (y == q).mean(); e = y.mean() * q.mean() + (1 - y.mean()) * (1 - q.mean())
    return (a - e) / (1 - e)


def read(path):
    head, rows = [], []
    for l in open(path, encoding='utf8'):
        if l.startswith('#'): head.append(l)
        else: rows.append(l.rstrip('\n').split('\t'))
    return head, rows[0][2:], {r[0]: np.array([float(x) for x in r[1:]]) for r in rows[1:]}


def fitted(D, y, start, weight, ridge):
    """The coefficients beside a fixed start; the first one is free."""
    def loss(b):
        v = start + D @ b; hold = ridge * np.r_[0, b[1:]]
        return (weight * (np.logaddexp(0, v) - y * v)).sum() + .5 * (hold * b).sum(), D.T @ (weight * (odds(v) - y)) + hold
    return minimize(loss, np.zeros(D.shape[1]), jac=True, method='L-BFGS-B', options=dict(maxiter=300)).x


def main(judged, folds, out, said=''):
    items = [i for i in map(json.loads, open(judged, encoding='utf8')) if i['set'].removeprefix('odd+') != 'parts-2']; fixed = division.read(folds)
    key = lambda i: f"{i['set']} {i['id']} {i['part']} {i['place']}"
    by_reader = dict(zip(*(np.load(said)[k].tolist() for k in ('key', 'z')))) if said else {}
    y = np.array([i['label'] for i in items]); S = np.array([i['set'] for i in items]); odd = np.char.startswith(S, 'odd+')
    F = np.array([division.fold(i['set'].removeprefix('odd+'), i['q'], fixed) for i in items])
    gate = np.array([i['gate'] in ('EMPTY', 'NO_ANSWER', 'NO_VALUE') for i in items]); doubt = np.array([i['doubt'] for i in items])
    for file, opinion in (('weights-reader.tsv', 'reader'),) if said else (('weights-features.tsv', 'small reader'),):
        head, kinds, W = read(f'{out}/{file}'); names = [n for n in W if n != 'base']; at = {n: j for j, n in enumerate(names)}
        z = np.array([i['small'] if opinion == 'small reader' else by_reader.get(key(i), np.nan) for i in items], float)
        X = np.zeros((len(items), len(names)), np.float32); K = np.array([kinds.index(i['kind']) for i in items]); one = np.eye(len(kinds))[K]
        for r, i in enumerate(items):
            for n, v in i['f'].items():
                if n in at: X[r, at[n]] = v
        zc = np.nan_to_num(z); X[:, at[opinion]] = zc; shared, own = np.array([W[n][0] for n in names]), np.array([W[n][1:] for n in names])
        before = X @ shared + (X * own.T[K]).sum(1) + W['base'][0] + W['base'][1:][K]
        plain = X.copy(); plain[:, at[opinion]] /= SHARE
        D = np.hstack([np.ones((len(items), 1)), before[:, None] / SHARE, plain, one, one * zc[:, None] / SHARE])
        ok = ~gate & ~np.isnan(z); weight = np.where(odd, REMARK, 1.) * np.where(doubt, .5, 1.); p = np.full(len(items), .03)
        for f in range(5):
            tr, te = ok & (F != f), ok & (F == f)
            p[te] = odds(before[te] + D[te] @ fitted(D[tr], y[tr], before[tr], weight[tr], RIDGE))
        known = ok | gate; text = []
        for name, q in (('before', np.where(gate, .03, odds(before))), ('corrected, folds left out', p)):
            m = known & ~odd; rows = [('all', m & ~np.char.startswith(S, 'joined'))] + [(s, m & (S == s)) for s in sorted(set(S[~odd]))]
            print(f'{file} {name}:', ', '.join(f'{n} {kappa(y[r], q[r] >= .5):.3f}' for n, r in rows), f'; remarks taken for answers {(q[odd & known] >= .5).mean():.3f}')
            text.append(f'{kappa(y[rows[0][1]], q[rows[0][1]] >= .5):.3f} and {(q[odd & known] >= .5).mean():.3f}')
        b = fitted(D[ok], y[ok], before[ok], weight[ok], RIDGE); n = len(names); more = 1 + b[1] / SHARE
        for j, name in enumerate(names):
            W[name] = W[name] * more; W[name][0] += b[2 + j] / (SHARE if name == opinion else 1)
        W['base'] = W['base'] * more; W['base'][0] += b[0]; W['base'][1:] += b[2 + n:2 + n + len(kinds)]; W[opinion][1:] += b[2 + n + len(kinds):] / SHARE
        rows = ['feature\tshared\t' + '\t'.join(kinds)] + ['\t'.join([k] + [f'{x:.3f}' for x in v]) for k, v in W.items() if np.abs(v).max() >= 5e-4]
        body = '\n'.join(rows) + '\n'; m = ok & ~odd; head = [l for l in head if 'Corrected by' not in l and 'unrelated remarks taken' not in l and 'checksum' not in l]
        note = [f'# Corrected by analyzer/training/correct.py on {datetime.date.today()} with {m.sum()} coded demands, {int((y[m] == 0).sum())} open, that no reader had seen: there kappa and\n',
                f'# unrelated remarks taken for answers were {text[0]}, then {text[1]} on folds left out.\n']
        where = next(k for k, l in enumerate(head) if l.startswith('# cut'))
        with open(f'{out}/{file}', 'w', encoding='utf8') as f:
            f.write(''.join(head[:where] + note + head[where:]) + f'# checksum of the lines below (sha-256): {hashlib.sha256(body.encode()).hexdigest()}\n' + body)


if __name__ == '__main__':
    if len(sys.argv) not in (4, 5): sys.exit(__doc__)
    main(*sys.argv[1:])
