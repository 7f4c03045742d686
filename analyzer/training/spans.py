"""Writes coded answers as sets of placed text, for AlignmentBench: which part each marked stretch answers.

    spans.py OUT FILE...      OUT/STEM/{prompts/*.yaml,responses.csv,parts.csv,spans.csv} for each file of the format of README.md

Only prompts of two parts or more, and responses without labels of the writer's own, since a label settles where text belongs. Words
marked for demands of two parts are left out. A part is answered where one of its demands is addressed. Standard library only.
"""
import csv, json, os, re, sys
import coded

LABEL = re.compile(r'(?im)(^|[.!?]\s+)\W{0,2}(part |question |for |and |then |ok |q)?(part )?\(?[a-f1-6ivx]{1,3}(\)|[.:=-]|,| -)|\bpart (one|two|three|[a-f])\b|\b(first|second|third|last) (one|part|question)\b')


def layout(response):
    style = response['style']
    return next((l for l in ('paragraphs', 'shuffled', 'running', 'labelled') if l in style), 'paragraphs' if '\n' in coded.text(response).strip() else 'running')


def main(out, paths):
    for path in paths:
        name = os.path.splitext(os.path.basename(path))[0]; prompts = [p for p in coded.read(path) if len(p['parts']) > 1]; d = f'{out}/{name}'; count = 0
        os.makedirs(d + '/prompts', exist_ok=True)
        with open(d + '/responses.csv', 'w', newline='', encoding='utf8') as f, open(d + '/parts.csv', 'w', newline='') as g, open(d + '/spans.csv', 'w', newline='') as h:
            a, b, c = csv.writer(f), csv.writer(g), csv.writer(h)
            a.writerow(['response_id', 'prompt_id', 'text', 'layout', 'source']); b.writerow(['response_id', 'part', 'answered']); c.writerow(['response_id', 'part', 'start', 'end'])
            for n, p in enumerate(prompts):
                part_of = [q['label'] for q in p['parts'] for _ in q['demands']]; used = False
                for r in p['responses']:
                    text = ''.join(t for t, _ in r['segments'])
                    if layout(r) == 'labelled' or LABEL.search(text): continue
                    rid = f"{p['id']}-{r['n']}"; at, spans = 0, []
                    for t, demands in r['segments']:
                        parts = {part_of[x - 1] for x in demands}; words = t.strip()
                        if len(parts) == 1 and words: spans.append((parts.pop(), at + t.index(words), at + t.index(words) + len(words)))
                        at += len(t)
                    if not spans: continue
                    used = True; count += 1; a.writerow([rid, p['id'], text, layout(r), f'{name}']); [c.writerow([rid, *s]) for s in spans]
                    for q in p['parts']:
                        own = [x for x in range(1, len(part_of) + 1) if part_of[x - 1] == q['label']]
                        b.writerow([rid, q['label'], int(any(x not in r['lacks'] for x in own))])
                if used:
                    with open(f"{d}/prompts/{p['id']}.yaml", 'w', encoding='utf8') as y:
                        json.dump(dict(id=p['id'], **({'stimulus': p['stimulus']} if p['stimulus'] else {}), parts=[dict(label=q['label'], text=q['text'], demands=[dict(kind=x['kind'], **({'count': x['count']} if x['count'] > 1 else {})) for x in q['demands']]) for q in p['parts']]), y, ensure_ascii=False, indent=1)
        print(name, len(prompts), 'prompts', count, 'responses')


if __name__ == '__main__':
    if len(sys.argv) < 3: sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2:])
