import json, sys, os, math, random, re, time, hashlib, numpy as np, torch
from collections import defaultdict
from tokenizers import Tokenizer
from transformers import BertConfig, BertModel
D = os.path.dirname(os.path.abspath(__file__)); dev = 'cuda'
LAYERS = dict(minilm=6, bge=12, e5=12)
LACKS = 'nothing restates not-why no-claim one-side off names-only no-value example dont-know vague'.split()
ODD = '''We had soup for lunch on Tuesday.
My cousin plays the drums in a band.
The bus was late again this morning.
Our dog sleeps under the kitchen table.
I forgot my gym shoes because we left in a hurry.
The match was cancelled since the pitch was frozen.
Grandma's birthday is in the second week of May.
It rained so hard that the market closed early.
My sister painted her room yellow.
The film starts at eight, so we should leave at seven.
He would rather read than swim.
There were more people at the concert than last year.'''.split('\n')
ODD_TRAIN, ODD_TEST = ODD[::2], ODD[1::2]
tok = Tokenizer.from_file(f'{D}/tokenizer.json'); tok.no_padding(); tok.no_truncation()
cache = {}
def ids(t):
    r = cache.get(t)
    if r is None:
        r = tok.encode(t, add_special_tokens=False).ids
        if len(cache) < 400000: cache[t] = r
    return r
def load_base(name):
    z = np.load(f'{D}/{name}.npz')
    cfg = BertConfig(vocab_size=30522, hidden_size=384, num_hidden_layers=LAYERS[name], num_attention_heads=12, intermediate_size=1536, max_position_embeddings=512)
    m = BertModel(cfg, add_pooling_layer=False); sd = {}
    for k in z.files:
        if k.endswith('__scale'): continue
        a = z[k].astype(np.float32)
        if k + '__scale' in z.files: a = a * z[k + '__scale'].astype(np.float32)[:, None]
        sd[k] = torch.tensor(a)
    r = m.load_state_dict(sd, strict=False); miss = [k for k in r.missing_keys if 'position_ids' not in k]; assert not miss, miss
    return m
class Net(torch.nn.Module):
    def __init__(s, base):
        super().__init__(); s.b = base; s.d = torch.nn.Dropout(.1); s.h = torch.nn.Linear(384, 1); s.e = torch.nn.Linear(384, 1); s.l = torch.nn.Linear(384, len(LACKS))
    def forward(s, x, mask, tt):
        h = s.b(input_ids=x, attention_mask=mask, token_type_ids=tt).last_hidden_state
        m = mask.unsqueeze(-1); v = s.d((h * m).sum(1) / m.sum(1))
        return s.h(v).squeeze(-1), s.e(s.d(h)).squeeze(-1), s.l(v)
def noisy(ps, r):
    if r.random() < .5: return ps
    low, stops, typo, labels, cos = r.random() < .3, r.random() < .35, r.random() < .2, r.random() < .5, r.random() < .3
    out = []
    for o, t, e in ps:
        if labels: t = re.sub(r'(^|\n)\s*\(?([a-hA-H]|[ivx]{1,3}|\d)[.):]+\s*', r'\1', t)
        if low: t = t.lower()
        if stops: t = re.sub(r'[.!?;](?=\s|$)', '', t)
        if cos: t = re.sub(r'\b[Bb]ecause\b', r.choice(['cos', 'since', 'as', 'becuase', 'due to the fact that']), t)
        if typo:
            w = t.split(' ')
            for j in range(len(w)):
                if len(w[j]) > 3 and r.random() < .07:
                    p = r.randrange(1, len(w[j]) - 1); w[j] = w[j][:p] + w[j][p+1:] if r.random() < .5 else w[j][:p] + w[j][p+1] + w[j][p] + w[j][p+2:]
            t = ' '.join(w)
        out.append((o, t, e))
    return out
OFF, RES, NOT = LACKS.index('off'), LACKS.index('restates'), LACKS.index('nothing')
def flat(i): return ''.join(t for _, t, _ in i['ps'])
def encode(i, c, r=None, pool=None):
    LA, LB, LR = 120, 180, 200 if not c.get('ownonly') else 0
    y, lack = i['label'], LACKS.index(i['lack']) if i['lack'] in LACKS else -1
    ps = i['ps']; known = not ps or ps[0][2] >= 0
    if r is not None:
        u = r.random()
        if u < .03 and i['sib']: ps, y, lack = [(o, t, 0) for o, t, _ in r.choice(i['sib'])], 0, OFF
        elif u < .06: ps, y, lack = [(1, flat(r.choice(pool)), 0)], 0, OFF
        elif u < .08: ps, y, lack = [(1, r.choice(ODD_TRAIN), 0)], 0, OFF
        elif u < .10:
            s = [z for z in re.split(r'(?<=[.?!|])\s+', i['a'].split(': ', 1)[1]) if z]; ps, y, lack = [(1, r.choice(s), 0)], 0, RES
        elif u < .20 and y and known and any(e == 1 for *_, e in ps) and c.get('cut', 1):
            ps, y, lack = [p for p in ps if p[2] != 1], 0, NOT
        elif u < .28:
            z = (1, r.choice(ODD_TRAIN) if r.random() < .4 else r.choice(flat(r.choice(pool)).split('. ')), 0 if known else -1)
            ps = [z, (1, ' ', z[2])] + ps if r.random() < .5 else ps + [(1, ' ', z[2]), z]
        if i['multi']:
            v = r.random()
            if v < .06: ps = [(0, t, e) for o, t, e in ps]
            elif v < .12: ps = [(0 if r.random() < .3 else o, t, e) for o, t, e in ps]
            elif v < .18: ps = [(1 if r.random() < .2 else o, t, e) for o, t, e in ps]
        ps = noisy(ps, r)
    a = ids(i['a'])[:LA]; own, rest = [], []; eo, er = [], []
    for o, t, f in ps:
        z = ids(t)
        if o: own += z; eo += [f] * len(z)
        else: rest += z; er += [f] * len(z)
    if not own: own = ids('(nothing)'); eo = [-1] * len(own)
    own, eo, rest, er = own[:LB], eo[:LB], rest[:LR], er[:LR]
    x = [101] + a + [102] + own + [102]; t = [0] * (len(a) + 2) + [1] * (len(own) + 1); e = [-1] * (len(a) + 2) + eo + [-1]
    if rest: x += rest + [102]; t += [0] * (len(rest) + 1); e += er + [-1]
    return x, t, e, y, lack
def pack(rows):
    L = max(len(x[0]) for x in rows); n = len(rows)
    x = np.zeros((n, L), np.int16); tt = np.zeros((n, L), np.int8); mk = tt.copy(); ev = tt - 1
    for k, (i, t, e, *_) in enumerate(rows):
        x[k, :len(i)] = i; tt[k, :len(i)] = t; mk[k, :len(i)] = 1; ev[k, :len(i)] = e
    return x, mk, tt, ev, np.array([r[3] for r in rows], np.float32), np.array([r[4] for r in rows], np.int64)
def put(p): return tuple(torch.from_numpy(a if a.dtype == np.float32 else a.astype(np.int64)).to(dev) for a in p)
def batch(rows): return put(pack(rows))
ALL, CFG = [], {}
def some(task):
    """One chunk of a shuffled epoch, made noisy, encoded, sorted by length and cut into batches."""
    key, idx = task; r = random.Random(key); bs = CFG['bs']
    part = sorted(((encode(ALL[j], CFG, r, ALL), j) for j in idx), key=lambda z: len(z[0][0]))
    bb = [part[q:q + bs] for q in range(0, len(part), bs)]; r.shuffle(bb); out = []
    for b in bb:
        w = np.array([ALL[j]['w'] for _, j in b], np.float32)
        s = np.array([ALL[j].get('soft', -1.) if zz[3] == ALL[j]['label'] and (zz[4] not in (RES, OFF, NOT) or zz[3] == 1) else -1. for zz, j in b], np.float32)
        out.append((pack([zz for zz, _ in b]), w, s))
    return out
def train(items, c, seed):
    import multiprocessing
    global ALL
    bs = c.setdefault('bs', 64); ep = c.get('epochs', 6); lr = c.get('lr', 1e-4); ALL = items; CFG.clear(); CFG.update(c)
    pool = multiprocessing.get_context('fork').Pool(c.get('workers', 3))
    torch.manual_seed(0); net = Net(load_base(c['base'])).to(dev); net.train()
    torch.manual_seed(seed); rng = random.Random(seed); np.random.seed(seed)
    steps = ep * math.ceil(len(items) / bs)
    nd = [p for n, p in net.named_parameters() if 'bias' in n or 'LayerNorm' in n]; dc = [p for n, p in net.named_parameters() if not ('bias' in n or 'LayerNorm' in n)]
    opt = torch.optim.AdamW([{'params': dc, 'weight_decay': .01}, {'params': nd, 'weight_decay': 0}], lr=lr, fused=True)
    t0 = time.time(); limit = c.get('limit', 1e9)
    sch = torch.optim.lr_scheduler.LambdaLR(opt, lambda s: min(1, (s + 1) / (.1 * steps + 1), (time.time() - t0) / (.1 * limit)) * max(0, 1 - max(s / steps, (time.time() - t0) / limit)))
    bce = torch.nn.functional.binary_cross_entropy_with_logits; n_step = 0; tasks = []
    for e in range(ep):
        idx = list(range(len(items))); rng.shuffle(idx)
        tasks += [(f'{seed} {e} {k}', idx[k:k + bs * 16]) for k in range(0, len(idx), bs * 16)]
    for chunk in pool.imap(some, tasks):
        for p, w, s in chunk:
            x, mk, tt, ev, y, lack = put(p); w = torch.from_numpy(w).to(dev); s = torch.from_numpy(s).to(dev)
            with torch.autocast('cuda', dtype=torch.bfloat16): z, te, l = net(x, mk, tt)
            if c.get('soft'): y = torch.where(s >= 0, (1 - c['soft']) * y + c['soft'] * s, y)
            loss = (bce(z.float(), y, reduction='none') * w).mean(); m = (ev >= 0).float()
            loss = loss + .3 * (bce(te.float(), ev.clamp(min=0).float(), reduction='none') * m).sum() / m.sum().clamp(min=1)
            k = (lack >= 0).float(); loss = loss + .1 * (torch.nn.functional.cross_entropy(l.float(), lack.clamp(min=0), reduction='none') * k).sum() / k.sum().clamp(min=1)
            opt.zero_grad(); loss.backward(); torch.nn.utils.clip_grad_norm_(net.parameters(), 1.); opt.step(); sch.step(); n_step += 1
            if time.time() - t0 > limit: print('stopped at', n_step, 'of', steps, flush=True); pool.terminate(); return net
    print('ran', n_step, f'{(time.time() - t0) / n_step * 1000:.0f} ms a step', flush=True); pool.close()
    return net
@torch.no_grad()
def predict(net, items, c, bs=128):
    net.eval(); enc = [encode(i, c) for i in items]; order = sorted(range(len(items)), key=lambda k: len(enc[k][0])); out = np.zeros(len(items), np.float32); evs = [None] * len(items); lk = np.zeros(len(items), np.int8)
    for k in range(0, len(order), bs):
        ch = order[k:k + bs]; x, mk, tt, ev, y, l = batch([enc[j] for j in ch])
        with torch.autocast('cuda', dtype=torch.bfloat16): z, te, l = net(x, mk, tt)
        out[ch] = z.float().cpu().numpy(); te = te.float().cpu().numpy(); lk[ch] = l.float().argmax(1).cpu().numpy()
        for r, j in enumerate(ch): evs[j] = te[r, :len(enc[j][0])]
    return out, evs, enc, lk
def kappa(y, q):
    a = (y == q).mean(); e = y.mean() * q.mean() + (1 - y.mean()) * (1 - q.mean()); return (a - e) / (1 - e) if e < 1 else 1.
def auc(y, s):
    r = s.argsort().argsort() + 1.; n = y.sum(); m = len(y) - n
    return (r[y == 1].sum() - n * (n + 1) / 2) / max(1, n * m)
def load():
    items = [json.loads(l) for l in open(f'{D}/items.jsonl')]; by = defaultdict(list)
    for i in items:
        i['ps'] = [tuple(p) for p in i['ps']]; i['w'] = (.5 if i['doubt'] else 1.) * (.5 if i['set'].startswith('joined') else 1.); by[i['set'] + i['id']].append(i)
    for i in items: i['sib'] = [[(1 if p else 0, t, 0) for p, t, _ in ((q[0], q[1], 0) for q in o['ps']) if p] for o in by[i['set'] + i['id']] if o['part'] != i['part'] and o['kind'] != i['kind']] if i['multi'] else []
    for i in items: i['sib'] = [s for s in i['sib'] if s]
    return items
