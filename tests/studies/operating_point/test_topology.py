"""Water is conserved whatever the independent flows; links and meetings follow the file."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sanitize.basis.band import Band
from sanitize.plant.ends import Return, Suction
from sanitize.plant.loop import Chain, Join, Plant, Split
from sanitize.plant.pipework import KnownLoss
from sanitize.studies.operating_point.topology import Topology, build

PlantOf = Callable[..., Plant]
PUMP = '{part="pump",height="0.3 m",curve=[["0 L/min","5 m"],["60 L/min","0 m"]]}'
SUCTION = '{part="suction fitting",height="0.2 m"}'
RETURN = '{part="return",height="0.5 m"}'
ELBOW = '{part="elbow 90"}'


def _lost(topology: Topology, flow: np.ndarray) -> float:
    """Largest amount of water that a meeting or the loop as a whole loses."""
    lost = [flow[meeting.combined] - flow[meeting.ways].sum(axis=0) for meeting in topology.meetings]
    out = [link.index for link in topology.links if link.start is None]
    back = [link.index for link in topology.links if link.end is None]
    lost.append(flow[out].sum(axis=0) - flow[back].sum(axis=0))
    return float(np.max(np.abs(lost)))


def _loss() -> KnownLoss:
    return KnownLoss(word="known loss", name="loss", size="1", k_ratio=Band.exact(1.0))


def _return() -> Return:
    return Return(word="return", name="return", size="1", height_m=Band.exact(0.5))


def _suction() -> Suction:
    return Suction(word="suction fitting", name="suction", size="1", height_m=Band.exact(0.2))


@st.composite
def _split(draw: st.DrawFn, depth: int, all_end: bool) -> Split:
    count = draw(st.integers(2, 4))
    ends = [all_end or draw(st.booleans()) for _ in range(count)]
    if not all_end:
        ends[draw(st.integers(0, count - 1))] = False
    chains = tuple(draw(_way(f"way {number}", depth, end)) for number, end in enumerate(ends))
    names = tuple(chain.name for chain in chains)
    return Split(
        word="split", name="split", size="1", ways=names, straight=draw(st.sampled_from([None, *names])), chains=chains
    )


@st.composite
def _way(draw: st.DrawFn, name: str, depth: int, ends: bool) -> Chain:
    items: list[KnownLoss | Split | Return] = []
    for _ in range(draw(st.integers(0, 2))):
        items.append(draw(_split(depth - 1, False)) if depth > 0 and draw(st.booleans()) else _loss())
    if ends:
        items.append(draw(_split(depth - 1, True)) if depth > 0 and draw(st.booleans()) else _return())
    elif not items:
        items.append(_loss())
    return Chain(name=name, items=tuple(items))


@st.composite
def _loop(draw: st.DrawFn) -> Chain:
    body = draw(_way("", 3, True))
    start: Join | Suction = _suction()
    if draw(st.booleans()):
        count = draw(st.integers(2, 3))
        ways = tuple(Chain(name=f"in {number}", items=(_suction(), _loss())) for number in range(count))
        start = Join(word="join", name="join", size="1", ways=tuple(way.name for way in ways), chains=ways)
    return Chain(name="", items=(start, *body.items))


@settings(max_examples=150, deadline=None)
@given(loop=_loop(), seed=st.integers(0, 2**16))
def test_paths_of_any_tree_of_ways_conserve_water_whatever_the_independent_flows(loop: Chain, seed: int) -> None:
    topology = build(loop)
    x = np.random.default_rng(seed).normal(size=(topology.paths.shape[1], 5))
    assert _lost(topology, topology.paths @ x) < 1e-12 * max(1.0, float(np.abs(x).max()))


@settings(max_examples=60, deadline=None)
@given(loop=_loop())
def test_paths_of_any_tree_of_ways_are_as_many_as_the_ways_leave_free(loop: Chain) -> None:
    """Links less one balance at every meeting; the balance of the tub follows from those.

    Independent of how the paths were found: the rank of the incidence of links and meetings.
    """
    topology = build(loop)
    links, free = topology.paths.shape
    balance = np.zeros((len(topology.meetings), links))
    for meeting in topology.meetings:
        balance[meeting.index, meeting.combined] = 1.0
        balance[meeting.index, meeting.ways] = -1.0
    assert links - len(topology.meetings) == free
    assert free == np.linalg.matrix_rank(topology.paths)
    assert np.all(balance @ topology.paths == 0.0)


@settings(max_examples=60, deadline=None)
@given(loop=_loop())
def test_upstream_order_of_any_tree_puts_every_link_behind_what_feeds_it(loop: Chain) -> None:
    topology = build(loop)
    order = topology.upstream_order()
    place = {link: position for position, link in enumerate(order)}
    assert set(range(len(topology.links))) == set(order)
    for link in range(len(topology.links)):
        assert all(place[link] < place[later] for later in topology.reached(link))
        assert all(place[earlier] < place[link] for earlier in topology.feeds(link))
        assert all(later in topology.reached(link) for later in topology.downstream(link))


def test_series_loop_is_one_link_with_one_flow(plant_of: PlantOf) -> None:
    topology = build(plant_of(f"loop=[{SUCTION},{PUMP},{RETURN}]").loop)
    assert (1, 1) == topology.paths.shape
    assert [] == topology.meetings
    assert topology.links[0].ends_in_return


@pytest.mark.parametrize(
    ("loop", "links", "meetings", "free"),
    [
        (
            f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"]}},{RETURN}]\nway.a=[{ELBOW}]\nway.b=[{ELBOW}]',
            4, 2, 2,
        ),
        (
            f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b","c"]}},{RETURN}]\n'
            f"way.a=[{ELBOW}]\nway.b=[{ELBOW}]\nway.c=[{ELBOW}]",
            5, 2, 3,
        ),
        (f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"]}}]\nway.a=[{RETURN}]\nway.b=[{RETURN}]', 3, 1, 2),
        (
            f'loop=[{{part="join",ways=["a","b"]}},{PUMP},{RETURN}]\nway.a=[{SUCTION}]\nway.b=[{SUCTION},{ELBOW}]',
            3, 1, 2,
        ),
        (
            f'loop=[{{part="join",ways=["a","b"]}},{RETURN}]\n'
            f"way.a=[{SUCTION},{PUMP}]\nway.b=[{SUCTION},{PUMP},{ELBOW}]",
            3, 1, 2,
        ),
        (
            f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"]}},{RETURN}]\n'
            f'way.a=[{ELBOW},{{part="split",ways=["c","d"]}}]\nway.b=[{ELBOW}]\nway.c=[{ELBOW}]\nway.d=[{ELBOW}]',
            7, 4, 3,
        ),
    ],
    ids=["two ways", "three ways", "two returns", "two suctions", "two pumps", "nested"],
)  # fmt: skip
def test_loop_of_the_file_has_the_links_that_its_ways_make(
    plant_of: PlantOf, loop: str, links: int, meetings: int, free: int
) -> None:
    topology = build(plant_of(loop).loop)
    assert (links, meetings, free) == (len(topology.links), len(topology.meetings), topology.paths.shape[1])
    assert _lost(topology, topology.paths @ np.arange(1.0, 1.0 + free)) < 1e-12


def test_split_of_which_one_way_goes_on_has_no_second_meeting(plant_of: PlantOf) -> None:
    """The water of the way that does not end in the tub is what flows on behind the split."""
    loop = f'loop=[{SUCTION},{PUMP},{{part="split",ways=["side","main"]}},{RETURN}]\n'
    loop += f"way.side=[{ELBOW},{RETURN}]\nway.main=[{ELBOW}]"
    topology = build(plant_of(loop).loop)
    assert [True] == [meeting.diverging for meeting in topology.meetings]
    assert ["elbow 90", "return"] == [part.word for part in topology.links[topology.meetings[0].ways[1]].parts]


def test_straight_way_keeps_its_place_at_both_meetings(plant_of: PlantOf) -> None:
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b","c"],straight="c"}},{RETURN}]\n'
        f"way.a=[{ELBOW}]\nway.b=[{RETURN}]\nway.c=[{ELBOW}]"
    )
    topology = build(plant_of(loop).loop)
    parting, meeting = topology.meetings
    assert (2, 1) == (parting.straight, meeting.straight)
    assert parting.ways[2] == meeting.ways[1]


def test_downstream_of_a_way_passes_the_rest_of_the_loop(plant_of: PlantOf) -> None:
    loop = (
        f'loop=[{SUCTION},{PUMP},{{part="split",ways=["a","b"]}},{{part="split",ways=["c","d"]}},{RETURN}]\n'
        f"way.a=[{ELBOW}]\nway.b=[{ELBOW}]\nway.c=[{ELBOW}]\nway.d=[{ELBOW}]"
    )
    topology = build(plant_of(loop).loop)
    names = {link.index: link.way for link in topology.links}
    way_b = next(index for index, name in names.items() if name == "b")
    assert ["", "c", ""] == [names[index].replace("loop", "") for index in topology.downstream(way_b)]
