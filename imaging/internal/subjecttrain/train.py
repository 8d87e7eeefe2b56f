#!/usr/bin/env python3
"""Composes pictures from what subjecttrain drew and trains the net on them.

  train.py SECONDS TOTAL DRAWN PHOTOS OUT [START.bin [KNOWN.bin]]

Trains for SECONDS, out of TOTAL that the whole training is to take, and goes on
from OUT/state.pt if it is there; else from START.bin (the format is in net.py),
whose net it makes deeper without changing what it says; else from nothing.
What KNOWN.bin (else START.bin) says of pieces on plain grounds it is to go on
saying, where that is right.
DRAWN is read again and again while subjecttrain still draws into it. PHOTOS are
grounds and textures; furniture/ and subject/ in it, which the tests judge by,
are left out. Writes OUT/weights.bin for "net.py pack", OUT/pictures.raw for the
reach of the values, OUT/sheet.jpg to look at, OUT/state.pt to go on from.
In the environment, RATE is the highest rate of learning, reached after WARM
steps; FEWEST, how many rooms have to be there to begin; KEEP, how much what
KNOWN.bin says counts. With DEV=cpu it runs a few small steps, to see that it
works. Under torchrun it trains on as many accelerators as there are processes, each with pictures of its
own, and all with the mean of their gradients.
"""
import copy
import glob
import math
import os
import random
import struct
import sys
import time

import cv2
import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

T, TOTAL, RD, PD, OD = float(sys.argv[1]), float(sys.argv[2]), sys.argv[3], sys.argv[4], sys.argv[5]
START = sys.argv[6] if len(sys.argv) > 6 else None
WAS = sys.argv[7] if len(sys.argv) > 7 else START
S, R = 288, 320
RATE = float(os.environ.get("RATE", 5e-4 if START else 2.5e-3))
WARM = int(os.environ.get("WARM", 600))  # steps
FEWEST = int(os.environ.get("FEWEST", 1500))  # rooms to begin with
KEEP = float(os.environ.get("KEEP", 0.5))  # how much what START says of plain grounds counts, where it is right
dev = os.environ.get("DEV", "cuda")
SMALL = dev == "cpu"
RANK, WORLD = int(os.environ.get("RANK", 0)), int(os.environ.get("WORLD_SIZE", 1))
t0 = time.time()
cv2.setNumThreads(1)
if not SMALL:
    torch.cuda.set_device(RANK)
    torch.backends.cudnn.benchmark = True
if WORLD > 1:
    torch.distributed.init_process_group("gloo" if SMALL else "nccl")


def log(*a):
    if RANK:
        return
    print("%.0f" % (time.time() - t0), *a, flush=True)


# ---- network -------------------------------------------------------------
class Blk(nn.Module):  # inverted residual: 1x1, depthwise 5x5, 1x1
    def __init__(s, c, e=3, k=5):
        super().__init__()
        h = c * e
        s.a = nn.Conv2d(c, h, 1, bias=False)
        s.an = nn.BatchNorm2d(h)
        s.d = nn.Conv2d(h, h, k, padding=k // 2, groups=h, bias=False)
        s.dn = nn.BatchNorm2d(h)
        s.p = nn.Conv2d(h, c, 1, bias=False)
        s.pn = nn.BatchNorm2d(c)

    def forward(s, x):
        y = F.relu(s.an(s.a(x)))
        y = F.relu(s.dn(s.d(y)))
        return x + s.pn(s.p(y))


class CBR(nn.Module):
    def __init__(s, i, o, k=3, st=1):
        super().__init__()
        s.c = nn.Conv2d(i, o, k, stride=st, padding=k // 2, bias=False)
        s.n = nn.BatchNorm2d(o)

    def forward(s, x):
        return F.relu(s.n(s.c(x)))


class Ctx(nn.Module):  # the whole picture's mean, added everywhere
    def __init__(s, c):
        super().__init__()
        s.a = nn.Linear(c, c)

    def forward(s, x):
        return x + F.relu(s.a(x.mean((2, 3))))[:, :, None, None]


class Net(nn.Module):
    C = (20, 32, 64, 112, 160)
    BLOCKS = ("bb", "bbb", "bbbbbb", "bmbmbbmb")

    def __init__(s):
        super().__init__()
        C = s.C
        s.s0 = CBR(3, C[0], 3, 2)
        for k, blocks in enumerate(s.BLOCKS, 1):
            setattr(
                s, "s%d" % k, nn.Sequential(CBR(C[k - 1], C[k], 3, 2), *[Blk(C[k], 2 if k == 1 else 3) if b == "b" else Ctx(C[k]) for b in blocks])
            )
        D = (16, 24, 40, 64)
        s.l4 = nn.Conv2d(C[4], D[3], 1)
        s.l3 = nn.Conv2d(C[3], D[3], 1)
        s.d3 = CBR(D[3], D[3])
        s.u2 = nn.Conv2d(D[3], D[2], 1)
        s.l2 = nn.Conv2d(C[2], D[2], 1)
        s.d2 = CBR(D[2], D[2])
        s.u1 = nn.Conv2d(D[2], D[1], 1)
        s.l1 = nn.Conv2d(C[1], D[1], 1)
        s.d1 = CBR(D[1], D[1])
        s.u0 = nn.Conv2d(D[1], D[0], 1)
        s.l0 = nn.Conv2d(C[0], D[0], 1)
        s.d0 = CBR(D[0], D[0])
        s.o = nn.Conv2d(D[0], 1, 3, padding=1)
        s.x3 = nn.Conv2d(D[3], 1, 1)
        s.x1 = nn.Conv2d(D[1], 1, 1)

    def forward(s, x):
        def up(t):
            return F.interpolate(t, scale_factor=2, mode="nearest")

        a = s.s0(x)
        b = s.s1(a)
        c = s.s2(b)
        d = s.s3(c)
        e = s.s4(d)
        y3 = s.d3(up(s.l4(e)) + s.l3(d))
        y2 = s.d2(up(s.u2(y3)) + s.l2(c))
        y1 = s.d1(up(s.u1(y2)) + s.l1(b))
        y0 = s.d0(up(s.u0(y1)) + s.l0(a))
        return s.o(y0), s.x1(y1), s.x3(y3)


# ---- banks ---------------------------------------------------------------


def gk(s, r):
    x = torch.arange(-r, r + 1, device=dev).float()
    k = torch.exp(-x * x / (2 * s * s))
    return k / k.sum()


def gauss(x, s):
    r = max(1, int(math.ceil(2.5 * s)))
    k = gk(s, r)
    c = x.shape[1]
    x = F.conv2d(F.pad(x, (r, r, 0, 0), mode="replicate"), k.view(1, 1, 1, -1).expand(c, 1, 1, -1).to(x.dtype), groups=c)
    return F.conv2d(F.pad(x, (0, 0, r, r), mode="replicate"), k.view(1, 1, -1, 1).expand(c, 1, -1, 1).to(x.dtype), groups=c)


NCUT, NMAX = (40, 40) if SMALL else (16000, 28000)
cut = torch.zeros(NCUT, 5, R, R, dtype=torch.uint8, device=dev)
room = torch.zeros(NMAX, 4, R, R, dtype=torch.uint8, device=dev)
cutbox = torch.zeros(NCUT, 4, device=dev)
N = {"cut": 0, "room": 0}
pos = {}


def edgefade():
    x = torch.linspace(0, 1, R, device=dev)
    e = (torch.minimum(x, 1 - x) / 0.2).clamp(0, 1)
    return torch.minimum(e[:, None], e[None, :])


def addcut(ims, mas):
    C = torch.from_numpy(np.stack(ims)).to(dev).permute(0, 3, 1, 2).float().div(255).pow(2.2)
    a = torch.from_numpy(np.stack(mas)).to(dev)[:, None].float() / 255
    w = ((a < 0.01).float()) + 1e-4
    bg = gauss(C * w, 4) / gauss(w, 4)
    Fg = ((C - (1 - a) * bg) / a.clamp(min=0.25)).clamp(0, 1) * (a > 0)
    aa = (a > 0.3).float() + 1e-4
    Fd = gauss(Fg * aa, 2) / gauss(aa, 2)  # colour carried beyond the edge
    Fg = torch.where(a > 0.3, Fg, Fd)
    far = torch.where(a < 0.01, C, bg)
    L = far.mean(1, keepdim=True)
    ref = torch.quantile(L.flatten(1), 0.9, dim=1).view(-1, 1, 1, 1)
    sh = (L / ref).clamp(0.02, 1)
    near = gauss(F.avg_pool2d(a, 8), 5)
    near = F.interpolate(near / near.amax((2, 3), keepdim=True).clamp(min=1e-3), size=(R, R), mode="bilinear").mul(2.5).clamp(max=1)
    sh = 1 - (1 - sh) * edgefade() * near  # only by the piece, nothing at the render's own border: no square may show
    o = torch.cat([Fg.clamp(0, 1).pow(1 / 2.2), a, sh.pow(1 / 2.2)], 1).mul(255).round().byte()
    n = N["cut"]
    k = min(len(o), NCUT - n)
    cut[n : n + k] = o[:k]
    m = a[:, 0] > 0.5
    for i in range(k):
        ys = m[i].any(1).nonzero()
        xs = m[i].any(0).nonzero()
        cutbox[n + i] = torch.tensor([xs.min(), ys.min(), xs.max() + 1, ys.max() + 1], device=dev).float() / R * 2 - 1
    N["cut"] = n + k


def poll():
    cb = []
    cm = []
    for f in sorted(glob.glob(RD + "/*.bin")):
        with open(f, "rb") as fh:
            fh.seek(pos.get(f, 0))
            b = fh.read()
        o = 0
        while o + 16 <= len(b):
            w, h = struct.unpack_from("<HH", b, o)
            m = b[o + 4]
            if o + 16 + w * h * 4 > len(b):
                break
            im = np.frombuffer(b, np.uint8, w * h * 3, o + 16).reshape(h, w, 3)
            ma = np.frombuffer(b, np.uint8, w * h, o + 16 + w * h * 3).reshape(h, w)
            o += 16 + w * h * 4
            if m == 0:
                cb.append(im)
                cm.append(ma)
                if len(cb) == 64:
                    addcut(cb, cm)
                    cb = []
                    cm = []
            elif N["room"] < NMAX:
                x = np.dstack([cv2.resize(im, (R, R), interpolation=cv2.INTER_AREA), cv2.resize(ma, (R, R), interpolation=cv2.INTER_AREA)])
                room[N["room"]] = torch.from_numpy(x).to(dev).permute(2, 0, 1)
                N["room"] += 1
        pos[f] = pos.get(f, 0) + o
    if cb:
        addcut(cb, cm)


PH = None


def photos():
    P = []  # groups of photos: the same thing at twenty exposures counts as one
    for f in sorted(glob.glob(PD + "/**/*", recursive=True)):
        if "/subject/" in f or "/furniture/" in f or "/broken/" in f or not os.path.isfile(f) or f.endswith((".csv", ".icc")) or "_mask" in f:
            continue
        im = cv2.imread(f, cv2.IMREAD_COLOR)
        if im is None or min(im.shape[:2]) < 120:
            continue
        k = 1400 / max(im.shape[:2])
        if k < 1:
            im = cv2.resize(im, None, fx=k, fy=k, interpolation=cv2.INTER_AREA)
        if im.std() < 8:
            continue
        t = thumb(im)
        same = next((g for g in P if max((t * o).sum() for o in turns(g[0])) > 0.88), None)
        if same is None:
            P.append((t, []))
            same = P[-1]
        same[1].append(im[:, :, ::-1].copy())
    return [g[1] for g in P]


def thumb(im):
    t = cv2.resize(im, (8, 8), interpolation=cv2.INTER_AREA).mean(2)
    t = t - t.mean()
    return t / (np.sqrt((t * t).sum()) + 1e-6)


def turns(t):
    return [np.rot90(m, k) for m in (t, t[:, ::-1]) for k in range(4)]


def col(g):
    import colorsys

    m = g.random()
    if m < 0.35:
        v = g.uniform(0.35, 0.95)
        return tuple(255 * v * g.uniform(0.92, 1) for _ in range(3))
    if m < 0.5:
        v = g.uniform(0.02, 0.4)
        return (255 * v,) * 3
    if m < 0.75:
        return tuple(255 * c for c in colorsys.hsv_to_rgb(g.uniform(0.03, 0.12), g.uniform(0.2, 0.7), g.uniform(0.2, 0.9)))
    return tuple(255 * c for c in colorsys.hsv_to_rgb(g.random(), g.uniform(0.1, 0.9), g.uniform(0.15, 0.95)))


def tex(g, h, w, P):
    m = g.random()
    if m < 0.35 and P:
        p = g.choice(g.choice(P))
        s = g.uniform(0.15, 1)
        ch = max(16, int(p.shape[0] * s))
        cw = max(16, int(p.shape[1] * s))
        y = g.randrange(p.shape[0] - ch + 1)
        x = g.randrange(p.shape[1] - cw + 1)
        t = cv2.resize(p[y : y + ch, x : x + cw], (w, h), interpolation=cv2.INTER_AREA).astype(np.float32)
        return t
    c = np.array(col(g), np.float32)
    t = np.ones((h, w, 3), np.float32) * c
    if m < 0.65:  # grain, boards
        n = np.random.RandomState(g.randrange(1 << 30)).randn(max(2, h // g.choice([2, 4, 8])), max(2, w // g.choice([2, 10, 30]))).astype(np.float32)
        if g.random() < 0.5:
            n = n.T
        t *= 1 + g.uniform(0.03, 0.25) * cv2.resize(n, (w, h))[:, :, None]
        k = g.randrange(0, 14)
        for i in range(1, k):
            if g.random() < 0.5:
                t[:, int(w * i / k) : int(w * i / k) + 1] *= 0.6
            else:
                t[int(h * i / k) : int(h * i / k) + 1] *= 0.6
    return np.clip(t, 0, 255)


def proc(seed):
    g = random.Random(seed)
    P = PH
    if g.random() < 0.45 and P:  # real crop
        p = g.choice(g.choice(P))
        H, W = p.shape[:2]
        s = g.uniform(0.25, 1) ** 0.7
        ch, cw = int(H * s), int(W * min(1, s * math.exp(g.gauss(0, 0.2))))
        y = g.randrange(H - ch + 1)
        x = g.randrange(W - cw + 1)
        o = cv2.resize(p[y : y + ch, x : x + cw], (R, R), interpolation=cv2.INTER_AREA)
        if g.random() < 0.5:
            o = o[:, ::-1]
        return np.ascontiguousarray(o)
    hz = int(R * g.uniform(0.15, 0.8))
    o = np.zeros((R, R, 3), np.float32)
    o[:hz] = tex(g, hz, R, P)
    o[hz:] = tex(g, R - hz, R, P)
    fl = o[hz:].copy()  # floor in perspective
    if g.random() < 0.7:
        k = g.uniform(0.1, 0.8) * R
        M = cv2.getPerspectiveTransform(
            np.float32([[0, 0], [R, 0], [R, R - hz], [0, R - hz]]), np.float32([[0, 0], [R, 0], [R + k, R - hz], [-k, R - hz]])
        )
        o[hz:] = cv2.warpPerspective(fl, M, (R, R - hz), borderMode=cv2.BORDER_REFLECT)
    if g.random() < 0.5:
        cv2.rectangle(o, (0, hz - g.randrange(2, 14)), (R, hz), col(g), -1)
    if g.random() < 0.4:  # other wall
        x = g.randrange(20, R - 20)
        pts = np.int32([[0, 0], [x, 0], [x, hz], [0, min(R, hz + g.randrange(10, 120))]])
        if g.random() < 0.5:
            pts[:, 0] = R - pts[:, 0]
        m = np.zeros((R, R), np.uint8)
        cv2.fillPoly(m, [pts], 1)
        t = tex(g, R, R, P)
        o[m > 0] = t[m > 0]
    for _ in range(g.choice([0, 2, 5, 10, 20, 35])):
        w = int(R * g.uniform(0.02, 0.5) * g.random() ** 0.5) + 3
        h = int(R * g.uniform(0.02, 0.6) * g.random() ** 0.5) + 3
        x = g.randrange(-w // 2, R - w // 2)
        yb = g.choice([g.randrange(0, hz + 1), hz + g.randrange(0, max(1, R - hz)), hz + int((R - hz) * 0.2 * g.random())])
        y = yb - h
        k = g.randrange(7)
        c = col(g)
        x0, y0, x1, y1 = max(0, x), max(0, y), min(R, x + w), min(R, y + h)
        if x1 <= x0 or y1 <= y0:
            continue
        if k < 3:
            t = tex(g, y1 - y0, x1 - x0, P)
            o[y0:y1, x0:x1] = t
            if g.random() < 0.5:
                cv2.rectangle(o, (x0, y0), (x1, y1), col(g), g.randrange(1, 5))
        elif k == 3:
            cv2.ellipse(o, ((x0 + x1) / 2, (y0 + y1) / 2), (w, h), 0) if False else cv2.ellipse(
                o, ((x0 + x1) // 2, (y0 + y1) // 2), (w // 2, h // 2), g.randrange(180), 0, 360, c, -1
            )
        elif k == 4:
            for i in range(g.randrange(3, 12)):
                cv2.line(
                    o, (g.randrange(x0, x1), g.randrange(y0, y1)), (g.randrange(x0, x1), g.randrange(y0, y1)), col(g), g.randrange(1, 5), cv2.LINE_AA
                )
        elif k == 5:  # window
            o[y0:y1, x0:x1] = 255 * g.uniform(0.8, 1)
            cv2.line(o, ((x0 + x1) // 2, y0), ((x0 + x1) // 2, y1), c, 2)
            cv2.rectangle(o, (x0, y0), (x1, y1), c, 3)
        else:  # plant or person-like blobs
            cc = np.array(col(g))
            for i in range(g.randrange(4, 30)):
                cv2.ellipse(
                    o,
                    (g.randrange(x0, x1), g.randrange(y0, y1)),
                    (max(1, w // g.randrange(4, 12)), max(1, h // g.randrange(3, 10))),
                    g.randrange(180),
                    0,
                    360,
                    tuple(float(v) for v in np.clip(cc * g.uniform(0.6, 1.3), 0, 255)),
                    -1,
                )
    if g.random() < 0.5:
        o = cv2.GaussianBlur(o, (0, 0), g.uniform(0.4, 3))
    gr = np.linspace(g.uniform(0.5, 1.2), g.uniform(0.5, 1.2), R, dtype=np.float32)
    o *= gr[None, :, None] if g.random() < 0.5 else gr[:, None, None]
    return np.clip(o, 0, 255).astype(np.uint8)


# ---- composition on the GPU ------------------------------------------------


def U(n, a, b):
    return torch.rand(n, device=dev) * (b - a) + a


def Bp(n, p):
    return (torch.rand(n, device=dev) < p).float()


def theta(sx, sy, tx, ty, rot, flip):  # output place -> input place
    c, s = torch.cos(rot), torch.sin(rot)
    return torch.stack([torch.stack([c * sx * flip, -s * sx, tx], 1), torch.stack([s * sy * flip, c * sy, ty], 1)], 1)


def warp(x, th, pad="zeros", o=S):
    return F.grid_sample(x, F.affine_grid(th, (len(x), 1, o, o), align_corners=False), mode="bilinear", padding_mode=pad, align_corners=False)


def pick(bank, n, m):
    return bank[torch.randint(0, n, (m,), device=dev)].float() / 255


def v4(t):
    return t.view(-1, 1, 1, 1)


def jitter(x, k=1.0):
    n = len(x)
    g = torch.exp(torch.randn(n, 1, 1, 1, device=dev) * 0.25 * k) * torch.exp(torch.randn(n, 3, 1, 1, device=dev) * 0.08 * k)
    x = x.clamp(1e-3, 1).pow(torch.exp(torch.randn(n, 1, 1, 1, device=dev) * 0.2 * k)) * g
    l = x.mean(1, keepdim=True)
    s = v4(U(n, 1 - 0.6 * k, 1 + 0.4 * k))
    return (l + (x - l) * s).clamp(0, 1)


def placecut(n, lo, hi, spread, rotp=0.15, cx=None, cy=None):
    """n renders at sizes lo..hi (share of the frame for the box), middle within spread"""
    idx = torch.randint(0, N["cut"], (n,), device=dev)
    x = cut[idx].float() / 255
    b = cutbox[idx]
    bw, bh = (b[:, 2] - b[:, 0]) / 2, (b[:, 3] - b[:, 1]) / 2
    mx, my = (b[:, 0] + b[:, 2]) / 2, (b[:, 1] + b[:, 3]) / 2
    an = torch.exp(torch.randn(n, device=dev) * 0.18)
    k = U(n, lo, hi) / torch.maximum(bw * an, bh / an)  # magnification
    kx, ky = k * an, k / an
    ox = U(n, -1, 1) * spread if cx is None else cx
    oy = U(n, -1, 1) * spread if cy is None else cy
    rot = torch.randn(n, device=dev) * 0.03 + Bp(n, rotp) * torch.randn(n, device=dev) * 0.35
    fl = 1 - 2 * Bp(n, 0.5)
    th = theta(1 / kx, 1 / ky, torch.zeros_like(ox), torch.zeros_like(ox), rot, fl)
    c = torch.stack([ox, oy], 1)[:, :, None]
    t = torch.stack([mx, my], 1) - (th[:, :, :2] @ c)[:, :, 0]
    th = torch.cat([th[:, :, :2], t[:, :, None]], 2)
    y = warp(x, th)
    inside = warp(torch.ones_like(x[:, :1]), th)
    a = y[:, 3:4]
    rgb = y[:, :3]
    sh = y[:, 4:5] + (1 - inside)
    return rgb, a, sh


def over(bg, rgb, a, sh, on):
    on = v4(on)
    s = 1 - (1 - sh.clamp(0, 1)) * v4(U(len(bg), 0.2, 1)) * on
    a = a * on
    return (bg * s) * (1 - a) + rgb * a


def composite(n):
    src = pick(bgs, len(bgs), n)
    src = src * v4(torch.exp(-U(n, 0, 4) * Bp(n, 0.08)))  # some on black
    if N["room"] > 500:
        m = Bp(n, 0.3).view(-1, 1, 1, 1)
        src = src * (1 - m) + pick(room, N["room"], n)[:, :3] * m
    z = U(n, 0.55, 1)
    bg = warp(
        src,
        theta(
            z,
            z * torch.exp(torch.randn(n, device=dev) * 0.1),
            U(n, -1, 1) * (1 - z),
            U(n, -1, 1) * (1 - z),
            torch.randn(n, device=dev) * 0.03,
            1 - 2 * Bp(n, 0.5),
        ),
        "reflection",
    )
    bg = jitter(bg, 0.7)
    b = Bp(n, 0.3)
    bl = gauss(bg, random.uniform(0.7, 4))
    bg = torch.where(v4(b) > 0, bl, bg)
    for p, lo, hi in ((0.35, 0.1, 0.5), (0.35, 0.1, 0.4)):
        rgb, a, sh = placecut(n, lo, hi, 1.0)
        bg = over(bg, jitter(rgb), a, sh, Bp(n, p))
    big = U(n, 0.42, 1.03)
    sp = (1 - big).clamp(min=0.03)
    cx, cy = U(n, -1, 1) * sp, (U(n, -0.8, 1) * sp)
    rgb, a, sh = placecut(n, big, big, 0.0, cx=cx, cy=cy)
    # a real texture or photo on the piece
    t = pick(bgs, len(bgs), n)
    z = U(n, 0.2, 0.8)
    t = warp(t, theta(z, z * U(n, 0.3, 1), U(n, -0.3, 0.3), U(n, -0.3, 0.3), U(n, -3, 3), torch.ones(n, device=dev)), "reflection")
    q = v4(Bp(n, 0.3) * U(n, 0.2, 0.8))
    rgb = rgb * (1 - q) + (rgb * t / (t.mean((1, 2, 3), keepdim=True) + 0.1)).clamp(0, 1) * q
    rgb = jitter(rgb)
    dk = v4(torch.exp(-U(n, 0, 2.2) * Bp(n, 0.12)))
    rgb = rgb * dk  # dark stains, black paint
    # tie the light: scale the piece towards the ground's mean
    k = (bg.mean((1, 2, 3)) / (rgb.mean((1, 2, 3)) + 0.05)).clamp(0.4, 2.5).pow(U(n, 0, 0.7))
    rgb = (rgb * v4(k)).clamp(0, 1)
    x = over(bg, rgb, a, sh, torch.ones(n, device=dev))
    m = a
    # clutter on it
    for p in (0.35, 0.25):
        r2, a2, s2 = placecut(n, 0.06, 0.25, 0, cx=cx + U(n, -0.35, 0.35), cy=cy + U(n, -0.4, 0.1))
        on = Bp(n, p)
        x = over(x, jitter(r2), a2, s2, on)
        m = m * (1 - a2 * v4(on))
    # something in front, from the edge
    r2, a2, s2 = placecut(n, 0.2, 0.5, 0, cx=torch.sign(U(n, -1, 1)) * U(n, 0.7, 1.1), cy=U(n, 0, 1.1))
    on = Bp(n, 0.15)
    x = over(x, jitter(r2), a2, s2, on)
    m = m * (1 - a2 * v4(on))
    return x, m


def papers(n):
    """Plain grounds: paper or a wall in one colour, light or dark, mostly grey; it
    grows darker to one side, or to the rim; below a line, hard or soft, a floor."""
    g = torch.linspace(-1, 1, S, device=dev)
    v = torch.where(Bp(n, 0.6) > 0, U(n, 0.6, 1), torch.where(Bp(n, 0.5) > 0, U(n, 0.02, 0.25), U(n, 0.2, 0.8)))
    k = v4(U(n, 0, 1) ** 3 * 0.9)  # how coloured
    c = v4(v) * (1 - k + k * torch.rand(n, 3, 1, 1, device=dev))
    x = c.expand(n, 3, S, S).clone()
    at, soft = v4(U(n, 0.05, 0.9)), v4(torch.exp(U(n, -4.5, -0.5)))
    below = torch.sigmoid((g.view(1, 1, -1, 1) - at) / soft) * v4(Bp(n, 0.5))
    floor = c * v4(torch.exp(torch.randn(n, device=dev) * 0.3)) * torch.exp(torch.randn(n, 3, 1, 1, device=dev) * 0.04)
    x = x * (1 - below) + floor * below
    x = x * (1 + v4(U(n, -0.25, 0.25)) * g.view(1, 1, -1, 1) + v4(U(n, -0.2, 0.2)) * g.view(1, 1, 1, -1))
    r = g.view(1, 1, -1, 1) ** 2 + g.view(1, 1, 1, -1) ** 2
    x = x * (1 - v4(U(n, 0, 0.25) * Bp(n, 0.5)) * r)
    w = random.choice((4, 9, 24, 60))
    mottle = F.interpolate(torch.randn(n, 1, w, w, device=dev), size=(S, S), mode="bicubic")
    return (x * (1 + v4(U(n, 0, 0.06) * Bp(n, 0.5)) * mottle)).clamp(0, 1)


def onpaper(n):
    """One piece on a plain ground, with its shadow, as in a studio."""
    bg = papers(n)
    big = U(n, 0.4, 1.0)
    sp = (1 - big).clamp(min=0.02)
    rgb, a, sh = placecut(n, big, big, 0.0, rotp=0.03, cx=U(n, -1, 1) * sp, cy=U(n, -1, 1) * sp)
    rgb = jitter(rgb, 0.8) * v4(torch.exp(-U(n, 0, 2.2) * Bp(n, 0.15)))
    k = (bg.mean((1, 2, 3)) / (rgb.mean((1, 2, 3)) + 0.05)).clamp(0.4, 2.5).pow(U(n, 0, 0.5))
    return over(bg, (rgb * v4(k)).clamp(0, 1), a, sh, torch.ones(n, device=dev)), a


def nothing(n):
    z = U(n, 0.35, 1)
    x = warp(
        pick(bgs, len(bgs), n),
        theta(
            z,
            z * torch.exp(torch.randn(n, device=dev) * 0.1),
            U(n, -1, 1) * (1 - z),
            U(n, -1, 1) * (1 - z),
            torch.randn(n, device=dev) * 0.03,
            1 - 2 * Bp(n, 0.5),
        ),
        "reflection",
    )
    return jitter(x, 0.7)


def fromroom(n):
    y = pick(room, N["room"], n)
    z = torch.exp(U(n, -0.25, 0.13) - U(n, 0, 0.35) * Bp(n, 0.2))
    an = torch.exp(torch.randn(n, device=dev) * 0.1)
    zx, zy = (z * an).clamp(max=1.15), (z / an).clamp(max=1.15)
    # keep the piece in: aim near its middle
    m = (y[:, 3:4] > 0.5).float()
    g = torch.linspace(-1, 1, R, device=dev)
    w = m.sum((2, 3)).clamp(min=1)
    mx = ((m * g.view(1, 1, 1, -1)).sum((2, 3)) / w)[:, 0]
    my = ((m * g.view(1, 1, -1, 1)).sum((2, 3)) / w)[:, 0]
    tx = (mx * U(n, 0, 1)).clamp(-1, 1) * (1 - zx).clamp(min=0) * 1.0
    ty = (my * U(n, 0, 1)) * (1 - zy).clamp(min=0)
    th = theta(zx, zy, tx, ty, torch.randn(n, device=dev) * 0.03, 1 - 2 * Bp(n, 0.5))
    y = warp(y, th, "reflection")
    x = y[:, :3]
    l = x.pow(2.2).mean((1, 2, 3))
    k = (U(n, 0.08, 0.4) / (l + 1e-3)).clamp(0.5, 8)
    k = torch.where(Bp(n, 0.7) > 0, k, torch.ones_like(k))  # most photos are exposed well
    x = (x.pow(2.2) * v4(k)).clamp(0, 1).pow(1 / 2.2)
    return jitter(x, 0.7), y[:, 3:4]


DCT = torch.tensor(
    [[math.cos((2 * j + 1) * i * math.pi / 16) * (math.sqrt(1 / 8) if i == 0 else 0.5) for j in range(8)] for i in range(8)], device=dev
)
Q0 = torch.tensor(
    [
        [16, 11, 10, 16, 24, 40, 51, 61],
        [12, 12, 14, 19, 26, 58, 60, 55],
        [14, 13, 16, 24, 40, 57, 69, 56],
        [14, 17, 22, 29, 51, 87, 80, 62],
        [18, 22, 37, 56, 68, 109, 103, 77],
        [24, 35, 55, 64, 81, 104, 113, 92],
        [49, 64, 78, 87, 103, 121, 120, 101],
        [72, 92, 95, 98, 112, 100, 103, 99],
    ],
    device=dev,
).float()


def jpeg(x):
    n = len(x)
    y = torch.stack(
        [
            0.299 * x[:, 0] + 0.587 * x[:, 1] + 0.114 * x[:, 2],
            0.564 * (x[:, 2] - (0.299 * x[:, 0] + 0.587 * x[:, 1] + 0.114 * x[:, 2])),
            0.713 * (x[:, 0] - (0.299 * x[:, 0] + 0.587 * x[:, 1] + 0.114 * x[:, 2])),
        ],
        1,
    )
    y = torch.cat([y[:, :1], F.interpolate(F.avg_pool2d(y[:, 1:], 2), scale_factor=2)], 1)
    b = y.unfold(2, 8, 8).unfold(3, 8, 8)
    c = DCT @ b @ DCT.T
    q = Q0 / 255 * U(n, 0.15, 2.0).view(-1, 1, 1, 1, 1, 1)
    c = torch.round(c / q) * q
    b = DCT.T @ c @ DCT
    y = b.permute(0, 1, 2, 4, 3, 5).reshape(n, 3, S, S)
    Y, cb, cr = y[:, 0], y[:, 1], y[:, 2]
    return torch.stack([Y + 1.403 * cr, Y - 0.344 * cb - 0.714 * cr, Y + 1.773 * cb], 1).clamp(0, 1)


def hued(x, angle):
    """Turns the hue of each picture, in the chrominance plane of ITU-R BT.601."""
    y = 0.299 * x[:, 0] + 0.587 * x[:, 1] + 0.114 * x[:, 2]
    b, r = 0.564 * (x[:, 2] - y), 0.713 * (x[:, 0] - y)
    c, s = torch.cos(angle).view(-1, 1, 1), torch.sin(angle).view(-1, 1, 1)
    b, r = c * b - s * r, s * b + c * r
    return torch.stack([y + 1.403 * r, y - 0.344 * b - 0.714 * r, y + 1.773 * b], 1).clamp(0, 1)


def scrambled(x):
    """Each picture through a random filter of its own, mixed with itself: shapes
    stay, textures and colours change (Xu et al., Robust and Generalizable Visual
    Representation Learning via Random Convolutions, 2021)."""
    n, k = len(x), random.choice((1, 3, 5))
    w = torch.randn(3 * n, 3, k, k, device=dev) / math.sqrt(3 * k * k)
    y = F.conv2d(F.pad(x, (k // 2,) * 4, mode="replicate").view(1, 3 * n, S + k - 1, S + k - 1), w, groups=n).view(n, 3, S, S)
    y = (y - y.mean((2, 3), keepdim=True)) / (y.std((1, 2, 3), keepdim=True) + 0.02)
    y = (y * x.std((1, 2, 3), keepdim=True) + x.mean((1, 2, 3), keepdim=True)).clamp(0, 1)
    m = v4(U(n, 0.1, 0.9))
    return x * m + y * (1 - m)


def finish(x):
    n = len(x)
    x = hued(x, torch.randn(n, device=dev) * 0.12 + U(n, -math.pi, math.pi) * Bp(n, 0.07))
    e = max(1, n // 6)
    x = torch.cat([scrambled(x[:e]), x[e:]]) if random.random() < 0.5 else torch.cat([x[: n - e], scrambled(x[n - e :])])
    g = torch.linspace(-1, 1, S, device=dev)
    if random.random() < 0.5:  # small photos, for part of them
        k = n // 2
        q = random.randint(90, 220)
        q2 = random.randint(90, 220)
        x = torch.cat(
            [
                F.interpolate(F.interpolate(x[:k], size=(q, q2), mode="area"), size=(S, S), mode=random.choice(["bilinear", "bicubic"])).clamp(0, 1),
                x[k:],
            ]
        )[torch.arange(n, device=dev)]
    x = x * (1 + v4(U(n, -0.3, 0.3) * Bp(n, 0.5)) * g.view(1, 1, 1, -1) + v4(U(n, -0.3, 0.3) * Bp(n, 0.5)) * g.view(1, 1, -1, 1))
    x = jitter(x.clamp(0, 1), 0.8)
    c = v4(torch.exp(torch.randn(n, device=dev) * 0.15))
    x = ((x - 0.5) * c + 0.5 + v4(torch.randn(n, device=dev) * 0.05)).clamp(0, 1)
    gy = v4(Bp(n, 0.07))
    x = x * (1 - gy) + x.mean(1, keepdim=True) * gy
    bl = gauss(x, random.uniform(0.4, 1.6))
    x = torch.where(v4(Bp(n, 0.4)) > 0, bl, x)
    sh = v4(Bp(n, 0.25) * U(n, 0.2, 1.2))
    x = (x + sh * (x - gauss(x, 1.0))).clamp(0, 1)
    x = x + torch.randn_like(x) * v4(Bp(n, 0.6) * U(n, 0, 0.05))
    x = x + F.interpolate(torch.randn(n, 3, S // 2, S // 2, device=dev), scale_factor=2, mode="bilinear") * v4(Bp(n, 0.3) * U(n, 0, 0.04))
    x = x.clamp(0, 1)
    x = torch.where(v4(Bp(n, 0.6)) > 0, jpeg(x), x)
    return x


def batch(n):
    """n pictures and masks: the first plain(n) on plain grounds, then pieces set
    into grounds, and grounds with none, then rooms."""
    with torch.no_grad():
        k = n * 9 // 16 if N["room"] > (2 if SMALL else 300) else 0
        p = plain(n)
        x, m = composite(n - k - p)
        e = len(x) // 8  # grounds with no piece on them
        if e:
            x = torch.cat([nothing(e), x[e:]])
            m = torch.cat([torch.zeros_like(m[:e]), m[e:]])
        a, b = onpaper(p)
        x, m = torch.cat([a, x]), torch.cat([b, m])
        if k:
            a, b = fromroom(k)
            x = torch.cat([x, a])
            m = torch.cat([m, b])
        return finish(x), m.clamp(0, 1)


def plain(n):
    return max(1, n // 7)


def sheet(f):
    x, m = batch(4 if SMALL else 64)
    o = torch.cat([x, m.expand(-1, 3, -1, -1)], 3)[:, :, ::2, ::2]
    o = o if SMALL else o[list(range(0, 12)) + list(range(24, 60))]
    o = (o.permute(0, 2, 3, 1).cpu().numpy() * 255).astype(np.uint8)
    o = np.vstack(o) if SMALL else np.vstack([np.hstack(o[i * 6 : i * 6 + 6]) for i in range(8)])
    cv2.imwrite(f, o[:, :, ::-1], [1, 80])


# ---- weights in and out ------------------------------------------------------
PAIRS = {"c": "n", "a": "an", "d": "dn", "p": "pn"}


def read(path):
    b = open(path, "rb").read()
    (n,) = struct.unpack_from("<I", b, 4)
    o = 8
    w = {}
    for _ in range(n):
        name = b[o + 1 : o + 1 + b[o]].decode()
        o += 1 + b[o]
        r = b[o]
        sh = struct.unpack_from("<%dI" % r, b, o + 1)
        o += 1 + 4 * r
        c = int(np.prod(sh))
        w[name] = torch.from_numpy(np.frombuffer(b, "<f2", c, o).reshape(sh).astype(np.float32))
        o += 2 * c
    return w


def norm_of(mods, name):
    k = name.rsplit(".", 1)
    n = (k[0] + "." if len(k) > 1 else "") + PAIRS.get(k[-1], "?")
    return mods.get(n) if isinstance(mods.get(n), nn.BatchNorm2d) else None


def start(net, w):
    """Loads folded weights: each batch norm takes from its first batch what makes it do nothing but add the bias."""
    mods = dict(net.named_modules())

    def hook(bias):
        def f(bn, arg):
            if bn.done:
                return
            bn.done = True
            x = arg[0].float()
            m, v = x.mean((0, 2, 3)), x.var((0, 2, 3), unbiased=False)
            bn.weight.data.copy_((v + bn.eps).sqrt())
            bn.bias.data.copy_(m + bias.to(x.device))
            bn.running_mean.copy_(m)
            bn.running_var.copy_(v)

        return f

    hooks = []
    for name, mod in mods.items():
        if not isinstance(mod, (nn.Conv2d, nn.Linear)):
            continue
        bn = norm_of(mods, name)
        if name + ".w" in w:
            mod.weight.data.copy_(w[name + ".w"])
            if bn is None:
                mod.bias.data.copy_(w[name + ".b"])
            else:
                bn.done = False
                hooks.append(bn.register_forward_pre_hook(hook(w[name + ".b"])))
        elif bn is not None and name.endswith(".p"):
            nn.init.zeros_(bn.weight)  # new blocks change nothing at first
        elif isinstance(mod, nn.Linear):
            nn.init.normal_(mod.weight, std=1e-3)
            nn.init.constant_(mod.bias, 1e-3)
    net.train()
    with torch.no_grad():
        net((batch(4 if SMALL else 192)[0] - 0.45) / 0.25)
    for h in hooks:
        h.remove()


def export(net, path):
    mods = dict(net.named_modules())
    out = []
    for name, mod in mods.items():
        if not isinstance(mod, (nn.Conv2d, nn.Linear)) or name in ("x1", "x3"):
            continue
        bn = norm_of(mods, name)
        w = mod.weight.data.float()
        b = mod.bias.data.float() if mod.bias is not None else 0
        if bn is not None:
            g = bn.weight.data / torch.sqrt(bn.running_var + bn.eps)
            w = w * g[:, None, None, None]
            b = bn.bias.data - bn.running_mean * g
        out += [(name + ".w", w), (name + ".b", b)]
    with open(path + ".tmp", "wb") as f:
        f.write(b"SFN1" + struct.pack("<I", len(out)))
        for k, v in out:
            a = v.cpu().numpy().astype("<f2")
            f.write(bytes([len(k)]) + k.encode() + bytes([a.ndim]) + struct.pack("<%dI" % a.ndim, *a.shape) + a.tobytes())
    os.rename(path + ".tmp", path)


def settle(net):
    """Means and variances of the averaged weights, over fresh pictures."""
    for m in net.modules():
        if isinstance(m, nn.BatchNorm2d):
            m.reset_running_stats()
            m.momentum = None
    net.train()
    with torch.no_grad():
        for _ in range(2 if SMALL else 40):
            with torch.autocast(dev, dtype=torch.bfloat16, enabled=not SMALL):
                net((batch(4 if SMALL else 192)[0] - 0.45) / 0.25)
    net.eval()


def pictures(path, n):
    with open(path, "wb") as f:
        x = torch.cat([batch(4 if SMALL else 60)[0] for _ in range(1)])[:n]
        f.write((x * 255).round().byte().permute(0, 2, 3, 1).contiguous().cpu().numpy().tobytes())


def grounds():
    global bgs, PH
    f = RD + "/grounds.npy"
    n = 12 if SMALL else 8000
    while RANK and not os.path.exists(f):
        time.sleep(1)
    if os.path.exists(f):
        bgs = torch.from_numpy(np.load(f)).to(dev)
        return
    PH = photos()
    log("photos", len(PH))
    bgs = torch.zeros(n, 3, R, R, dtype=torch.uint8, device=dev)
    import multiprocessing as mp

    with mp.get_context("fork").Pool(2 if SMALL else 12) as ex:
        for i, o in enumerate(ex.imap_unordered(proc, range(n), chunksize=1 if SMALL else 50)):
            bgs[i] = torch.from_numpy(np.ascontiguousarray(o)).to(dev).permute(2, 0, 1)
    np.save(f + ".tmp.npy", bgs.cpu().numpy())
    os.rename(f + ".tmp.npy", f)


def beside(p, t, d):
    """How far the piece's extent along one side of the picture is missed: 1 less
    the Dice coefficient of the greatest values across it (the projection loss of
    Tian et al., BoxInst, 2021)."""
    p, t = p.amax(d), (t.amax(d) > 0.5).float()
    return (1 - (2 * (p * t).sum(-1) + 1) / ((p * p).sum(-1) + t.sum(-1) + 1)).mean()


def kept(was, x, o, m2, n):
    """How far the answers of the first n pictures left what the net was at the
    start gave, in the cells where that was right: learning without forgetting
    (Li and Hoiem, 2016)."""
    with torch.no_grad(), torch.autocast(dev, dtype=torch.bfloat16, enabled=not SMALL):
        old = was(((x[:n] - 0.45) / 0.25).contiguous(memory_format=torch.channels_last))[0].float()
    right = ((old > 0) == (m2[:n] > 0.5)).float()
    each = F.binary_cross_entropy_with_logits(o[:n].float(), torch.sigmoid(old), reduction="none")
    return (each * right).mean()


def together(net, stop, u):
    """Gives every gradient its mean over the processes; says whether the first
    process wants to stop, and how far it takes the training to be."""
    if WORLD == 1:
        return stop, u
    ps = [p for p in net.parameters() if p.grad is not None]
    first = float(RANK == 0)
    flat = torch.cat([p.grad.flatten() for p in ps] + [torch.tensor([stop * first, u * first], device=dev)])
    torch.distributed.all_reduce(flat)
    at = 0
    for p in ps:
        p.grad.copy_(flat[at : at + p.numel()].view_as(p) / WORLD)
        at += p.numel()
    return bool(flat[-2] > 0), float(flat[-1])


def main():
    grounds()
    log("grounds", len(bgs))
    LIMIT = T
    while True:
        poll()
        if N["cut"] >= (3 if SMALL else 500) and N["room"] >= (2 if SMALL else FEWEST):
            break
        time.sleep(1)
    log(N)
    sheet(OD + "/sheet.jpg")
    net = Net().to(dev).to(memory_format=torch.channels_last)
    opt = torch.optim.AdamW(net.parameters(), lr=1e-3, weight_decay=0.02)
    it = 0
    spent = 0
    B = 4 if SMALL else 192
    state = OD + "/state.pt"
    if os.path.exists(state):
        d = torch.load(state, map_location=dev)
        net.load_state_dict(d["net"])
        ema = copy.deepcopy(net)
        ema.load_state_dict(d["ema"])
        opt.load_state_dict(d["opt"])
        it, spent = d["it"], d["spent"]
    else:
        if START:
            start(net, read(START))
        if WORLD > 1:
            for p in net.parameters():
                torch.distributed.broadcast(p.data, 0)
        ema = copy.deepcopy(net)
    torch.manual_seed(1000 * it + RANK)
    random.seed(1000 * it + RANK)
    was = None  # to be kept on plain grounds
    if WAS:
        was = Net().to(dev)
        start(was, read(WAS))
        was = was.eval().to(memory_format=torch.channels_last)
    log("parameters", sum(p.numel() for p in net.parameters()), "step", it, "spent %.0f" % spent)
    lastp = tl = began = time.time()
    acc = []
    first = it
    while True:
        x, m = batch(B)
        net.train()
        with torch.autocast(dev, dtype=torch.bfloat16, enabled=not SMALL):
            o = net(((x - 0.45) / 0.25).contiguous(memory_format=torch.channels_last))
        m2 = F.avg_pool2d(m, 2)
        loss = 0
        for y, w in zip(o, (1, 0.4, 0.4)):
            y = y.float()
            t = m2 if y.shape[-1] == S // 2 else F.adaptive_avg_pool2d(m, y.shape[-1])
            p = torch.sigmoid(y)
            i = (p * t).sum((1, 2, 3))
            un = (p + t - p * t).sum((1, 2, 3))
            loss = loss + w * (F.binary_cross_entropy_with_logits(y, t) + 0.5 * (1 - (i + 1) / (un + 1)).mean())
            if w == 1:
                loss = loss + 0.15 * (beside(p, t, 2) + beside(p, t, 3))
        if was is not None and KEEP:
            loss = loss + KEEP * kept(was, x, o[0], m2, plain(B)) * plain(B) / B
        opt.zero_grad(set_to_none=True)
        loss.backward()
        late = time.time() - t0 > LIMIT - (2 if SMALL else 25) or SMALL and it - first >= 3
        late, u = together(net, late, min(1, (spent + time.time() - began) / TOTAL))
        lr = RATE * min(1, (it + 1) / WARM) * (0.5 + 0.5 * math.cos(math.pi * u)) + 2e-6
        for g in opt.param_groups:
            g["lr"] = lr
        torch.nn.utils.clip_grad_norm_(net.parameters(), 5.0)
        opt.step()
        with torch.no_grad():
            d = min(0.999, (1 + it) / (10 + it))
            for a, b in zip(ema.parameters(), net.parameters()):
                a.lerp_(b, 1 - d)
            if it % 20 == 0:
                acc.append((float(loss), float((((p0 := torch.sigmoid(o[0].float())) > 0.5) & (m2 > 0.5)).sum() / ((p0 > 0.5) | (m2 > 0.5)).sum())))
        it += 1
        if late:
            break
        if time.time() - lastp > 20:
            poll()
            lastp = time.time()
        if acc and time.time() - tl > 20:
            log(it, "loss %.3f iou %.3f" % tuple(np.mean(acc, 0)), "lr %.5f" % lr, N)
            acc = []
            tl = time.time()
    spent += time.time() - began
    if RANK:
        return
    torch.save({"net": net.state_dict(), "ema": ema.state_dict(), "opt": opt.state_dict(), "it": it, "spent": spent}, state)
    settle(ema)
    export(ema, OD + "/weights.bin")
    pictures(OD + "/pictures.raw", 60)
    sheet(OD + "/sheet.jpg")
    log("done", it)


main()
