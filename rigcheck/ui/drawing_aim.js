// Places marked on the photograph, and the picture of both that is saved.
// Marking a place on the photograph: with the pointer, or with a cross that the arrow keys move and Enter sets.
function aimAt(it, words, does) {
  if (!it.svg || !photoOf(it)) return;
  it.aim?.mark.remove();
  const box = it.svg.viewBox.baseVal;
  const mark = svgElement("g", { class: "aim", tabindex: "0", role: "button", "aria-label": words + " Arrow keys move the cross, Enter sets it, Escape leaves it." });
  mark.append(svgElement("circle", { class: "rig-thin", r: 9 }), cross(0, 0, 14));
  it.aim = { mark, does, x: box.width / 2, y: box.height / 2 };
  it.svg.append(mark);
  moveAim(it, it.aim.x, it.aim.y);
  it.sheet.classList.add("aiming");
  mark.addEventListener("keydown", (event) => {
    const arrow = ARROWS[event.key];
    const step = event.shiftKey ? 1 : 10;
    if (arrow) moveAim(it, it.aim.x + arrow[0] * step, it.aim.y - arrow[1] * step);
    else if (event.key === "Enter" || event.key === " ") setAim(it);
    else if (event.key === "Escape") endAim(it, "Nothing was marked.");
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  it.sheet.scrollIntoView({ block: "nearest" });
  mark.focus({ preventScroll: true });
  tellOfPhoto(it, words + " Press there on the photograph; or arrow keys (Shift: finer) and Enter.");
}

function moveAim(it, x, y) {
  const box = it.svg.viewBox.baseVal;
  it.aim.x = Math.min(Math.max(x, 0), box.width);
  it.aim.y = Math.min(Math.max(y, 0), box.height);
  it.aim.mark.setAttribute("transform", "translate(" + it.aim.x + " " + it.aim.y + ")");
}

function setAim(it) {
  const { x, y, does } = it.aim;
  const photo = photoOf(it);
  endAim(it, "");
  const frame = photoFrame(it, photo);
  does([(x - frame.x) / frame.k, (y - frame.y) / frame.k]);
}

function endAim(it, words) {
  it.aim?.mark.remove();
  it.aim = null;
  it.sheet.classList.remove("aiming");
  tellOfPhoto(it, words);
}

function removePhoto(it) {
  const photo = photoOf(it);
  if (photo) URL.revokeObjectURL(photo.url);
  photos.set(it.data.rig, null);
  if (it.aim) endAim(it, "");
  stored("readwrite", (store) => store.delete(it.data.rig));
  layPhoto(it);
  tellOfPhoto(it, "The photograph is removed from this browser.");
  inPhoto(it, "[type=file]").focus();
}

// Drawing and photograph as one picture, made here and saved by the browser.
async function savePicture(it) {
  const photo = photoOf(it);
  const { width, height } = it.svg.viewBox.baseVal;
  const copy = it.svg.cloneNode(true);
  const look = getComputedStyle(it.sheet);
  copy.setAttribute("style", "color:" + look.color + ";--rig-ink:" + look.color + ";--rig-paper:" + look.getPropertyValue("--rig-paper"));
  copy.querySelectorAll(".ends, .aim, .moves, .rig-grip, .rig-hit").forEach((node) => node.remove());
  const sheetStyle = svgElement("style", {});
  sheetStyle.textContent = ".rig-body,.rig-sheave,.rig-guess{fill-opacity:.3}";
  copy.append(sheetStyle);
  const paper = svgElement("rect", { width, height, fill: look.getPropertyValue("--rig-paper") });
  copy.insertBefore(paper, copy.querySelector("image.photograph") || copy.querySelector(".rig-marks"));
  const asData = await new Promise((answer) => {
    const reader = new FileReader();
    reader.onload = () => answer(reader.result);
    reader.readAsDataURL(photo.blob);
  });
  copy.querySelector("image.photograph")?.setAttribute("href", asData);
  const text = new XMLSerializer().serializeToString(copy);
  const url = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
  const picture = new Image();
  picture.src = url;
  await picture.decode();
  URL.revokeObjectURL(url);
  const canvas = Object.assign(document.createElement("canvas"), { width: width * 2, height: height * 2 });
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise((answer) => canvas.toBlob(answer, "image/png"));
  const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(blob), download: it.data.file });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
