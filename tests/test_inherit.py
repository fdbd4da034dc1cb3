"""A studio's settings over those of the program, and the menu of a site."""

from __future__ import annotations

from generator.inherit import laid_over, menu


def test_lists_are_added_to_mappings_go_key_by_key_and_single_values_are_exchanged() -> None:
    inherited = {
        "site_name": "ours",
        "theme": {"name": "t", "palette": [{"media": "day", "scheme": "a"}], "features": ["one"]},
        "plugins": [{"search": {"separator": " ", "lang": "en"}}, "offline"],
        "extra_css": ["a.css"],
        "not_in_nav": "/a.md\n",
    }
    own = {
        "site_name": "theirs",
        "theme": {"palette": [{"media": "night", "scheme": "b"}], "features": ["two"], "logo": "x.svg"},
        "plugins": {"search": {"lang": "fr"}, "more": None},
        "extra_css": ["a.css", "b.css"],
        "not_in_nav": "/b.md\n",
        "strict": True,
    }
    before = repr((inherited, own))
    assert laid_over(inherited, own) == {
        "site_name": "theirs",
        "theme": {
            "name": "t",
            "palette": [{"media": "night", "scheme": "b"}],
            "features": ["one", "two"],
            "logo": "x.svg",
        },
        "plugins": [{"search": {"separator": " ", "lang": "fr"}}, "offline", "more"],
        "extra_css": ["a.css", "b.css"],
        "not_in_nav": "/a.md\n/b.md\n",
        "strict": True,
    }
    assert repr((inherited, own)) == before
    assert laid_over(inherited, {}) == inherited
    assert laid_over(inherited, inherited) == {**inherited, "not_in_nav": "/a.md\n/a.md\n"}


def test_an_own_menu_is_added_to_the_one_that_is_there() -> None:
    nav = [{"Front": "index.md"}, {"Reference": [{"Inks": "inks.md"}]}]
    own = [{"Front": "front.md"}, {"Reference": [{"Chairs": "chairs.md"}]}, {"Ours": "ours.md"}]
    made = [{"Front": "front.md"}, {"Reference": [{"Inks": "inks.md"}, {"Chairs": "chairs.md"}]}, {"Ours": "ours.md"}]
    assert laid_over({"nav": nav}, {"nav": own}) == {"nav": made}


def test_the_menu_has_the_groups_of_the_day_and_what_nobody_named_and_no_page_that_is_not_there() -> None:
    nav = [
        "index.md",
        {"Procedures": ["procedures/index.md"]},
        {"Reference": [{"Inks": "inks.md"}, {"Loads": "loads.md"}]},
        {"Empty": [{"Gone": "gone.md"}]},
        {"Elsewhere": "https://example.org"},
    ]
    pages = {"index.md", "procedures/index.md", "procedures/a.md", "procedures/b.md", "inks.md", "own.md", "hidden.md"}
    groups = [("Before", ["procedures/b.md"]), ("After", ["procedures/a.md", "procedures/not-written.md"])]
    assert menu(nav, groups, pages, {"index.md", "own.md", "procedures/a.md"}) == [
        "index.md",
        {"Procedures": ["procedures/index.md", {"Before": ["procedures/b.md"]}, {"After": ["procedures/a.md"]}]},
        {"Reference": [{"Inks": "inks.md"}]},
        {"Elsewhere": "https://example.org"},
        {"Pages of this studio": ["own.md"]},
    ]


def test_a_procedure_that_the_studio_put_elsewhere_is_not_in_the_menu_twice() -> None:
    nav = [{"Ours": "procedures/a.md"}, {"Procedures": ["procedures/index.md"]}]
    pages = {"procedures/index.md", "procedures/a.md"}
    assert menu(nav, [("All", ["procedures/a.md"])], pages, pages) == nav


def test_the_name_of_a_group_is_no_markup_in_the_menu() -> None:
    pages = ["procedures/index.md", "procedures/a.md"]
    made = menu(["procedures/index.md"], [('<img src=x onerror="a()">', pages[1:])], pages, pages)
    assert made == ["procedures/index.md", {"&lt;img src=x onerror=&quot;a()&quot;&gt;": ["procedures/a.md"]}]
