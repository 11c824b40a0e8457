"""Works room, ways out and ways in out again and compares with `pintle figures --of space`.

    python3 tests/oracles/space.py [--count 300] [--seed 118] [--pintle PATH] [--self-test]

Draws a box with a nose, modules with doors and drawers, a berth, openings and a night, all of it invented, and works
the figures out by other means: areas, middles and what is left of the floor with `shapely` polygons; the widest path by
taking off the free floor what lies within half a width of any of its edges, one edge after the other; doors as polygons of many chords; and
whether a part comes out by a raster of the plan, blown up by the part in each of many turns (`scipy`), in which the
pieces that hang together are counted.

A yes or no is compared only where it has a margin: a swing that shares more than a sliver of room, a path that is not
within 3 mm of the least width, a part that comes out although it is drawn out on all sides by more than a step of the
tool's search, or that does not although it is drawn in. The rest is left to nobody.
"""

import math
import random

import numpy
import shapely
from scipy import ndimage, signal
from shapely import affinity

import figures
from figures import Expect

INCH = 0.0254
FT2 = 0.09290304
ROUND = 20_000  # chords of a round nose
HALF_CIRCLE = 24  # chords of a quarter of a rounded corner
CELL = 0.02  # metres: a cell of the raster
TURNS = 36


def inches(value):
    return f"{value:.3f} in"


class Room:
    """A box with a nose. Metres: x aft from the ball, y to the right of the centreline, z up from the ground."""

    def __init__(self, chance):
        self.ball = round(chance.uniform(30, 50), 2)
        self.length = round(chance.uniform(84, 190), 1)
        self.width = round(chance.uniform(56, 84), 1)
        self.height = round(chance.uniform(60, 80), 1)
        self.wall = 1.5
        self.floor_height = 20.0
        self.shape = chance.choice(["flat", "wedge", "round"])
        self.depth = 0.0 if self.shape == "flat" else round(chance.uniform(8, 26), 1)
        self.front_width = round(chance.uniform(0, 0.9 * self.width), 1) if self.shape == "wedge" and chance.random() < 0.6 else None
        self.axle = round(self.ball + self.depth + self.length * 0.6, 1)
        self.wheels = [round(chance.uniform(24, 40), 1), round(chance.uniform(5, 9), 1), round(chance.uniform(7, 11), 1)] if chance.random() < 0.4 else None
        self.nose = (self.ball + self.wall) * INCH
        self.square = self.nose + self.depth * INCH
        self.rear = self.square + self.length * INCH
        self.half = self.width * INCH / 2
        self.floor = self.floor_height * INCH
        self.ceiling = self.floor + self.height * INCH
        corners = [(self.rear, -self.half), (self.square, -self.half)]
        if self.shape == "round":
            steps = numpy.linspace(-math.pi / 2, math.pi / 2, ROUND)
            corners += list(zip(self.square - self.depth * INCH * numpy.cos(steps), self.half * numpy.sin(steps)))
        elif self.shape == "wedge":
            front = (self.front_width or 0.0) * INCH / 2
            corners += [(self.nose, -front), (self.nose, front)]
        corners += [(self.square, self.half), (self.rear, self.half)]
        self.plan = shapely.Polygon(corners)
        # Paths are tried many times: a nose of fewer chords, which lie within 0.2 mm of it, will do.
        curve = corners[2 : 2 + ROUND : ROUND // 120] + [corners[1 + ROUND]] if self.shape == "round" else corners[2:-2]
        self.coarse = shapely.Polygon([*corners[:2], *curve, *corners[-2:]])
        self.area = (
            self.length * self.width
            + {"flat": 0, "wedge": (self.width + (self.front_width or 0)) / 2 * self.depth, "round": math.pi / 4 * self.width * self.depth}[self.shape]
        ) * INCH**2

    def text(self):
        nose = f'shape = "{self.shape}"'
        if self.shape != "flat":
            nose += f', depth = "{inches(self.depth)}"'
        if self.front_width is not None:
            nose += f', front_width = "{inches(self.front_width)}"'
        wheels = ""
        if self.wheels:
            length, width, height = map(inches, self.wheels)
            wheels = f'wheel_box = {{ length = "{length}", width = "{width}", height = "{height}" }}\n'
        return (
            '[build]\nnumber = "R-1"\ntitle = "drawn by chance"\nstage = "design"\n\n[trailer]\n'
            f'ball_to_box = "{inches(self.ball)}"\nlength = "{inches(self.length)}"\nwidth = "{inches(self.width)}"\n'
            f'height = "{inches(self.height)}"\nwall = "{inches(self.wall)}"\nroof = "2 in"\n'
            f'floor_height = "{inches(self.floor_height)}"\nframe_height = "17 in"\nnose = {{ {nose} }}\n'
            f'axle = {{ ball = "{inches(self.axle)}" }}\n{wheels}'
        )

    def wheel_boxes(self):
        if not self.wheels:
            return []
        length, width, height = (size * INCH for size in self.wheels)
        x = (self.axle * INCH - length / 2, self.axle * INCH + length / 2)
        z = (self.floor, self.floor + height)
        return [("left wheel box", Box(x, (-self.half, -self.half + width), z)), ("right wheel box", Box(x, (self.half - width, self.half), z))]

    def front_at(self, y):
        """x of the front at a distance from the centreline: where a line along the box enters the plan."""
        if self.shape == "flat":
            return self.nose
        y = abs(y)
        if y >= self.half:
            return self.square if self.shape == "round" or (self.front_width or 0) < self.width else self.nose
        if self.shape == "round":
            return self.square - self.depth * INCH * math.sqrt(1 - (y / self.half) ** 2)
        front = (self.front_width or 0.0) * INCH / 2
        return self.nose if y <= front else self.nose + self.depth * INCH * (y - front) / (self.half - front)


class Box:
    def __init__(self, x, y, z):
        self.x, self.y, self.z = x, y, z

    def plan(self):
        return shapely.box(self.x[0], self.y[0], self.x[1], self.y[1])

    def shares(self, other):
        """Room that two boxes share, as the least of three stretches."""
        return min(min(one[1], two[1]) - max(one[0], two[0]) for one, two in ((self.x, other.x), (self.y, other.y), (self.z, other.z)))

    def holds(self, other):
        return all(two[0] >= one[0] - 1e-9 and two[1] <= one[1] + 1e-9 for one, two in ((self.x, other.x), (self.y, other.y), (self.z, other.z)))


class Again(Exception):
    """A spec on a border between yes and no: draw another."""


def part(chance, room, tag, kind="item", size=None, floor=None, clear=0.0):
    length, width, height = size or (round(chance.uniform(8, 50), 1), round(chance.uniform(8, 30), 1), round(chance.uniform(4, 60), 1))
    front = round(chance.uniform(clear, max(clear, room.length - length - clear)), 2)
    left = round(chance.uniform(clear, max(clear, room.width - width - clear)), 2)
    if clear == 0.0 and chance.random() < 0.5:
        left = chance.choice([0.0, round(room.width - width, 2)])
    floor = floor if floor is not None else (0.0 if chance.random() < 0.75 else round(chance.uniform(1, 40), 1))
    box = Box(
        (room.square + front * INCH, room.square + (front + length) * INCH),
        (-room.half + left * INCH, -room.half + (left + width) * INCH),
        (room.floor + floor * INCH, room.floor + (floor + height) * INCH),
    )
    text = (
        f'\n[[{kind}]]\ntag = "{tag}"\nlength = "{inches(length)}"\nwidth = "{inches(width)}"\nheight = "{inches(height)}"\n'
        f'at = {{ front = "{inches(front)}", left = "{inches(left)}", floor = "{inches(floor)}" }}\n'
    )
    return box, text, (length, width, height)


def wall_opening(chance, room, tag, zone, sort, height, floor, least=14):
    side = zone in ("left wall", "right wall")
    along = room.length if side else room.width
    clear = round(chance.uniform(least, min(max(40, least + 16), along - 4)), 2)
    frame = clear + 2.0
    start = round(chance.uniform(0, along - frame), 2)
    size = "length" if side else "width"
    gap = "front" if side else "left"
    clear_height = height - 2.0
    text = (
        f'\n[[opening]]\ntag = "{tag}"\nzone = "{zone}"\nsort = "{sort}"\nexit = true\n{size} = "{inches(frame)}"\nheight = "{inches(height)}"\n'
        f'clear_width = "{inches(clear)}"\nclear_height = "{inches(clear_height)}"\n'
    )
    # On the rear door gaps are measured from the outside of the walls.
    outside = 0.0 if side else room.wall
    text += f'at = {{ {gap} = "{inches(start + outside)}", floor = "{inches(floor)}" }}\n'
    low = (room.square if side else -room.half) + (start + 1.0) * INCH
    return {
        "tag": tag, "zone": zone, "sort": sort, "along": (low, low + clear * INCH), "clear": clear * INCH,
        "clear_height": clear_height * INCH, "sill": floor * INCH, "frame": (low - INCH, low + (clear + 1.0) * INCH),
        "upright": (room.floor + floor * INCH, room.floor + (floor + height) * INCH),
    }, text


def line_of(room, way):
    low, high = way["along"]
    if way["zone"] == "left wall":
        return shapely.LineString([(low, -room.half), (high, -room.half)])
    if way["zone"] == "right wall":
        return shapely.LineString([(low, room.half), (high, room.half)])
    return shapely.LineString([(room.rear, low), (room.rear, high)])


def before(room, way, radius):
    """Where the middle of a disc is that stands before a way out: a strip along the wall, a radius deep."""
    (low, high) = way["along"]
    low, high = (low + radius, high - radius) if high - low > 2 * radius else ((low + high) / 2,) * 2
    low, high, deep = low - 1e-6, high + 1e-6, radius + 1e-6
    if way["zone"] == "left wall":
        return shapely.box(low, -room.half, high, -room.half + deep)
    if way["zone"] == "right wall":
        return shapely.box(low, room.half - deep, high, room.half)
    return shapely.box(room.rear - deep, low, room.rear, high)


def joined(room, free, starts, way, width):
    """Whether a disc of a width can be moved from beside one of the starts to before a way out."""
    radius = width / 2
    # Edge by edge: a buffer of the whole would be simplified first, by a hundredth of the radius.
    rings = [ring for piece in getattr(free, "geoms", [free]) for ring in (piece.exterior, *piece.interiors)]
    edges = [shapely.LineString(pair) for ring in rings for pair in zip(ring.coords, ring.coords[1:])]
    inner = free.difference(shapely.union_all(shapely.buffer(numpy.array(edges), radius, quad_segs=HALF_CIRCLE)))
    target = before(room, way, radius)
    for piece in getattr(inner, "geoms", [inner]):
        if piece.is_empty or piece.geom_type != "Polygon":
            continue
        if min(piece.distance(start) for start in starts) <= radius + 1e-6 and piece.intersects(target):
            return True
    return False


def widest(room, free, starts, way, most):
    least, most = 0.0, most + 0.001
    while most - least > 1e-4:
        middle = (least + most) / 2
        if joined(room, free, starts, way, middle):
            least = middle
        else:
            most = middle
    return least


def sector(hinge, into, radius):
    turns = numpy.linspace(0, math.pi / 2, 720)
    arc = [(hinge[0] + into[0] * radius * math.cos(turn), hinge[1] + into[1] * radius * math.sin(turn)) for turn in turns]
    return shapely.Polygon([hinge, *arc])


def swung(chance, boxes, text, wanted, tag, box, size):
    """Gives a module a door or a drawer on a side, and says what stands in its way."""
    side = chance.choice(["front", "rear", "left", "right"])
    facing = side in ("front", "rear")
    face = (size[1] if facing else size[0])
    start, width = round(chance.uniform(0, face * 0.4), 2), round(chance.uniform(2, face * 0.6), 2)
    low = (box.y[0] if facing else box.x[0]) + start * INCH
    high = low + width * INCH
    plane = {"front": box.x[0], "rear": box.x[1], "left": box.y[0], "right": box.y[1]}[side]
    outward = -1 if side in ("front", "left") else 1
    upright = (box.z[0] + 0.5 * INCH, box.z[0] + 0.5 * INCH + size[2] * 0.5 * INCH)
    kind = chance.choice(["door", "drawer"])
    written = f'kind = "{kind}", side = "{side}", start = "{inches(start)}", width = "{inches(width)}", floor = "0.5 in", height = "{size[2] * 0.5 * INCH / INCH:.6f} in"'
    if kind == "drawer":
        reach = round(chance.uniform(4, 24), 2)
        written += f', reach = "{inches(reach)}"'
        far = plane + outward * reach * INCH
        spread = (min(plane, far), max(plane, far))
        shape = shapely.box(spread[0], low, spread[1], high) if facing else shapely.box(low, spread[0], high, spread[1])
    else:
        near_edge = chance.random() < 0.5
        hinge = {True: "left", False: "right"}[near_edge] if facing else {True: "front", False: "rear"}[near_edge]
        written += f', hinge = "{hinge}"'
        edge, turned = (low, 1) if near_edge else (high, -1)
        at, into = ((plane, edge), (outward, turned)) if facing else ((edge, plane), (turned, outward))
        shape = sector(at, into, width * INCH)
    met = []
    for other, body in boxes:
        if body is box or box.holds(body) or body.holds(box):
            continue
        shared = shape.intersection(body.plan()).area
        high_shared = min(upright[1], body.z[1]) - max(upright[0], body.z[0])
        if shared > 0 and abs(high_shared) < 0.003:
            raise Again
        if high_shared <= 0:
            continue
        if shared > 4e-3:
            met.append(other)
        elif shape.buffer(0.004).intersects(body.plan()):
            raise Again
    wanted["swing_meets", f"{kind} `it` of item `{tag}`"] = Expect(met)
    return text.replace("length =", f'swings = [{{ name = "it", {written} }}]\nlength =', 1)


def raster(room, blocked, doors, size, more):
    """Whether a part comes out: cells in which its middle can be, in each of many turns; and whether the one that it
    starts in hangs together with one outside."""
    reach = math.hypot(size[0], size[1]) / 2 + 0.3
    x0, y0 = room.nose - reach, -room.half - 2 * reach
    nx, ny = int((room.rear + 2 * reach - x0) / CELL) + 1, int((room.half + 2 * reach - y0) / CELL) + 1
    xs = x0 + (numpy.arange(nx) + 0.5) * CELL
    ys = y0 + (numpy.arange(ny) + 0.5) * CELL
    grid = numpy.meshgrid(xs, ys, indexing="ij")
    inside = shapely.contains_xy(room.plan, grid[0], grid[1])
    solid = ~inside
    outside = numpy.zeros_like(solid)
    for way in doors:
        low, high = way["along"]
        if way["zone"] == "left wall":
            beyond, across = grid[1] <= -room.half, grid[0]
        elif way["zone"] == "right wall":
            beyond, across = grid[1] >= room.half, grid[0]
        else:
            beyond, across = grid[0] >= room.rear, grid[1]
        solid &= ~(beyond & (across >= low - more[1]) & (across <= high + more[1]))
        outside |= beyond
    for plan in blocked:
        x1, y1, x2, y2 = plan.bounds
        solid |= (grid[0] >= x1) & (grid[0] <= x2) & (grid[1] >= y1) & (grid[1] <= y2)
    length, width = size[0] + 2 * more[0], size[1] + 2 * more[0]
    far = math.hypot(length, width) / 2
    free = []
    count = int(far / CELL) + 2
    offsets = numpy.arange(-count, count + 1) * CELL
    ox, oy = numpy.meshgrid(offsets, offsets, indexing="ij")
    gone = []
    for turn in range(TURNS):
        angle = math.pi * turn / TURNS
        u, v = ox * math.cos(angle) + oy * math.sin(angle), oy * math.cos(angle) - ox * math.sin(angle)
        kernel = ((abs(u) <= length / 2) & (abs(v) <= width / 2)).astype(float)
        hit = signal.fftconvolve(solid.astype(float), kernel, mode="same") > 0.5
        free.append(~hit)
        touching = signal.fftconvolve((~outside).astype(float), kernel, mode="same") > 0.5
        gone.append(~touching & ~hit)
    free, gone = numpy.stack(free), numpy.stack(gone)
    # What lies within a part's reach of the raster's edge is not outside: it is nowhere.
    edge = count + 1
    for array in (free, gone):
        array[:, :edge, :] = array[:, -edge:, :] = False
        array[:, :, :edge] = array[:, :, -edge:] = False
    joined_up, _ = ndimage.label(free)
    links = {}

    def root(one):
        while links.get(one, one) != one:
            one = links[one]
        return one

    # Half a turn on, a box is as it was.
    for one, other in zip(joined_up[0].ravel(), joined_up[-1].ravel()):
        if one and other:
            links[root(int(one))] = root(int(other))
    return joined_up, gone, root, (x0, y0)


def comes_out(room, blocked, doors, box, size, more):
    joined_up, gone, root, (x0, y0) = raster(room, blocked, doors, size, more)
    cell = (int((sum(box.x) / 2 - x0) / CELL), int((sum(box.y) / 2 - y0) / CELL))
    start = joined_up[0, cell[0], cell[1]]
    if start == 0:
        return None
    ends = {root(int(label)) for label in numpy.unique(joined_up[gone]) if label}
    return root(int(start)) in ends


def draw_once(chance):
    room = Room(chance)
    text, wanted = room.text(), {}
    band = (round(chance.uniform(4, 9), 1), round(chance.uniform(44, 60), 1))
    path = round(chance.uniform(9, 24), 1)
    direct, passing = round(chance.uniform(10, 30), 1), round(chance.uniform(6, 30), 1)
    access = round(chance.uniform(6, 30), 1)
    boxes = []
    removal = chance.random() < 0.5
    pieces = []
    for number in range(chance.randint(1, 2 if removal else 4)):
        tag = f"m{number}"
        box, written, size = part(chance, room, tag)
        boxes.append((f"item `{tag}`", box))
        pieces.append([tag, box, written.replace("length =", 'kind = "module"\nlength =', 1), size])
    bed, written, bed_size = part(chance, room, "bed", "berth", (round(chance.uniform(28, 60), 1), round(chance.uniform(28, room.width), 1), 5.0), round(chance.uniform(8, 24), 1))
    boxes.append(("berth `bed`", bed))
    text += written
    ways = []
    for number in range(chance.randint(1, 3)):
        zone = chance.choice(["left wall", "right wall", "rear door"])
        wide = removal and number == 0 and chance.random() < 0.7
        sort = "door" if wide else chance.choice(["door", "window"])
        height, floor = (round(chance.uniform(40, room.height - 4), 1), 1.0) if sort == "door" else (19.0, round(chance.uniform(12, 34), 1))
        way, written = wall_opening(chance, room, f"o{number}", zone, sort, height, floor, 34 if wide else 14)
        ways.append(way)
        text += written
    # Boxes that share just about nothing are left to nobody.
    for at, (_, one) in enumerate(boxes):
        for _, other in boxes[at + 1 :]:
            shared = one.shares(other)
            if abs(shared) < 0.004:
                raise Again
    taken = chance.choice(pieces) if removal else None
    if taken is not None:
        tag, _, _, size = taken
        size = (round(chance.uniform(14, 40), 1), round(chance.uniform(10, 24), 1), round(chance.uniform(15, 36), 1))
        box, written, size = part(chance, room, tag, size=size, floor=0.0, clear=6.5 if room.length > 60 else 0.0)
        written = written.replace("length =", 'kind = "module"\nremovable = true\nmass = "77 lb"\nlength =', 1)
        position = pieces.index(taken)
        pieces[position] = [tag, box, written, size]
        boxes[position] = (f"item `{tag}`", box)
        for name, other in boxes:
            if other is not box and abs(box.shares(other)) < 0.004:
                raise Again
    swinging = chance.choice(pieces)
    swinging[2] = swung(chance, boxes, swinging[2], wanted, swinging[0], swinging[1], swinging[3])
    panel = chance.choice(pieces)
    side = chance.choice(["front", "rear", "left", "right", "top"])
    panel[2] = panel[2].replace("length =", f'access = {{ side = "{side}" }}\nlength =', 1)
    text += "".join(piece[2] for piece in pieces)
    text += (
        f'\n[assume.space]\nstep_over = "{band[0]} in"\nband = "{band[1]} in"\npath = "{path} in"\ndirect = "{direct} in"\n'
        f'passing = "{passing} in"\naccess = "{access} in"\nlift = "51 lb"\nstride = "2 in"\nturn = "5 °"\n'
        '\n[people]\ncount = 2\nmass = "180 lb"\n'
        '\n[[state]]\nname = "night"\nuse = "camp"\npeople = [{ berth = "bed", count = 2 }]\n'
    )

    # ---- room and parts -------------------------------------------------------------------------------------------
    wanted["plan_area", "the build"] = Expect(room.area)
    wanted["plan_middle", "the build"] = Expect(room.rear - room.plan.centroid.x, 2e-5)
    wanted["inside_length", "the build"] = Expect(room.rear - room.nose)
    wanted["area_per_person", "state `night`"] = Expect(room.area / 2)
    wanted["area_asked", "state `night`"] = Expect(70 * FT2)
    wanted["berth_length", "berth `bed`"] = Expect(max(bed_size[:2]) * INCH)
    wanted["berth_width", "berth `bed`"] = Expect(min(bed_size[:2]) * INCH)
    over = [box.z[0] for name, box in boxes if box is not bed and box.plan().intersection(bed.plan()).area > 0 and box.z[0] >= bed.z[1]]
    wanted["berth_headroom", "berth `bed`"] = Expect(min([room.ceiling, *over]) - bed.z[1], 1e-9, 1.0)
    wanted["fall_height", "berth `bed`"] = Expect(bed.z[1] - room.floor)
    for name, box in boxes:
        out = max(box.x[1] - room.rear, room.nose - box.x[0], box.y[1] - room.half, -room.half - box.y[0], box.z[1] - room.ceiling, room.floor - box.z[0])
        wanted["outside_box", name] = Expect(out, 1e-9, 1.0)
        if room.shape != "flat":
            worst = max(room.front_at(min(abs(y), room.half)) for y in box.y) - box.x[0]
            wanted["into_nose", name] = Expect(worst, 1e-7, 1.0)  # a root near zero
        met = [other for other, body in boxes if body is not box and box.shares(body) > 0 and not box.holds(body) and not body.holds(box)]
        wanted["meets", name] = Expect(met)
        if room.wheels:
            shared = [(wheel, body.shares(box)) for wheel, body in room.wheel_boxes()]
            if any(abs(share) < 0.004 for _, share in shared):
                raise Again
            wanted["in_wheel_box", name] = Expect([wheel for wheel, share in shared if share > 0])
    tag, box, _, _ = panel
    d = access * INCH
    before = {
        "front": Box((box.x[0] - d, box.x[0]), box.y, box.z), "rear": Box((box.x[1], box.x[1] + d), box.y, box.z),
        "left": Box(box.x, (box.y[0] - d, box.y[0]), box.z), "right": Box(box.x, (box.y[1], box.y[1] + d), box.z),
        "top": Box(box.x, box.y, (box.z[1], box.z[1] + d)),
    }[side]
    shared = [(name, before.shares(body)) for name, body in boxes if body is not box]
    if any(abs(share) < 0.004 for _, share in shared):
        raise Again
    wanted["covered_by", f"item `{tag}`"] = Expect([name for name, share in shared if share > 0])

    # ---- ways out -------------------------------------------------------------------------------------------------
    low, high = room.floor + band[0] * INCH, room.floor + band[1] * INCH
    standing = [box for _, box in boxes] + [box for _, box in room.wheel_boxes()]
    if any(min(abs(box.z[1] - low), abs(box.z[0] - high)) < 0.004 for box in standing):
        raise Again
    obstacles = [box for box in standing if box.z[1] > low and box.z[0] < high]
    taken_up = shapely.union_all([box.plan() for box in obstacles])
    wanted["free_floor", "state `night`"] = Expect(room.plan.difference(taken_up).area, 1e-3, room.area)
    free = room.coarse.difference(taken_up)
    starts = [bed.plan()] + [
        box.plan() for _, box in boxes
        if box is not bed and abs(box.z[1] - bed.z[0]) <= 0.00635 and box.plan().intersection(bed.plan()).area > 0
    ]
    good, widths = [], []
    for way in ways:
        over_floor = widest(room, free, starts, way, min(2 * room.half, room.rear - room.nose))
        across = way["zone"] == "rear door"
        reach, own = (bed.y, bed.x) if across else (bed.x, bed.y)
        plane = {"left wall": -room.half, "right wall": room.half, "rear door": room.rear}[way["zone"]]
        along = min(reach[1], way["along"][1]) - max(reach[0], way["along"][0])
        gap = max(own[0] - plane, plane - own[1])
        if abs(gap - direct * INCH) < 0.002 or abs(along) < 0.002:
            raise Again
        from_bed = along if along > 0 and gap <= direct * INCH else 0.0
        if from_bed and gap > 0.001:
            common = (max(reach[0], way["along"][0]), min(reach[1], way["along"][1]))
            apart = (min(own[1], plane), max(own[0], plane)) if plane >= own[1] else (plane, own[0])
            strip = Box(apart, common, (bed.z[1], bed.z[1] + 0.3048)) if across else Box(common, apart, (bed.z[1], bed.z[1] + 0.3048))
            shared = [strip.shares(body) for _, body in boxes if body is not bed]
            if any(abs(share) < 0.004 for share in shared):
                raise Again
            if any(share > 0 for share in shared):
                from_bed = 0.0
        elif from_bed and gap > -0.002:
            raise Again
        width = max(over_floor, from_bed)
        if abs(width - path * INCH) < 0.003 or abs(from_bed - path * INCH) < 0.003:
            raise Again
        # A millimetre, and the chords of corners and nose.
        of = f"berth `bed` to opening `{way['tag']}` in state `night`"
        wanted["exit_path", of] = Expect(width, 2.2e-3, 1.0)
        widths.append((width, way["sort"] == "door"))
        if width >= path * INCH:
            good.append((way, from_bed >= path * INCH))
        wanted["clear_area", f"opening `{way['tag']}`"] = Expect(way["clear"] * way["clear_height"])
        wanted["sill_height", f"opening `{way['tag']}`"] = Expect(way["sill"], 1e-9, 1.0)
    of = "berth `bed` in state `night`"
    to_doors = [width for width, is_door in widths if is_door]
    if to_doors:
        wanted["door_path", of] = Expect(max(to_doors), 2.2e-3, 1.0)
    if len(widths) > 1:
        wanted["second_path", of] = Expect(sorted((width for width, _ in widths), reverse=True)[1], 2.2e-3, 1.0)
    wanted["ways_out", of] = Expect([f"opening `{way['tag']}`" for way, _ in good])
    wanted["own_door", of] = Expect(any(by_bed and way["sort"] == "door" for way, by_bed in good))
    middles = [line_of(room, way).centroid for way in ways]
    if len(ways) > 1:
        wanted["exits_apart", "the build"] = Expect(max(one.distance(other) for one in middles for other in middles))

    def clear_of(shut, to, by_bed, slack):
        if by_bed:
            return True
        left = free.difference(line_of(room, shut).buffer(passing * INCH - slack, quad_segs=HALF_CIRCLE))
        return joined(room, left, starts, to, path * INCH - 0.001 - slack)

    def independent(slack):
        pairs = [(one, other) for at, one in enumerate(good) for other in good[at + 1 :]]
        return any(clear_of(one[0], other[0], other[1], slack) and clear_of(other[0], one[0], one[1], slack) for one, other in pairs)

    easy, hard = independent(0.004), independent(-0.004)
    if easy == hard:
        wanted["ways_independent", of] = Expect(easy)

    # ---- parts that are taken out ---------------------------------------------------------------------------------
    if taken is not None:
        tag, box, _, size = pieces[position]
        doors = [way for way in ways if way["sort"] == "door"]
        wanted["lift_share", f"item `{tag}`"] = Expect(77 / 51)
        if doors:
            of = f"item `{tag}`"
            slack = max(min(way["clear"] - min(size[:2]) * INCH, way["clear_height"] - size[2] * INCH) for way in doors)
            wanted["door_slack", of] = Expect(slack, 1e-9, 1.0)
            fit = [way for way in doors if way["clear_height"] >= size[2] * INCH and way["clear"] >= min(size[:2]) * INCH]
            if not fit:
                if slack < -0.002:
                    wanted["comes_out", of] = Expect(False)
            else:
                low, high = box.z[0], max(box.z[1], max(room.floor + way["sill"] for way in fit) + size[2] * INCH)
                others = [body for _, body in boxes if body is not box and not box.holds(body)] + [body for _, body in room.wheel_boxes()]
                if any(abs(body.z[0] - high) < 0.004 or abs(body.z[1] - box.z[0]) < 0.01 for body in others):
                    raise Again
                standing_on = [body for body in others if abs(body.z[0] - box.z[1]) < 0.01]
                if standing_on or any(body.holds(box) for body in others):
                    raise Again
                blocked = [body.plan() for body in others if body.z[0] < high and body.z[1] > low]
                metres = (size[0] * INCH, size[1] * INCH)
                # Between two places of the tool's search, and between two turns.
                margin = 0.066 + 0.09 * math.hypot(*metres) / 2
                if comes_out(room, blocked, fit, box, metres, (margin, 0.0)):
                    wanted["comes_out", of] = Expect(True)
                elif comes_out(room, blocked, fit, box, metres, (-0.04, 0.03)) is False:
                    wanted["comes_out", of] = Expect(False)
    return text, wanted


SEEN = {"yes": 0, "no": 0}


def draw(chance):
    while True:
        try:
            text, wanted = draw_once(random.Random(chance.random()))
        except Again:
            continue
        for key, expect in wanted.items():
            if key[0] == "comes_out":
                SEEN["yes" if expect.value else "no"] += 1
        return text, wanted


if __name__ == "__main__":
    figures.main("space", draw, count=240, least=20.0)
