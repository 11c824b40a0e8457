"""What the oracles of `pintle figures` share: drawing specs, running the tool once over them, comparing.

An oracle of a topic is a `draw(random)` that gives the text of one spec and what must come out of it, worked out by other
means. Nothing of the tool's code is used. Run with `--self-test`, a topic's oracle falsifies one figure of each sort in the
tool's answer and exits 1 if any falsehood passes.
"""

import argparse
import collections
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile


class Expect:
    """A value in SI (or yes or no, a text, a list of texts, or None for a figure that cannot be known), and how near the
    tool must come: a share of `scale`, which is the value itself where none is given."""

    def __init__(self, value, within=1e-9, scale=None):
        self.value, self.within, self.scale = value, within, scale

    def off(self, entry):
        """How far the tool is off, as a share of the scale; infinite where the two are not of one sort."""
        if self.value is None:
            return 0.0 if "missing" in entry or "none" in entry else math.inf
        if isinstance(self.value, bool):
            return 0.0 if entry.get("flag") is self.value else math.inf
        if isinstance(self.value, str):
            return 0.0 if entry.get("text") == self.value else math.inf
        if isinstance(self.value, list):
            return 0.0 if entry.get("texts") == self.value else math.inf
        if "si" not in entry:
            return math.inf
        scale = abs(self.value) if self.scale is None else self.scale
        difference = abs(entry["si"] - self.value)
        return difference / scale if scale else (0.0 if difference == 0 else math.inf)


def figures(pintle, topic, specs, shop="packs = []\n", stock=""):
    """Runs the tool once over all specs; for each, its figures by name and owner."""
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        (root / "pintle.toml").write_text(shop)
        (root / "stock").mkdir()
        (root / "stock" / "parts.toml").write_text(stock)
        (root / "builds").mkdir()
        for number, text in enumerate(specs):
            (root / "builds" / f"{number:06}.toml").write_text(text)
        call = [str(pintle), "figures", str(root / "builds"), "--of", topic, "--format", "json"]
        done = subprocess.run(call, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            sys.exit(f"{topic}: the tool ended with {done.returncode}:\n{done.stderr[:4000]}")
    documents = json.loads(done.stdout)["specs"]
    if len(documents) != len(specs):
        sys.exit(f"{topic}: {len(specs)} specs went in and {len(documents)} came out")
    return [{(e["figure"], e["of"]): e for e in document["figures"]} for document in documents]


def compare(topic, expected, found, counts=None, worst=None, first=None):
    """The number of figures that differ by more than they may, or that only one side has."""
    wrong = 0
    for number, (wanted, entries) in enumerate(zip(expected, found)):
        for key, expect in wanted.items():
            entry = entries.get(key)
            off = math.inf if entry is None else expect.off(entry)
            if counts is not None:
                counts[key[0]] += 1
                worst[key[0]] = max(worst[key[0]], off)
            if not off <= expect.within:
                wrong += 1
                if first is not None and len(first) < 10:
                    told = None if entry is None else {k: v for k, v in entry.items() if k != "steps"}
                    first.append(f"{topic}: spec {number}, {key}: expected {expect.value}, the tool says {told}")
    return wrong


def falsehoods(expected, found):
    """For each sort of figure, a copy of the tool's answer with one figure of it changed."""
    for name in sorted({key[0] for wanted in expected for key in wanted}):
        for number, wanted in enumerate(expected):
            key = next((key for key in wanted if key[0] == name), None)
            if key is None or key not in found[number]:
                continue
            entry = dict(found[number][key])
            if "si" in entry:
                scale = abs(entry["si"]) if wanted[key].scale is None else wanted[key].scale
                entry["si"] += 4 * wanted[key].within * (scale or 1.0) + 1e-12
            elif "flag" in entry:
                entry["flag"] = not entry["flag"]
            elif "text" in entry:
                entry["text"] += "?"
            elif "texts" in entry:
                entry["texts"] = entry["texts"] + ["?"]
            else:
                entry = {"si": 1.0}
            changed = [dict(entries) for entries in found]
            changed[number][key] = entry
            yield name, changed
            break


def main(topic, draw, count=300, least=1.0, shop="packs = []\n", stock=""):
    """`least`: fewer figures than this a spec would mean that the generator lost its matter."""
    parser = argparse.ArgumentParser(description=f"Works {topic} out again and compares with `pintle figures`.")
    parser.add_argument("--count", type=int, default=count)
    parser.add_argument("--seed", type=int, default=118)
    parser.add_argument("--pintle", type=pathlib.Path, default=pathlib.Path("target/debug/pintle"))
    parser.add_argument("--self-test", action="store_true", help="only try whether falsehoods are noticed")
    parser.add_argument("--both", action="store_true", help="compare, then the self-test, on one run of the tool")
    call = parser.parse_args()
    chance = random.Random(call.seed)
    drawn = [draw(chance) for _ in range(call.count)]
    expected = [wanted for _, wanted in drawn]
    found = figures(call.pintle.resolve(), topic, [text for text, _ in drawn], shop, stock)
    if call.self_test:
        sys.exit(self_test(topic, expected, found))
    counts, worst, first = collections.Counter(), collections.defaultdict(float), []
    wrong = compare(topic, expected, found, counts, worst, first)
    print("\n".join(first))
    for name in sorted(counts):
        print(f"  {topic}/{name}: {counts[name]} compared, worst relative difference {worst[name]:.2g}")
    total = sum(counts.values())
    print(f"{topic}: {call.count} specs, {total} figures, {wrong} differ, worst {max(worst.values(), default=0):.2g}")
    failed = wrong or total < least * call.count
    if call.both:
        failed = self_test(topic, expected, found) or failed
    sys.exit(1 if failed else 0)


def self_test(topic, expected, found):
    """One falsehood of each sort of figure; 1 if any passes, or if there is none to try."""
    passed = [name for name, changed in falsehoods(expected, found) if compare(topic, expected, changed) == 0]
    sorts = {key[0] for wanted in expected for key in wanted}
    print(f"{topic}: {len(sorts)} falsehoods, {len(passed)} passed unnoticed")
    return 1 if passed or not sorts else 0
