"""Photos: broken, huge and hostile ones are refused in words; good ones come out right and bare."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms

from sitegen.images.cache import Cache
from sitegen.images.opening import Refusal, open_upright
from sitegen.images.photos import Photograph, photograph
from sitegen.images.shapes import CROPS, MAIN, crop_box
from sitegen.problems import Problem
from sitegen.reading.recipe import Photo, Recipe
from sitegen.reading.source import Place


def picture(width: int = 1600, height: int = 1200) -> Image.Image:
    """Left half red, right half blue, with a green band along the top."""
    drawn = Image.new("RGB", (width, height), (200, 30, 30))
    drawn.paste((30, 30, 200), (width // 2, 0, width, height))
    drawn.paste((30, 160, 30), (0, 0, width, height // 8))
    return drawn


def saved(image: Image.Image, kind: str = "PNG", **settings: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **settings)
    return out.getvalue()


def prepare(
    folder: Path, raw: bytes | None, file: str = "soup.png", focus: tuple[int, int] = (50, 50)
) -> tuple[Photograph | None, list[Problem]]:
    beside = folder / "content" / "recipes"
    beside.mkdir(parents=True, exist_ok=True)
    if raw is not None:
        (beside / file).write_bytes(raw)
    recipe = Recipe(
        "content/recipes/soup.md",
        "soup",
        "Soup",
        4,
        photo=Photo(file, "A bowl", Place(7, 15), focus),
    )
    return photograph(recipe, folder, Cache(folder / ".sitegen" / "cache"))


def files(folder: Path, photo: Photograph) -> dict[str, bytes]:
    return dict(photo.made(Cache(folder / ".sitegen" / "cache")))


def test_a_photo_becomes_every_width_format_and_crop(tmp_path: Path) -> None:
    photo, problems = prepare(tmp_path, saved(picture()))
    assert problems == []
    assert photo is not None
    made = files(tmp_path, photo)
    for kind in ("webp", "jpeg"):
        listed = photo.photo_set.sources[kind]
        assert [width for _, width in listed] == [480, 800, 1200, 1600]
        for path, width in listed:
            with Image.open(io.BytesIO(made[path])) as opened:
                assert opened.size == (width, width * 3 // 4)
    for crop, (across, down) in CROPS.items():
        with Image.open(io.BytesIO(made[photo.photo_set.crops[crop]])) as opened:
            assert opened.format == "JPEG"
            assert opened.width == 1200
            assert abs(opened.width / opened.height - across / down) < 0.01
            assert opened.size == photo.photo_set.crop_sizes[crop]
    assert (photo.photo_set.width, photo.photo_set.height) == (1600, 1200)


def test_a_small_photo_is_not_enlarged_and_draws_advice(tmp_path: Path) -> None:
    photo, problems = prepare(tmp_path, saved(picture(400, 300)))
    assert photo is not None
    assert photo.photo_set.sources["jpeg"][-1][1] == 400
    assert [(p.rule, p.severity) for p in problems] == [("photo-small", "advice")]


def test_bytes_are_the_same_on_every_run(tmp_path: Path) -> None:
    raw = saved(picture(800, 600))
    first, _ = prepare(tmp_path / "a", raw)
    second, _ = prepare(tmp_path / "b", raw)
    assert first is not None
    assert second is not None
    assert files(tmp_path / "a", first) == files(tmp_path / "b", second)


def test_another_focus_gives_other_names_and_other_crops(tmp_path: Path) -> None:
    raw = saved(picture())
    left, _ = prepare(tmp_path, raw, focus=(0, 50))
    right, _ = prepare(tmp_path, raw, focus=(100, 50))
    assert left is not None
    assert right is not None
    one = left.photo_set.crops["1x1"]
    other = right.photo_set.crops["1x1"]
    assert one != other
    edge_left = Image.open(io.BytesIO(files(tmp_path, left)[one])).getpixel((5, 1100))
    edge_right = Image.open(io.BytesIO(files(tmp_path, right)[other])).getpixel((1190, 1100))
    assert isinstance(edge_left, tuple)
    assert isinstance(edge_right, tuple)
    assert edge_left[0] > 150 > edge_left[2]
    assert edge_right[2] > 150 > edge_right[0]


@given(
    st.integers(16, 9000),
    st.integers(16, 9000),
    st.sampled_from(sorted(CROPS)),
    st.tuples(st.integers(0, 100), st.integers(0, 100)),
)
def test_a_crop_lies_within_the_picture_and_keeps_the_focus_in_it(
    width: int, height: int, crop: str, focus: tuple[int, int]
) -> None:
    box = crop_box((width, height), crop, focus)
    assert 0 <= box.left < box.right <= width
    assert 0 <= box.top < box.bottom <= height
    assert box.left <= width * focus[0] / 100 <= box.right
    assert box.top <= height * focus[1] / 100 <= box.bottom
    across, down = CROPS[crop]
    wide, high = box.right - box.left, box.bottom - box.top
    assert abs(wide * down - high * across) <= across + down


def test_the_cameras_rotation_is_applied(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # turn a quarter clockwise to see it upright (Exif 2.32, tag Orientation)
    upright = open_upright(saved(picture(400, 300), "JPEG", exif=exif))
    assert upright.size == (300, 400)
    corner = upright.getpixel((100, 395))  # what was the right edge
    assert isinstance(corner, tuple)
    assert corner[2] > corner[0]


def test_metadata_is_removed(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x010E] = "Taken at the kitchen door"
    gps = exif.get_ifd(0x8825)
    gps[1] = "N"
    gps[2] = (51.0, 30.0, 0.0)
    raw = saved(picture(), "JPEG", exif=exif, comment=b"a private comment")
    assert b"kitchen door" in raw
    photo, _ = prepare(tmp_path, raw, "soup.jpg")
    assert photo is not None
    for path, content in files(tmp_path, photo).items():
        assert b"kitchen door" not in content
        assert b"private comment" not in content
        with Image.open(io.BytesIO(content)) as opened:
            assert not opened.getexif(), path
            assert "icc_profile" not in opened.info


def test_a_colour_profile_is_converted_to_srgb() -> None:
    # A profile whose red and blue primaries have changed places (ICC.1: tags rXYZ and bXYZ): what
    # it calls red is sRGB's blue.
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    swapped = srgb.replace(b"rXYZ", b"?XYZ").replace(b"bXYZ", b"rXYZ").replace(b"?XYZ", b"bXYZ")
    red = Image.new("RGB", (64, 64), (200, 30, 30))
    for kind in ("PNG", "JPEG", "TIFF", "WEBP"):
        pixel = open_upright(saved(red, kind, icc_profile=swapped)).getpixel((10, 10))
        assert isinstance(pixel, tuple)
        assert all(abs(a - b) <= 4 for a, b in zip(pixel, (30, 30, 200), strict=True)), kind


def test_a_damaged_profile_is_passed_over() -> None:
    red = Image.new("RGB", (64, 64), (200, 30, 30))
    assert open_upright(saved(red, icc_profile=b"no profile")).getpixel((1, 1)) == (200, 30, 30)


def test_transparency_shows_paper_and_sixteen_bits_are_scaled() -> None:
    clear = Image.new("RGBA", (32, 32), (0, 0, 0, 0))
    assert open_upright(saved(clear)).getpixel((3, 3)) == (255, 255, 255)
    deep = Image.new("I;16", (32, 32), 128 * 256)
    pixel = open_upright(saved(deep)).getpixel((3, 3))
    assert pixel == (128, 128, 128)


def _png_head(width: int, height: int) -> bytes:
    """A PNG whose head claims a size and whose body holds almost nothing."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0" * 100))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(
    ("raw", "rule"),
    [
        (b"", "photo-empty"),
        (b"title: not a picture", "photo-unknown"),
        (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\n", "photo-unknown"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>", "photo-unknown"),
        (saved(picture())[:-40], "photo-broken"),
        (saved(picture(400, 300), "JPEG")[:1500], "photo-broken"),
        (_png_head(60_000, 60_000), "photo-too-many-pixels"),
        (_png_head(9_000, 9_000), "photo-too-many-pixels"),
        (_png_head(800, 600), "photo-broken"),
        (saved(picture(8, 8)), "photo-tiny"),
    ],
)
def test_a_bad_photo_is_refused_in_words_at_its_place(
    tmp_path: Path, raw: bytes, rule: str
) -> None:
    photo, problems = prepare(tmp_path, raw)
    assert photo is None
    assert [(p.rule, p.severity, p.line, p.column) for p in problems] == [(rule, "error", 7, 15)]
    assert problems[0].hint


def test_a_refusal_is_remembered_and_said_again(tmp_path: Path) -> None:
    _, first = prepare(tmp_path, saved(picture())[:-40])
    _, again = prepare(tmp_path, saved(picture())[:-40])
    assert first == again


def test_any_bytes_at_all_are_refused_and_never_crash() -> None:
    good = bytearray(saved(picture(64, 48), "WEBP"))
    hints = []
    for at in range(0, len(good), 7):
        damaged = bytes(good[:at]) + b"\xff\x00\xff" + bytes(good[at + 3 :])
        try:
            open_upright(damaged)
        except Refusal as refusal:
            hints.append(refusal.hint)
    assert hints
    assert all(hints)


def test_a_missing_photo_names_the_nearest_file(tmp_path: Path) -> None:
    prepare(tmp_path, saved(picture(400, 300)), "soups.png")
    _, problems = prepare(tmp_path, None, "soup.png")
    assert problems[0].rule == "photo-missing"
    assert "soups.png" in problems[0].hint


@pytest.mark.parametrize("name", ["../../../secret.png", "/etc/secret.png", "C:\\x.png"])
def test_a_photo_outside_the_content_folder_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / "secret.png").write_bytes(saved(picture(400, 300)))
    _, problems = prepare(tmp_path / "site", None, name)
    assert [p.rule for p in problems] == ["photo-outside"]


def test_a_link_out_of_the_content_folder_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "secret.png").write_bytes(saved(picture(400, 300)))
    beside = tmp_path / "site" / "content" / "recipes"
    beside.mkdir(parents=True)
    (beside / "soup.png").symlink_to(tmp_path / "secret.png")
    _, problems = prepare(tmp_path / "site", None, "soup.png")
    assert [p.rule for p in problems] == ["photo-outside"]


def test_a_damaged_cache_entry_is_ignored_and_made_anew(tmp_path: Path) -> None:
    photo, _ = prepare(tmp_path, saved(picture(800, 600)))
    assert photo is not None
    good = files(tmp_path, photo)
    cached = [p for p in (tmp_path / ".sitegen").rglob("*") if p.is_file()]
    assert cached
    for path in cached:
        path.write_bytes(path.read_bytes()[:-1] + b"?")
    again, problems = prepare(tmp_path, saved(picture(800, 600)))
    assert again is not None
    assert [p.severity for p in problems] == ["advice"]
    assert files(tmp_path, again) == good


def test_the_main_crop_is_listed_best_format_first(tmp_path: Path) -> None:
    photo, _ = prepare(tmp_path, saved(picture()))
    assert photo is not None
    kinds = list(photo.photo_set.sources)
    assert kinds[-1] == "jpeg"
    assert all(MAIN in path for listed in photo.photo_set.sources.values() for path, _ in listed)


def test_a_picture_is_known_by_its_bytes_and_not_by_its_name(tmp_path: Path) -> None:
    photo, problems = prepare(tmp_path, saved(picture(), "JPEG"), "soup.png")
    assert photo is not None
    assert problems == []
    refused, problems = prepare(tmp_path, b"<svg onload='alert(1)'/>", "soup.jpg")
    assert refused is None
    assert "SVG" in problems[0].message


@pytest.mark.parametrize("kind", ["WEBP", "PNG"])
def test_of_a_moving_picture_the_first_frame_is_kept(tmp_path: Path, kind: str) -> None:
    frames = [Image.new("RGB", (1300, 1300), colour) for colour in ("red", "blue")]
    raw = saved(frames[0], kind, save_all=True, append_images=frames[1:], duration=100)
    photo, _ = prepare(tmp_path, raw)
    assert photo is not None
    with Image.open(io.BytesIO(files(tmp_path, photo)[photo.photo_set.crops["1x1"]])) as opened:
        pixel = opened.getpixel((5, 5))
        assert isinstance(pixel, tuple)
        assert pixel[0] > 200 > pixel[2]
        assert getattr(opened, "n_frames", 1) == 1


def test_pruning_takes_what_no_photo_needs_and_nothing_else(tmp_path: Path) -> None:
    cache = Cache(tmp_path / ".sitegen" / "cache")
    old, _ = prepare(tmp_path, saved(picture(400, 300)))
    assert old is not None
    files(tmp_path, old)
    new, _ = prepare(tmp_path, saved(picture(500, 400)))
    assert new is not None
    made = files(tmp_path, new)
    note = cache.folder / "a note of somebody's"
    note.write_text("kept")
    assert cache.prune(new.cached_as()) == 1 + len({r.path for r in old.renditions})
    assert cache.prune(new.cached_as()) == 0
    assert note.exists()
    assert all(cache.get(key) is None for key in old.cached_as())
    assert all(cache.get(key) is not None for key in new.cached_as())
    assert files(tmp_path, new) == made
