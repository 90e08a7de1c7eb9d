// The chosen wall and the one beside it, drawn over the charts in the charts' own coordinates.
const marks = (() => {
  const layer = (node) => {
    let over = node.parentElement.querySelector("svg.marks");
    if (!over) {
      over = document.createElementNS("http://www.w3.org/2000/svg", "svg");
      over.setAttribute("class", "marks");
      over.setAttribute("aria-hidden", "true");
      node.after(over);
    }
    const { width, height } = node._fullLayout;
    over.setAttribute("width", width);
    over.setAttribute("height", height);
    return over;
  };
  const at = (node) => {
    const { xaxis, yaxis } = node._fullLayout;
    return { x: (value) => xaxis._offset + xaxis.d2p(value), y: (value) => yaxis._offset + yaxis.d2p(value) };
  };
  const diamond = (cls, x, y, r) => svg.poly(cls, [[x, y - r], [x + r, y], [x, y + r], [x - r, y]]);

  // Only the walls that the page speaks of carry a label; one that finds no room is left out.
  const labels = (spots, [from, to]) => {
    const taken = [];
    return spots
      .map(({ id, x, y, r, cls }) => {
        const text = `${id} · ${clearMetres(views.get(id).row.fall_space_mm)}`;
        const wide = text.length * 6.9;
        const left = Math.min(Math.max(x - wide / 2, from), to - wide);
        for (const base of [y - r - 6, y + r + 15, y - r - 24]) {
          const box = [left, base - 12, left + wide, base + 4];
          if (taken.some((t) => box[0] < t[2] && box[2] > t[0] && box[1] < t[3] && box[3] > t[1])) continue;
          taken.push(box);
          return svg.rect("under", left, base - 11, wide, 15) + svg.text(text, left + wide / 2, base, 12, { cls });
        }
        return "";
      })
      .reverse()
      .join("");
  };

  const stair = (node, state, now) => {
    const { x, y } = at(node);
    const ids = [state.chosen, state.other, data.answer, ...data.steps, now.stair[0].id, now.stair.at(-1).id];
    const spots = [...new Set(ids)].filter((id) => views.has(id)).map((id) => {
      const { row } = views.get(id);
      const cls = id === state.chosen ? "chosen-text" : id === state.other ? "other-text" : "";
      return { id, cls, x: x(row.angle_deg), y: y(now.cost.get(id) / 100), r: charts.sizeOf(row) / 2 + 5 };
    });
    const spot = (id) => spots.find((one) => one.id === id);
    const [one, two] = [spot(state.chosen), spot(state.other)];
    layer(node).innerHTML =
      labels(spots, [node._fullLayout.xaxis._offset + 3, node._fullLayout.width - 4]) +
      (two ? diamond("ring other", two.x, two.y, two.r + 3) : "") +
      svg.circle("ring chosen", one.x, one.y, one.r);
  };

  const lines = (node, state, now) => {
    const { x, y } = at(node);
    const ends = charts.scales(now);
    const through = (id) => data.measures.map((_, i) => [x(charts.place(views.get(id).row, i, now, ends[i])), y(i)]);
    const drawn = (id, cls, dot) => {
      if (!views.has(id)) return "";
      const points = through(id);
      return svg.path(`line ${cls}`, points) + points.map(([a, b]) => dot(a, b)).join("");
    };
    layer(node).innerHTML =
      drawn(state.other, "other", (a, b) => diamond("dot other", a, b, 6)) +
      drawn(state.chosen, "chosen", (a, b) => svg.circle("dot chosen", a, b, 4.5));
  };

  return { stair, lines };
})();
