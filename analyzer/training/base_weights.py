import re, sys
import numpy as np, onnx
from onnx import numpy_helper
model = onnx.load(sys.argv[1])
init = {i.name: numpy_helper.to_array(i) for i in model.graph.initializer}
out = {re.sub(r'^(bert\.|model\.)', '', k): a for k, a in init.items()
       if re.search(r'(embeddings|LayerNorm|\.bias$)', k) and 'position_ids' not in k}
for node in model.graph.node:
    if node.op_type == 'MatMul':
        for x in node.input:
            m = x in init and re.search(r'layer\.(\d+)/(.*)/MatMul', node.name)
            if m: out[f"encoder.layer.{m[1]}.{m[2].replace('/', '.')}.weight"] = init[x].T
fin = {}
for k, v in out.items():
    if v.ndim == 2 and v.size > 100000:
        a = v.astype(np.float32); s = np.abs(a).max(1) / 127; s[s == 0] = 1
        fin[k] = np.round(a / s[:, None]).astype(np.int8); fin[k + '__scale'] = s.astype(np.float32)
    else: fin[k] = v.astype(np.float16)
np.savez_compressed(sys.argv[2], **fin)
print(sys.argv[2], len(out), sum(v.nbytes for v in fin.values()) / 1e6)
