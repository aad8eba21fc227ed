// Any dotted number opens a note on its origin, its setting and how far the answer would move.
const note = document.querySelector("dialog.where-from");

const close = () => note.open && note.close();

export async function ask(link) {
  const answer = await fetch(link.href, { headers: { "X-Fragment": "1" } });
  note.innerHTML = await answer.text();
  if (!note.open) note.showModal();
  note.querySelector("button")?.focus();
}

document.addEventListener("click", (event) => {
  const link = event.target.closest("a.figure");
  if (link && !event.ctrlKey && !event.metaKey) {
    event.preventDefault();
    ask(link).catch(() => location.assign(link.href));
    return;
  }
  if (event.target === note || event.target.closest("[data-close]")) close();
});
