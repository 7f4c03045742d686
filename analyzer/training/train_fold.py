import sys; from reader import *
name, fold, seed, out = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
c = json.loads(sys.argv[5]); items = load(); t0 = time.time()
H = lambda q: int(hashlib.md5(q.encode()).hexdigest(), 16) % 1000 / 1000
tr = [i for i in items if i['fold'] != fold and 0 <= i['fold'] < 9 and H(i['set'] + i['q']) < c.get('share', 1)]
te = [i for i in items if i['fold'] == fold]
net = train(tr, c, seed); z, evs, enc, lk = predict(net, te, c)
seen = set(); odd = []; plus = []
for n, i in enumerate(te):
    k = (i['set'], i['q'], i['part'], i['place'])
    if k not in seen: seen.add(k); odd.append(dict(i, ps=[(1, ODD_TEST[n % len(ODD_TEST)], 0)]))
zo = predict(net, odd, c)[0]
cut = [dict(i, ps=[p for p in i['ps'] if p[2] != 1]) for i in te if i['label'] and any(p[2] == 1 for p in i['ps'])]
zc = predict(net, cut, c)[0] if cut else np.zeros(1)
hit = tot = 0
for v, e in zip(evs, enc):
    lab = np.array(e[2])
    if (lab == 1).any() and (lab == 0).any(): hit += auc((lab[lab >= 0] == 1).astype(int), v[lab >= 0]); tot += 1
lt = [(LACKS.index(i['lack']), l) for i, l in zip(te, lk) if i['lack'] in LACKS]
np.savez(f'{out}/{name}.{fold}.{seed}.npz', z=z, odd=zo, cut=zc, ev=np.array([hit, tot]), lk=lk, lacks=np.array([sum(a == b for a, b in lt), len(lt)]))
print(name, fold, seed, 'train', len(tr), 'test', len(te), f'{time.time() - t0:.0f}s', flush=True)
