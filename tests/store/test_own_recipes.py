"""Own recipes: kept under a free name, listed with what cannot be read, never overwritten."""

import threading
from pathlib import Path

import platformdirs
import pytest

from winebench.model.edits import changed
from winebench.store.errors import StoreError
from winebench.store.file_names import file_name
from winebench.store.own_recipes import keep_recipe, own_recipes, recipes_folder
from winebench.store.project_file import read
from winebench.store.samples import load_sample

PLUM = changed(load_sample("damson-design"), name="Plum")


def test_they_lie_among_the_persons_documents_unless_the_program_is_carried_about(
    own_state, monkeypatch
):
    assert recipes_folder() == own_state / "recipes"
    monkeypatch.delenv("WINEBENCH_STATE")
    documents = Path(platformdirs.user_documents_dir())
    assert recipes_folder() == documents / "Winebench" / "recipes"


def test_none_are_kept_at_first():
    assert list(own_recipes()) == []
    assert not recipes_folder().exists()


def test_a_kept_recipe_reads_back_and_a_second_of_its_name_gets_a_number():
    first, second, third = (keep_recipe(PLUM) for _ in range(3))
    assert [each.path.name for each in (first, second, third)] == [
        "Plum.winebench", "Plum 2.winebench", "Plum 3.winebench"]  # fmt: skip
    assert read(first.path) == PLUM
    assert read(second.path) == changed(PLUM, name="Plum 2")
    assert [each.project.name for each in own_recipes()] == ["Plum", "Plum 2", "Plum 3"]


def test_a_file_of_that_name_that_is_no_recipe_is_left_alone():
    recipes_folder().mkdir(parents=True)
    other = recipes_folder() / "Plum.winebench"
    other.write_text("a poem", "utf-8")
    assert keep_recipe(PLUM).path.name == "Plum 2.winebench"
    assert other.read_text("utf-8") == "a poem"


def test_many_programs_at_once_keep_one_file_each():
    kept = []
    threads = [threading.Thread(target=lambda: kept.append(keep_recipe(PLUM).path.name))
               for _ in range(8)]  # fmt: skip
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(set(kept)) == 8
    assert all(each.project is not None for each in own_recipes())


def test_what_cannot_be_read_is_listed_with_the_reason():
    keep_recipe(PLUM)
    (recipes_folder() / "Broken.winebench").write_text('{"format": "wine', "utf-8")
    (recipes_folder() / "Folder.winebench").mkdir()
    (recipes_folder() / "notes.txt").write_text("not a recipe", "utf-8")
    broken, folder, plum = own_recipes()
    assert broken.project is None
    assert "Broken.winebench" in broken.trouble
    assert "truncated" in broken.trouble
    assert "folder" in folder.trouble
    assert (plum.project.name, plum.trouble) == ("Plum", "")


def test_a_folder_that_cannot_be_made_or_read_is_told_in_one_sentence(own_state):
    (own_state / "recipes").write_text("in the way", "utf-8")
    for attempt in (lambda: keep_recipe(PLUM), own_recipes):
        with pytest.raises(StoreError) as caught:
            attempt()
        assert "recipes" in str(caught.value)
        assert "\n" not in str(caught.value)


def test_a_recipe_that_cannot_be_written_leaves_nothing_behind():
    half_a_letter = changed(PLUM, money="\ud800")
    with pytest.raises(StoreError):
        keep_recipe(half_a_letter)
    assert list(recipes_folder().iterdir()) == []


@pytest.mark.parametrize("name", ["梅" * 200, "Plum " * 60, "é" * 300])
def test_long_names_fit_every_file_system(name):
    # Common file systems take 255 bytes a name.
    assert len(file_name(name, 12).encode()) <= 255
    kept = [keep_recipe(changed(PLUM, name=name)) for _ in range(2)]
    assert len({each.path for each in kept}) == 2
