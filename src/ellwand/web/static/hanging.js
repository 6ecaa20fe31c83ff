// The views are turned by the slider (so by keys too), or by pulling at them.

const main = document.getElementById("main");

/** Begins once the views are there: they may come while the page waits. */
function begin() {
  const views = [...document.querySelectorAll(".views img")];
  const way = document.getElementById("way");
  if (!way || way.dataset.ready) return;
  way.dataset.ready = "1";
  way.closest(".field").hidden = false;
  const said = [way.dataset.front, way.dataset.left, way.dataset.back, way.dataset.right];
  for (const each of views) each.loading = "eager";

  function show() {
    const at = Number(way.value) % views.length;
    views.forEach((each, n) => each.classList.toggle("later", n !== at));
    way.setAttribute("aria-valuetext", said[Math.round((4 * at) / views.length) % 4]);
  }

  let from = null;
  const box = views[0].parentElement;
  box.addEventListener("pointerdown", (event) => {
    from = [event.clientX, Number(way.value)];
    box.setPointerCapture(event.pointerId);
    event.preventDefault();
  });
  box.addEventListener("pointermove", (event) => {
    if (!from) return;
    const steps = Math.round(((event.clientX - from[0]) / box.clientWidth) * views.length);
    way.value = String((((from[1] + steps) % views.length) + views.length) % views.length);
    show();
  });
  for (const end of ["pointerup", "pointercancel"]) box.addEventListener(end, () => (from = null));
  way.addEventListener("input", show);
  show();
}

new MutationObserver(begin).observe(main, { childList: true, subtree: true });
begin();
