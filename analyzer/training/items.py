"""Turns what ExportJudgements wrote into what the reader learns from.

    items.py ITEMS.jsonl FOLDS.csv JUDGED.jsonl... [--odd] [--opinions LOG_ODDS.npz...]

FOLDS.csv has set,prompt_id,fold for sets whose folds are fixed; folds.py has the rule for the others. Sets whose prompts share questions
are folded by the wording of the part, and a wording that stands in a set with fixed folds goes with that. LOG_ODDS.npz holds in `z`, by
"set id part place", the log-odds that a reader gave which had not seen the prompt; their mean becomes the item's `soft` label. With --odd
the sets of unrelated sentences stay in, in the fold of their prompts: the small reader is tried on them.
"""
import json, math, re, sys
import numpy as np
import folds

BY_WORDING = ('answers', 'answers-cut', 'composites')


def wording(i): return re.sub(r'\W+', ' ', i['a'].split(': ', 1)[1].lower()).strip()


def joined(pieces):
    """[[own, text, evidence], ...]: pieces of one kind that follow each other, as one."""
    ps = []
    for p in pieces:
        for t, e in zip(p[1::2], p[2::2]):
            if ps and ps[-1][0] == p[0] and ps[-1][2] == e: ps[-1][1] += t
            else: ps.append([p[0], t, e])
    return ps


def main(out, fixed, judged, odd, opinions):
    fixed = folds.read(fixed); zs = [dict(np.load(f, allow_pickle=True)['z'].tolist()) for f in opinions]
    items = [i for f in judged for i in map(json.loads, open(f, encoding='utf8')) if odd or not i['set'].startswith('odd+')]
    at = {wording(i): fixed[i['set'], i['q']] for i in items if (i['set'], i['q']) in fixed and not i['multi'] and i['set'] not in BY_WORDING}
    with open(out, 'w', encoding='utf8') as o:
        for i in items:
            w = wording(i)
            i['fold'] = at.get(w, folds.part(w, 5)) if i['set'] in BY_WORDING else folds.fold(i['set'].removeprefix('odd+'), i['q'], fixed)
            said = [z[k] for k in (f"{i['set']} {i['id']} {i['part']} {i['place']}",) for z in zs if k in z]
            if said: i['soft'] = round(1 / (1 + math.exp(-sum(map(float, said)) / len(said))), 4)
            i['ps'] = joined(i['pieces'])
            for name in ('pieces', 'f', 'gate'): i.pop(name, None)
            o.write(json.dumps(i, ensure_ascii=False) + '\n')
    print(len(items))


if __name__ == '__main__':
    at = sys.argv.index('--opinions') if '--opinions' in sys.argv else len(sys.argv)
    if at < 4: sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2], [f for f in sys.argv[3:at] if f != '--odd'], '--odd' in sys.argv[3:at], sys.argv[at + 1:])
