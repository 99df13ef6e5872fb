"""A document as one HTML file for tablet and phone: nothing is fetched, everything is inside; it prints too.

Large print, black on white, targets of 48 px and more, headings and landmarks in order (WCAG 2.2, level AA). What is
ticked and written stays in the browser of the device, by title and revision of the document; the signed paper counts.
"""

import re
from collections.abc import Callable, Sequence
from hashlib import sha256
from html import escape
from importlib.resources import files
from itertools import count
from typing import Any

from standfast.paper.document import (
    Block,
    Bullets,
    CheckCard,
    Document,
    Facts,
    Fields,
    Frame,
    Heading,
    HoldBar,
    Keep,
    Picture,
    Sheet,
    Sides,
    StepCard,
    Table,
    Text,
    Words,
)  # fmt: skip
from standfast.words import say

_ID = re.compile(r' id="[^"]*"')
_SIGNS = {"pass": "✓", "fail": "×", "cannot tell": "?", "not applicable": "–"}


def html(document: Document) -> str:
    """The whole file."""
    page = _Page(document)
    sheets = "\n".join(page.sheet(each) for each in document.sheets)
    look = (files("standfast.paper") / "templates" / "page.css").read_text("utf-8")
    keeps = (files("standfast.paper") / "templates" / "page.js").read_text("utf-8")
    strip, word = document.strip, page.word
    key = sha256(sheets.encode()).hexdigest()[:16]  # other steps, other place: no tick slips to another step
    warning = f'<p class="warning">{escape(strip.warning)}</p>' if strip.warning else ""
    links = "".join(f'<li><a href="#{each.code}">{escape(each.title)}</a></li>' for each in document.sheets)
    return (
        f'<!doctype html>\n<html lang="{document.language}" data-lost="{page.word("lost")}" data-key="{key}">\n'
        f'<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(document.title)}</title>\n"
        f"<style>\n{look}</style>\n</head>\n<body>\n"
        f'<a class="skip" href="#main">{word("skip")}</a>\n'
        f'<header><h1>{escape(document.title)}</h1><p class="state">{escape(strip.state)}</p>{warning}'
        f"<p>{escape(strip.contractor)}, {escape(strip.licence)}</p><p>{word('kept')}</p></header>\n"
        f'<nav aria-label="{word("contents")}"><details><summary>{word("contents")}</summary><ol>{links}</ol>'
        f"</details>{page.jumps()}</nav>\n"
        f'<main id="main">\n{sheets}\n</main>\n'
        f"<footer><p>{escape(strip.job)}, {word('revision')} {escape(strip.revisions[-1].mark)}, {escape(strip.date)}"
        f"</p></footer>\n<script>\n{keeps}</script>\n</body>\n</html>\n"
    )


class _Page:
    """One page while it is written."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.inputs, self.bars = count(1), count(1)
        self.setters: dict[type, Callable[[Any], str]] = {
            Heading: self.heading, Words: self.words, Bullets: self.bullets, Table: self.table, Facts: self.facts,
            Picture: self.picture, Frame: self.frame, Keep: lambda it: self.blocks(it.blocks), Sides: self.sides,
            CheckCard: self.check, StepCard: self.step, HoldBar: self.hold, Fields: self.fields,
        }  # fmt: skip

    def word(self, word: str) -> str:
        """A word of the page in the language of the document."""
        return escape(say(f"sheet.{word}", self.document.language))

    def jumps(self) -> str:
        """Links to the hold points, where the document has any."""
        bars = [each for sheet in self.document.sheets for each in sheet.blocks if isinstance(each, HoldBar)]
        links = "".join(f'<li><a href="#hold-{at}">{escape(bar.mark)}</a></li>' for at, bar in enumerate(bars, 1))
        return f"<details><summary>{self.word('holds')}</summary><ol>{links}</ol></details>" if links else ""

    def sheet(self, sheet: Sheet) -> str:
        return (
            f'<section id="{sheet.code}" aria-labelledby="t-{sheet.code}"><h2 id="t-{sheet.code}">'
            f"{escape(sheet.title)}</h2>\n{self.blocks(sheet.blocks)}</section>"
        )

    def blocks(self, blocks: Sequence[Block]) -> str:
        return "\n".join(self.setters[type(each)](each) for each in blocks if type(each) in self.setters)

    def text(self, text: Text) -> str:
        if isinstance(text, str):
            return escape(text)
        if not isinstance(text, dict):
            return "".join(self.text(each) for each in text)
        style, said = text["style"], escape(text["text"])
        if style in ("box", "tick"):
            return self.tick("")
        if style == "verdict":
            word = self.word(text["text"].replace(" ", "_"))
            return f'<strong class="verdict">{_SIGNS[text["text"]]} {word.upper()}</strong>'
        tag = {"bold": "strong", "italic": "em", "mono": "code"}.get(style, "span")
        return f"<{tag}>{said}</{tag}>"

    def tick(self, label: str) -> str:
        """A box to tick, with its label as part of the target."""
        name = f' aria-label="{self.word("done")}"' if not label else ""
        return f'<label class="tick"><input type="checkbox" id="i{next(self.inputs)}"{name}>{escape(label)}</label>'

    def ticks(self, what: str, limit: str, number: int) -> str:
        """Boxes for what is done several times alike, under one legend."""
        boxes = "".join(self.tick(str(each)) for each in range(1, number + 1)) if number > 1 else self.tick("")
        to = f" <strong>{escape(limit)}</strong>" if limit else ""
        return f"<fieldset><legend>{escape(what)}{to}</legend>{boxes}</fieldset>"

    def line(self, label: str, unit: str = "") -> str:
        """A line to write on."""
        id = f"i{next(self.inputs)}"
        mode = ' inputmode="decimal"' if unit else ""
        return (
            f'<span class="line"><label for="{id}">{escape(label)}</label>'
            f'<span><input id="{id}" autocomplete="off"{mode}> {escape(unit)}</span></span>'
        )

    def heading(self, it: Heading) -> str:
        return f"<h3>{escape(it.text)}</h3>"

    def words(self, it: Words) -> str:
        return f"<p>{self.text(it.text)}</p>"

    def bullets(self, it: Bullets) -> str:
        if it.mark == "box":
            return "".join(self.tick(each if isinstance(each, str) else "") for each in it.items)
        tag = "ol" if it.mark == "number" else "ul"
        return f"<{tag}>{''.join(f'<li>{self.text(each)}</li>' for each in it.items)}</{tag}>"

    def table(self, it: Table) -> str:
        heads = [self.text(each) for each in it.head]
        plain = [re.sub("<[^>]*>", "", each) for each in heads]
        head = "".join(f'<th scope="col" role="columnheader">{each}</th>' for each in heads)
        body = "".join(f'<tr role="row">{self.cells(plain, row)}</tr>' for row in it.rows)
        title = f"<caption>{escape(it.title)}</caption>" if it.title else ""
        top = f'<thead role="rowgroup"><tr role="row">{head}</tr></thead>' if head else ""
        return f'<table role="table">{title}{top}<tbody role="rowgroup">{body}</tbody></table>'

    def cells(self, heads: Sequence[str], row: Sequence[Text]) -> str:
        labels = [*heads, *[""] * (len(row) - len(heads))]
        found = (
            f'<td role="cell" data-head="{head}">{self.cell(head, each)}</td>'
            for head, each in zip(labels, row, strict=True)
        )
        return "".join(found)

    def cell(self, head: str, text: Text) -> str:
        """A cell; an empty one under a heading is written in."""
        if text != "" or not head:
            return self.text(text)
        return f'<input id="i{next(self.inputs)}" aria-label="{head}" autocomplete="off">'

    def facts(self, it: Facts) -> str:
        rows = "".join(f"<dt>{escape(name)}</dt><dd>{self.text(text)}</dd>" for name, text in it.rows)
        return f"<dl>{rows}</dl>"

    def picture(self, it: Picture) -> str:
        svg = self.document.pictures[it.name]
        top, _, rest = svg.partition(">")
        inner = re.sub(r"<(title|desc)>[^<]*</\1>", "", _ID.sub("", rest) if "url(#" not in rest else rest)
        view = re.search(r'viewBox="[^"]*"', top)
        return (
            f'<figure><svg xmlns="http://www.w3.org/2000/svg" {view[0] if view else ""} role="img" fill="none" '
            f'aria-label="{escape(it.description)}" stroke-linecap="round" stroke-linejoin="round">{inner}</figure>'
        )

    def frame(self, it: Frame) -> str:
        title = f"<h3>{escape(it.title)}</h3>" if it.title else ""
        return f'<div class="frame {it.look}">{title}{self.blocks(it.blocks)}</div>'

    def sides(self, it: Sides) -> str:
        return "".join(f"<div>{self.blocks(each)}</div>" for each in (*it.columns, it.under))

    def check(self, it: CheckCard) -> str:
        verdict = self.text({"style": "verdict", "text": it.verdict})
        return f"<p>{verdict} {escape(it.title)}: {escape(it.line)} {escape(it.remark)}</p>"

    def hold(self, it: HoldBar) -> str:
        number = next(self.bars)
        return (
            f'<section class="hold" id="hold-{number}" aria-labelledby="h{number}">'
            f'<h3 id="h{number}">{escape(it.mark)}</h3>'
            f"<p><strong>{escape(it.text)}</strong></p><p>{escape(it.who)}</p>{self.line(it.name)}{self.line(it.time)}"
            "</section>"
        )

    def step(self, it: StepCard) -> str:
        number = escape(it.number)
        parts = [f'<article id="s{number}" aria-labelledby="n{number} d{number}"><h3 id="n{number}">{number}</h3>']
        parts += [f'<p class="caution">⚠ {escape(each)}</p>' for each in it.cautions]
        parts += [f"<p><strong>{self.word('first')}:</strong> {escape(each)}</p>" for each in it.first]
        parts.append(f'<p class="do" id="d{number}">{escape(it.text)}</p>')
        parts += [self.picture(each) for each in it.pictures]
        parts += [
            f"<p><strong>{escape(name)}{':' if name else ''}</strong> {escape(text)}</p>" for name, text in it.facts
        ]
        parts += [self.ticks(*each) for each in it.ticks]
        parts += [self.line(f"{what} ({limit})" if limit else what, unit) for what, limit, unit in it.readings]
        parts += [self.tick(each) for each in it.keep]
        done, initials = (say(f"sheet.{word}", self.document.language) for word in ("done", "initials"))
        parts += [self.tick(done), self.line(initials)]
        return "\n".join([*parts, "</article>"])

    def fields(self, it: Fields) -> str:
        blank = f'aria-label="{self.word("line")}" autocomplete="off"'
        lines = [self.line(label) if label else f'<input id="i{next(self.inputs)}" {blank}>' for label, _ in it.labels]
        return "".join(lines)
