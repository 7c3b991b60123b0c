// The ropes of the catalogue as a table of text, each with a button that puts it in.
function add(parent, name, text, role) {
  const element = document.createElement(name);
  if (text !== undefined) element.textContent = text;
  if (role) element.setAttribute("role", role);
  parent.append(element);
  return element;
}

function cell(line, head, text, small) {
  const found = add(line, "td", text, "cell");
  found.dataset.head = head;
  if (small) {
    const more = add(found, "span", small);
    more.className = "small";
  }
}

function line(body, row, heads, pick) {
  const found = add(body, "tr", undefined, "row");
  if (row.in_use) found.className = "in-use";
  add(found, "th", row.rope, "rowheader").scope = "row";
  const first = add(found, "td", undefined, "cell");
  if (row.in_use) {
    first.textContent = "in use now";
  } else {
    const button = add(first, "button", "Try it");
    button.type = "button";
    button.setAttribute("aria-label", "Try it: " + row.rope);
    button.addEventListener("click", () => pick(row.id));
  }
  cell(found, heads[2], row.factor, row.where);
  cell(found, heads[3], row.required);
  cell(found, heads[4], row.own, row.more);
  cell(found, heads[5], row.rest);
  cell(found, heads[6], row.mass);
}

export default function ({ data, parentElement, setTriggerValue }) {
  const table = document.createElement("table");
  table.setAttribute("role", "table");
  add(table, "caption", data.caption);
  const head = add(add(table, "thead", undefined, "rowgroup"), "tr", undefined, "row");
  for (const words of data.heads) add(head, "th", words, "columnheader").scope = "col";
  const body = add(table, "tbody", undefined, "rowgroup");
  for (const row of data.rows) line(body, row, data.heads, (id) => setTriggerValue("picked", id));
  parentElement.querySelector(".ropes").replaceChildren(table);
}
