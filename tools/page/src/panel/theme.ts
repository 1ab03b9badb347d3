// Light, dark, or as the device has it.
import { h } from "../text/dom";

const names = ["Auto", "Light", "Dark"] as const;

export const isDark = (): boolean => {
  const asked = document.documentElement.dataset.theme;
  return asked ? asked === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
};

function setTheme(name: (typeof names)[number]): void {
  if (name === "Auto") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = name.toLowerCase();
}

/** @param changed  called whenever colours are to be taken anew. */
export function themeButton(changed: () => void): HTMLElement {
  let current = 0;
  const button = h("button", { type: "button", class: "plain", "aria-label": "Colours of the page: Auto" }, "Auto");
  button.addEventListener("click", () => {
    current = (current + 1) % names.length;
    setTheme(names[current]);
    button.textContent = names[current];
    button.setAttribute("aria-label", `Colours of the page: ${names[current]}`);
    changed();
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", changed);
  return button;
}

/** What `draw` does, it does in light colours. */
export function inLight(draw: () => void): void {
  const asked = document.documentElement.dataset.theme;
  document.documentElement.dataset.theme = "light";
  draw();
  if (asked) document.documentElement.dataset.theme = asked;
  else delete document.documentElement.dataset.theme;
}
