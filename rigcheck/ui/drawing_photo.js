// A photograph under the drawing. It is read, made smaller and kept in this browser alone: nothing of it is ever sent.
const PHOTO_SIDE_PX = 1600;
const PHOTO_FILE_BYTES = 32e6;
const PHOTO_TYPES = { png: [0x89, 0x50, 0x4e, 0x47], jpeg: [0xff, 0xd8, 0xff], webp: [0x52, 0x49, 0x46, 0x46] };
const photos = new Map(); // by the name of the rig; null: there is none

const photoStore = new Promise((answer) => {
  const asked = indexedDB.open("photographs under drawings", 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore("photographs");
  asked.onsuccess = () => answer(asked.result);
  asked.onerror = () => answer(null); // kept as long as the page is open
}).catch(() => null);

async function stored(mode, does) {
  const store = await photoStore;
  if (!store) return undefined;
  return new Promise((answer) => {
    const asked = does(store.transaction("photographs", mode).objectStore("photographs"));
    asked.onsuccess = () => answer(asked.result);
    asked.onerror = () => answer(undefined);
  });
}

function keepPhoto(it) {
  const { url, ...kept } = photoOf(it);
  stored("readwrite", (store) => store.put(kept, it.data.rig));
}

const photoOf = (it) => photos.get(it.data.rig) || null;
const inPhoto = (it, selector) => it.frame.querySelector(".photo " + selector);

function beginPhoto(it) {
  const on = (selector, kind, does) => inPhoto(it, selector).addEventListener(kind, (event) => does(it, event));
  it.frame.querySelector(".photo").addEventListener("toggle", () => layPhoto(it));
  on("[type=file]", "change", choosePhoto);
  on(".mark-two", "click", (same) => aimAt(same, "Mark the first of two places whose distance you know.", (first) => {
    aimAt(same, "Mark the second place.", (second) => {
      Object.assign(photoOf(same), { ends: [first, second] });
      changedPhoto(same, "Both places are marked. Now write the distance between them.");
      inPhoto(same, ".distance").focus();
    });
  }));
  on(".distance", "change", askDistance);
  on(".set-scale", "click", askDistance);
  on(".place", "click", (same) => {
    const chosen = inPhoto(same, ".known");
    const at = chosen.value.split(" ").map(Number);
    aimAt(same, "Mark where it is on the photograph: " + chosen.selectedOptions[0].textContent + ".", (px) => {
      Object.assign(photoOf(same), { px, at });
      changedPhoto(same, "The photograph is laid to it.");
    });
  });
  on(".opacity", "input", (same, event) => { photoOf(same).opacity = Number(event.target.value) / 100; changedPhoto(same); });
  on(".shown", "change", (same, event) => { photoOf(same).isHidden = !event.target.checked; changedPhoto(same); });
  on(".nudges", "click", (same, event) => {
    const way = event.target.dataset.way;
    if (!way) return;
    const [across, up] = way.split(" ").map(Number);
    const step = event.shiftKey ? same.data.step.fine_m : same.data.step.coarse_m;
    const photo = photoOf(same);
    photo.at = [photo.at[0] + across * step, photo.at[1] + up * step];
    changedPhoto(same);
  });
  on(".remove", "click", removePhoto);
  on(".save", "click", savePicture);
  it.sheet.addEventListener("pointerdown", (event) => {
    if (!it.aim || event.button !== 0) return;
    event.preventDefault();
    moveAim(it, ...clientToPicture(it, event.clientX, event.clientY));
    setAim(it);
  });
}

// What is known of the photograph after every run: of which rig it is, and the distance that was read.
async function takePhoto(it) {
  const { rig, distance } = it.data;
  const select = inPhoto(it, ".known");
  const known = JSON.stringify(it.data.known);
  if (it.knownPlaces !== known) {
    it.knownPlaces = known;
    select.replaceChildren(...it.data.known.map(([words, across, up]) => new Option(words, across + " " + up)));
  }
  if (!photos.has(rig)) {
    photos.set(rig, null);
    const kept = await stored("readonly", (store) => store.get(rig));
    if (kept && !photos.get(rig)) photos.set(rig, { ...kept, url: URL.createObjectURL(kept.blob) });
  }
  const photo = photoOf(it);
  if (photo && distance && distance.sender === it.sender && distance.serial === it.distanceSerial) {
    it.distanceSerial = undefined;
    if (distance.wrong) tellOfPhoto(it, distance.wrong);
    else scalePhoto(it, photo, distance);
  }
  layPhoto(it);
}

function scalePhoto(it, photo, distance) {
  const [[ax, ay], [bx, by]] = photo.ends;
  const middle = [(ax + bx) / 2, (ay + by) / 2]; // stays where it is, so that both places stay in view
  photo.at = [photo.at[0] + (middle[0] - photo.px[0]) * photo.perPx, photo.at[1] - (middle[1] - photo.px[1]) * photo.perPx];
  photo.px = middle;
  photo.perPx = distance.metres / Math.hypot(bx - ax, by - ay);
  changedPhoto(it, "Scaled: the two places are " + distance.text + " apart. Now say where a part of the rig is on the photograph.");
}

function askDistance(it) {
  const photo = photoOf(it);
  const text = inPhoto(it, ".distance").value.trim();
  if (!text) return;
  const far = photo && photo.ends ? Math.hypot(photo.ends[0][0] - photo.ends[1][0], photo.ends[0][1] - photo.ends[1][1]) : 0;
  if (far < 5) {
    tellOfPhoto(it, photo && photo.ends ? "The two places lie on each other: mark them further apart." : "Mark the two places first.");
    return;
  }
  it.distanceSerial = ++it.serial;
  it.setTrigger("distance", { sender: it.sender, serial: it.distanceSerial, text });
}

async function choosePhoto(it, event) {
  const file = event.target.files[0];
  event.target.value = "";
  if (!file) return;
  const bytes = new Uint8Array(await file.slice(0, 12).arrayBuffer());
  const type = Object.keys(PHOTO_TYPES).find((name) => PHOTO_TYPES[name].every((byte, k) => bytes[k] === byte));
  if (!type || (type === "webp" && String.fromCharCode(...bytes.slice(8, 12)) !== "WEBP")) {
    tellOfPhoto(it, "This is no PNG, JPEG or WebP picture; choose one of these.");
    return;
  }
  if (file.size > PHOTO_FILE_BYTES) {
    tellOfPhoto(it, "This file has more than 32 MB; choose a smaller one.");
    return;
  }
  tellOfPhoto(it, "The photograph is being read …");
  let picture;
  try {
    picture = await createImageBitmap(new Blob([file], { type: "image/" + type }));
  } catch {
    tellOfPhoto(it, "This picture cannot be read; choose another.");
    return;
  }
  const share = Math.min(1, PHOTO_SIDE_PX / Math.max(picture.width, picture.height));
  const [width, height] = [Math.max(1, Math.round(picture.width * share)), Math.max(1, Math.round(picture.height * share))];
  const canvas = Object.assign(document.createElement("canvas"), { width, height });
  const pen = canvas.getContext("2d");
  pen.fillStyle = "white";
  pen.fillRect(0, 0, width, height);
  pen.drawImage(picture, 0, 0, width, height);
  picture.close();
  const blob = await new Promise((answer) => canvas.toBlob(answer, "image/jpeg", 0.85));
  if (photoOf(it)) URL.revokeObjectURL(photoOf(it).url);
  photos.set(it.data.rig, { blob, url: URL.createObjectURL(blob), width, height, opacity: 0.6, isHidden: false, ends: null, ...fitted(it, width, height) });
  changedPhoto(it, "The photograph lies under the drawing, not to scale yet: mark two places whose distance you know.");
}

// Until it is scaled the photograph fills the picture.
function fitted(it, width, height) {
  const scale = Number(it.svg.dataset.scale);
  const box = it.svg.viewBox.baseVal;
  const middle = pictureToMetres(it, box.width / 2, box.height / 2);
  return { px: [width / 2, height / 2], at: middle, perPx: Math.min(box.width / width, box.height / height) / scale };
}

function pictureToMetres(it, x, y) {
  const { scale, left, level } = it.svg.dataset;
  return [(x - left) / scale, (level - y) / scale];
}

function clientToPicture(it, x, y) {
  const place = new DOMPoint(x, y).matrixTransform(it.svg.getScreenCTM().inverse());
  return [place.x, place.y];
}

// The photograph's upper left corner in the picture, and how long one of its pixels is there.
function photoFrame(it, photo) {
  const { scale, left, level } = it.svg.dataset;
  const k = photo.perPx * scale;
  return { x: Number(left) + photo.at[0] * scale - photo.px[0] * k, y: level - photo.at[1] * scale - photo.px[1] * k, k };
}

function changedPhoto(it, words) {
  keepPhoto(it);
  layPhoto(it);
  if (words) tellOfPhoto(it, words);
}

function tellOfPhoto(it, words) {
  inPhoto(it, ".photo-told").textContent = words;
}

function layPhoto(it) {
  const photo = photoOf(it);
  inPhoto(it, ".with-photo").hidden = !photo;
  if (photo) {
    inPhoto(it, ".opacity").value = Math.round(photo.opacity * 100);
    inPhoto(it, ".shown").checked = !photo.isHidden;
  }
  if (!it.svg) return;
  let image = it.svg.querySelector("image.photograph");
  const isShown = Boolean(photo) && !photo.isHidden;
  it.sheet.classList.toggle("on-photo", isShown);
  it.svg.querySelector(".ends")?.remove();
  if (!isShown) {
    image?.remove();
    return;
  }
  const { x, y, k } = photoFrame(it, photo);
  if (!image) {
    image = svgElement("image", { class: "photograph", preserveAspectRatio: "none", "aria-hidden": "true" });
    it.svg.insertBefore(image, it.svg.querySelector(".rig-marks"));
  }
  if (image.getAttribute("href") !== photo.url) image.setAttribute("href", photo.url);
  const told = { x, y, width: photo.width * k, height: photo.height * k };
  for (const [name, value] of Object.entries(told)) image.setAttribute(name, value.toFixed(2));
  image.style.opacity = photo.opacity;
  if (photo.ends && it.frame.querySelector(".photo").open) layEnds(it, photo, x, y, k);
}

function layEnds(it, photo, x, y, k) {
  const group = svgElement("g", { class: "ends", "aria-hidden": "true" });
  const places = photo.ends.map(([px, py]) => [x + px * k, y + py * k]);
  group.append(svgElement("line", { class: "rig-thin", x1: places[0][0], y1: places[0][1], x2: places[1][0], y2: places[1][1] }));
  for (const [px, py] of places) group.append(cross(px, py, 6));
  it.overlay.append(group);
}

function cross(x, y, arm) {
  const lines = "M" + (x - arm) + " " + y + "H" + (x + arm) + "M" + x + " " + (y - arm) + "V" + (y + arm);
  return svgElement("path", { class: "rig-line", d: lines });
}
