// The cards of the gallery: made once, again only when what they show has changed.
const shown = new WeakMap();

function card(each, kind, now, pick) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "card";
  button.dataset.slug = each.slug;
  button.title = each.about;
  const drawing = new DOMParser().parseFromString(each.svg, "image/svg+xml").documentElement;
  if (drawing.nodeName === "svg") {
    drawing.querySelectorAll("script, foreignObject").forEach((node) => node.remove());
    drawing.setAttribute("aria-hidden", "true");
    button.append(document.importNode(drawing, true));
  }
  const title = document.createElement("span");
  title.textContent = each.title;
  button.append(title);
  button.addEventListener("click", () => pick({ kind, slug: each.slug }));
  return button;
}

export default function ({ data, parentElement, setTriggerValue }) {
  const gallery = parentElement.querySelector(".gallery");
  const before = shown.get(gallery);
  const pick = (what) => shown.get(gallery).send("picked", what);
  shown.set(gallery, { key: JSON.stringify(data.groups).length, send: setTriggerValue });
  if (!before || before.key !== shown.get(gallery).key) {
    gallery.replaceChildren();
    for (const group of data.groups) {
      const heading = document.createElement("h3");
      heading.textContent = group.title;
      const cards = document.createElement("div");
      cards.className = "cards";
      for (const each of group.cards) cards.append(card(each, group.kind, data.now, pick));
      gallery.append(heading, cards);
    }
  }
  gallery.querySelectorAll(".card").forEach((each) => {
    if (each.dataset.slug === data.now) each.setAttribute("aria-current", "true");
    else each.removeAttribute("aria-current");
  });
}
