"""Pages and drawings. Knows no rule.

Where to find what, for rooms that draw:

* `drawing`: `Drawing.fitted(title, description, paper, extent, margins)` makes a scaled drawing in real mm (y upward),
  `Drawing(title, description, width, height)` a schematic in paper mm. `line`, `rect`, `area`, `circle`, `arc`, `dot`,
  `cross`, `text`, `zone` (hatch, enters the key), `part` (named group), `keep_clear`; `svg()` ends it, `flaws()` proves
  that no text overlaps, leaves the sheet or is under 2.5 mm (capitals), `notes` are texts that found no room;
* `labels`: `inside(drawing, area, text)` a text in a rectangle or beside it, `note(drawing, point, text)` a text with
  a leader line, `ring(drawing, point, mark)` a ring with a mark, `lines_of` lines at a fixed place. The first three
  are placed at the end, where they cross least;
* `dimension`: `across(drawing, xs, edge, side, row)` and `upward(drawing, ys, edge, side, row)`;
* `furniture`: `foot(drawing)` title, scale, scale bar and key (keep `FOOT_MM` of the lower margin), `north`;
* `symbols`: one-line symbols and `legend`;
* `hatching.HATCHES`, `svg.PENS`: hatches and line weights by name;
* `dxf`: the same marks for people who draw on (`Drawing.dxf()`), with the extra of that name;
* `sheets`: `ANSI_B.drawing` is the paper that a full-sheet drawing gets;
* `pdf`: templates and data to PDF or PNG; used by the foreman, who alone touches disk.
"""
