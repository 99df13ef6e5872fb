// The two libraries of the pages, by place: without inline script there is no import map.
import { h, render } from "./lib/preact.js";
import htm from "./lib/htm.js";

export { useEffect, useMemo, useRef, useState } from "./lib/hooks.js";
export { render };
export const html = htm.bind(h);
