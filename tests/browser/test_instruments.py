"""The instruments themselves: each finds the fault that it is there to find."""

from __future__ import annotations

from pathlib import Path

GOOD = (
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A page</title></head>'
    "<body><main><h1>A page</h1>{}</main></body></html>"
)


def put(folder: Path, body: str, name: str = "index.html") -> Path:
    file = folder / name
    file.write_text(GOOD.format(body), encoding="utf-8")
    return file


def test_an_inline_script_is_refused_and_told(tmp_path, serve, window):
    put(tmp_path, "<script>document.title = 'ran'</script>")
    opened = window()
    opened.page.goto(serve(tmp_path))
    assert opened.page.title() == "A page"
    assert any("Content Security Policy" in said for said in opened.complaints)


def test_a_request_to_another_host_is_refused_and_told(tmp_path, serve, window):
    put(tmp_path, '<img src="https://elsewhere.invalid/x.png" alt="">')
    opened = window(bypass_csp=True)
    opened.page.goto(serve(tmp_path))
    assert opened.outside == ["https://elsewhere.invalid/x.png"]
    opened.outside.clear()


def test_a_missing_page_is_the_sites_own_with_its_status(tmp_path, serve, window):
    put(tmp_path, "Not here", "404.html")
    opened = window()
    answer = opened.page.goto(serve(tmp_path, "/some/where") + "none.html")
    assert answer.status == 404
    assert "Not here" in opened.page.inner_text("main")
    assert any(said.endswith("none.html") for said in opened.complaints)


def test_axe_finds_a_picture_without_words(tmp_path, serve, window, axe):
    put(tmp_path, '<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">')
    page = window(bypass_csp=True).page
    page.goto(serve(tmp_path))
    assert any(said.startswith("image-alt:") for said in axe(page))


def test_axe_finds_nothing_on_a_sound_page(tmp_path, serve, window, axe):
    put(tmp_path, "<p>Words</p>")
    page = window(bypass_csp=True).page
    page.goto(serve(tmp_path))
    assert axe(page) == []


def test_the_html_checker_tells_a_wrong_nesting(tmp_path, vnu):
    sound, wrong = (
        put(tmp_path, "<p>Words</p>", "a.html"),
        put(tmp_path, "<ul><p>Words</p></ul>", "b.html"),
    )
    assert vnu([sound]) == []
    assert {Path(said["url"]).name for said in vnu([sound, wrong])} == {"b.html"}


def test_the_readers_of_structured_data_tell_an_unknown_word_and_a_missing_one(
    tmp_path, structured_data
):
    file = put(
        tmp_path,
        '<script type="application/ld+json">{"@context": "https://schema.org", "@type": "Recipe",'
        ' "image": "https://here.invalid/a.jpg", "nutrition": {"@type": "NutritionInformation",'
        ' "fatsContent": "3 g"}}</script>',
    )
    told = {
        (each["source"], each["severity"]): each["message"]
        for each in structured_data([file])["found"]
    }
    assert "fatsContent" in told["schema.org", "error"]
    assert "name" in told["search engines", "error"]
