// The sheet: the drawing as it was sent, laid again only when it has changed, and every part at the place the draft has it.
const SVG_NS = "http://www.w3.org/2000/svg";
const UNTRACED = ["guide", "travel"];
const sheets = new WeakMap();

const keyOf = (part, name) => part + ":" + name;

function svgElement(name, attributes) {
  const made = document.createElementNS(SVG_NS, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function begun(frame) {
  const it = {
    frame,
    sheet: frame.querySelector(".sheet"),
    told: frame.querySelector(".told"),
    sender: crypto.getRandomValues(new Uint32Array(2)).join("-"),
    serial: 0,
    outbox: [], // moves that were sent and not yet answered
    live: null, // the move that is being made
    waiting: null, // what came while a move was being made
    marks: new Map(),
    shifted: new Set(),
    traces: new Map(),
  };
  it.watch = new ResizeObserver(() => tellWidth(it));
  it.watch.observe(it.sheet);
  holdParts(it);
  beginPhoto(it);
  return it;
}

function tellWidth(it) {
  const width = it.sheet.clientWidth;
  const isNarrow = width < it.data.narrow_below_px;
  if (width > 0 && isNarrow !== it.data.is_narrow && isNarrow !== it.toldNarrow) {
    it.toldNarrow = isNarrow;
    it.setState("is_narrow", isNarrow);
  }
}

function take(it, data) {
  if (it.live) {
    it.waiting = data; // the mark stays under the hand; what came is shown when it is let go
    return;
  }
  const isOther = it.data && it.data.opened !== data.opened;
  it.data = data;
  const isDone = (move) => data.done.sender === it.sender && move.serial <= data.done.serial;
  const wereOut = it.outbox.length;
  it.outbox = isOther ? [] : it.outbox.filter((move) => !isDone(move));
  if (data.svg !== it.shown) layDrawing(it);
  layParts(it);
  takePhoto(it);
  for (const [name, text] of [["how", data.how], ["stale", data.stale]]) {
    const line = it.frame.querySelector("." + name);
    if (line.textContent !== text) line.textContent = text;
    line.hidden = !text;
  }
  if (wereOut && !it.outbox.length) say(it, data.refused);
  tellWidth(it);
}

function layDrawing(it) {
  const focused = it.frame.getRootNode().activeElement;
  const had = focused && it.sheet.contains(focused) ? focused.closest("[data-part]") : null;
  it.shown = it.data.svg;
  const drawing = new DOMParser().parseFromString(it.data.svg, "image/svg+xml").documentElement;
  it.marks.clear();
  it.shifted.clear();
  it.traces.clear();
  if (drawing.nodeName !== "svg") {
    it.svg = null;
    it.sheet.textContent = "The drawing could not be shown.";
    return;
  }
  drawing.querySelectorAll("script, foreignObject").forEach((node) => node.remove());
  it.svg = document.importNode(drawing, true);
  tellInWords(it);
  for (const group of it.svg.querySelectorAll("[data-part], [data-label]")) {
    const key = keyOf(group.dataset.part || group.dataset.label, group.dataset.name);
    if (!it.marks.has(key)) it.marks.set(key, []);
    it.marks.get(key).push(group);
  }
  it.overlay = it.svg.appendChild(svgElement("g", { class: "moves", "aria-hidden": "true" }));
  it.sheet.replaceChildren(it.svg);
  layPhoto(it);
  if (it.aim) it.svg.append(it.aim.mark);
  if (focused && it.aim && focused === it.aim.mark) focused.focus({ preventScroll: true });
  if (had) grippedMark(it, had.dataset.part, had.dataset.name)?.focus({ preventScroll: true });
}

function tellInWords(it) {
  const words = it.svg.querySelector("desc");
  const lines = words ? words.textContent.split("\n") : [];
  if (words) words.remove(); // told once, below the drawing
  it.frame.querySelector(".words div").replaceChildren(
    ...lines.map((line) => Object.assign(document.createElement("p"), { textContent: line })),
  );
}

function grippedMark(it, part, name) {
  const marks = it.marks.get(keyOf(part, name)) || [];
  return marks.find((mark) => mark.dataset.part && mark.hasAttribute("tabindex"));
}

// How far every field of the draft is from what is drawn, in metres: what the draft says, what is on its way, what is in the hand.
function shifts(it) {
  const found = new Map();
  const add = (field, across, up) => {
    const before = found.get(field) || [0, 0];
    found.set(field, [before[0] + across, before[1] + up]);
  };
  it.data.away.forEach(([field, across, up]) => add(field, across, up));
  for (const move of [...it.outbox, ...(it.live ? [it.live] : [])]) {
    const grip = it.data.grips[move.key];
    if (grip) add(grip.field, move.across, move.up);
  }
  for (const [field, [across, up]] of found) if (Math.hypot(across, up) < 1e-9) found.delete(field);
  return found;
}

function layParts(it) {
  if (!it.svg) return;
  const scale = Number(it.svg.dataset.scale);
  const places = new Map();
  const moved = shifts(it);
  for (const [field, [across, up]] of moved) {
    for (const key of it.data.carried[field]) {
      for (const mark of it.marks.get(key) || []) {
        const isSide = mark.id.startsWith("side:");
        const isPlan = mark.id.startsWith("plan:");
        const before = places.get(mark) || [0, 0];
        places.set(mark, [before[0] + (isSide ? 0 : across * scale), before[1] - (isPlan ? 0 : up * scale)]);
      }
    }
  }
  for (const mark of it.shifted) if (!places.has(mark)) mark.removeAttribute("transform");
  for (const [mark, [x, y]] of places) mark.setAttribute("transform", "translate(" + x.toFixed(2) + " " + y.toFixed(2) + ")");
  it.shifted = new Set(places.keys());
  layTraces(it, moved, places);
}

// Where moved parts were drawn: their marks, faint, and a thin line to where they are now.
function layTraces(it, moved, places) {
  for (const [field, trace] of it.traces) {
    if (!moved.has(field)) {
      trace.remove();
      it.traces.delete(field);
    }
  }
  for (const field of moved.keys()) {
    const fronts = it.data.carried[field].map((key) => (it.marks.get(key) || []).find((mark) => mark.dataset.part && mark.id === key));
    const own = fronts.find((mark) => mark && mark.querySelector(".rig-grip"));
    if (!own) continue;
    const grip = own.querySelector(".rig-grip");
    const [x, y] = [Number(grip.getAttribute("cx")), Number(grip.getAttribute("cy"))];
    let trace = it.traces.get(field);
    if (!trace) {
      trace = svgElement("g", { class: "trace" });
      for (const shape of fronts.flatMap((mark) => (mark && !UNTRACED.includes(mark.dataset.part) ? [...mark.children] : []))) {
        if (shape.nodeName !== "title" && !/rig-(grip|hold|hit)/.test(shape.getAttribute("class") || "")) trace.append(shape.cloneNode(true));
      }
      trace.append(svgElement("line", { class: "rig-thin way", x1: x, y1: y }));
      it.overlay.append(trace);
      it.traces.set(field, trace);
    }
    const [dx, dy] = places.get(own) || [0, 0];
    const line = trace.querySelector(".way");
    line.setAttribute("x2", (x + dx).toFixed(2));
    line.setAttribute("y2", (y + dy).toFixed(2));
  }
}

function say(it, words) {
  if (it.told.textContent !== words) it.told.textContent = words;
}

function ended(it) {
  it.watch.disconnect();
  if (it.live) clearTimeout(it.live.timer);
  sheets.delete(it.frame);
}

export default function ({ data, parentElement, setStateValue, setTriggerValue }) {
  const frame = parentElement.querySelector(".drawn");
  if (!sheets.has(frame)) sheets.set(frame, begun(frame));
  const it = sheets.get(frame);
  it.setState = setStateValue;
  it.setTrigger = setTriggerValue;
  take(it, data);
  return () => {
    if (!frame.isConnected) ended(it); // an earlier call is also ended when a later one has taken its place
  };
}
