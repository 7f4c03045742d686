"""Trains the small reader: one fold left out, or none.

    small_reader.py PACKED FOLD OUT '{"d": 64, "epochs": 20}'

PACKED is what small_items.py wrote; FOLD 0 to 4 is left out and judged, -2 trains on all but the prompts set aside. OUT gets NAME.npz with
the log-odds of what was judged (`z`, by `key`) and, for -2, weights.npz for small_file.py. Settings: d numbers a word, epochs over the items
and their copies together, hard true to leave the reader's opinions out. Needs PyTorch and a GPU: two and a half minutes for six runs at once on one H200.
"""
import json, math, sys, time
import numpy as np, torch, torch.nn as nn, torch.nn.functional as F

BUCKETS, RUNS, SEGMENTS, SIDES, HIDDEN, DEV, SPARE = 8192, 24, 4, 3, 64, 'cuda', 4096


def run(signs):
    """FNV-1a in 32 bits over code points (Fowler, Noll, Vo; RFC 9923), as in SmallWords."""
    h = 2166136261
    for c in signs: h = ((h ^ ord(c)) * 16777619) & 0xffffffff
    return h % BUCKETS


def runs(word):
    s = '<' + word + '>'; return [run(s[i:i + n]) for n in (3, 4, 5) for i in range(len(s) - n + 1)][:RUNS]


class Net(nn.Module):
    """Decomposable attention (Parikh, Täckström, Das, Uszkoreit 2016) over words in context; SmallReader computes the same."""
    def __init__(s, d, kinds, known, start, G, GM):
        super().__init__(); s.d, s.kinds, s.known, s.G, s.GM = d, kinds, known, G, GM
        s.w = nn.Parameter(torch.from_numpy(start) * .5); s.b = nn.Parameter(torch.randn(BUCKETS, d) * .1)
        s.ds, s.kd, s.ts = (nn.Parameter(torch.randn(n, d) * .1) for n in (SEGMENTS, kinds, SIDES))
        s.c = nn.ModuleList([nn.Conv1d(d, d, 3, padding=1) for _ in range(2)]); s.ln = nn.ModuleList([nn.LayerNorm(d) for _ in range(3)])
        s.q, s.k, s.ct, s.cd = nn.Linear(d, d), nn.Linear(d, d), nn.Linear(4 * d, d), nn.Linear(4 * d, d)
        s.o1, s.o2, s.ol, s.ev, s.dr = nn.Linear(8 * d, HIDDEN), nn.Linear(HIDDEN, 1), nn.Linear(HIDDEN, 11), nn.Linear(d, 1), nn.Dropout(.2)

    def vectors(s, ids):
        u, at = torch.unique(ids, return_inverse=True); keep = s.known[u]
        if s.training: keep = keep * (torch.rand_like(keep) > .1)  # so that unknown words are learned too
        W = s.w[u] * keep.unsqueeze(-1) + F.embedding_bag(s.G[u], s.b, per_sample_weights=s.GM[u], mode='sum')
        # Padding is spread over spare rows: the gradient of one row that stands in all places is slow.
        at = torch.where(ids == 0, len(u) + torch.arange(ids.numel(), device=ids.device).view_as(ids) % SPARE, at)
        return torch.cat([W, W.new_zeros(SPARE, s.d)]).index_select(0, at.view(-1)).view(*ids.shape, s.d)

    def context(s, x, m):
        h = s.ln[0](x) * m
        for c, l in zip(s.c, s.ln[1:]): h = l(h + F.relu(c(h.transpose(1, 2)).transpose(1, 2))) * m
        return h

    def forward(s, D, Ds, T, Ts, K):
        E = s.vectors(torch.cat([D, T], 1)); md, mt = (Ds > 0).float().unsqueeze(-1), (Ts > 0).float().unsqueeze(-1); kind = F.one_hot(K, s.kinds).float() @ s.kd
        hd = s.context(s.dr(E[:, :D.shape[1]]) + F.one_hot(Ds, SEGMENTS).float() @ s.ds + kind.unsqueeze(1), md)
        ht = s.context(s.dr(E[:, D.shape[1]:]), mt) + (F.one_hot(Ts, SIDES).float() @ s.ts) * mt
        a = s.q(hd) @ s.k(ht).transpose(1, 2) / math.sqrt(s.d)
        cd = (a + (1 - mt.transpose(1, 2)) * -1e4).softmax(-1) @ ht; ct = (a.transpose(1, 2) + (1 - md.transpose(1, 2)) * -1e4).softmax(-1) @ hd
        both = lambda l, x, y: F.relu(l(s.dr(torch.cat([x, y, x * y, (x - y).abs()], -1))))
        vt, vd = both(s.ct, ht, ct), both(s.cd, hd, cd)
        own, rest, asked = (Ts == 1).float().unsqueeze(-1), (Ts == 2).float().unsqueeze(-1), (Ds == 1).float().unsqueeze(-1)
        mean, most = lambda v, m: (v * m).sum(1) / (m.sum(1) + 1), lambda v, m: (v * m).amax(1)
        u = torch.cat([mean(vt, own), most(vt, own), mean(vt, rest), most(vt, rest), mean(vd, asked), most(vd, asked), most(vd, md), kind], -1)
        g = s.dr(F.relu(s.o1(u))); return s.o2(g).squeeze(-1), s.ev(vt).squeeze(-1), s.ol(g)


def main(packed, fold, out, c):
    A = dict(np.load(packed + '.npz').items()); meta = json.load(open(packed + '.json', encoding='utf8')); vocab = meta['vocab']; d = c.get('d', 64); t0 = time.time()
    G, GM = np.zeros((len(vocab) + 1, RUNS), np.int64), np.zeros((len(vocab) + 1, RUNS), np.float32)
    for n, w in enumerate(vocab):
        g = runs(w); G[n + 1] = [(n * 31 + q * 977) % BUCKETS for q in range(RUNS)]; G[n + 1, :len(g)] = g; GM[n + 1, :len(g)] = 1 / len(g)
    X = np.load(packed + '.vec.npy')[1:]; X = X - X.mean(0); top = np.linalg.eigh((X.T @ X).astype(np.float64))[1][:, ::-1].astype(np.float32)
    P = X @ top[:, :d]; start = np.vstack([np.zeros(d), P / P.std()]).astype(np.float32)
    item = A['item']; folds = A['fold'][item]; sets = A['set'][item]; odd, joined = np.char.startswith(sets, 'odd+'), np.char.startswith(sets, 'joined')
    y = A['y'][item].astype(np.float32); said = 1 / (1 + np.exp(-np.clip(A['Z'], -8, 8))); mode = A['mode']
    aim = np.where(mode == 0, y if c.get('hard') else .5 * y + .5 * said, np.where(mode == 2, .02, said)).astype(np.float32)
    weight = (A['w'][item] * np.where(joined, .5, 1) * np.where(mode == 0, 1, .7)).astype(np.float32)
    put = lambda a: torch.from_numpy(a).to(DEV)
    D, Ds, T, Ts, Ev = (put(A[k].astype(np.int64)) for k in ('D', 'Ds', 'T', 'Ts', 'Ev')); K = put(A['kind'][item].astype(np.int64))
    aim, weight, lack = put(aim), put(weight), put(np.where(mode == 0, A['lack'][item], -1).astype(np.int64)); lt, ld = (A['Ts'] > 0).sum(1), (A['Ds'] > 0).sum(1)
    tr = np.where((folds != fold) & (folds != 9) & ~odd & ((mode != 1) | (not c.get('hard'))))[0]
    seen = np.zeros(len(vocab) + 1, np.int64)
    for k in ('D', 'T'): np.add.at(seen, A[k][tr[A['passno'][tr] == 0]].ravel(), 1)
    torch.manual_seed(1); rng = np.random.RandomState(10 + fold); known = put((seen >= 3).astype(np.float32))
    net = Net(d, len(meta['kinds']), known, start, put(G), put(GM)).to(DEV); bs = 1024; total = c.get('epochs', 20) * int((A['passno'][tr] == 0).sum()); steps = total // bs
    opt = torch.optim.AdamW(net.parameters(), lr=3e-3, weight_decay=.01); sch = torch.optim.lr_scheduler.OneCycleLR(opt, 3e-3, total_steps=steps + 1, pct_start=.1)
    order = np.concatenate([rng.permutation(tr) for _ in range(total // len(tr) + 1)]); bce = F.binary_cross_entropy_with_logits; net.train()
    for s in range(steps):
        b = order[s * bs:(s + 1) * bs]; i = put(b); L, M = int(lt[b].max()), int(ld[b].max())
        with torch.autocast('cuda', dtype=torch.bfloat16): p, e, k = net(D[i, :M], Ds[i, :M], T[i, :L], Ts[i, :L], K[i])
        ev, lk = Ev[i, :L], lack[i]; em, km = (ev >= 0).float(), (lk >= 0).float()
        loss = (bce(p.float(), aim[i], reduction='none') * weight[i]).mean() + .3 * (bce(e.float(), ev.clamp(min=0).float(), reduction='none') * em).sum() / em.sum().clamp(min=1)
        loss = loss + .1 * (F.cross_entropy(k.float(), lk.clamp(min=0), reduction='none') * km).sum() / km.sum().clamp(min=1)
        opt.zero_grad(); loss.backward(); nn.utils.clip_grad_norm_(net.parameters(), 1.); opt.step(); sch.step()
    base = np.where(A['passno'] == 0)[0]; te = base[(folds[base] == fold) if fold >= 0 else (folds[base] != 9)]; z = np.full(len(A['y']), np.nan, np.float32); net.eval()
    with torch.no_grad():
        for k in range(0, len(te), 2048): i = put(te[k:k + 2048]); z[item[te[k:k + 2048]]] = net(D[i], Ds[i], T[i], Ts[i], K[i])[0].cpu().numpy()
    ok = ~np.isnan(z); np.savez(f'{out}/fold{fold}.npz', z=np.array([(k, v) for k, v in zip(A['key'][ok].tolist(), z[ok].tolist())], dtype=object))
    if fold < 0: np.savez(f'{out}/weights.npz', known=known.cpu().numpy(), **{k: v.half().cpu().numpy() if v.numel() > 1e5 else v.cpu().numpy() for k, v in net.state_dict().items()})
    plain = ok & ~np.char.startswith(A['set'], 'odd+'); print('fold', fold, steps, 'steps', f'{time.time() - t0:.0f}s; right', f"{((z > 0) == A['y'])[plain].mean():.3f}, unrelated addressed {(z[ok & ~plain] > 0).mean():.4f}")


if __name__ == '__main__':
    if len(sys.argv) != 5: sys.exit(__doc__)
    main(sys.argv[1], int(sys.argv[2]), sys.argv[3], json.loads(sys.argv[4]))
