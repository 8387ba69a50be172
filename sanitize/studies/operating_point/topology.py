"""From chains, splits and joins to links, meetings and the independent flows that conserve water by construction.

A link is a run of parts with one flow. A meeting is where links part or come together, with its tees.
With x the independent flows and P the paths, the link flows are P x, whatever x: no junction can lose water.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from sanitize.plant.ends import Return
from sanitize.plant.loop import Chain, Junction
from sanitize.plant.part import Part


@dataclass
class Link:
    """Parts in a row that carry one flow; start and end name a meeting, or are None for the tub."""

    index: int
    way: str
    parts: list[Part] = field(default_factory=list)
    start: int | None = None
    end: int | None = None

    @property
    def ends_in_return(self) -> bool:
        """Whether the link gives its water back to the tub."""
        return self.end is None


@dataclass
class Meeting:
    """Tees at which one combined link and several ways meet; `diverging` says which way the water goes."""

    index: int
    junction: Part
    diverging: bool
    combined: int
    ways: list[int]
    straight: int | None

    @property
    def name(self) -> str:
        """The junction's name."""
        return self.junction.name


@dataclass
class Topology:
    """Links and meetings of a loop; `paths` has shape (links, independent flows)."""

    links: list[Link]
    meetings: list[Meeting]
    paths: NDArray[np.float64]

    def link_of(self, part: Part) -> int:
        """Index of the link that holds a part."""
        for link in self.links:
            if any(item is part for item in link.parts):
                return link.index
        raise KeyError(part.name)

    def downstream(self, link: int) -> list[int]:
        """Links from behind a link to the tub, along the first way at every split."""
        found: list[int] = []
        end = self.links[link].end
        while end is not None:
            meeting = self.meetings[end]
            following = meeting.ways[0] if meeting.diverging else meeting.combined
            found.append(following)
            end = self.links[following].end
        return found

    def blocked(self, shut: NDArray[np.bool_]) -> NDArray[np.bool_]:
        """Links from which shut links, shape (links, cases), leave no way on to the tub, same shape."""
        found = shut.copy()
        for index in reversed(self.upstream_order()):
            end = self.links[index].end
            if end is not None:
                meeting = self.meetings[end]
                following = meeting.ways if meeting.diverging else [meeting.combined]
                found[index] |= found[following].all(axis=0)
        return found

    def route(self, link: int, shut: NDArray[np.bool_]) -> list[tuple[int, NDArray[np.bool_] | None]]:
        """Links from behind a link to the tub, each with the cases in which the way leads there (None: all).

        At every split the first way is taken that no shut link, shape (links, cases), keeps from the tub.
        """
        if not shut.any():
            return [(index, None) for index in self.downstream(link)]
        blocked = self.blocked(shut)
        leads = np.zeros_like(shut)
        leads[link] = True
        for index in self.upstream_order():
            end = self.links[index].end
            if end is None or not leads[index].any():
                continue
            meeting = self.meetings[end]
            if not meeting.diverging:
                leads[meeting.combined] |= leads[index]
                continue
            left = leads[index].copy()
            for way in meeting.ways:
                leads[way] = left & ~blocked[way]
                left &= blocked[way]
            leads[meeting.ways[0]] |= left
        return [(index, leads[index]) for index in self.upstream_order() if index != link and leads[index].any()]

    def shares(self, link: int, flow_m3s: NDArray[np.float64]) -> list[tuple[int, NDArray[np.float64]]]:
        """Links from behind a link to the tub, each with the share of the link's water that passes it, over the cases.

        flow_m3s: shape (links, cases). Unlike `route` it does not depend on the order of the ways.
        """
        part = np.zeros_like(flow_m3s)
        part[link] = 1.0
        for index in self.upstream_order():
            end = self.links[index].end
            if end is None or not part[index].any():
                continue
            meeting = self.meetings[end]
            if not meeting.diverging:
                part[meeting.combined] += part[index]
                continue
            ways = np.maximum(flow_m3s[meeting.ways], 0.0)
            whole = ways.sum(axis=0)
            even = np.full_like(ways, 1.0 / len(meeting.ways))
            part[meeting.ways] = part[index] * np.where(whole > 0.0, ways / np.where(whole > 0.0, whole, 1.0), even)
        return [(index, part[index]) for index in self.upstream_order() if index != link and part[index].any()]

    def upstream_order(self) -> list[int]:
        """Links in an order in which every link stands behind all that feed it."""
        order: list[int] = []
        waiting = list(range(len(self.links)))
        while waiting:
            for index in waiting:
                start = self.links[index].start
                if start is None:
                    feeders: list[int] = []
                else:
                    meeting = self.meetings[start]
                    feeders = [meeting.combined] if meeting.diverging else meeting.ways
                if all(feeder in order for feeder in feeders):
                    order.append(index)
                    waiting.remove(index)
                    break
        return order

    def feeds(self, link: int) -> set[int]:
        """Indices of all links whose water can pass a link later."""
        found: set[int] = set()
        for index in range(len(self.links)):
            if index != link and link in self.reached(index):
                found.add(index)
        return found

    def reached(self, link: int) -> set[int]:
        """Indices of all links that a link's water can pass later."""
        found: set[int] = set()
        waiting = [link]
        while waiting:
            end = self.links[waiting.pop()].end
            if end is None:
                continue
            meeting = self.meetings[end]
            following = meeting.ways if meeting.diverging else [meeting.combined]
            for index in following:
                if index not in found:
                    found.add(index)
                    waiting.append(index)
        return found


class _Builder:
    def __init__(self) -> None:
        self.links: list[Link] = []
        self.meetings: list[Meeting] = []
        self.flows: list[dict[int, float]] = []
        self.unknowns = 0

    def new_link(self, way: str, flow: dict[int, float], start: int | None) -> Link:
        link = Link(len(self.links), way, start=start)
        self.links.append(link)
        self.flows.append(flow)
        return link

    def new_unknown(self) -> dict[int, float]:
        self.unknowns += 1
        return {self.unknowns - 1: 1.0}

    def chain(self, chain: Chain, link: Link | None) -> Link | None:
        """Walk a chain; returns the link that is open at its end, or None when it ended in the tub."""
        for item in chain.items:
            if isinstance(item, Junction):
                link = self.junction(chain, item, link)
            else:
                if link is None:
                    link = self.new_link(chain.name, self.new_unknown(), None)
                link.parts.append(item)
                if isinstance(item, Return):
                    return None
        return link

    def junction(self, chain: Chain, item: Junction, link: Link | None) -> Link | None:
        if link is None:
            return self.merge(chain, item, [self.chain(way, None) for way in item.chains])
        meeting = Meeting(len(self.meetings), item, True, link.index, [], None)
        self.meetings.append(meeting)
        link.end = meeting.index
        rest = dict(self.flows[link.index])
        starts = [self.new_link(item.chains[0].name, rest, meeting.index)]
        for way in item.chains[1:]:
            flow = self.new_unknown()
            starts.append(self.new_link(way.name, flow, meeting.index))
            for unknown, share in flow.items():
                rest[unknown] = rest.get(unknown, 0.0) - share
        meeting.ways = [start.index for start in starts]
        names = [way.name for way in item.chains]
        meeting.straight = names.index(item.straight) if item.straight is not None else None
        ends = [self.chain(way, start) for way, start in zip(item.chains, starts, strict=True)]
        going_on = [end for end in ends if end is not None]
        if len(going_on) == 1:
            return going_on[0]
        return self.merge(chain, item, ends) if going_on else None

    def merge(self, chain: Chain, item: Junction, ends: list[Link | None]) -> Link:
        """Bring the ways that do not end in the tub together; `ends` stands in the order of the junction's ways."""
        meeting = Meeting(len(self.meetings), item, False, -1, [], None)
        self.meetings.append(meeting)
        total: dict[int, float] = {}
        for way, end in zip(item.ways, ends, strict=True):
            if end is None:
                continue
            end.end = meeting.index
            if way == item.straight:
                meeting.straight = len(meeting.ways)
            meeting.ways.append(end.index)
            for unknown, share in self.flows[end.index].items():
                total[unknown] = total.get(unknown, 0.0) + share
        link = self.new_link(chain.name, {key: share for key, share in total.items() if share}, meeting.index)
        meeting.combined = link.index
        return link


def build(loop: Chain) -> Topology:
    """The links, meetings and paths of a checked loop."""
    builder = _Builder()
    builder.chain(loop, None)
    paths = np.zeros((len(builder.links), builder.unknowns))
    for index, flow in enumerate(builder.flows):
        for unknown, share in flow.items():
            paths[index, unknown] = share
    return Topology(builder.links, builder.meetings, paths)
