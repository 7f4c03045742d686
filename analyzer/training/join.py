"""Makes further training sets out of coded ones, without writing a word.

    join.py parts OUT FOLDS_OUT FOLDS.csv SET_DIR...     questions of one part joined to prompts of three or four, some parts left out
    join.py odd OUT FOLDS.csv UNRELATED.txt SET_DIR...   an unrelated remark as the whole response, twice for each prompt, remarks of its fold
    join.py aside OUT FOLDS.csv REMARKS.txt SET_DIR...   all answers to the prompts set aside as the set `answers`, and two remarks for each as the set `remarks`

SET_DIR holds prompts/*.yaml, responses.csv and codes.csv; OUT gets a folder for each, named joined+SET or odd+SET. The first also writes FOLDS_OUT:
FOLDS.csv with a line more for each joined prompt, whose questions all come from one fold. Needs PyYAML. Seeds are fixed.
"""
import csv, hashlib, json, os, random, sys
import yaml
import folds as division

LABELS = ['{0}) ', '({0}) ', '{0}. ', 'Part {1}: ', '{1}: ', '{0}) ', '({0}) ']


def rows(path):
    return list(csv.DictReader(open(path, encoding='utf8', newline='')))


def read(d):
    name = os.path.basename(d.rstrip('/')); prompts, answers = {}, {}
    for f in sorted(os.listdir(d + '/prompts')):
        p = yaml.safe_load(open(f'{d}/prompts/{f}', encoding='utf8')); prompts[p['id']] = p
    texts = {r['response_id']: r for r in rows(d + '/responses.csv')}
    marks = {}
    if os.path.exists(d + '/evidence.jsonl'):
        for l in open(d + '/evidence.jsonl', encoding='utf8'):
            e = json.loads(l); marks[e['id']] = e['sentences']
    for r in rows(d + '/codes.csv'):
        t = texts[r['response_id']]
        if not t['text'].strip(): continue
        answers.setdefault(t['prompt_id'], []).append(dict(id=r['response_id'], text=t['text'].strip(), codes=r['codes'].split(','), lacks=r.get('lacks', ''), marks=marks.get(r['response_id'])))
    return name, prompts, answers


def write(out, name, prompts, responses):
    d = f'{out}/{name}'; os.makedirs(d + '/prompts', exist_ok=True)
    for p in prompts:
        with open(f"{d}/prompts/{p['id']}.yaml", 'w', encoding='utf8') as f: json.dump(p, f, ensure_ascii=False, indent=1)
    with open(d + '/responses.csv', 'w', newline='', encoding='utf8') as f, open(d + '/codes.csv', 'w', newline='', encoding='utf8') as g, open(d + '/evidence.jsonl', 'w', encoding='utf8') as h:
        a = csv.writer(f); b = csv.writer(g); a.writerow(['response_id', 'prompt_id', 'text']); b.writerow(['response_id', 'demands', 'codes', 'lacks'])
        for r in responses:
            a.writerow([r['id'], r['prompt'], r['text']]); b.writerow([r['id'], ','.join(r['kinds']), ','.join(r['codes']), ','.join(r['lacks'])])
            if r['marks'] is not None: h.write(json.dumps(dict(id=r['id'], prompt=r['prompt'], sentences=r['marks']), ensure_ascii=False) + '\n')


def join(name, prompts, answers, fold_of):
    rnd = random.Random(name); folds = {}
    for q, p in sorted(prompts.items()):
        if len(p['parts']) == 1 and q in answers and fold_of(q) < 9: folds.setdefault(fold_of(q), []).append(q)
    made, responses, where = [], [], []
    for fold, qs in sorted(folds.items()):
        rnd.shuffle(qs); at = 0
        while at + 3 <= len(qs):
            group = qs[at:at + rnd.choice([3, 3, 4])]; at += len(group)
            number = len(made) + 1; qid = f'j{number}-{name}'
            parts = []
            for label, q in zip('abcd', group):
                part = dict(prompts[q]['parts'][0], label=label)
                if prompts[q].get('stimulus'): part['text'] = prompts[q]['stimulus'].strip() + ' ' + part['text']
                parts.append(part)
            made.append(dict(id=qid, parts=parts)); where.append((qid, fold))
            kinds = [d['kind'] for p in parts for d in p['demands']]
            for n in range(4):
                there = [rnd.random() > .33 for _ in group]
                if not any(there): there[rnd.randrange(len(group))] = True
                layout = ('labelled', 'paragraphs', 'running', 'shuffled')[n]
                style = rnd.choice(LABELS); pieces, codes, lacks, first = [], [], [], 1
                for k, q in enumerate(group):
                    size = len(parts[k]['demands']); a = rnd.choice(answers[q])
                    if there[k] and len(a['codes']) == size:
                        codes += a['codes']; lacks += (a['lacks'].split(',') if a['lacks'] else [''] * size)
                        text = ' '.join(a['text'].split()); marks = None
                        if a['marks'] is not None: marks = [dict(t=' '.join(s['t'].split()), demands=[x + first - 1 for x in s['demands']]) for s in a['marks']]
                        if layout in ('running', 'shuffled') and text[-1] not in '.?!': text += '.'
                        pieces.append(((style.format('abcd'[k], 'ABCD'[k]) if layout == 'labelled' else '') + text, marks))
                    else:
                        codes += ['0'] * size; lacks += ['nothing'] * size
                    first += size
                if layout == 'shuffled' or layout == 'labelled' and rnd.random() < .3: rnd.shuffle(pieces)
                if not pieces: continue
                known = all(m is not None for _, m in pieces)
                responses.append(dict(id=f'{qid}-{n}', prompt=qid, text=('\n' if layout in ('labelled', 'paragraphs') else ' ').join(t for t, _ in pieces), kinds=kinds, codes=codes, lacks=lacks,
                                      marks=[s for _, m in pieces for s in m] if known else None))
    return made, responses, where


def main(args):
    if args[:1] == ['parts']:
        out, folds_out, folds = args[1:4]
        lines = rows(folds); fixed = {(r['set'], r['prompt_id']): int(r['fold']) for r in lines}
        h = lambda s, n: int(hashlib.md5(s.encode()).hexdigest(), 16) % n
        for d in args[4:]:
            name, prompts, answers = read(d)
            made, responses, where = join(name, prompts, answers, lambda q: fixed.get((name, q), 9 if h(q + 'u', 12) == 0 else h(q, 5)))
            if made:
                write(out, 'joined+' + name, made, responses)
                lines += [dict(set='joined+' + name, prompt_id=q, fold=f) for q, f in where]
                print(name, len(made), 'prompts', len(responses), 'responses')
        with open(folds_out, 'w', newline='') as f:
            w = csv.DictWriter(f, ['set', 'prompt_id', 'fold']); w.writeheader(); w.writerows(lines)
    elif args[:1] == ['odd']:
        fixed = division.read(args[2]); remarks = {}
        for l in open(args[3], encoding='utf8'):
            if l.strip() and not l.startswith('#'): remarks.setdefault(division.part(l.strip(), 5), []).append(l.strip())
        for d in args[4:]:
            name, prompts, _ = read(d); responses, r = [], random.Random('odd' + name)
            for q, p in sorted(prompts.items()):
                kinds = [x['kind'] for part in p['parts'] for x in part['demands']]; fold = division.fold(name, q, fixed)
                if not kinds or fold == 9: continue
                for n, text in enumerate(r.sample(remarks[fold], 2)):
                    responses.append(dict(id=f'odd{n}-{q}', prompt=q, text=text, kinds=kinds, codes=['0'] * len(kinds), lacks=['off'] * len(kinds), marks=None))
            write(args[1], 'odd+' + name, list(prompts.values()), responses)
    elif args[:1] == ['aside']:
        fixed = division.read(args[2]); remarks = [l.strip() for l in open(args[3], encoding='utf8') if l.strip() and not l.startswith('#')]
        made, answered, remarked = [], [], []
        for d in args[4:]:
            name, prompts, answers = read(d)
            for q, p in sorted(prompts.items()):
                if division.fold(name, q, fixed) != 9: continue
                kinds = [x['kind'] for part in p['parts'] for x in part['demands']]; made.append(p)
                answered += [dict(id=a['id'], prompt=q, text=a['text'], kinds=kinds, codes=a['codes'], lacks=[], marks=None) for a in answers.get(q, [])]
                for n in range(2):
                    text = remarks[len(remarked) % len(remarks)]
                    remarked.append(dict(id=f'remark{n}-{q}', prompt=q, text=text, kinds=kinds, codes=['0'] * len(kinds), lacks=[], marks=None))
        write(args[1], 'answers', made, answered); write(args[1], 'remarks', made, remarked); print(len(made), 'prompts')
    else:
        sys.exit(__doc__)


if __name__ == '__main__':
    main(sys.argv[1:])
