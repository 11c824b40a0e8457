"""The floor of a plan at night, for `drawing.py`: what is left of it, and whether a way that is drawn over it keeps clear.

What is left is the outline of the room less every box that stands on the floor in the first state in camp in which people
lie down: parts as they stand at night, loads with a size, and the wheel boxes, as far as they are between the heights of the
rulebook's assumptions. A way is not held against another way, since there are many: each of its legs must leave half its width to
what stands there and to the walls, it must begin beside a berth or what carries it, and end in the middle of a way out.
"""

import shapely

from drawn import MM
from weigh_random import si

TOUCH = 1.0  # millimetres: less is not shared
GRID = 25.0 * 1.5 + 1.0  # how far a way may begin from the edge of its disc: a step and a half of the tool's grid
CUT = 13.5  # by how much a leg may cut a corner: half a step


def shares(one, other):
    return min(one[1], other[1]) - max(one[0], other[0]) > TOUCH


class Floor:
    """The floor at night; `known` is false where some place or size that it needs is not given."""

    def __init__(self, build, assumed):
        self.known, self.state = True, None
        camp = [state for state in build.spec.get("state", []) if state["use"] == "camp"]
        if not camp:
            self.known = False
            return
        self.state = next((state for state in camp if state.get("people")), camp[0])
        t = build.trailer
        room = [(t.nose["in"] * MM, t.rear["in"] * MM), (-t.half["in"] * MM, t.half["in"] * MM),
                tuple((t.floor + si(assumed[key])) * MM for key in ("step_over", "band"))]
        out = build.gone(self.state)
        boxes = [(tag, build.box(tag, folded=build.hour(tag, "night"))) for tag in build.order
                 if tag not in out and build.table(tag) not in ("load", "vent", "opening")]
        self.berths = [box for tag, box in boxes if build.table(tag) == "berth"]
        loads = [build.box(tag) for tag in self.state.get("carry", {})]
        for stated in self.state.get("load", []):
            thing = build.put(stated, load=True)
            loads.append([None if near is None else (near * MM, far * MM) for near, far in zip(thing.near, thing.far)])
        has_size = lambda reach: reach is None or reach[1] - reach[0] > TOUCH  # noqa: E731
        standing = [box for _, box in boxes] + [box for box in loads if has_size(box[0]) and has_size(box[1])]
        if "wheel_box" in t.stated:
            length, width, height = (si(t.stated["wheel_box"][key]) * MM for key in ("length", "width", "height"))
            middle = (t.axle + si(t.stated["wheel_box"].get("axle", "0 in"))) * MM
            for across in ((room[1][0], room[1][0] + width), (room[1][1] - width, room[1][1])):
                standing.append([(middle - length / 2, middle + length / 2), across, (t.floor * MM, t.floor * MM + height)])
        met = []
        for box in standing:
            if any(reach is not None and not shares(reach, wall) for reach, wall in zip(box, room)):
                continue
            if None in box:
                self.known = False
                return
            met.append(box)
        plan = lambda box: shapely.box(box[0][0], -box[1][1], box[0][1], -box[1][0])  # noqa: E731
        outline = t.outline("in", 4000)
        self.room = shapely.Polygon([(x * MM, -y * MM) for x, y in outline.exterior.coords])
        self.standing = shapely.union_all([plan(box) for box in met])
        self.free = self.room.difference(self.standing)
        self.beds = []
        for berth in (berth for berth in self.berths if None not in berth):
            under = [box for tag, box in boxes if build.table(tag) != "berth" and None not in box
                     and abs(box[2][1] - berth[2][0]) <= 6.35 and shares(box[0], berth[0]) and shares(box[1], berth[1])]
            self.beds += [plan(box) for box in (berth, *under)]
        self.exits = []
        for tag in build.order:
            part = build.part(tag)
            if build.table(tag) == "opening" and part.get("exit") and "clear_width" in part:
                self.exits.append(self.middle(build, tag))
        self.path = si(assumed["path"]) * MM

    @staticmethod
    def middle(build, tag):
        t, box, zone = build.trailer, build.box(tag), build.zone(tag)
        middle = lambda axis: sum(box[axis]) / 2  # noqa: E731
        x, y = {
            "left wall": lambda: (middle(0), -t.half["in"] * MM), "right wall": lambda: (middle(0), t.half["in"] * MM),
            "rear door": lambda: (t.rear["in"] * MM, middle(1)), "front wall": lambda: (t.nose["in"] * MM, middle(1)),
        }.get(zone, lambda: (middle(0), middle(1)))()
        return shapely.Point(x, -y)

    def wrong(self, shapes, ways):
        """What is wrong with the floor and the ways of a drawing, in words; and how many shapes were looked at."""
        drawn = shapes.get(("free", None), [])
        if not self.known:
            return (["a floor is drawn that is not known"] if drawn or ways else []), 0
        if not drawn:
            return ["the floor is not drawn"] if self.free.area > 1.0 else [], 0
        found, looked = [], 1
        floor = drawn[0].buffer(0)
        off = floor.symmetric_difference(self.free).area / max(self.free.length, 1.0)
        if off > 0.2:
            found.append(f"the free floor is {off:.3f} mm off along its edges")
        for line, width in ways:
            looked += 1
            legs, radius = shapely.LineString(line.coords[:-1]) if len(line.coords) > 2 else shapely.Point(line.coords[0]), width / 2
            if width > self.path + 0.1:
                found.append(f"a way is {width} mm wide, and a path has to be {self.path} mm")
            if not self.standing.is_empty and legs.distance(self.standing) < radius - CUT:
                found.append(f"a way {width} mm wide comes as near as {legs.distance(self.standing):.1f} mm to what stands there")
            if legs.distance(self.room.exterior) < radius - CUT or not self.room.contains(legs):
                found.append("a way leaves the room")
            if min(bed.distance(shapely.Point(line.coords[0])) for bed in self.beds) > radius + GRID:
                found.append("a way begins beside no berth")
            if min(way.distance(shapely.Point(line.coords[-1])) for way in self.exits) > 0.2:
                found.append("a way ends at no way out")
        return found, looked
