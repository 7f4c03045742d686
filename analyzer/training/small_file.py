"""Writes the small reader's weights as the file that SmallReader reads.

    small_file.py WEIGHTS.npz WORDS.json FIGURES OUT

WEIGHTS.npz and WORDS.json are what small_reader.py wrote; FIGURES is a sentence for the header. Words and letter runs get 8-bit vectors, each
with a scale of its own; all else stays in 32 bits. Big-endian, as java.io.DataInput reads it. Needs numpy.
"""
import datetime, hashlib, io, json, struct, sys
import numpy as np

HEAD = """Small reader of the judge, written by analyzer/training/small_file.py on {date}; licence: as the project, weights only, none of the texts.
Data: as in weights-features.tsv; half of each label is the opinion of reader.onnx, whose word vectors (bge-small-en-v1.5, MIT) it started from.
{figures}
checksum of what follows this text (sha-256): {sum}"""


def text(s):
    b = s.encode('utf-8'); return struct.pack('>i', len(b)) + b


def floats(a): return np.ascontiguousarray(a, dtype='>f4').tobytes()


def bytes8(a):
    a = a.astype(np.float32); s = np.abs(a).max(1) / 127; s[s == 0] = 1
    return floats(s) + np.round(a / s[:, None]).astype(np.int8).tobytes()


def main(weights, words, figures, out):
    w = {k: v.astype(np.float32) for k, v in np.load(weights).items()}; meta = json.load(open(words, encoding='utf8'))
    known = [n for n in range(1, len(meta['vocab']) + 1) if w['known'][n]]
    o = io.BytesIO(); d = w['w'].shape[1]
    o.write(struct.pack('>4i', d, len(known), w['b'].shape[0], len(meta['kinds'])))
    o.write(text('\n'.join(meta['kinds']))); o.write(text('\n'.join(meta['vocab'][n - 1] for n in known)))
    o.write(bytes8(w['w'][known])); o.write(bytes8(w['b']))
    for name in ('ds', 'kd', 'ts'): o.write(floats(w[name]))
    for n in range(3): o.write(floats(w[f'ln.{n}.weight'])); o.write(floats(w[f'ln.{n}.bias']))
    for n in range(2): o.write(floats(w[f'c.{n}.weight'].transpose(2, 1, 0))); o.write(floats(w[f'c.{n}.bias']))  # place, in, out
    for name in ('q', 'k', 'cd', 'ct', 'o1', 'o2', 'ev'): o.write(floats(w[name + '.weight'].T)); o.write(floats(w[name + '.bias']))
    body = o.getvalue()
    head = HEAD.format(date=datetime.date.today(), figures=figures, sum=hashlib.sha256(body).hexdigest())
    with open(out, 'wb') as f: f.write(text(head) + body)
    print(out, len(body), 'bytes', len(known), 'words')


if __name__ == '__main__':
    if len(sys.argv) != 5: sys.exit(__doc__)
    main(*sys.argv[1:])
