"""Reads files of coded answers, checks them, and writes them as folders in the public formats.

    coded.py check FILE...            every mistake with file and line; then sizes, the share left open, and how much mere form gives away
    coded.py folders OUT FILE...      OUT/STEM/{prompts/*.yaml,responses.csv,codes.csv,evidence.jsonl,doubt.txt} for each file

The format is described in README.md beside this file. Standard library only.
"""
import collections, csv, json, os, re, sys

KINDS = 'identify define describe explain predict justify compare calculate propose evaluate represent'.split()
LACKS = 'nothing restates not-why no-claim one-side off names-only no-value example dont-know vague'.split()


class Mistake(Exception):
    pass


def read(path):
    """The prompts of one file: [{id, subject, age, stimulus, parts: [{label, text, demands: [{kind, count}]}], responses: [...]}].

    A response is {n, style, segments: [(text, [demand numbers])], lacks: {demand: lack}, doubt: [demand numbers]}; demands are numbered
    from 1 through the whole prompt, in reading order.
    """
    prompts, prompt, response = [], None, None
    for number, line in enumerate(open(path, encoding='utf8').read().split('\n'), 1):
        def wrong(what):
            return Mistake(f'{path}:{number}: {what}')
        if line.startswith('=== '):
            prompt, response = dict(id=line[4:].strip(), subject='', age='', stimulus='', parts=[], responses=[], line=number), None
            if not re.fullmatch(r'[a-z0-9-]+', prompt['id']): raise wrong('an id has only a-z, 0-9 and -')
            prompts.append(prompt)
        elif line.startswith('--- '):
            if prompt is None: raise wrong('a response before any prompt')
            m = re.fullmatch(r'--- (\d+)\s+([a-z, -]+?)\s*(?:\|(?! *doubt)([^|]*))?(?:\|([^|]*))?', line)
            if not m: raise wrong('expected "--- NUMBER STYLE | OPEN DEMANDS | doubt NUMBERS"')
            lacks = {}
            for item in filter(None, (x.strip() for x in (m[3] or '').split(','))):
                w = item.split()
                if len(w) != 2 or not w[0].isdigit() or w[1] not in LACKS: raise wrong(f'"{item}" is not "DEMAND LACK"')
                lacks[int(w[0])] = w[1]
            response = dict(n=int(m[1]), style=m[2].strip(), lacks=lacks, doubt=[int(x) for x in re.findall(r'\d+', m[4] or '')], raw=[], line=number)
            prompt['responses'].append(response)
        elif response is not None:
            response['raw'].append(line)
        elif prompt is None:
            if line.strip() and not line.startswith('#'): raise wrong('text before the first prompt')
        elif m := re.match(r'(subject|age|stimulus): *(.*)', line):
            prompt[m[1]] = m[2].strip()
        elif m := re.match(r'(\S+) \[([^\]]*)\]: *(.*)', line):
            demands = []
            for d in m[2].split(';'):
                x = re.fullmatch(r' *([a-z]+)(?:\*(\d+))? *', d)
                if not x or x[1] not in KINDS: raise wrong(f'"{d}" is no kind of demand')
                demands.append(dict(kind=x[1], count=int(x[2] or 1)))
            if not m[3].strip(): raise wrong('a part without wording')
            prompt['parts'].append(dict(label=m[1], text=m[3].strip(), demands=demands))
        elif line.strip():
            raise wrong('neither a field, a part, a response nor a prompt')
    for p in prompts:
        total = sum(len(x['demands']) for x in p['parts'])
        where = f"{path}:{p['line']}: {p['id']}"
        if not total: raise Mistake(f'{where} has no demand')
        seen = set()
        for r in p['responses']:
            where = f"{path}:{r['line']}: {p['id']}-{r['n']}"
            if r['n'] in seen: raise Mistake(f'{where} is there twice')
            seen.add(r['n'])
            pieces = re.split(r'\{([\d, ]*)\}', '\n'.join(r.pop('raw')).strip())
            r['segments'] = [(t, [int(x) for x in re.findall(r'\d+', marks)]) for marks, t in zip([''] + pieces[1::2], pieces[::2]) if t]
            met = {d for _, ds in r['segments'] for d in ds}
            represent = {i for i, d in enumerate((d for x in p['parts'] for d in x['demands']), 1) if d['kind'] == 'represent'}
            if met - set(range(1, total + 1)): raise Mistake(f'{where} marks demand {max(met)}, the prompt has {total}')
            if met & set(r['lacks']): raise Mistake(f"{where}: demand {min(met & set(r['lacks']))} is marked in the text and listed as open")
            rest = set(range(1, total + 1)) - met - set(r['lacks']) - represent
            if rest: raise Mistake(f'{where}: demand {min(rest)} is neither marked in the text nor listed as open')
    ids = [p['id'] for p in prompts]
    if len(ids) != len(set(ids)): raise Mistake(f'{path}: an id is there twice')
    return prompts


def text(response):
    return ''.join(t for t, _ in response['segments']).strip()


def area(pairs):
    """Area under the ROC curve of [(score, label)], ties counted half; 0.5 where one label is absent."""
    order = sorted(s for s, _ in pairs)
    first, last = {}, {}
    for i, s in enumerate(order, 1): first.setdefault(s, i); last[s] = i
    ones = [(first[s] + last[s]) / 2 for s, y in pairs if y]
    n, m = len(ones), len(pairs) - len(ones)
    return (sum(ones) - n * (n + 1) / 2) / (n * m) if n and m else .5


FORMS = {
    'words': lambda t: len(t.split()),
    'stops': lambda t: len(re.findall(r'[.!?]', t)),
    'ends with a stop': lambda t: t.rstrip().endswith(('.', '!')),
    'because, so, since': lambda t: len(re.findall(r'\b(because|becuase|cos|cause|coz|so|since)\b', t.lower())),
    'capital first': lambda t: t[:1].isupper(),
    'labels': lambda t: bool(re.search(r'(?m)^ *\(?([a-h]|[ivx]+|\d)[.):]', t)),
}


def check(paths):
    bad = 0
    for path in paths:
        try:
            prompts = read(path)
        except Mistake as e:
            print(e); bad += 1; continue
        pairs, lacks, kinds = collections.defaultdict(list), collections.Counter(), collections.defaultdict(lambda: [0, 0])
        for p in prompts:
            ds = [d['kind'] for x in p['parts'] for d in x['demands']]
            for r in p['responses']:
                lacks.update(r['lacks'].values())
                for i, k in enumerate(ds, 1):
                    if k == 'represent': continue
                    kinds[k][0] += 1; kinds[k][1] += i in r['lacks']
                    for name, f in FORMS.items(): pairs[name].append((f(text(r)), i not in r['lacks']))
        n, o = (sum(v[i] for v in kinds.values()) for i in (0, 1))
        print(f"{path}: {len(prompts)} prompts, {sum(len(p['responses']) for p in prompts)} responses, {n} coded demands, {o} open ({o / max(1, n):.0%})")
        print('  by kind (coded, open):', ', '.join(f'{k} {a} {b}' for k, (a, b) in sorted(kinds.items())))
        print('  what open ones lack:', ', '.join(f'{k} {v}' for k, v in lacks.most_common()))
        print('  form alone, area under the curve (0.5: gives nothing away):', ', '.join(f'{k} {area(v):.2f}' for k, v in pairs.items()))
    return 1 if bad else 0


def folders(out, paths):
    for path in paths:
        d = os.path.join(out, os.path.splitext(os.path.basename(path))[0])
        os.makedirs(d + '/prompts', exist_ok=True)
        prompts = read(path)
        with open(d + '/responses.csv', 'w', newline='', encoding='utf8') as f1, open(d + '/codes.csv', 'w', newline='', encoding='utf8') as f2, \
                open(d + '/evidence.jsonl', 'w', encoding='utf8') as f3, open(d + '/doubt.txt', 'w', encoding='utf8') as f4:
            responses, codes = csv.writer(f1, lineterminator='\n'), csv.writer(f2, lineterminator='\n')
            responses.writerow(['response_id', 'prompt_id', 'text', 'style']); codes.writerow(['response_id', 'demands', 'codes', 'lacks'])
            for p in prompts:
                with open(f"{d}/prompts/{p['id']}.yaml", 'w', encoding='utf8') as f:
                    y = {'id': p['id']}
                    if p['stimulus']: y['stimulus'] = p['stimulus']
                    y['parts'] = p['parts']
                    json.dump(y, f, ensure_ascii=False, indent=1)   # JSON is YAML
                    f.write('\n')
                ds = [x for part in p['parts'] for x in part['demands']]
                for r in p['responses']:
                    rid = f"{p['id']}-{r['n']}"
                    responses.writerow([rid, p['id'], text(r), r['style']])
                    codes.writerow([rid, ','.join(x['kind'] for x in ds), ','.join('0' if i in r['lacks'] else '1' for i in range(1, len(ds) + 1)),
                                    ','.join(r['lacks'].get(i, '') for i in range(1, len(ds) + 1))])
                    f3.write(json.dumps({'id': rid, 'prompt': p['id'], 'style': r['style'],
                                         'sentences': [{'t': t, 'demands': m} for t, m in r['segments']]}, ensure_ascii=False) + '\n')
                    if r['doubt']: f4.write(rid + '\n')


if __name__ == '__main__':
    if len(sys.argv) > 2 and sys.argv[1] == 'check': sys.exit(check(sys.argv[2:]))
    if len(sys.argv) > 3 and sys.argv[1] == 'folders': folders(sys.argv[2], sys.argv[3:])
    else: sys.exit(__doc__)
