// Starts the page and keeps its parts, its address and its size in step.
if (data.designs.length) {
  document.documentElement.classList.add("scripted");
  el("pick").hidden = false;
  const fromAddress = () => {
    const id = decodeURIComponent(location.hash.slice(1));
    if (!views.has(id)) return false;
    store.set({ chosen: id });
    return true;
  };
  for (const part of [table, controls, compare, priceTable, csv, paper]) part.start();
  charts.legend();
  const opening = () => {
    const view = views.get(data.answer);
    if (view) el("answer-drawing").innerHTML = drawSide(view.side, view.row, Math.max(240, el("answer-drawing").clientWidth));
  };
  const draw = (change) => {
    if (change.resized) opening();
    store.set(change);
  };
  opening();
  for (const part of [table.draw, charts.draw, controls.draw, controls.mind, design.draw, compare.draw, priceTable.draw]) {
    store.add(part);
    part(store.state, store.now);
  }
  if (fromAddress()) el("design").scrollIntoView();
  window.addEventListener("hashchange", () => {
    if (fromAddress()) el("design").scrollIntoView();
  });
  let width = window.innerWidth;
  let waiting = 0;
  window.addEventListener("resize", () => {
    if (window.innerWidth === width) return;
    width = window.innerWidth;
    clearTimeout(waiting);
    waiting = setTimeout(() => draw({ resized: true }), 120);
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => draw({ resized: true }));
  window.steepwright = { state: store.state, store, model, charts, csv, data };
}
