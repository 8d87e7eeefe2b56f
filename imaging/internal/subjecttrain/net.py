#!/usr/bin/env python3
"""The net in floating point, with numpy alone, and the packer of its weights.

  net.py forward FLOAT.bin PICTURES.raw OUT.raw   logits of pictures, for the test
  net.py pack FLOAT.bin PICTURES.raw OUT.bin      weights of 8 bits for package subject

PICTURES.raw holds 288 x 288 x 3 bytes of sRGB codes a picture; for packing they
only set how far the values of each layer reach, so a few hundred pictures that
the trainer composed are enough. OUT.raw holds 144 x 144 float32 a picture.

FLOAT.bin, as train.py writes it (batch norms folded), little endian: "SFN1",
uint32 number of tensors; for each: uint8 length of name, name, uint8 rank,
uint32 sizes, float16 values in C order.
"""
import struct
import sys

import numpy as np

SIDE, TOP, ONE = 288, 8191, 256


def read(path):
    b = open(path, "rb").read()
    assert b[:4] == b"SFN1"
    n, = struct.unpack_from("<I", b, 4)
    o, w = 8, {}
    for _ in range(n):
        name = b[o + 1:o + 1 + b[o]].decode()
        o += 1 + b[o]
        rank = b[o]
        shape = struct.unpack_from("<%dI" % rank, b, o + 1)
        o += 1 + 4 * rank
        count = int(np.prod(shape))
        w[name] = np.frombuffer(b, "<f2", count, o).reshape(shape).astype(np.float32)
        o += 2 * count
    return w


def conv(w, name, x, stride=1, relu=True, see=None):
    k, b = w[name + ".w"], w[name + ".b"]
    out, fan, size, _ = k.shape
    c, h, wd = x.shape
    p = size // 2
    ho, wo = (h + 2 * p - size) // stride + 1, (wd + 2 * p - size) // stride + 1
    q = np.pad(x, ((0, 0), (p, p), (p, p))) if p else x
    each = fan == 1 and c == out and c > 1
    y = np.zeros((out, ho, wo), np.float32)
    for i in range(size):
        for j in range(size):
            s = q[:, i:i + ho * stride:stride, j:j + wo * stride:stride][:, :ho, :wo]
            y += k[:, 0, i, j][:, None, None] * s if each else (k[:, :, i, j] @ s.reshape(c, -1)).reshape(out, ho, wo)
    y += b[:, None, None]
    if see:
        see(name, np.maximum(y, 0) if relu else y)
    if relu:
        y = np.maximum(y, 0)
    return y


def double(x):
    return x.repeat(2, 1).repeat(2, 2)


def stage(w, s, x, see):
    x = conv(w, "s%d.0.c" % s, x, 2, see=see)
    i = 1
    while True:
        n = "s%d.%d" % (s, i)
        if n + ".d.w" in w:
            h = conv(w, n + ".d", conv(w, n + ".a", x, see=see), see=see)
            x = x + conv(w, n + ".p", h, relu=False, see=see)
        elif n + ".a.w" in w:
            m = np.maximum(w[n + ".a.w"] @ x.mean((1, 2)) + w[n + ".a.b"], 0)
            see and see(n + ".m", m)
            x = x + m[:, None, None]
        else:
            return x
        see and see("stage%d" % s, x)
        i += 1


def forward(w, x, see=None):
    """x: 3 x 288 x 288, (code/255 - 0.45)/0.25. Returns logits, 144 x 144."""
    see and see("picture", x)
    a = conv(w, "s0.c", x, 2, see=see)
    b = stage(w, 1, a, see)
    c = stage(w, 2, b, see)
    d = stage(w, 3, c, see)
    y = stage(w, 4, d, see)
    for up, side, fine, mix in (("l4", "l3", d, "d3.c"), ("u2", "l2", c, "d2.c"), ("u1", "l1", b, "d1.c"), ("u0", "l0", a, "d0.c")):
        u, v = conv(w, up, y, relu=False, see=see), conv(w, side, fine, relu=False, see=see)
        y = double(u) + v
        if see:
            for g in (u, v, y):
                see("join " + mix, g)
        y = conv(w, mix, y, see=see)
    return conv(w, "o", y, relu=False, see=see)[0]


def pictures(path):
    p = np.fromfile(path, np.uint8).reshape(-1, SIDE, SIDE, 3)
    for v in p:
        yield (v.astype(np.float32).transpose(2, 0, 1) / 255 - 0.45) / 0.25


def rounded(k, whole, most):
    """Weights of 8 bits and a scale for each channel out. Of each patch (with
    whole: of all of a channel's patches together) the sum is kept to half a
    step, by rounding those the other way that lie nearest to it: what comes in
    hardly differs from one cell to the next. Scales end at most: a channel that
    needs more weighs what never comes in."""
    s = np.clip(np.abs(k).max((1, 2, 3)) / 127, 1e-7, most)
    exact = k / s[:, None, None, None]
    q = np.clip(np.rint(exact), -127, 127)
    flat = lambda v: v.reshape(len(k) if whole else -1, k[0].size if whole else k[0, 0].size)
    if k[0, 0].size > 1:
        for e, r in zip(flat(exact), flat(q)):
            left = e - r
            n = int(np.rint(left.sum()))
            for i in np.argsort(-np.sign(n) * left, kind="stable")[:abs(n)]:
                if abs(r[i] + np.sign(n)) <= 127:
                    r[i] += np.sign(n)
    return q, s


def pack(w, path, out):
    reach = {}

    def see(name, y):
        if len(name) > 3 and name[0] == "s" and name[2:] == ".0.c":
            see("stage" + name[1], y)  # the whole stage adds up in one scale
        reach[name] = max(reach.get(name, 0), float(np.abs(y).max()))

    for x in pictures(path):
        forward(w, x, see)
    unit = {k: max(1.6 * v, 0.5) / TOP for k, v in reach.items()}  # room for pictures never seen; some blocks hardly speak
    unit["picture"] = 4 / 4080
    layers = []

    def lay(name, kind, src, dst, stride=1, relu=True, key=None):
        k, b = w[(key or name) + ".w"].astype(np.float64), w[(key or name) + ".b"].astype(np.float64)
        if kind == b"m":
            k = k[:, :, None, None]
        q, s = rounded(k, name == "s0.c", 0.49 * dst / src)
        factor = np.rint(src * s / dst * 2.0**32)
        small = np.rint(b / (src * s))
        over = np.abs(small) > 2**30  # a channel that is its bias alone
        q[over], factor[over], small[over] = 0, 2**30, np.rint(4 * b[over] / dst)
        assert factor.max() < 2**31, name
        assert (np.abs(q).sum((1, 2, 3)) * TOP + np.abs(small)).max() < 2**31, name
        fan = len(q) if kind == b"d" else q.shape[1]
        layers.append(struct.pack("<B", len(name)) + name.encode() + kind + bytes([q.shape[2], stride, relu]) + struct.pack("<HH", fan, len(q))
                      + q.astype(np.int8).tobytes() + small.astype("<i4").tobytes() + factor.astype("<u4").tobytes())

    lay("s0.c", b"c", unit["picture"], unit["s0.c"], 2)
    last = unit["s0.c"]
    for s in range(1, 5):
        u = unit["stage%d" % s]
        lay("s%d.0.c" % s, b"c", last, u, 2)
        i = 1
        while "s%d.%d.a.w" % (s, i) in w:
            n = "s%d.%d" % (s, i)
            if n + ".d.w" in w:
                lay(n + ".a", b"c", u, unit[n + ".a"])
                lay(n + ".d", b"d", unit[n + ".a"], unit[n + ".d"])
                lay(n + ".p", b"c", unit[n + ".d"], u, relu=False)
            else:
                lay(n + ".m", b"m", u, u, key=n + ".a")
            i += 1
        last = u
    for up, side, stg, mix in (("l4", "l3", "stage3", "d3.c"), ("u2", "l2", "stage2", "d2.c"), ("u1", "l1", "stage1", "d1.c"), ("u0", "l0", "s0.c", "d0.c")):
        u = unit["join " + mix]
        lay(up, b"c", last, u, relu=False)
        lay(side, b"c", unit[stg], u, relu=False)
        lay(mix, b"c", u, unit[mix])
        last = unit[mix]
    lay("o", b"c", last, 1 / ONE, relu=False)
    open(out, "wb").write(b"SFQ1" + struct.pack("<H", len(layers)) + b"".join(layers))
    print(len(layers), "layers,", sum(map(len, layers)), "bytes")


if __name__ == "__main__":
    w = read(sys.argv[2])
    if sys.argv[1] == "pack":
        pack(w, sys.argv[3], sys.argv[4])
    else:
        np.concatenate([forward(w, x).astype("<f4").ravel() for x in pictures(sys.argv[3])]).tofile(sys.argv[4])
