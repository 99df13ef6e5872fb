// Keeps ticks and readings in this browser, by title and content: other steps begin empty.
(() => {
  const place = "standfast " + document.title + document.documentElement.dataset.key;
  const inputs = document.querySelectorAll("input");
  try {
    const kept = JSON.parse(localStorage.getItem(place) || "{}");
    for (const each of inputs) {
      if (!(each.id in kept)) continue;
      if (each.type === "checkbox") each.checked = kept[each.id]; else each.value = kept[each.id];
    }
    document.addEventListener("input", () => {
      const now = {};
      for (const each of inputs) now[each.id] = each.type === "checkbox" ? each.checked : each.value;
      localStorage.setItem(place, JSON.stringify(now));
    });
  } catch (refused) {
    document.querySelector("header").append(Object.assign(document.createElement("p"), {
      className: "warning", textContent: document.documentElement.dataset.lost }));
  }
})();
