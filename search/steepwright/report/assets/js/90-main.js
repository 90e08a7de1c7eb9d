// Starts the page and keeps its parts, its address and its size in step.
if (data.designs.length) {
  document.documentElement.classList.add("scripted");
  el("pick").hidden = false;
  for (const part of [table, controls, compare, priceTable, csv, paper]) part.start();
  charts.legend();
  const opening = (state, now, change) => {
    const view = views.get(data.answer);
    const node = el("answer-drawing");
    if (view && (change.first || change.resized)) node.innerHTML = drawSide(view.side, view.row, Math.max(240, node.clientWidth));
  };
  Object.assign(store.state, address.read());
  store.add(opening);
  store.add(controls.draw);
  store.add(controls.mind);
  store.add(priceTable.moved);
  store.add(table.draw);
  store.add(charts.stair, el("chart-stair"));
  store.add(charts.lines, el("chart-lines"));
  store.add(design.draw, el("design"));
  store.add(compare.draw, el("compare"));
  store.add(priceTable.draw, el("prices"));
  store.show({ first: true });
  performance.mark("steepwright-ready");

  const toDesign = () => {
    store.settle();
    el("design").scrollIntoView();
  };
  if (address.read()) toDesign();
  window.addEventListener("hashchange", () => {
    const read = address.read();
    if (!read) return;
    store.set(read);
    toDesign();
  });
  // A link to a part of the page moves there and leaves the choice in the address.
  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    const part = link && !views.has(link.hash.slice(1)) && el(link.hash.slice(1));
    if (!part) return;
    event.preventDefault();
    part.focus({ preventScroll: true });
    part.scrollIntoView();
  });
  let width = window.innerWidth;
  let waiting = 0;
  const redraw = () => store.show({ resized: true });
  window.addEventListener("resize", () => {
    if (window.innerWidth === width) return;
    width = window.innerWidth;
    clearTimeout(waiting);
    waiting = setTimeout(redraw, 120);
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", redraw);
  window.steepwright = { state: store.state, store, model, charts, csv, data };
}
