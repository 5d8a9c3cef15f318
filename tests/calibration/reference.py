"""Whether SciPy's least_squares and OpenCV's findHomography find the maps that ours does, on 1000 drawn cases: half of
them plain positions without a lens (both references), half of all kinds, through a lens, from two places (SciPy; the
equations are written anew here, from the formulas of geometry/map.h and calibration/model.h).

    python3 reference.py PROGRAM      PROGRAM: the built answer.c
"""
import subprocess
import sys

import cv2
import numpy as np
from scipy.optimize import least_squares

CASES = 1000
WIDTH, HEIGHT = 1920, 1080
RHO = 0.5 * np.hypot(WIDTH, HEIGHT)
LOOSE = np.array([0.005, 0.0025, 0.0025])
SCALE = np.array([500.0] * 6 + [1.0, 1.0, 0.01, 0.01, 0.01, 500.0, 500.0, 1.0])
CORNERS = np.array([[0, 0], [WIDTH, 0], [WIDTH, HEIGHT], [0, HEIGHT], [WIDTH / 2, HEIGHT / 2]], float)

# Met with room to spare (5e-7 mm on the day this was written), far below what a reading is good to.
OPENCV_TOL_MM, SCIPY_TOL_MM, CHI2_TOL = 1e-5, 1e-5, 1e-9


def project(term, px):
    x, y = (px[:, 0] - WIDTH / 2) / RHO, (px[:, 1] - HEIGHT / 2) / RHO
    k1, p1, p2 = term[8:11]
    r2, tilt = x * x + y * y, p1 * x + p2 * y
    x, y = x * (1 + k1 * r2) + p1 * r2 + 2 * x * tilt, y * (1 + k1 * r2) + p2 * r2 + 2 * y * tilt
    d = term[6] * x + term[7] * y + 1
    return np.stack([(term[0] * x + term[1] * y + term[2]) / d, (term[3] * x + term[4] * y + term[5]) / d], axis=1)


def lay(pose, at):
    c, s = np.cos(pose[2]), np.sin(pose[2])
    return at @ np.array([[c, s], [-s, c]]) + pose[:2]


class Case:
    """Readings made of a true map, and the pose of the mat's second place."""

    def __init__(self, draw, mixed):
        half, turn = draw.uniform(450, 1200), draw.uniform(0, 2 * np.pi)
        c, s = half * np.cos(turn), half * np.sin(turn)
        self.mixed = mixed
        self.term = np.array([c, s, draw.uniform(0, 800), s, -c, draw.uniform(0, 600),
                              draw.uniform(-0.15, 0.15), draw.uniform(-0.15, 0.15), 0, 0, 0])
        if mixed:
            self.term[8:11] = draw.normal(0, LOOSE)
        count = draw.integers(6, 20)
        # Multiples of 1/64 are exact as singles, which OpenCV turns everything into.
        self.px = np.round(64 * draw.uniform([40, 40], [WIDTH - 40, HEIGHT - 40], (count, 2))) / 64
        self.px[:4] = [[96, 54], [1824, 54], [1824, 1026], [96, 1026]]
        self.sigma = draw.uniform(0.1, 0.5, count) if mixed else np.full(count, 0.3)
        self.place = np.zeros(count, int)
        self.pose = np.array([draw.uniform(-500, 500), draw.uniform(-500, 500), draw.uniform(-3, 3)])
        true = project(self.term, self.px)
        if mixed:
            extra = self.px[:4] + 24
            self.px, true = np.vstack([self.px, extra]), np.vstack([true, project(self.term, extra)])
            self.sigma = np.append(self.sigma, [0.2] * 4)
            self.place = np.append(self.place, [1] * 4)
            c, s = np.cos(self.pose[2]), np.sin(self.pose[2])
            second = self.place == 1
            true[second] = (true[second] - self.pose[:2]) @ np.array([[c, -s], [s, c]])
        self.at = np.round(64 * (true + draw.normal(0, 1, true.shape) * self.sigma[:, None])) / 64
        self.ends = np.array([[0, 1], [1, 2], [2, 3], [3, 0], [0, 2], [1, 3]] if mixed else np.empty((0, 2)), int)
        points = project(self.term, self.px)
        long = np.linalg.norm(points[self.ends[:, 0]] - points[self.ends[:, 1]], axis=1)
        self.long = long + draw.normal(0, 0.7, len(long))

    def text(self):
        lines = [f"{WIDTH} {HEIGHT} {int(self.mixed)} {len(self.px) + len(self.ends)}"]
        for place, px, at, sigma in zip(self.place, self.px, self.at, self.sigma):
            lines.append("0 %d %.17g %.17g %.17g %.17g %.17g" % (place, *px, *at, sigma))
        for (a, b), mm in zip(self.ends, self.long):
            lines.append("1 %.17g %.17g %.17g %.17g %.17g 0.7" % (*self.px[a], *self.px[b], mm))
        return "\n".join(lines)

    def misses(self, scaled):
        term = np.zeros(11)
        term[: 11 if self.mixed else 8] = (scaled * SCALE[: len(scaled)])[: 11 if self.mixed else 8]
        points, read = project(term, self.px), self.at
        if self.mixed:
            second = self.place == 1
            read = self.at.copy()
            read[second] = lay(scaled[11:] * SCALE[11:], self.at[second])
        rows = [((points - read) / self.sigma[:, None]).ravel()]
        if self.mixed:
            across = np.linalg.norm(points[self.ends[:, 0]] - points[self.ends[:, 1]], axis=1)
            rows += [(across - self.long) / 0.7, term[8:11] / LOOSE]
        return np.concatenate(rows)

    def by_scipy(self):
        start = np.concatenate([self.term, self.pose]) if self.mixed else self.term[:8]
        found = least_squares(self.misses, start / SCALE[: len(start)], jac="3-point", method="trf",
                              xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=200)
        term = np.zeros(11)
        terms = 11 if self.mixed else 8
        term[:terms] = (found.x * SCALE[: len(found.x)])[:terms]
        return 2 * found.cost, project(term, CORNERS)

    def by_opencv(self):
        h, _ = cv2.findHomography(self.px, self.at, 0)
        return cv2.perspectiveTransform(CORNERS[None], h)[0]


def main():
    draw = np.random.default_rng(20261125)
    cases = [Case(draw, mixed=i % 2 == 1) for i in range(CASES)]
    answers = subprocess.run([sys.argv[1]], input="\n".join(c.text() for c in cases), text=True, check=True,
                             stdout=subprocess.PIPE).stdout.splitlines()
    assert len(answers) == CASES
    worst = {"SciPy, mm": 0.0, "SciPy, part of chi-square": 0.0, "OpenCV, mm": 0.0}
    for case, answer in zip(cases, answers):
        numbers = np.array(answer.split(), float)
        corners = numbers[1:].reshape(5, 2)
        chi2, places = case.by_scipy()
        worst["SciPy, mm"] = max(worst["SciPy, mm"], np.abs(corners - places).max())
        worst["SciPy, part of chi-square"] = max(worst["SciPy, part of chi-square"], abs(numbers[0] / chi2 - 1))
        if not case.mixed:
            worst["OpenCV, mm"] = max(worst["OpenCV, mm"], np.abs(corners - case.by_opencv()).max())
    print(f"{CASES} cases, farthest apart:", ", ".join(f"{k} {v:.2g}" for k, v in worst.items()))
    agree = (worst["SciPy, mm"] <= SCIPY_TOL_MM and worst["SciPy, part of chi-square"] <= CHI2_TOL
             and worst["OpenCV, mm"] <= OPENCV_TOL_MM)
    sys.exit(0 if agree else 1)


main()
