"""Packs what the small reader learns from: coded items, changed copies of them, and what the reader says of each.

    small_items.py ITEMS.jsonl READER.onnx REMARKS.txt OUT PASSES

ITEMS.jsonl is what items.py wrote, and may hold odd+ sets too; REMARKS.txt has a remark that answers nothing in each line; OUT.npz, OUT.json and OUT.vec.npy are written. Each pass makes one changed copy
of an item: a neighbour's answer, another prompt's of the same fold, a remark of its fold, the prompt's own words, the evidence or a sentence
taken out, a sentence put in, text moved between the part and the rest, noise in spelling and stops. The reader's opinion labels the copies. Needs PyTorch, transformers, tokenizers,
onnx, a GPU, and tokenizer.json beside reader.py; two minutes and a half for 107,000 items and seven passes on one H200 and 16 cores.
"""
import json, multiprocessing, os, random, re, sys
from collections import Counter, defaultdict
import numpy as np, onnx, torch
from onnx import numpy_helper
from transformers import BertConfig, BertModel
import folds as division, reader as R

MOST_ASKED, MOST_SET_UP, MOST_DEMAND, MOST_OWN, MOST_REST = 50, 60, 110, 150, 100
WORD = re.compile(r'[^\W\d_]+|\d+|[^\w\s]')
ITEMS, POOL, BY, REMARKS = [], defaultdict(list), defaultdict(list), defaultdict(list)


def words(text):
    """As SmallWords.in cuts a text."""
    return [w if not w[0].isdigit() else '#' * min(len(w), 4) for w in WORD.findall(text.lower())]


def teacher(path):
    """The reader in PyTorch, its weights taken out of the ONNX file that to_onnx.py wrote."""
    W = {i.name: numpy_helper.to_array(i) for i in onnx.load(path).graph.initializer}; sd = {}
    for k, a in W.items():
        if k.endswith('.q'):
            n = k[:-2]; s = W[n + '.s'].astype(np.float32).reshape(-1, 1)
            sd[n if 'embeddings' in n else n + '.weight'] = (a if 'embeddings' in n else a.T).astype(np.float32) * s
        elif k.startswith('b.') and not k.endswith(('.s', '.z')): sd[k] = a.astype(np.float32)
    for n in 'hel': sd[n + '.weight'], sd[n + '.bias'] = W[n + '.w'].T.astype(np.float32), W[n + '.b'].astype(np.float32)
    cfg = BertConfig(vocab_size=30522, hidden_size=384, num_hidden_layers=12, num_attention_heads=12, intermediate_size=1536, max_position_embeddings=512)
    net = R.Net(BertModel(cfg, add_pooling_layer=False)); got = net.load_state_dict({k: torch.tensor(v.copy()) for k, v in sd.items()}, strict=False)
    assert not got.unexpected_keys and not [k for k in got.missing_keys if 'position_ids' not in k], got
    return net.cuda().half().eval()


def whole(i): return ''.join(t for _, t, _ in i['ps'])


def changed(i, r):
    """The pieces of a changed copy; 0 where the code still holds, 1 where only the reader can tell, 2 where it is surely open; whether the marks hold."""
    ps = i['ps']; mode = 0; pool = POOL[i['fold']]; u = r.random(); known = not ps or ps[0][2] >= 0; marks = True
    if u < .05:
        others = [o for o in BY[i['set'] + i['id']] if o['part'] != i['part']]
        if others:
            o = r.choice(others); mode, marks = 1, False
            ps = [(0 if p[0] else q[0], p[1], p[2]) for p, q in zip(ps, o['ps'])] if len(o['ps']) == len(ps) else [(1, whole(o), 0)]
    elif u < .11: ps, mode, marks = [(1, whole(r.choice(pool)), 0)], 1, False
    elif u < .18: ps, mode = [(1, r.choice(REMARKS[i['fold']]), 0)], 2
    elif u < .21: ps, mode = [(1, r.choice([z for z in re.split(r'(?<=[.?!|])\s+', i['a'].split(': ', 1)[1]) if z]), 0)], 2
    elif u < .32 and i['label'] and known and any(p[2] == 1 for p in ps): ps, mode = [p for p in ps if p[2] != 1], 1
    elif u < .42:
        z = [x for x in re.split(r'(?<=[.?!\n])\s+', ''.join(t for o, t, _ in ps if o)) if x]
        if len(z) > 1:
            k = r.randrange(len(z)); z = z[k:k + 1] if r.random() < .5 else z[:k] + z[k + 1:]
            ps, mode, marks = [(1, ' '.join(z), 0)] + ([p for p in ps if not p[0]] if r.random() < .5 else []), 1, False
    elif u < .50:
        z = (1, r.choice(REMARKS[i['fold']]) if r.random() < .5 else r.choice(whole(r.choice(pool)).split('. ')), 0)
        ps = [z, (1, ' ', 0)] + ps if r.random() < .5 else ps + [(1, ' ', 0), z]
    if i['multi'] and r.random() < .3:
        v = r.random(); mode = max(mode, 1)
        ps = [(0 if v < .4 else 1 if v < .5 else 0 if r.random() < .4 else o, t, e) for o, t, e in ps]
    return R.noisy(ps, r), mode, marks


def one(task):
    n, key = task; i = ITEMS[n]; ps, mode, marks = (i['ps'], 0, True) if key == 0 else changed(i, random.Random(f'{n} {key}'))
    x, types, *_ = R.encode(dict(i, ps=ps), {})
    rest = i['a'].partition(': ')[2]; stretches = rest.split(' | ')
    segments = list(zip((1, 2, 3) if len(stretches) == 3 else (1, 3), stretches)) if len(stretches) in (2, 3) else [(1, rest)]
    d, s = [], []
    for q, w in segments:
        v = words(w); v = v[:MOST_ASKED] if q < 3 else v[-MOST_SET_UP:]; d += v; s += [q] * len(v)
    got = {1: ([], []), 0: ([], [])}
    for o, t, e in ps:
        v = words(t); got[o][0].extend(v); got[o][1].extend([e if marks else -1] * len(v))
    own, other = got[1][0][:MOST_OWN], got[0][0][:MOST_REST]
    return x, types, d[:MOST_DEMAND], s[:MOST_DEMAND], own, other, mode, n, got[1][1][:MOST_OWN] + got[0][1][:MOST_REST]


@torch.no_grad()
def opinions(net, waiting, Z):
    waiting.sort(key=lambda b: len(b[1][0]))
    for k in range(0, len(waiting), 400):
        ch = waiting[k:k + 400]; n, L = len(ch), max(len(b[1][0]) for b in ch)
        x, m, tt = np.zeros((n, L), np.int64), np.zeros((n, L), np.float16), np.zeros((n, L), np.int64)
        for q, (_, b) in enumerate(ch): l = len(b[0]); x[q, :l] = b[0]; m[q, :l] = 1; tt[q, :l] = b[1]
        m = torch.from_numpy(m).cuda()
        h = net.b(input_ids=torch.from_numpy(x).cuda(), attention_mask=m, token_type_ids=torch.from_numpy(tt).cuda()).last_hidden_state
        m = m.unsqueeze(-1); v = (h * m).float().sum(1) / m.float().sum(1)
        for (at, _), z in zip(ch, net.h(v.half()).float().squeeze(-1).cpu().numpy()): Z[at] = z
    waiting.clear()


def main(items, path, remarks, out, passes):
    for l in open(remarks, encoding='utf8'):
        if l.strip() and l[0] != '#': REMARKS[division.part(l.strip(), 5)].append(l.strip())
    for l in open(items, encoding='utf8'):
        i = json.loads(l); ITEMS.append(i); POOL[i['fold']].append(i); BY[i['set'] + i['id']].append(i)
    kinds = sorted({i['kind'] for i in ITEMS})
    tasks = [(n, k) for k in range(passes + 1) for n, i in enumerate(ITEMS) if k == 0 or i['fold'] != 9 and not i['set'].startswith('odd+')]
    net = teacher(path); Z = np.zeros(len(tasks), np.float32); rows, waiting = [], []
    with multiprocessing.get_context('fork').Pool(max(1, os.cpu_count() - 2)) as pool:
        for at, r in enumerate(pool.imap(one, tasks, chunksize=200)):
            rows.append(r[2:]); waiting.append((at, r))
            if len(waiting) >= 40000: opinions(net, waiting, Z)
        opinions(net, waiting, Z)
    seen = Counter()
    for d, _, own, other, *_ in rows: seen.update(d); seen.update(own); seen.update(other)
    vocab = sorted(seen); at = {w: n + 1 for n, w in enumerate(vocab)}; N = len(rows); most = MOST_OWN + MOST_REST
    D, Ds = np.zeros((N, MOST_DEMAND), np.int32), np.zeros((N, MOST_DEMAND), np.int8)
    T, Ts, Ev = np.zeros((N, most), np.int32), np.zeros((N, most), np.int8), np.zeros((N, most), np.int8) - 1
    mode, item = np.zeros(N, np.int8), np.zeros(N, np.int32)
    for k, (d, s, own, other, m, n, ev) in enumerate(rows):
        t = own + other; D[k, :len(d)] = [at[w] for w in d]; Ds[k, :len(s)] = s; T[k, :len(t)] = [at[w] for w in t]
        Ts[k, :len(own)] = 1; Ts[k, len(own):len(t)] = 2; Ev[k, :len(ev)] = ev; mode[k] = m; item[k] = n
    each = lambda f, t: np.array([f(i) for i in ITEMS], t)
    np.savez(out, D=D, Ds=Ds, T=T, Ts=Ts, Ev=Ev, mode=mode, item=item, Z=Z, passno=np.array([k for _, k in tasks], np.int8), y=each(lambda i: i['label'], np.int8),
             fold=each(lambda i: i['fold'], np.int8), kind=each(lambda i: kinds.index(i['kind']), np.int8), w=each(lambda i: .5 if i['doubt'] else 1., np.float32),
             lack=each(lambda i: R.LACKS.index(i['lack']) if i['lack'] in R.LACKS else -1, np.int8), set=np.array([i['set'] for i in ITEMS]),
             key=np.array([f"{i['set']} {i['id']} {i['part']} {i['place']}" for i in ITEMS]))
    json.dump(dict(vocab=vocab, kinds=kinds), open(out + '.json', 'w', encoding='utf8'))
    E = net.b.embeddings.word_embeddings.weight.float().detach().cpu().numpy(); V = np.zeros((len(vocab) + 1, 384), np.float32)
    for n, w in enumerate(vocab):
        if R.ids(w): V[n + 1] = E[R.ids(w)].mean(0)
    np.save(out + '.vec.npy', V); print(N, 'rows', len(vocab), 'words')


if __name__ == '__main__':
    if len(sys.argv) != 6: sys.exit(__doc__)
    main(*sys.argv[1:5], int(sys.argv[5]))
