"""What a sheet says of seat, glass and ring, worked out anew from the readings in the raw file."""

from __future__ import annotations

import re
from typing import Any

from tests.independent.claims_ground import RESTED_ON, Ground
from tests.independent.raw_session import Kept, figure, is_settled, largest_group, newest

CLOCK = ("12", "3", "1:30", "4:30", "6", "9", "7:30", "10:30")
"""Clock positions in the order in which they are asked."""


class RingClaims(Ground):
    """Measured, accepted and made."""

    def measured(self) -> None:
        """Means, ovality and number of readings from the readings that agree."""
        ring = newest(self.answers, "ring")
        if ring and any(RESTED_ON.fullmatch(one.key) for one in self.answers if one.n > ring.n):
            ring = None
        for name, key in (("case_bore", "case_bore"), ("glass", "glass")):
            shown = self.sheet["measured"][name]
            if ring is None:
                self.must(
                    all(value is None for value in shown.values()), f"{name} shown, but nothing holds it"
                )
                continue
            if self.loose:
                continue
            way = newest(self.answers, "seat_way", ring.n)
            if name == "case_bore" and way and way.word == "stepped plug":
                self.by_plug(shown, ring.n)
                continue
            mean, ovality, count = self.diameter(key, ring.n)
            self.same(f"{name} mean", shown["mean_mm"], mean, 0.00051)
            self.same(f"{name} ovality", shown["ovality_mm"], ovality, 0.00051)
            self.same(f"{name} readings", shown["n"], count)
            self.must((shown["u_mm"] or 0.0) > 0.0, f"{name} without uncertainty")

    def by_plug(self, shown: dict[str, Any], before: int) -> None:
        """A seat found by a plug lies between its steps."""
        enters = newest(self.answers, "plug_enters", before)
        stays = newest(self.answers, "plug_stays_out", before)
        again = newest(self.answers, "plug_stays_out_again", before, stays.n if stays else 0)
        assert enters and stays
        high = max(figure(stays.word), figure(again.word) if again else 0.0, figure(enters.word) + 0.02)
        mean = shown["mean_mm"]
        inside = mean is not None and figure(enters.word) <= mean <= high + 1e-9
        self.must(inside, "plug: seat left out, or outside its steps")

    def readings(self, key: str, before: int) -> list[float]:
        """The readings of a diameter in order, as they stood."""
        again = newest(self.answers, "measure_again", before)
        came = newest(self.answers, "glass_comes", before) if key == "glass" else None
        since = max(one.n if one else 0 for one in (again, came))
        taken = []
        for n in range(1, 30):
            one = newest(self.answers, f"{key}_{n}", before, since)
            if one is None or one.word in ("none", "not here"):
                break
            taken.append(figure(one.word))
        return taken

    def diameter(self, key: str, before: int) -> tuple[float, float, int]:
        """Mean, ovality and number of the readings that agree."""
        values = self.readings(key, before)
        within = self.round_within(before) if self.is_ground(key) else 0.20
        places: list[str] = []
        for n in range(len(values)):
            unsure = n >= 2 and not is_settled(values[:n], within)
            distinct = len(dict.fromkeys(places))
            places.append(places[-1] if unsure else CLOCK[min(distinct, len(CLOCK) - 1)])
        used = largest_group(values, within)
        by_place: dict[str, list[float]] = {}
        for i in used:
            by_place.setdefault(places[i], []).append(values[i])
        means = [sum(group) / len(group) for group in by_place.values()]
        return sum(values[i] for i in used) / len(used), max(means) - min(means), len(used)

    def is_ground(self, key: str) -> bool:
        """Whether a diameter is that of a glass that is not named acrylic."""
        made_of = newest(self.answers, "glass_material")
        return key == "glass" and (made_of is None or made_of.word != "acrylic")

    def round_within(self, before: int) -> float:
        """How far readings of a ground glass may differ: 0.03 mm, or twice the limit of error of the
        calliper, 0.03 mm, over root three.
        """
        way = newest(self.answers, "glass_way", before)
        return 0.06 / 3**0.5 if way is None or way.word == "calliper" else 0.03

    def ring(self) -> None:
        """The ring shown is the ring of this attempt."""
        outside, bore, _ = self.ring_sizes(self.now)
        shown = self.sheet["ring"]
        known = self.sizes_known(self.now)
        self.same("outside and bore", (shown["outside_diameter_mm"], shown["bore_mm"]), known)
        spare = self.sheet["turned"]["spare"]
        self.same("a spare or not", spare, self.is_spare())
        said, other = ("Expected of the spare:", "Planned:")[:: 1 if spare else -1]
        self.must(other not in self.text, f"{other} beside {said}")
        planned = said in self.text
        self.must(planned is (known != (None, None)), "sizes called planned, or the lack of them")
        own = None if outside is None or bore is None else (outside - bore) / 2
        self.same("wall of the ring", shown["wall_mm"], own, 0.0001)

    def is_spare(self) -> bool:
        """Whether the attempt before decided to try a spare, and the ring of this one was taken as that."""
        taken = [one for one in self.now if one.key == "ring" and "at_hand pressed" not in one.words]
        tried = newest(self.spans[-2], "remake") if len(self.spans) > 1 else None
        if tried is None or not tried.word.startswith("spare") or not taken:
            return False
        if any(word.startswith("at_hand") for word in taken[-1].words):
            return False
        sizes = {word for word in tried.words if word.startswith(("bore ", "outside "))}
        return sizes <= set(taken[-1].words)

    def on_the_ring(self) -> None:
        """What is said to be measured is: the mean of the walls, the last reading of the outside."""
        shown, ring = self.sheet["on_the_ring"], newest(self.now, "ring")
        walls = self.sheet["made"]["wall_mm"]
        own = sum(walls) / len(walls) if walls else None
        self.same("mean wall", shown["wall_mean_mm"], own, 0.00006)
        read = [one for one in self.now if ring and one.n > ring.n and "outside_reading" in one.key]
        self.same("outside on the bar", shown["outside_on_bar_mm"], figure(read[-1].word) if read else None)
        kept = newest(self.now, "past_outside", after=ring.n) if ring else None
        self.same("outside as it stayed", shown["outside_final"], bool(kept and kept.word == "smaller_bore"))

    def made(self) -> None:
        """Walls, height and squeeze as measured on this ring."""
        made, outcome = self.sheet["made"], self.pressed(self.now)
        outside, bore, ring = self.ring_sizes(self.now)
        later = [
            one.key
            for one in self.answers
            if outcome
            and one.n > outcome.n
            and (RESTED_ON.fullmatch(one.key) or re.fullmatch(r"wall_\d+|ring", one.key))
        ]
        there = self.at_hand(ring)
        dressed = not there or newest(self.now, "dress_lower", after=ring.n if ring else 0)
        keyed = r"ring_height(_\d+)?" if dressed else r"hand_height"
        heights = [figure(one.word) for one in self.now if re.fullmatch(keyed, one.key)]
        self.must(made["height_mm"] in (None, *heights), "height that was not keyed for this ring")
        if outcome is None or ring is None or outside is None or bore is None or later:
            self.must(not made["wall_mm"] and made["squeeze_pct"] is None, "walls shown that do not stand")
            return
        if self.loose or outcome.number:
            return
        walls = self.hand_walls(ring.n) if there else self.walls(ring.n, outcome.n, (outside - bore) / 2)
        self.must(
            len(walls) == len(made["wall_mm"])
            and all(abs(a - b) < 0.00051 for a, b in zip(walls, made["wall_mm"], strict=True)),
            f"walls: sheet says {made['wall_mm']}, entries give {walls}",
        )
        if made["squeeze_pct"] is None or made["squeeze_u_pct"] is None:
            self.must(False, "the squeeze that was decided is left out")
            return
        way = newest(self.answers, "seat_way", ring.n)
        plugged = way is not None and way.word == "stepped plug"
        seat = self.seat_by_plug(ring.n) if plugged else self.diameter("case_bore", ring.n)[0]
        if seat is not None:
            gap = self.gap(ring, (seat - self.diameter("glass", ring.n)[0]) / 2)
            gap += next((figure(word[6:]) for word in ring.words if word.startswith("to_20 ")), 0.0)
            wall = sum(walls) / len(walls)
            squeeze = 100 * (wall - gap) / wall
            self.same("squeeze", made["squeeze_pct"], squeeze, 0.006 + 100 * 0.0005 / wall)
        low, high = (made["squeeze_pct"] + sign * made["squeeze_u_pct"] for sign in (-1, 1))
        shut = any(word.startswith("shut ") for word in ring.words)
        self.must(not (shut and made["decision"] == "fits"), "no bore met every requirement, and it fits")
        if made["decision"] == "fits":
            least, most = self.band(ring)
            self.must(low >= least - 0.02 and high <= most + 0.02, "fits, but its interval leaves the band")

    def gap(self, ring: Kept, measured: float) -> float:
        """The gap that rings tried before had taught, as it was written with the ring; else as measured."""
        kept = {
            name: figure(rest)
            for name, _, rest in (word.partition(" ") for word in ring.words)
            if name in ("gap", "gap_u")
        }
        self.must(
            not kept or any(one.key == "fit_outcome" and one.n < ring.n for one in self.all),
            "a gap was learned and no ring tried before",
        )
        self.same("gap believed", self.sheet["gap_believed_mm"], kept.get("gap"), 0.00011)
        return kept.get("gap", measured)

    def at_hand(self, ring: Kept | None) -> bool:
        """Whether the ring accepted was there already; what the sheet and its text say of that."""
        words = dict(word.partition(" ")[::2] for word in ring.words[1:]) if ring else {}
        shown, text = self.sheet["at_hand"], " ".join(self.text.split())
        self.same("ring that was there", shown["what"], words.get("at_hand"))
        ways = ("was there already", "was turned before readings were corrected", "workshop for another job")
        said = any(way in text for way in ways)
        of = words.get("from", "")
        self.same("job it was made for", shown.get("from"), of or None)
        self.must(
            not of or f"of job {of.rpartition(' ')[0]}" in text, "the job that it was made for, left out"
        )
        self.must(said is ("at_hand" in words), "the text on a ring that was there, or the lack of it")
        for name in ("used_wall", "used_height"):
            own = figure(words[name]) if name in words else None
            self.same(name, shown[f"{name}_mm"], own)
        used = "A used ring was measured" in text
        self.must(used is ("used_wall" in words), "the text on a used ring, or the lack of it")
        self.must(not used or "was not fitted again" in text, "a used ring said to be fitted")
        if "used_wall" in words and ring:
            walls = self.hand_walls(ring.n)
            self.same("wall of the used ring", shown["used_wall_mm"], sum(walls) / len(walls), 0.00051)
        return "at_hand" in words

    def hand_walls(self, before: int) -> list[float]:
        """The walls of a ring that was there that agree; all of them where none do."""
        chosen = newest(self.now, "at_hand", before)
        kept = next((word for word in chosen.words if word.startswith("walls ")), "") if chosen else ""
        if kept:  # of the drawer, measured in the job that it was made for
            return [float(wall) for wall in kept.split()[1:-1]]
        values = []
        for n in range(1, 30):
            one = newest(self.now, f"hand_wall_{n}", before, chosen.n if chosen else 0)
            if one is None or one.word == "none":
                break
            values.append(figure(one.word))
        return [values[i] for i in largest_group(values, 0.05)]

    def band(self, ring: Kept) -> tuple[float, float]:
        """Squeezes that were written with the ring; 5 and 13 where none were."""
        ends = {"squeeze_low": 5.0, "squeeze_high": 13.0}
        for word in ring.words:
            name, _, rest = word.partition(" ")
            if name in ends:
                ends[name] = figure(rest)
        return ends["squeeze_low"], ends["squeeze_high"]

    def seat_by_plug(self, before: int) -> float | None:
        """Middle between the step that enters and the one that does not,
        at least 0.02 and at most 0.5 apart.
        """
        enters = newest(self.answers, "plug_enters", before)
        again = newest(self.answers, "plug_stays_out_again", before)
        stays_out = again or newest(self.answers, "plug_stays_out", before)
        if enters is None or stays_out is None:
            return None
        low, high = figure(enters.word), figure(stays_out.word)
        return (low + (min(max(high, low + 0.02), low + 0.5) if again else high)) / 2

    def walls(self, after: int, before: int, planned: float) -> list[float]:
        """The walls that agree with one another and with the ring as planned."""
        values = []
        for n in range(1, 30):
            one = newest(self.now, f"wall_{n}", before, after)
            if one is None or one.word == "none":
                break
            values.append(figure(one.word))
        group = largest_group([planned, *values], 0.05)
        if is_settled([planned, *values], 0.05) and 0 in group:
            return [values[i - 1] for i in group if i]
        return [values[i] for i in largest_group(values, 0.05)]
