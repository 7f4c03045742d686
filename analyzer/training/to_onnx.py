"""Builds the reader's ONNX file from its weights: 8-bit matrices, as they came from training, in the graph of a BERT-shaped encoder."""
import glob, sys, numpy as np, onnx
from onnx import helper as h, numpy_helper as nh, TensorProto as T
W = {}
for f in sorted(glob.glob(sys.argv[1] + '/final*.npz')):
    z = np.load(f); W.update({k: z[k] for k in z.files})
nodes, init = [], []
def const(name, a): init.append(nh.from_array(np.ascontiguousarray(a), name)); return name
def op(kind, ins, out, **a): nodes.append(h.make_node(kind, ins, [out], name=out, **a)); return out
H, HEADS, L = 384, 12, 12
def embed(table, ids):
    q = op('Gather', [const(table + '.q', W[table]), ids], table + '.g')
    s = op('Gather', [const(table + '.s', W[table + '__scale'][:, None]), ids], table + '.gs')
    return op('Mul', [op('Cast', [q], table + '.c', to=T.FLOAT), s], table + '.e')
def norm(x, name, out):
    m = op('ReduceMean', [x], out + '.m', axes=[-1], keepdims=1); d = op('Sub', [x, m], out + '.d')
    v = op('ReduceMean', [op('Mul', [d, d], out + '.sq')], out + '.v', axes=[-1], keepdims=1)
    n = op('Div', [d, op('Sqrt', [op('Add', [v, 'eps'], out + '.ve')], out + '.sd')], out + '.n')
    return op('Add', [op('Mul', [n, const(name + '.weight', W[name + '.weight'])], out + '.w'), const(name + '.bias', W[name + '.bias'])], out)
const('eps', np.array(1e-12, np.float32))
quantized = {}
def dense(x, name, out):
    if x not in quantized:
        nodes.append(h.make_node('DynamicQuantizeLinear', [x], [x + '.q', x + '.qs', x + '.qz'], name=x + '.dq')); quantized[x] = 1
    w = const(name + '.q', np.ascontiguousarray(W[name + '.weight'].T)); s = const(name + '.s', W[name + '.weight__scale'])
    z = const(name + '.z', np.zeros(W[name + '.weight'].shape[0], np.int8))
    i = op('MatMulInteger', [x + '.q', w, x + '.qz', z], out + '.i')
    f = op('Mul', [op('Cast', [i], out + '.f', to=T.FLOAT), op('Mul', [x + '.qs', s], out + '.sc')], out + '.mm')
    return op('Add', [f, const(name + '.bias', W[name + '.bias'])], out)
word = embed('b.embeddings.word_embeddings.weight', 'input_ids')
n = op('Shape', ['input_ids'], 'shape'); const('one', np.array(1, np.int64)); const('zero', np.array(0, np.int64))
seq = op('Gather', ['shape', 'one'], 'seq', axis=0)
pos = op('Range', ['zero', seq, 'one'], 'pos')
posT = 'b.embeddings.position_embeddings.weight'; typT = 'b.embeddings.token_type_embeddings.weight'
if posT + '__scale' in W: p = embed(posT, 'pos')
else: p = op('Gather', [const(posT, W[posT].astype(np.float32)), 'pos'], 'pos.e')
t = op('Gather', [const(typT, W[typT].astype(np.float32)), 'token_type_ids'], 'typ.e')
x = norm(op('Add', [op('Add', [word, p], 'e1'), t], 'e2'), 'b.embeddings.LayerNorm', 'h0')
const('heads', np.array([0, -1, HEADS, H // HEADS], np.int64)); const('flat', np.array([0, -1, H], np.int64)); const('scale', np.array(1 / np.sqrt(H // HEADS), np.float32))
m = op('Cast', ['attention_mask'], 'mask.f', to=T.FLOAT)
const('onef', np.array(1, np.float32)); const('big', np.array(-1e4, np.float32)); const('ax12', np.array([1, 2], np.int64))
bias = op('Mul', [op('Sub', ['onef', op('Unsqueeze', [m, 'ax12'], 'mask.u')], 'mask.i'), 'big'], 'mask.b')
const('sq2', np.array(np.sqrt(2), np.float32)); const('half', np.array(.5, np.float32))
for i in range(L):
    P = f'b.encoder.layer.{i}.'; o = f'l{i}.'
    q, k, v = (dense(x, P + 'attention.self.' + w, o + w) for w in ('query', 'key', 'value'))
    hd = lambda a, perm, out: op('Transpose', [op('Reshape', [a, 'heads'], out + '.r')], out, perm=perm)
    qh, kh, vh = hd(q, [0, 2, 1, 3], o + 'qh'), hd(k, [0, 2, 3, 1], o + 'kh'), hd(v, [0, 2, 1, 3], o + 'vh')
    a = op('Softmax', [op('Add', [op('Mul', [op('MatMul', [qh, kh], o + 'qk'), 'scale'], o + 'qks'), bias], o + 'qkb')], o + 'att', axis=-1)
    c = op('Reshape', [op('Transpose', [op('MatMul', [a, vh], o + 'av')], o + 'avt', perm=[0, 2, 1, 3]), 'flat'], o + 'ctx')
    x = norm(op('Add', [dense(c, P + 'attention.output.dense', o + 'ao'), x], o + 'ar'), P + 'attention.output.LayerNorm', o + 'an')
    u = dense(x, P + 'intermediate.dense', o + 'iu')
    g = op('Mul', [op('Mul', [u, 'half'], o + 'uh'), op('Add', [op('Erf', [op('Div', [u, 'sq2'], o + 'us')], o + 'ue'), 'onef'], o + 'u1')], o + 'gelu')
    x = norm(op('Add', [dense(g, P + 'output.dense', o + 'fo'), x], o + 'fr'), P + 'output.LayerNorm', o + 'h')
const('ax2', np.array([2], np.int64)); mu = op('Unsqueeze', [m, 'ax2'], 'mask.u2')
num = op('ReduceSum', [op('Mul', [x, mu], 'hm'), 'one1'], 'hs', keepdims=0); const('one1', np.array([1], np.int64))
den = op('ReduceSum', [mu, 'one1'], 'ms', keepdims=0); vec = op('Div', [num, den], 'vec')
def lin(x, name, out): return op('Add', [op('MatMul', [x, const(name + '.w', W[name + '.weight'].astype(np.float32).T)], out + '.m'), const(name + '.b', W[name + '.bias'].astype(np.float32))], out)
lin(vec, 'h', 'addressed'); lin(x, 'e', 'evidence'); lin(vec, 'l', 'lacks')
ins = [h.make_tensor_value_info(k, T.INT64, ['n', 's']) for k in ('input_ids', 'attention_mask', 'token_type_ids')]
outs = [h.make_tensor_value_info('addressed', T.FLOAT, ['n', 1]), h.make_tensor_value_info('evidence', T.FLOAT, ['n', 's', 1]), h.make_tensor_value_info('lacks', T.FLOAT, ['n', 11])]
g = h.make_graph(nodes, 'reader', ins, outs, init)
mdl = h.make_model(g, opset_imports=[h.make_opsetid('', 14)], producer_name='everypart'); mdl.ir_version = 8
onnx.checker.check_model(mdl); onnx.save(mdl, sys.argv[2])
