#!/usr/bin/env python3
"""Makes words.txt.gz, the program's list of single English words. README.md beside this file says from what.

usage: make.py SCOWL_DIR WORDNET_DIR OUT.gz
"""
import collections, gzip, io, os, re, sys

scowl, wordnet, out = sys.argv[1:4]
LEVELS = (10, 20, 35, 40, 50, 55, 60)
MOST = 1500          # counts are cut here: beyond it a word is as common as can be
NAMES = {'person', 'group', 'location'}   # stand for names of people and places in the counted texts

level = {}
for size in LEVELS:
    for part in ('english', 'american', 'british', 'british_z'):
        for kind in ('words', 'contractions'):
            path = f'{scowl}/{part}-{kind}.{size}'
            if os.path.exists(path):
                for word in open(path, encoding='latin-1').read().split():
                    word = word.strip()
                    if re.fullmatch(r"[a-z][a-z']*", word) and not word.endswith("'s"):
                        level.setdefault(word, size)

count = collections.defaultdict(lambda: collections.Counter())
for line in open(f'{wordnet}/cntlist'):
    n, key, _ = line.split()
    lemma, rest = key.split('%')
    count[lemma][rest[0]] += int(n) if lemma not in NAMES else 1
NOT_COMPARATIVE = {'after', 'fiver', 'later', 'former', 'number', 'corner', 'matter', 'ever', 'never', 'over', 'under', 'other'}
VERB, NOUN = '2', '1'

def index(part):
    return {l.split()[0] for l in open(f'{wordnet}/index.{part}') if not l.startswith(' ')}
verbs, nouns, adjectives, adverbs = index('verb'), index('noun'), index('adj'), index('adv')
kinds = collections.defaultdict(set)
base_of = {}
for verb in verbs:
    if verb not in level: continue
    c = count[verb]
    other = sum(v for k, v in c.items() if k != VERB)
    if c[VERB] * 5 >= other if other else True:
        if verb in nouns and not c[VERB] and level[verb] <= 35: pass
        else: kinds[verb].add('v')
    stem = verb[:-1] if verb.endswith('e') else verb
    for past in (stem + 'ed', verb[:-1] + 'ied' if verb.endswith('y') else '', verb + verb[-1] + 'ed'):
        if past in level and past not in verbs: kinds[past].add('p'); base_of.setdefault(past, verb)
    for third in (verb + 's', verb + 'es', verb[:-1] + 'ies' if verb.endswith('y') else ''):
        if third in level:
            base_of.setdefault(third, verb)
            if c[VERB] * 2 >= c[NOUN] and (c[VERB] or verb not in nouns): kinds[third].add('s')
    for ing in (stem + 'ing', verb + 'ing', verb + verb[-1] + 'ing'):
        if ing in level: base_of.setdefault(ing, verb)
for line in open(f'{wordnet}/verb.exc'):
    form, base = line.split()[:2]
    if form in level and '_' not in base:
        base_of.setdefault(form, base)
        if not form.endswith(('s', 'ing')): kinds[form].add('p')
for noun in nouns:
    for plural in (noun + 's', noun + 'es', noun[:-1] + 'ies' if noun.endswith('y') else ''):
        if plural in level: base_of.setdefault(plural, noun)
for line in open(f'{wordnet}/noun.exc'):
    form, base = line.split()[:2]
    if form in level: base_of.setdefault(form, base)
for adjective in adjectives:
    c = count[adjective]
    if adjective in level and (c['3'] + c['5'] > max(c[NOUN], c[VERB], c['4']) or (adjective not in nouns | verbs and adjective not in adverbs)):
        kinds[adjective].add('a')
irregular = {l.split()[0]: l.split()[1] for l in open(f'{wordnet}/adj.exc')}
for adjective in adjectives:
    stem = adjective[:-1] if adjective.endswith('e') else adjective
    for form in (stem + 'er', adjective[:-1] + 'ier' if adjective.endswith('y') else '', adjective + adjective[-1] + 'er'):
        # A noun such as "water" or "number" that happens to look like one is none.
        if form in level and level[form] <= 50 and not (count[form][NOUN] or count[form][VERB]) and form not in verbs and form not in NOT_COMPARATIVE:
            if count[adjective]['3'] + count[adjective]['5'] > 0: kinds[form].add('c')
for form, base in irregular.items():
    if form in level and form.endswith('er') and base in level and sum(count[base].values()) > 0 and form not in nouns: kinds[form].add('c')
for word in ('more', 'less', 'fewer', 'better', 'worse', 'lower', 'higher', 'slower', 'longer', 'shorter', 'further', 'farther', 'cooler', 'warmer'):
    kinds[word].add('c')

def total(word):
    n = sum(count[word].values())
    if not n and word in base_of: n = sum(count[base_of[word]].values())
    return min(n, MOST)

with gzip.GzipFile(out, 'wb', mtime=0) as z, io.TextIOWrapper(z, encoding='utf8', newline='\n') as f:
    f.write('# Single English words: form, SCOWL size class, sense count in WordNet 3.1, kinds (v base verb, p past, s third person, c comparative, a adjective)\n')
    f.write('# Made by lexicon/words/make.py from SCOWL 2020.12.07 and WordNet 3.1. Licences: META-INF/NOTICE-words.txt. Not edited by hand.\n')
    for word in sorted(level):
        f.write(f"{word}\t{level[word]}\t{total(word)}\t{''.join(sorted(kinds[word]))}\n")
print(len(level), 'words')
