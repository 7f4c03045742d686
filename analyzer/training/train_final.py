import sys; from reader import *
seed, out = int(sys.argv[1]), sys.argv[2]; c = json.loads(sys.argv[3]); items = load(); t0 = time.time()
tr = [i for i in items if i['fold'] != 9]
net = train(tr, c, seed); t1 = time.time()
fin, cur, size = {}, {}, 0; n = 0
for k, v in net.state_dict().items():
    if 'position_ids' in k: continue
    v = v.float().cpu().numpy(); p = {}
    if v.ndim == 2 and v.size > 100000:
        s = np.abs(v).max(1) / 127; s[s == 0] = 1; p[k] = np.round(v / s[:, None]).astype(np.int8); p[k + '__scale'] = s.astype(np.float32)
    else: p[k] = v.astype(np.float32)
    b = sum(a.nbytes for a in p.values())
    if size + b > 15.5e6: np.savez(f'{out}/final{n}.npz', **cur); n += 1; cur, size = {}, 0
    cur.update(p); size += b
np.savez(f'{out}/final{n}.npz', **cur)
par = [i for i in items if i['fold'] != 9][::60]
z, evs, enc, lk = predict(net, par, c)
json.dump([dict(set=i['set'], id=i['id'], part=i['part'], place=i['place'], z=float(v), lk=int(l), ids=[int(q) for q in e[0]], tt=e[1], ev=[round(float(q), 3) for q in w]) for i, v, l, e, w in zip(par, z, lk, enc, evs)], open(f'{out}/parity.json', 'w'))
print('final', seed, len(tr), f'train {t1 - t0:.0f}s', flush=True)
