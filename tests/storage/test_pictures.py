"""Photographs and sketches are kept with a job: small, upright, without what the camera wrote."""

from __future__ import annotations

import io
import sqlite3
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session, pictures, repository
from boxaloud.assistant.storage.sqlite.picture_table import Picture
from boxaloud.assistant.text.problem import Problem
from PIL import Image

GPS = 0x8825
ORIENTATION = 0x0112


@pytest.fixture(autouse=True)
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> repository.Place:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path / "data"))
    session = Session.start("Heron")
    session.hear("next box den, two 14-2s and a switch, 18 cubic inches, no clamps")
    session.hear("next box hall, one 14-2")
    session.close()
    return repository.find("Heron")


def photo(path: Path, wide: int = 3000, high: int = 2000) -> Path:
    """A photograph that lies on its side and says where it was taken."""
    image = Image.merge("RGB", [Image.effect_noise((wide, high), 60) for _ in range(3)])
    about = Image.Exif()
    about[ORIENTATION] = 6
    about.get_ifd(GPS)[2] = (51.0, 30.0, 0.0)
    image.save(path, "JPEG", exif=about, comment=b"12 Heron Street")
    return path


def sketch(path: Path) -> Path:
    image = Image.new("RGBA", (400, 300), (0, 0, 0, 0))
    image.paste((200, 30, 30, 255), (50, 50, 200, 200))
    image.save(path, "PNG")
    return path


def opened(picture: Picture) -> Image.Image:
    return Image.open(io.BytesIO(picture.data))


def test_a_photograph_is_upright_small_and_says_nothing_of_its_place(
    place: repository.Place, tmp_path: Path
) -> None:
    assert pictures.attach(place, "den", [photo(tmp_path / "a.jpg")], "before") == ("den", 1)
    (kept,) = pictures.of_job(place)["den"]
    image = opened(kept)
    assert (kept.kind, kept.says) == ("jpeg", "before")
    assert image.size == (kept.wide, kept.high)
    assert kept.high == pictures.LONGEST_EDGE
    assert kept.wide < kept.high
    assert not image.getexif()
    assert b"Heron Street" not in kept.data


def test_a_sketch_is_kept_without_loss_on_white(place: repository.Place, tmp_path: Path) -> None:
    pictures.attach(place, "den", [sketch(tmp_path / "a.png")], "")
    (kept,) = pictures.of_job(place)["den"]
    image = opened(kept)
    assert kept.kind == "png"
    assert image.mode != "RGBA"
    assert image.convert("RGB").getpixel((0, 0)) == (255, 255, 255)
    assert image.convert("RGB").getpixel((100, 100)) == (200, 30, 30)


def test_pictures_follow_the_name_of_their_box(place: repository.Place, tmp_path: Path) -> None:
    pictures.attach(place, "hall", [sketch(tmp_path / "a.png")], "")
    session = Session.open("Heron")
    session.hear("call this box landing")
    assert list(session.pictures) == ["landing"]
    session.close()
    assert list(pictures.of_job(place)) == ["landing"]


def test_they_go_with_a_copy_and_are_taken_out_by_number(
    place: repository.Place, tmp_path: Path
) -> None:
    pictures.attach(place, "den", [sketch(tmp_path / "a.png"), photo(tmp_path / "b.jpg")], "x")
    repository.copy(place, "Heron 2")
    pictures.drop(place, 1)
    assert [one.number for one in pictures.of_job(place)["den"]] == [2]
    assert len(pictures.of_job(repository.find("Heron 2"))["den"]) == 2
    with pytest.raises(Problem, match="no picture 7"):
        pictures.drop(place, 7)


@pytest.mark.parametrize("name", ["words.txt", "cut.jpg", "folder", "absent.jpg"])
def test_what_is_no_picture_is_refused_and_nothing_is_kept(
    name: str, place: repository.Place, tmp_path: Path
) -> None:
    path = tmp_path / name
    if name == "folder":
        path.mkdir()
    elif name == "cut.jpg":
        path.write_bytes(photo(tmp_path / "whole.jpg").read_bytes()[:5000])
    elif name == "words.txt":
        path.write_text("two 14-2s")
    with pytest.raises(Problem) as refused:
        pictures.attach(place, "den", [sketch(tmp_path / "good.png"), path], "")
    assert str(path) in str(refused.value)
    assert pictures.of_job(place) == {}


def test_a_box_that_is_not_there_is_refused(place: repository.Place, tmp_path: Path) -> None:
    with pytest.raises(Problem, match="attic"):
        pictures.attach(place, "attic", [sketch(tmp_path / "a.png")], "")


def test_a_job_of_the_form_before_takes_pictures(place: repository.Place, tmp_path: Path) -> None:
    connection = sqlite3.connect(place.path)
    with connection:
        connection.execute("DROP TABLE picture")
        connection.execute("DELETE FROM schema_version WHERE version = 4")
    connection.close()
    assert pictures.of_job(place) == {}
    pictures.attach(place, "den", [sketch(tmp_path / "a.png")], "")
    assert len(pictures.of_job(place)["den"]) == 1


def test_a_spoilt_picture_is_left_out_and_the_others_stay(
    place: repository.Place, tmp_path: Path
) -> None:
    pictures.attach(place, "den", [sketch(tmp_path / "a.png"), photo(tmp_path / "b.jpg")], "x")
    connection = sqlite3.connect(place.path)
    with connection:
        connection.execute("UPDATE picture SET box = 'hall' WHERE number = 1")
    connection.close()
    assert [(box, one.number) for box, each in pictures.of_job(place).items() for one in each] == [
        ("den", 2)
    ]


def test_pictures_of_a_damaged_job_are_carried_over(
    place: repository.Place, tmp_path: Path
) -> None:
    pictures.attach(place, "den", [sketch(tmp_path / "a.png")], "before")
    connection = sqlite3.connect(place.path)
    with connection:
        connection.execute("DROP TRIGGER journal_is_not_changed")
        connection.execute("UPDATE journal SET entry = '{}' WHERE position = 4")
    connection.close()
    session = Session.open("Heron")
    assert any("damaged" in note for note in session.take_notes())
    assert [one.says for one in session.pictures["den"]] == ["before"]
    session.close()
