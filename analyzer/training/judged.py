"""How well the program, as built, agrees with coded sets.

    judged.py SETS JAR [OPTION_OF_STUDY...]

SETS holds folders with prompts/, responses.csv and codes.csv, as coded.py and join.py write them; JAR is cli/target/everypart.jar. Runs `study` on
each and prints Cohen's kappa, how often "missing" is right, the share of open demands that it finds, the calibration error, and how many
demands it takes as addressed (all of them wrongly, where the set is of remarks). Standard library only.
"""
import csv, os, subprocess, sys, tempfile
from collections import defaultdict


def rows(path):
    return list(csv.DictReader(open(path, encoding='utf8', newline='')))


def verdicts(jar, d, options):
    """For each checked demand: the code, whether it counts as addressed, and the probability that it is."""
    with tempfile.TemporaryDirectory() as out:
        subprocess.run(['java', '-jar', jar, 'study', *options, '--prompts', d + '/prompts', '--responses', d + '/responses.csv', '--out', out + '/study'],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        found = defaultdict(list)
        for r in rows(out + '/study/demands.csv'): found[r['response_id']].append(r)
    pairs = []
    for r in rows(d + '/codes.csv'):
        codes, own = r['codes'].split(','), found[r['response_id']]
        if len(codes) != len(own): sys.exit(f"{d}: {r['response_id']} has {len(own)} demands, {len(codes)} are coded")
        for c, v in zip(codes, own):
            if v['verdict'] != 'unchecked':
                q = v['verdict'] != 'missing'; sure = float(v['confidence']); pairs.append((c == '1', q, sure if q else 1 - sure))
    return pairs


def main(sets, jar, options):
    for name in sorted(os.listdir(sets)):
        pairs = verdicts(jar, f'{sets}/{name}', options); n = len(pairs); said = sum(q for _, q, _ in pairs); y = sum(c for c, _, _ in pairs)
        hit = sum(not c and not q for c, q, _ in pairs); agree = sum(c == q for c, q, _ in pairs) / n; chance = (y * said + (n - y) * (n - said)) / n ** 2
        bins = defaultdict(list)
        for c, _, p in pairs: bins[min(int(p * 10), 9)].append((c, p))
        ece = sum(abs(sum(c for c, _ in b) - sum(p for _, p in b)) for b in bins.values()) / n
        print(f'{name}: {n} demands, {n - y} open; kappa {(agree - chance) / (1 - chance) if chance < 1 else 1:.3f}, "missing" right {hit / max(1, n - said):.3f}, '
              f'open ones found {hit / max(1, n - y):.3f}, calibration error {ece:.3f}; taken as addressed {said} ({said / n:.4f})', flush=True)


if __name__ == '__main__':
    if len(sys.argv) < 3: sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2], sys.argv[3:])
