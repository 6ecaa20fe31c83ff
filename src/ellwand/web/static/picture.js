// Marks are set on the picture by pointer or by keys; the picture itself is only drawn here and goes nowhere.

const form = document.getElementById("marks");
const easel = document.querySelector(".easel");
const board = document.getElementById("board");
const canvas = board.querySelector("canvas");
const overlay = board.querySelector("svg");
const now = document.getElementById("now");
const found = document.getElementById("found");
const said = document.getElementById("said");
const LARGEST = 2000;
const STEP = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const marks = [...form.querySelectorAll("[data-mark]")].map((row, at) => ({
  row,
  at,
  where: row.querySelector(".where").textContent.trim(),
  pick: row.querySelector(".pick"),
  x: row.querySelector("input[id^=x-]"),
  y: row.querySelector("input[id^=y-]"),
}));
let chosen = marks[0];

/** The place of a mark, or null. */
function place(mark) {
  const at = [mark.x.value, mark.y.value].map((text) => (text.trim() ? Number(text.replace(",", ".")) : NaN));
  return at.every(Number.isFinite) ? at : null;
}

/** Writes a mark's place, within the picture. */
function put(mark, x, y) {
  mark.x.value = String(Math.round(10 * Math.min(Math.max(x, 0), canvas.width)) / 10);
  mark.y.value = String(Math.round(10 * Math.min(Math.max(y, 0), canvas.height)) / 10);
  draw();
}

/** Every mark as a numbered ring; the chosen one stands out. */
function draw() {
  const size = Math.max(canvas.width, canvas.height) / 60;
  overlay.setAttribute("viewBox", `0 0 ${canvas.width} ${canvas.height}`);
  overlay.replaceChildren();
  for (const mark of marks) {
    const at = place(mark);
    mark.row.classList.toggle("now", mark === chosen);
    mark.pick.setAttribute("aria-pressed", String(mark === chosen));
    if (!at) continue;
    const group = document.createElementNS("http://www.w3.org/2000/svg", "g");
    if (mark === chosen) group.setAttribute("class", "now");
    for (const kind of ["", "ink"]) {
      const ring = document.createElementNS(group.namespaceURI, "circle");
      ring.setAttribute("cx", at[0]);
      ring.setAttribute("cy", at[1]);
      ring.setAttribute("r", size / 2);
      ring.setAttribute("class", kind);
      group.append(ring);
    }
    const number = document.createElementNS(group.namespaceURI, "text");
    number.setAttribute("x", at[0] + size * 0.7);
    number.setAttribute("y", at[1] + size * 0.4);
    number.setAttribute("font-size", size * 1.3);
    number.textContent = String(mark.at + 1);
    group.append(number);
    overlay.append(group);
  }
}

/** The mark that is set next. */
function choose(mark) {
  chosen = mark;
  now.textContent = `${mark.at + 1}. ${mark.where}`;
  draw();
}

function next() {
  choose(marks[(chosen.at + 1) % marks.length]);
}

/** Draws a picture on the board, as large as it is. */
function show(image, wide, high) {
  const share = Math.min(1, LARGEST / Math.max(wide, high));
  canvas.width = Math.round(wide * share);
  canvas.height = Math.round(high * share);
  canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
  choose(marks.find((mark) => !place(mark)) || marks[0]);
}

document.getElementById("picture").addEventListener("change", async (event) => {
  const file = event.target.files[0];
  const image = file && (await createImageBitmap(file).catch(() => null));
  if (image) show(image, image.width, image.height);
});

if (canvas.dataset.drawn) {
  const image = new Image();
  image.src = canvas.dataset.drawn;
  image.decode().then(() => show(image, 3 * image.naturalWidth, 3 * image.naturalHeight), () => {});
}

board.addEventListener("pointerdown", (event) => {
  if (event.button) return;
  const box = canvas.getBoundingClientRect();
  put(chosen, ((event.clientX - box.left) / box.width) * canvas.width, ((event.clientY - box.top) / box.height) * canvas.height);
  next();
});

board.addEventListener("keydown", (event) => {
  const step = STEP[event.key];
  if (step) {
    const at = place(chosen) || [canvas.width / 2, canvas.height / 2];
    const far = event.shiftKey ? Math.max(canvas.width, canvas.height) / 40 : 1;
    put(chosen, at[0] + far * step[0], at[1] + far * step[1]);
  } else if (event.key === "Enter") {
    next();
  } else if (event.key === "Delete" || event.key === "Backspace") {
    chosen.x.value = chosen.y.value = "";
    draw();
  } else return;
  event.preventDefault();
});

for (const mark of marks) {
  mark.pick.hidden = false;
  mark.pick.addEventListener("click", () => {
    choose(mark);
    board.focus();
  });
  for (const field of [mark.x, mark.y]) field.addEventListener("input", draw);
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const query = new URLSearchParams(new FormData(form));
  for (const [key, value] of [...query]) if (!value && key !== "from") query.delete(key);
  const answer = await fetch(`/picture?${query}&part=1`).catch(() => null);
  if (!answer) return;
  found.innerHTML = await answer.text();
  history.replaceState(null, "", `/picture?${query}`);
  const heading = found.querySelector("h2, [role=alert]");
  if (heading) {
    said.textContent = heading.textContent;
    heading.scrollIntoView({ block: "start" });
  }
});

easel.hidden = false;
choose(marks.find((mark) => !place(mark)) || marks[0]);
