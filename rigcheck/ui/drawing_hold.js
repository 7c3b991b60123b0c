// Taking hold of parts, with mouse, pen, finger or keys: the mark follows at once, and only letting go is sent.
const SLACK_PX = { mouse: 4, pen: 6, touch: 9 };
const KEYS_AFTER_MS = 400;
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const SAME_PART = { axis: "drum", base: "drum" };
const OPENED = ["point", "sheave", "body", "drum", "hand", "rope", "motor", "gears", "crank"];

function holdParts(it) {
  const on = (kind, does) => it.sheet.addEventListener(kind, (event) => does(it, event));
  on("pointerdown", takeHold);
  it.sheet.addEventListener("touchstart", (event) => keepPageStill(it, event), { passive: false });
  on("pointermove", moveHeld);
  on("pointerup", letGo);
  on("pointercancel", putBack);
  on("lostpointercapture", (same, event) => { if (event.target === same.sheet && same.live && same.live.pointer === event.pointerId) putBack(same); });
  on("keydown", pressKey);
  on("focusout", (same) => { if (same.live && same.live.timer) send(same); });
  on("click", (same, event) => {
    if (event.detail > 0 && same.wasMoved) return;
    const part = partAt(same, event);
    if (part && !same.aim) openPart(same, part.part, part.name);
  });
}

function partAt(it, event) {
  const group = event.target.closest ? event.target.closest("[data-part]") : null;
  if (!group || !it.sheet.contains(group)) return null;
  const part = SAME_PART[group.dataset.part] || group.dataset.part;
  const name = group.dataset.name;
  return { group, part, name, key: keyOf(part, name) };
}

function openPart(it, part, name) {
  if (it.data.opens && OPENED.includes(part)) it.setTrigger("opened", { part, name });
}

function takeHold(it, event) {
  it.wasMoved = false;
  if (event.button !== 0 || !it.svg || it.aim) return;
  const part = partAt(it, event);
  const grip = part && it.data.grips[part.key];
  // a body is large: a finger takes hold of it by its grip alone, elsewhere on it the page is scrolled
  if (!grip || (event.pointerType === "touch" && part.part === "body" && !event.target.classList.contains("rig-grip"))) return;
  if (it.live) send(it);
  event.preventDefault();
  const group = grippedMark(it, part.part, part.name) || part.group;
  group.focus({ preventScroll: true });
  const isSide = part.group.id.startsWith("side:");
  const isPlan = part.group.id.startsWith("plan:");
  it.live = { ...part, grip, isSide, isPlan, pointer: event.pointerId, start: [event.clientX, event.clientY], across: 0, up: 0, isMoved: false };
  it.live.from = placeOf(it, it.live);
}

// A finger on a grip moves the part and not the page; the click that is lost with it is made up for when it is let go.
function keepPageStill(it, event) {
  if (it.live && it.live.pointer !== undefined && event.touches.length === 1) event.preventDefault();
}

function moveHeld(it, event) {
  const live = it.live;
  if (!live || live.pointer !== event.pointerId) return;
  const [x, y] = [event.clientX - live.start[0], event.clientY - live.start[1]];
  if (!live.isMoved) {
    if (Math.hypot(x, y) < (SLACK_PX[event.pointerType] || 4)) return;
    live.isMoved = it.wasMoved = true;
    it.sheet.setPointerCapture(event.pointerId);
    it.sheet.classList.add("held");
  }
  if (live.grip.fixed) {
    say(it, live.grip.fixed);
    return;
  }
  const perMetre = it.svg.getScreenCTM().a * Number(it.svg.dataset.scale);
  const step = event.shiftKey ? it.data.step.fine_m : it.data.step.coarse_m;
  live.across = live.isSide ? 0 : snapped(x / perMetre, live.from[0], step);
  live.up = live.isPlan ? 0 : snapped(-y / perMetre, live.from[1], step);
  layParts(it);
  writeBeside(it);
}

// A difference that brings a coordinate to the grid; one below half a step leaves the coordinate as it was typed.
function snapped(by, from, step) {
  return Math.abs(by) < step / 2 ? 0 : Math.round((from + by) / step) * step - from;
}

function letGo(it, event) {
  const live = it.live;
  if (!live || live.pointer !== event.pointerId) return;
  if (live.across || live.up) {
    send(it);
    return;
  }
  putBack(it, event, true);
  if (event.pointerType === "touch" && !live.isMoved) openPart(it, live.part, live.name);
}

function dropped(it) {
  const live = it.live;
  it.live = null;
  it.sheet.classList.remove("held");
  if (live && live.timer) clearTimeout(live.timer);
  if (live && live.pointer !== undefined && it.sheet.hasPointerCapture(live.pointer)) it.sheet.releasePointerCapture(live.pointer);
  it.overlay?.querySelector(".beside")?.remove();
  return live;
}

function putBack(it, event, isQuiet) {
  const live = dropped(it);
  if (!live) return;
  layParts(it);
  if (!isQuiet && (live.across || live.up)) say(it, live.name + " is put back.");
  takeWaiting(it);
}

function send(it) {
  const live = dropped(it);
  if (live.across || live.up) {
    it.outbox.push({ serial: ++it.serial, key: live.key, part: live.part, name: live.name, across: live.across, up: live.up });
    layParts(it);
    say(it, "Working it out …");
    it.setState("moves", { sender: it.sender, opened: it.data.opened, moves: it.outbox });
  }
  takeWaiting(it);
}

function takeWaiting(it) {
  const waiting = it.waiting;
  it.waiting = null;
  if (waiting) take(it, waiting);
}

function pressKey(it, event) {
  if (event.key === "Escape") {
    if (it.live) event.preventDefault();
    putBack(it);
    return;
  }
  const part = partAt(it, event);
  if (!part || it.aim) return;
  if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    if (it.live) send(it);
    openPart(it, part.part, part.name);
    return;
  }
  const arrow = ARROWS[event.key];
  const grip = it.data.grips[part.key];
  if (!arrow || !grip || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  if (it.live && it.live.pointer !== undefined) return;
  if (grip.fixed) {
    say(it, grip.fixed);
    return;
  }
  if (it.live && it.live.key !== part.key) send(it);
  if (!it.live) it.live = { ...part, grip, across: 0, up: 0 };
  const step = event.shiftKey ? it.data.step.fine_m : it.data.step.coarse_m;
  it.live.across += arrow[0] * step;
  it.live.up += arrow[1] * step;
  layParts(it);
  say(it, part.name + ": " + writeBeside(it));
  clearTimeout(it.live.timer);
  it.live.timer = setTimeout(() => send(it), KEYS_AFTER_MS);
}

// Where a part is in the lowest pose, with what is on its way and what is in the hand.
function placeOf(it, live) {
  const shift = shifts(it).get(live.grip.field) || [0, 0];
  const away = it.data.away.find(([field]) => field === live.grip.field) || [0, 0, 0]; // is in the draft's own coordinates already
  return [live.grip.across + shift[0] - away[1], live.grip.up + shift[1] - away[2]];
}

// Where the part would be, written beside its mark; what is still on its way counts.
function writeBeside(it) {
  const live = it.live;
  const shift = shifts(it).get(live.grip.field) || [0, 0];
  const [across, up] = placeOf(it, live);
  const words = inWords(it, across) + " across, " + inWords(it, up) + " up";
  const mark = grippedMark(it, live.part, live.name);
  const grip = mark && mark.querySelector(".rig-grip");
  if (!grip) return words;
  const scale = Number(it.svg.dataset.scale);
  const x = Number(grip.getAttribute("cx")) + shift[0] * scale;
  const y = Number(grip.getAttribute("cy")) - shift[1] * scale;
  const width = it.svg.viewBox.baseVal.width;
  let beside = it.overlay.querySelector(".beside");
  if (!beside) {
    beside = it.overlay.appendChild(svgElement("g", { class: "beside" }));
    beside.append(svgElement("rect", { class: "rig-paper" }), svgElement("text", { class: "rig-text", "font-size": 12 }));
  }
  const [paper, text] = beside.children;
  text.textContent = words;
  const length = text.getComputedTextLength();
  const left = Math.min(Math.max(x > width / 2 ? x - 22 - length : x + 22, 6), width - length - 6);
  const below = y < 40 ? y + 30 : y - 18;
  for (const [name, value] of Object.entries({ x: left, y: below })) text.setAttribute(name, value.toFixed(1));
  const frame = { x: left - 4, y: below - 12, width: length + 8, height: 16 };
  for (const [name, value] of Object.entries(frame)) paper.setAttribute(name, value.toFixed(1));
  return words;
}

function inWords(it, metres) {
  if (it.data.step.unit === "m") return String(Number(metres.toFixed(3))) + " m";
  const sixteenths = Math.round((metres / 0.0254) * 16);
  let [rest, below] = [Math.abs(sixteenths), 16];
  const feet = Math.floor(rest / 192);
  rest -= feet * 192;
  const whole = Math.floor(rest / 16);
  rest -= whole * 16;
  while (rest && rest % 2 === 0) [rest, below] = [rest / 2, below / 2];
  const inches = [whole || !rest ? String(whole) : "", rest ? rest + "/" + below : ""].filter(Boolean).join(" ");
  return (sixteenths < 0 ? "-" : "") + (feet ? feet + " ft " : "") + inches + " in";
}
