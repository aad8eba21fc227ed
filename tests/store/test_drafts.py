"""Drafts of drills: on disk with every change, and of two windows none overwrites the other."""

import pytest

from tendline.base import NotFoundError, StoreError
from tendline.store import Draft, erase_person, open_store
from tendline.store.drafts import MOST_DRAFTS


def draft(counter: int = 1, script: str = "drill Y01: New", name: str = "d-1") -> Draft:
    return Draft(id=name, drill="L01", script=script, counter=counter)


def test_a_draft_comes_back_from_the_disk(path):
    with open_store(path) as store:
        store.drafts.save(draft())
        store.drafts.save(draft(2, "drill Y01: Newer\n  not finished"))
    with open_store(path) as store:
        found = store.drafts.get("d-1")
        assert (found.drill, found.counter, found.script) == (
            "L01",
            2,
            "drill Y01: Newer\n  not finished",
        )
        assert found.saved_at is not None
        assert store.drafts.list() == (found,)
        store.drafts.delete("d-1")
        store.drafts.delete("d-1")
        assert store.drafts.find("d-1") is None
        with pytest.raises(NotFoundError, match="unfinished"):
            store.drafts.get("d-1")


def test_the_same_change_sent_twice_is_no_fault(store):
    store.drafts.save(draft(3))
    store.drafts.save(draft(3))
    assert store.drafts.get("d-1").counter == 3


@pytest.mark.parametrize(("counter", "script"), [(2, "older"), (3, "of another window")])
def test_a_second_window_does_not_overwrite(store, counter, script):
    store.drafts.save(draft(3, "mine"))
    with pytest.raises(StoreError, match="another window"):
        store.drafts.save(draft(counter, script))
    assert store.drafts.get("d-1").script == "mine"


def test_only_so_many_are_kept(store):
    for number in range(MOST_DRAFTS + 3):
        store.drafts.save(draft(name=f"d-{number:04}"))
    assert len(store.drafts.list()) <= MOST_DRAFTS


def test_erasing_a_person_takes_her_name_out_of_drafts(store):
    store.people.save("ada", {"id": "ada", "display_name": "Ada Lind"})
    store.drafts.save(draft(script="remark: Ada Lind liked it"))
    erase_person(store, "ada")
    assert "Ada" not in store.drafts.get("d-1").script
