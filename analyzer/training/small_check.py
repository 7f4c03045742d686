"""Computes anew, with numpy in 32 bits, what the small reader gives for the rows that SmallReaderTest holds, and writes them.

    small_check.py WEIGHTS.npz WORDS.json ROWS.tsv      the last column of ROWS.tsv is written anew

WEIGHTS.npz and WORDS.json are what small_reader.py wrote. It is a second program for what SmallReader.java and small_reader.py compute.
"""
import json, re, sys
import numpy as np

BUCKETS, RUNS = 8192, 24
WORD = re.compile(r'[^\W\d_]+|\d+|[^\w\s]')


def words(text): return [w if not w[0].isdigit() else '#' * min(len(w), 4) for w in WORD.findall(text.lower())]


def run(signs):
    h = 2166136261
    for c in signs: h = ((h ^ ord(c)) * 16777619) & 0xffffffff
    return h % BUCKETS


def log_odds(w, meta, kind, demand, own, rest):
    at = {v: n + 1 for n, v in enumerate(meta['vocab'])}; relu = lambda x: np.maximum(x, 0)
    linear = lambda name, x: x @ w[name + '.weight'].T + w[name + '.bias']
    def vector(word):
        s = '<' + word + '>'; g = [run(s[i:i + n]) for n in (3, 4, 5) for i in range(len(s) - n + 1)][:RUNS]; n = at.get(word, 0)
        return w['b'][g].mean(0) + (w['w'][n] if n and w['known'][n] else 0)
    def level(n, x): return (x - x.mean(-1, keepdims=True)) / np.sqrt(x.var(-1, keepdims=True) + 1e-5) * w[f'ln.{n}.weight'] + w[f'ln.{n}.bias']
    def context(x):
        h = level(0, x)
        for n in range(2):
            p = np.pad(h, ((1, 1), (0, 0))); c = sum(p[k:k + len(h)] @ w[f'c.{n}.weight'][:, :, k].T for k in range(3)) + w[f'c.{n}.bias']; h = level(n + 1, h + relu(c))
        return h
    stretches = demand.partition(': ')[2].split(' | '); d, seg = [], []
    for q, t in zip((1, 2, 3) if len(stretches) == 3 else (1, 3), stretches):
        v = words(t); v = v[:50] if q < 3 else v[-60:]; d += v; seg += [q] * len(v)
    o, r = words(own)[:150], words(rest)[:100]; seg = np.array(seg); k = w['kd'][meta['kinds'].index(kind)]; side = np.array([1] * len(o) + [2] * len(r))
    hd = context(np.array([vector(x) for x in d]) + w['ds'][seg] + k); ht = context(np.array([vector(x) for x in o + r])) + w['ts'][side]
    a = linear('q', hd) @ linear('k', ht).T / np.sqrt(hd.shape[1]); soft = lambda x: np.exp(x - x.max(-1, keepdims=True)) / np.exp(x - x.max(-1, keepdims=True)).sum(-1, keepdims=True)
    both = lambda name, x, y: relu(linear(name, np.concatenate([x, y, x * y, abs(x - y)], -1)))
    vt, vd = both('ct', ht, soft(a.T) @ hd), both('cd', hd, soft(a) @ ht); mean = lambda v, m: v[m].sum(0) / (m.sum() + 1); most = lambda v, m: (v * m[:, None]).max(0)
    u = np.concatenate([f(v, m) for v, m in ((vt, side == 1), (vt, side == 2), (vd, seg == 1)) for f in (mean, most)] + [most(vd, seg > 0), k])
    return float(linear('o2', relu(linear('o1', u)))[0])


if __name__ == '__main__':
    if len(sys.argv) != 4: sys.exit(__doc__)
    w = {k: v.astype(np.float32) for k, v in np.load(sys.argv[1]).items()}; meta = json.load(open(sys.argv[2], encoding='utf8')); lines = open(sys.argv[3], encoding='utf8').read().split('\n')
    for n, l in enumerate(lines):
        if l and l[0] != '#': c = l.split('\t'); lines[n] = '\t'.join(c[:4] + [f'{log_odds(w, meta, *c[:4]):.2f}'])
    open(sys.argv[3], 'w', encoding='utf8').write('\n'.join(lines))
