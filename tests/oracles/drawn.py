"""Drawings of a page read back: each element of SVG as a geometry of `shapely`, in the drawing's own millimetres."""

import collections
import math
import re
import xml.etree.ElementTree as ElementTree

import numpy
import shapely

MM = 1000.0


def arc(start, radii, large, sweep, end, steps=1500):
    """SVG's elliptical arc without rotation, as points: from its end points to its centre (formulas of SVG, from memory)."""
    (x1, y1), (rx, ry), (x2, y2) = start, radii, end
    dx, dy = (x1 - x2) / 2, (y1 - y2) / 2
    beyond = (dx / rx) ** 2 + (dy / ry) ** 2
    if beyond > 1:
        rx, ry = rx * math.sqrt(beyond), ry * math.sqrt(beyond)
    below = (rx * dy) ** 2 + (ry * dx) ** 2
    root = math.sqrt(max(0.0, ((rx * ry) ** 2 - below) / below)) * (1 if large != sweep else -1)
    cx, cy = root * rx * dy / ry, -root * ry * dx / rx
    first = math.atan2((dy - cy) / ry, (dx - cx) / rx)
    last = math.atan2((-dy - cy) / ry, (-dx - cx) / rx)
    turn = last - first
    if sweep and turn < 0:
        turn += 2 * math.pi
    if not sweep and turn > 0:
        turn -= 2 * math.pi
    angles = first + turn * numpy.linspace(0, 1, steps)
    middle = (cx + (x1 + x2) / 2, cy + (y1 + y2) / 2)
    return [(middle[0] + rx * math.cos(a), middle[1] + ry * math.sin(a)) for a in angles]


def outline(text):
    """A path of M, L, A and Z as polygons, of which inner ones are taken out of outer ones."""
    words = re.findall(r"[MLAZ]|-?\d+(?:\.\d+)?", text)
    rings, ring, at = [], [], 0
    while at < len(words):
        sort = words[at]
        if sort == "Z":
            rings.append(ring)
            ring, at = [], at + 1
            continue
        count = 7 if sort == "A" else 2
        numbers = [float(word) for word in words[at + 1 : at + 1 + count]]
        if sort == "A":
            ring += arc(ring[-1], numbers[:2], numbers[3], numbers[4], tuple(numbers[5:]))[1:]
        else:
            ring.append(tuple(numbers))
        at += 1 + count
    # Rounded to tenths, a sliver of floor can cross itself.
    shape = shapely.make_valid(shapely.Polygon(rings[0])) if len(rings) > 1 else shapely.Polygon(rings[0])
    for more in rings[1:]:
        shape = shape.symmetric_difference(shapely.make_valid(shapely.Polygon(more)))
    return shape


def shape_of(element):
    """The geometry of an element of SVG; a spot or a mark is its middle."""
    sort = element.tag
    get = lambda name: float(element.get(name))  # noqa: E731
    if sort == "rect":
        x, y, width, height = get("x"), get("y"), get("width"), get("height")
        return shapely.box(x, y, x + width, y + height) if width and height else shapely.LineString([(x, y), (x + width, y + height)])
    if sort == "circle":
        middle = shapely.Point(get("cx"), get("cy"))
        if "spot" in element.get("class", "").split() or element.get("data-shape") in ("centre of gravity", "foot"):
            return middle
        return middle.buffer(get("r"), quad_segs=400)
    if sort == "path":
        return outline(element.get("d"))
    points = [tuple(map(float, pair.split(","))) for pair in element.get("points").split()]
    return shapely.Polygon(points) if sort == "polygon" else shapely.LineString(points)


def drawings(page):
    """Each drawing's shapes by what they are and whose; its dimensions, with the lengths of their lines in m; its ways, with
    their widths."""
    found = {}
    for text in re.findall(r'<svg class="drawing.*?</svg>', page, re.DOTALL):
        svg = ElementTree.fromstring(text)
        shapes, dimensions, ways = collections.defaultdict(list), [], []

        def walk(element, owner, shapes=shapes, dimensions=dimensions, ways=ways):
            if element.get("data-part") is not None:
                owner = int(element.get("data-part"))
            if element.get("data-state") is not None:
                owner = int(element.get("data-state"))
            what = element.get("data-shape")
            if what and element.tag != "g":
                what = "body" if what in ("body", "inside", "overhead") else what
                shapes[what, owner].append(shape_of(element))
            if what == "route":
                ways.append((shapes[what, owner][-1], float(element.get("stroke-width"))))
            if element.get("class") == "dimension":
                line = element.find("line")
                ends = [float(line.get(name)) for name in ("x1", "y1", "x2", "y2")]
                dimensions.append((element.find("text").text, math.hypot(ends[2] - ends[0], ends[3] - ends[1]) / MM))
            for child in element:
                walk(child, owner)

        walk(svg, None)
        found[svg.get("data-view")] = (shapes, dimensions, ways)
    return found
