// The sentence of a rope: its words are buttons, each opens what could stand there instead. What is pressed is sent with a number of its
// own, the last few together, so that two quick presses are both done and none is done twice.
const kept = new WeakMap();
const REMEMBERED = 8;

function made(tag, className, words) {
  const node = document.createElement(tag);
  if (className) node.className = className;
  if (words !== undefined) node.textContent = words;
  if (tag === "button") node.type = "button";
  return node;
}

function drawing(svg) {
  const node = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  if (node.nodeName !== "svg") return made("span", "", "?");
  node.querySelectorAll("script, foreignObject").forEach((each) => each.remove());
  node.setAttribute("aria-hidden", "true");
  return document.importNode(node, true);
}

function panel(groups, press) {
  const box = made("div", "panel");
  for (const group of groups) {
    box.append(made("p", "heading", group.heading));
    const row = made("div");
    for (const choice of group.choices) {
      const button = made("button", "", choice.words);
      if (choice.is_now) button.setAttribute("aria-current", "true");
      button.addEventListener("click", () => press(choice));
      row.append(button);
    }
    box.append(row);
  }
  return box;
}

function draw(root, state) {
  const { data } = state;
  const focused = root.getRootNode().activeElement?.dataset?.mark;
  const line = made("div", "line");
  const send = (ask) => {
    state.asks = [...state.asks, { ...ask, number: `${state.run}-${(state.count += 1)}` }].slice(-REMEMBERED);
    state.trigger("asked", state.asks);
  };
  const opener = (mark, className, words, name, groups, press) => {
    const button = made("button", className, words);
    const isOpen = state.open === mark;
    button.dataset.mark = mark;
    button.setAttribute("aria-label", name);
    button.setAttribute("aria-expanded", String(isOpen));
    button.title = name;
    button.addEventListener("click", () => {
      state.open = isOpen ? null : mark;
      draw(root, state);
    });
    return [button, isOpen ? panel(groups, press) : null];
  };
  const put = (...nodes) => line.append(...nodes.filter(Boolean));

  const opening = made("span", "phrase");
  opening.append(made("span", "", data.opening));
  let about = null;
  if (data.own.length) {
    const [name, choices] = opener("rope", "what", data.name, `rope ${data.name}: change this`, data.own, (choice) => {
      state.open = null;
      send(choice.ask);
    });
    opening.append(name);
    about = choices;
  } else if (data.name) opening.append(made("span", "name", data.name));
  put(opening, about);
  for (const stop of data.stops) {
    const phrase = made("span", "phrase");
    phrase.append(made("span", "", stop.word));
    const words = state.chosen[stop.id]?.words ?? stop.words;
    const [what, choices] = opener(`what ${stop.id}`, "what", words, stop.label, stop.groups, (choice) => {
      state.open = null;
      if (data.is_new) {
        state.chosen[stop.id] = choice;
        draw(root, state);
      } else send(choice.ask);
    });
    phrase.append(what);
    if (stop.senses.length) {
      const turns = made("span", "turns");
      turns.setAttribute("role", "group");
      turns.setAttribute("aria-label", stop.turning);
      for (const sense of stop.senses) {
        const button = made("button");
        button.dataset.mark = `turn ${stop.id} ${sense.turns}`;
        button.title = sense.label;
        button.setAttribute("aria-label", sense.label);
        button.setAttribute("aria-pressed", String(sense.is_now));
        button.append(drawing(sense.svg));
        if (!sense.is_now) button.addEventListener("click", () => send(sense.ask));
        turns.append(button);
        if (sense.is_now) turns.dataset.now = sense.turns;
      }
      turns.append(made("small", "", turns.dataset.now ?? ""));
      phrase.append(turns);
    }
    put(phrase);
    let another = null;
    if (stop.more) {
      const [more, sheaves] = opener(`more ${stop.id}`, "more", "+", stop.more.label, stop.more.groups, (choice) => {
        state.open = null;
        send(choice.ask);
      });
      put(more);
      another = sheaves;
    }
    put(choices, another);
  }
  if (data.is_new) {
    const begin = made("button", "more", data.begin);
    begin.addEventListener("click", () => {
      const asked = Object.fromEntries(data.stops.map((stop) => [stop.id, state.chosen[stop.id]?.key ?? null]));
      state.chosen = {};
      draw(root, state);
      send({ do: "begin", ...asked });
    });
    begin.disabled = data.stops.some((stop) => stop.is_needed && !state.chosen[stop.id]);
    put(begin);
  }
  root.replaceChildren(line);
  if (data.hint) root.append(made("p", "hint", data.hint));
  if (focused) [...root.querySelectorAll("[data-mark]")].find((each) => each.dataset.mark === focused)?.focus();
}

export default function ({ data, parentElement, setTriggerValue }) {
  const root = parentElement.querySelector(".told");
  const shown = JSON.stringify(data);
  const state = kept.get(root) ?? { run: Math.random().toString(36).slice(2), count: 0, asks: [], open: null, chosen: {} };
  state.trigger = setTriggerValue;
  state.data = data;
  kept.set(root, state);
  if (state.shown !== shown) {
    state.shown = shown;
    draw(root, state);
  }
}
