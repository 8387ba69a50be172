"""A plant with one thing changed: records are frozen, so the chain down to the part is made anew."""

from typing import Any

from sanitize.plant.loop import Chain, Junction, Plant


def with_part(plant: Plant, name: str, **fields: Any) -> Plant:
    """The plant with fields of the part of that name replaced; raises KeyError where there is no such part."""
    loop, found = _chain(plant.loop, name, fields)
    if not found:
        raise KeyError(name)
    return plant.model_copy(update={"loop": loop})


def _chain(chain: Chain, name: str, fields: dict[str, Any]) -> tuple[Chain, bool]:
    items: list[Any] = []
    found = False
    for item in chain.items:
        new: Any = item
        if item.name == name:
            new, found = item.model_copy(update=fields), True
        elif isinstance(item, Junction):
            ways = [_chain(way, name, fields) for way in item.chains]
            if any(hit for _, hit in ways):
                new, found = item.model_copy(update={"chains": tuple(way for way, _ in ways)}), True
        items.append(new)
    return chain.model_copy(update={"items": tuple(items)}), found
