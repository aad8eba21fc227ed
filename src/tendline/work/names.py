"""What to call a person on a page: the display name of the file, or the id when there is none."""

from __future__ import annotations

from tendline.store import Store


def person_name(store: Store, person: str) -> str:
    """Return the display name of a person by id; the id itself where no file is kept."""
    if not person:
        return "nobody (empty net)"
    return names(store).get(person, person)


def names(store: Store) -> dict[str, str]:
    """Return display names by id."""
    return {one: str(file.get("display_name", one)) for one, file in store.people.all().items()}
