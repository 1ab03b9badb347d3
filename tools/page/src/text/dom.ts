// Elements made of text only: what a file or a name says can never become markup.

type Child = Node | string | null | undefined | false;
type Attributes = Record<string, string | number | boolean | ((event: Event) => void)>;

export function h<K extends keyof HTMLElementTagNameMap>(tag: K, attributes: Attributes = {}, ...children: Child[]): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  apply(element, attributes, children);
  return element;
}

/** The same for drawings. */
export function s<K extends keyof SVGElementTagNameMap>(tag: K, attributes: Attributes = {}, ...children: Child[]): SVGElementTagNameMap[K] {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  apply(element, attributes, children);
  return element;
}

function apply(element: Element, attributes: Attributes, children: Child[]): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name, value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false) element.setAttribute(name, String(value));
  }
  for (const child of children) if (child) element.append(child);
}

export interface Column {
  title: string;
  number?: boolean;
  /** Makes the title a button that orders the rows. */
  order?: () => void;
  ordered?: "ascending" | "descending";
}

/** A table that scrolls sideways by itself where a phone is too narrow. */
export function table(columns: Column[], rows: Child[][], caption = ""): HTMLElement {
  const cell = (tag: "td" | "th", i: number, child: Child) => h(tag, columns[i].number ? { class: "number" } : {}, child);
  const element = h(
    "table",
    {},
    caption ? h("caption", {}, caption) : null,
    h("thead", {}, h("tr", {}, ...columns.map((column, i) => {
      const head = cell("th", i, column.order ? h("button", { type: "button", class: "order", click: column.order }, column.title) : column.title);
      head.setAttribute("scope", "col");
      if (column.ordered) head.setAttribute("aria-sort", column.ordered);
      return head;
    }))),
    h("tbody", {}, ...rows.map((row) => h("tr", {}, ...row.map((child, i) => cell("td", i, child))))),
  );
  return h("div", { class: "scrolls", tabindex: 0, role: "region", "aria-label": caption || columns.map((c) => c.title).join(", ") }, element);
}

export function section(id: string, title: string, ...children: Child[]): HTMLElement {
  return h("section", { id, "aria-labelledby": `${id}-title` }, h("h2", { id: `${id}-title` }, title), ...children);
}

export const list = (items: string[]): HTMLElement => h("ul", {}, ...items.map((item) => h("li", {}, item)));
