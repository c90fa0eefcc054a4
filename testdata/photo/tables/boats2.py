"""Invented boats: half breadth, depth and the arc of a superellipse; what a tape reads of them."""
import math
import random

import numpy as np


class Boat:
    def __init__(self, seed, feet):
        r = self.r = random.Random(f"tables boat {seed}")
        self.length = round((feet[0] + (feet[1] - feet[0]) * r.random()) * 12 * 2) / 2
        self.half = r.uniform(14, 18.5) * (1 if self.length > 140 else .9)
        self.depth = r.uniform(11, 14)
        self.bow, self.stern = self.depth + r.uniform(4.5, 9), self.depth + r.uniform(3.5, 8)
        self.full, self.power = r.uniform(1.7, 2.3), r.uniform(.62, .95)
        self.rise = r.uniform(2.5, 9)
        self.mid = r.uniform(.47, .53)
        self.tumble = r.choice([0, 0, 0, .04, .07])
        self.box = r.uniform(1.9, 2.7)

    def section(self, x):
        """Half breadth at the gunwale, half girth."""
        t = x / self.length
        u = (t - self.mid) / (self.mid if t < self.mid else 1 - self.mid)
        w = self.half * (1 - abs(u) ** self.full) ** self.power
        end = self.bow if u < 0 else self.stern
        d = self.depth + (end - self.depth) * abs(u) ** 4 - self.rise * abs(u) ** 6
        n = 1.05 + (self.box - 1.05) * (1 - abs(u) ** 2.2)
        a = np.linspace(0, math.pi / 2, 240)
        y, z = np.cos(a) ** (2 / n), np.sin(a) ** (2 / n)
        # tumblehome: the side falls in toward the gunwale, by so much amidships
        y = w * y * (1 - self.tumble * (1 - u * u) * np.clip(1 - z / .6, 0, 1) ** 1.5)
        z = d * z
        return float(y[0]), float(np.hypot(np.diff(y), np.diff(z)).sum())
