// Paper or dark rink: remembered on this device only.
const KEY = "tendline-theme";

const apply = (theme) => {
  document.documentElement.dataset.theme = theme;
  for (const button of document.querySelectorAll("[data-theme-switch]")) {
    button.textContent = theme === "dark" ? "Paper" : "Dark rink";
  }
};

const remembered = () => {
  try {
    return localStorage.getItem(KEY) ?? "paper";
  } catch {
    return "paper";
  }
};

apply(remembered());
document.addEventListener("DOMContentLoaded", () => {
  apply(remembered());
  document.addEventListener("click", (event) => {
    if (!event.target.closest("[data-theme-switch]")) return;
    const next = document.documentElement.dataset.theme === "dark" ? "paper" : "dark";
    try {
      localStorage.setItem(KEY, next);
    } catch {
      // Private windows may refuse to remember: the theme then lasts for this page.
    }
    apply(next);
  });
});
