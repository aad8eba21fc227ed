// Parts of the page that are exchanged when the program answers.

// Exchanges a part; a field that is being filled in is left alone, and the focus stays where it was.
export const exchange = (part, html) => {
  const active = part.contains(document.activeElement) ? document.activeElement : null;
  const typing = active?.matches("input:not([type=checkbox]), textarea") && active.value !== active.defaultValue;
  if (typing) return;
  const key = active?.dataset.edit ?? active?.dataset.verb ?? active?.dataset.do ?? active?.dataset.way ?? active?.dataset.row;
  part.innerHTML = html;
  if (!key) return;
  for (const one of part.querySelectorAll("[data-edit], [data-verb], [data-do], [data-way], .tl-bar")) {
    const { edit, verb, do: deed, way, row } = one.dataset;
    if ([edit, verb, deed, way, row].includes(key)) {
      one.focus({ preventScroll: true });
      break;
    }
  }
};

const options = (names) =>
  names.map((name) => {
    const option = document.createElement("option");
    option.value = name;
    return option;
  });

// Fills the lists from which places and people can be picked while writing.
export const fillLists = (root, places, marks) => {
  const people = Object.keys(marks).filter((name) => /^[FDCHG]\d*$/.test(name));
  const named = places.map(([name]) => name);
  root.querySelector("[data-places]").replaceChildren(...options(named));
  root.querySelector("[data-aims-list]").replaceChildren(...options([...people, ...named]));
};

// While something is dragged the ice must not move: the answer above it keeps its height.
export const holdHeight = (line, timers) => {
  if (!line.style.height) line.style.height = `${line.offsetHeight}px`;
  clearTimeout(timers.hold);
  timers.hold = setTimeout(() => {
    line.style.height = "";
  }, 1500);
};
