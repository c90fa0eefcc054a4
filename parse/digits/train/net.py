"""The networks: the one that reads, and the larger ones that teach it."""
import struct

import numpy as np
import torch
import torch.nn.functional as F
from torch import nn

from glyphs import CLASSES

# Inputs, outputs and stride of the reader's 3 x 3 convolutions. Where a layer
# has as many outputs as inputs and no stride, its input is added to what it gives.
READER = [(1, 24, 1), (24, 48, 2), (48, 48, 1), (48, 88, 2), (88, 88, 1), (88, 152, 2), (152, 152, 1), (152, 152, 1), (152, 152, 1)]
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
        convolution.weight.copy_((weight / step).round().clamp(-127, 127) * step)
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
            whole = (weight / step[:, None, None, None]).round().clamp(-127, 127)
            f.write(struct.pack("<HHB", inputs, outputs, stride))
            f.write(half(step) + whole.cpu().numpy().astype(np.int8).tobytes() + half(bias))
        f.write(struct.pack("<HH", net.layers[-1][1], CLASSES))
        f.write(half(net.last.weight) + half(net.last.bias))
