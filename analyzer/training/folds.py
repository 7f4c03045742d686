"""Which fold a prompt is in. One prompt in eight of the files named here is set aside (fold 9): nothing is fitted or chosen on it."""
import csv, hashlib

SET_ASIDE = ('book-1', 'book-2', 'exam-bio-5', 'exam-bio-6', 'exam-mix-4', 'exam-mix-5', 'kids-7', 'kids-8')


def part(word, n):
    """A number from 0 to n-1 that hangs on the word alone."""
    return int(hashlib.md5(word.encode()).hexdigest(), 16) % n


def read(path):
    """{(set, prompt id): fold} for sets whose folds are fixed (columns set,prompt_id,fold)."""
    return {(r['set'], r['prompt_id']): int(r['fold']) for r in csv.DictReader(open(path, encoding='utf8'))}


def fold(name, prompt, fixed):
    """The fold, 0 to 4, or 9, of a prompt of a set."""
    if (name, prompt) in fixed: return fixed[name, prompt]
    return 9 if name in SET_ASIDE and part(prompt + 'v', 8) == 0 else part(prompt, 5)
