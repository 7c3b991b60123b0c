// Saves what was sent, once: the element stands on the page only in the answer to a press.
export default function ({ data, parentElement }) {
  const mark = parentElement.querySelector("span");
  if (mark.dataset.done) return;
  mark.dataset.done = "yes";
  const bytes = Uint8Array.from(atob(data.content), (letter) => letter.charCodeAt(0));
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([bytes], { type: data.mime }));
  link.download = data.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
