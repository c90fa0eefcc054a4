"""The networks: the one that reads, and the larger ones that teach it."""
import math
import struct

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

from glyphs import CLASSES, dev

# Inputs, outputs and stride of the reader's 3 x 3 convolutions. Where a layer
# has as many outputs as inputs and no stride, its input is added to what it gives.
READER = [(1, 24, 1), (24, 48, 2), (48, 48, 1), (48, 48, 1), (48, 88, 2), (88, 88, 1), (88, 88, 1), (88, 152, 2), (152, 152, 1), (152, 152, 1),
          (152, 152, 1)]
TEACHER = [(1, 64, 1), (64, 96, 2), (96, 96, 1), (96, 96, 1), (96, 96, 1), (96, 192, 2), (192, 192, 1), (192, 192, 1), (192, 192, 1),
           (192, 320, 2), (320, 320, 1), (320, 320, 1)]


class Net(nn.Module):
    def __init__(self, layers, drop):
        super().__init__()
        self.layers, self.drop = layers, drop
        self.convolutions = nn.ModuleList(nn.Conv2d(i, o, 3, s, 1, bias=False) for i, o, s in layers)
        self.norms = nn.ModuleList(nn.BatchNorm2d(o) for _, o, _ in layers)
        self.last = nn.Linear(layers[-1][1], CLASSES)

    def forward(self, x):
        for (inputs, outputs, stride), convolution, norm in zip(self.layers, self.convolutions, self.norms):
            y = F.relu(norm(convolution(x)))
            x = x + y if inputs == outputs and stride == 1 else y
        return self.last(F.dropout(x.mean((2, 3)), self.drop, self.training))


def folded(net):
    """Weights and biases of the convolutions with the batch norm in them."""
    for convolution, norm in zip(net.convolutions, net.norms):
        gain = norm.weight / (norm.running_var + norm.eps).sqrt()
        yield convolution.weight * gain[:, None, None, None], norm.bias - norm.running_mean * gain


def steps(weight):
    """The size of one of 127 steps for each output."""
    return weight.abs().amax((1, 2, 3)).clamp_min(1e-8) / 127


@torch.no_grad()
def coarse(net):
    """The network as the Go reader has it: each output's weights in 255 steps."""
    out = Net(net.layers, net.drop).to(next(net.parameters()).device)
    out.load_state_dict(net.state_dict())
    for convolution, norm, (weight, bias) in zip(out.convolutions, out.norms, folded(net)):
        step = steps(weight).half().float()[:, None, None, None]
        convolution.weight.copy_((weight / step.clamp_min(1e-8)).round().clamp(-127, 127) * step)
        norm.weight.fill_(1), norm.bias.copy_(bias.half().float()), norm.running_mean.zero_(), norm.running_var.fill_(1 - norm.eps)
    out.last.weight.copy_(net.last.weight.half().float())
    out.last.bias.copy_(net.last.bias.half().float())
    return out.eval()


@torch.no_grad()
def export(net, temperature, path):
    """Write a reader's weights: layers with the batch norm folded in, each output
    with a float16 step and int8 weights; little-endian."""
    half = lambda t: t.detach().float().cpu().numpy().astype("<f2").tobytes()
    with open(path, "wb") as f:
        f.write(b"FTD2" + struct.pack("<Bf", len(net.layers), temperature))
        for (inputs, outputs, stride), (weight, bias) in zip(net.layers, folded(net)):
            step = steps(weight).half().float()
            whole = (weight / step.clamp_min(1e-8)[:, None, None, None]).round().clamp(-127, 127)
            f.write(struct.pack("<HHB", inputs, outputs, stride))
            f.write(half(step) + whole.cpu().numpy().astype(np.int8).tobytes() + half(bias))
        f.write(struct.pack("<HH", net.layers[-1][1], CLASSES))
        f.write(half(net.last.weight) + half(net.last.bias))


class Cursor:
    """Reads what export wrote."""

    def __init__(self, path):
        self.data = open(path, "rb").read()
        self.at = 4

    def take(self, form):
        values = struct.unpack_from(form, self.data, self.at)
        self.at += struct.calcsize(form)
        return values

    def array(self, kind, *shape):
        values = np.frombuffer(self.data, kind, math.prod(shape), self.at)
        self.at += values.nbytes
        return torch.from_numpy(values.astype(np.float32).reshape(shape))


@torch.no_grad()
def exported(path):
    """What export wrote: of each layer its shape, weights and biases; of the last
    its weights and biases."""
    file = Cursor(path)
    count, _ = file.take("<Bf")
    layers = []
    for _ in range(count):
        inputs, outputs, stride = file.take("<HHB")
        step = file.array("<f2", outputs)
        layers.append(((inputs, outputs, stride), file.array("i1", outputs, inputs, 3, 3) * step[:, None, None, None], file.array("<f2", outputs)))
    features, classes = file.take("<HH")
    return layers, (file.array("<f2", classes, features), file.array("<f2", classes))


@torch.no_grad()
def blend(paths, shares):
    """The reader whose weights are the mean of some, each by its share. They have
    to have come from one another."""
    net = Net(READER, 0).to(dev).eval()
    files = [exported(path) for path in paths]
    mean = lambda parts: sum(part * share for part, share in zip(parts, shares))
    for i, (convolution, norm) in enumerate(zip(net.convolutions, net.norms)):
        convolution.weight.copy_(mean([layers[i][1] for layers, _ in files]))
        norm.weight.fill_(1), norm.bias.copy_(mean([layers[i][2] for layers, _ in files]))
        norm.running_mean.zero_(), norm.running_var.fill_(1 - norm.eps)
    net.last.weight.copy_(mean([last[0] for _, last in files]))
    net.last.bias.copy_(mean([last[1] for _, last in files]))
    return net


@torch.no_grad()
def resume(net, path, images):
    """Let a net go on from weights that were exported. A layer that those lack
    begins as a small addition to its input. The norms take what images give."""
    layers, last = exported(path)
    net.last.weight.copy_(last[0]), net.last.bias.copy_(last[1])
    x = images
    for layer, convolution, norm in zip(net.layers, net.convolutions, net.norms):
        known = bool(layers) and layers[0][0] == layer
        bias = torch.zeros(layer[1])
        if known:
            _, weight, bias = layers.pop(0)
            convolution.weight.copy_(weight)
        y = convolution(x)
        mean, variance = y.mean((0, 2, 3)), y.var((0, 2, 3), unbiased=False)
        norm.running_mean.copy_(mean), norm.running_var.copy_(variance)
        if known:
            norm.weight.copy_((variance + norm.eps).sqrt()), norm.bias.copy_(bias.to(mean.device) + mean)
        else:
            norm.weight.fill_(.1)
        y = F.relu(norm.eval()(y))
        x = x + y if layer[0] == layer[1] and layer[2] == 1 else y
    return net
