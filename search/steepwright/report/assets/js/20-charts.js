// The two charts. Python made the figures without data or colours; both come in here.
const charts = (() => {
  const { stair: stairSpec, lines: linesSpec, config } = data.charts;
  const tone = (name) => getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
  const rows = data.designs.map((view) => view.row);

  const symbolOf = (row) => {
    const short = row.asked_front_mm - row.fall_space_mm;
    return short <= 0 ? "circle" : short <= 500 ? "square" : "triangle-down";
  };
  const [leastFall, mostFall] = [Math.min(...rows.map((r) => r.fall_space_mm)), Math.max(...rows.map((r) => r.fall_space_mm))];
  const sizeOf = (row) => 7 + (7 * (row.fall_space_mm - leastFall)) / Math.max(1, mostFall - leastFall);

  const base = (spec, colours) => {
    const layout = structuredClone(spec.layout);
    const axis = { gridcolor: colours.line, linecolor: colours.strong, tickcolor: colours.strong };
    return {
      ...layout,
      paper_bgcolor: "rgba(0,0,0,0)",
      plot_bgcolor: "rgba(0,0,0,0)",
      font: { family: tone("body"), size: 13, color: colours.ink },
      hoverlabel: { bgcolor: colours.card, bordercolor: colours.strong, font: { color: colours.ink } },
      xaxis: { ...layout.xaxis, ...axis },
      yaxis: { ...layout.yaxis, ...axis },
    };
  };
  const colours = () =>
    Object.fromEntries("ink soft line strong spruce clay sky card warn-line".split(" ").map((n) => [n, tone(n)]));

  const hover = (row, now) =>
    `${row.id}: ${degrees(row.angle_deg)}, ${money(now.cost.get(row.id))}<br>` +
    `fall space ${clearMetres(row.fall_space_mm)} (guidance ${clearMetres(row.asked_front_mm)})`;

  const stairFigure = (state, now) => {
    const c = colours();
    const cloud = state.prices.size ? [] : data.cloud;
    const pay = (id) => now.cost.get(id) / 100;
    const xs = rows.map((r) => r.angle_deg);
    const ys = rows.map((r) => pay(r.id));
    const [cloudT, stairT, designsT] = structuredClone(stairSpec.data);
    const kept = (row) => now.kept.has(row.id);
    Object.assign(cloudT, { x: cloud.map((p) => p[0]), y: cloud.map((p) => p[1] / 100), marker: { size: 4, color: c.strong, opacity: 0.38 } });
    Object.assign(stairT, { x: now.stair.map((r) => r.angle_deg), y: now.stair.map((r) => pay(r.id)), line: { shape: "vh", color: c.spruce, width: 2 } });
    Object.assign(designsT, {
      x: xs,
      y: ys,
      customdata: rows.map((r) => r.id),
      hovertext: rows.map((r) => hover(r, now)),
      hoverinfo: "text",
      marker: {
        symbol: rows.map((r) => symbolOf(r) + (kept(r) ? "" : "-open")),
        size: rows.map(sizeOf),
        color: c.spruce,
        opacity: rows.map((r) => (kept(r) ? (now.front.has(r.id) ? 0.9 : 0.6) : 0.45)),
        line: { color: c.card, width: rows.map((r) => (kept(r) ? 1.2 : 1)) },
      },
    });
    const layout = base(stairSpec, c);
    layout.shapes = wishLines(state, c);
    // The beaten walls reach far above; the frame keeps to where the choice is made.
    const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const [spanX, spanY] = [right - left || 1, Math.max(high - low, high * 0.05)];
    layout.xaxis.range = [left - spanX * 0.05, right + spanX * 0.05];
    layout.yaxis.range = [low - spanY * 0.14, high + spanY * 0.28];
    return { data: [cloudT, stairT, designsT], layout };
  };

  const wishLines = (state, c) => {
    const line = { color: c.clay, width: 1.5, dash: "dash" };
    const shapes = [];
    const angle = state.wish.angle ?? data.target_angle_deg;
    const budget = state.wish.budget ?? data.max_cost_cents;
    if (angle !== null) shapes.push({ type: "line", x0: angle, x1: angle, y0: 0, y1: 1, yref: "paper", line });
    if (budget !== null) shapes.push({ type: "line", y0: budget / 100, y1: budget / 100, x0: 0, x1: 1, xref: "paper", line });
    return shapes;
  };

  const valueOf = (measure, row, now) => (measure.key === "cost_cents" ? now.cost.get(row.id) : row[measure.key]);

  // The worse and the better end of every measure, over all walls at the prices of the moment.
  const scales = (now) =>
    data.measures.map((measure) => {
      const values = rows.map((row) => valueOf(measure, row, now));
      const [low, high] = [Math.min(...values), Math.max(...values)];
      return measure.more_is_better ? { from: low, to: high } : { from: high, to: low };
    });
  const place = (row, i, now, scale) =>
    scale.from === scale.to ? 1 : (valueOf(data.measures[i], row, now) - scale.from) / (scale.to - scale.from);

  const linesFigure = (state, now, between = "<br>") => {
    const c = colours();
    const ends = scales(now);
    const joined = (list, hovers) => {
      const out = { x: [], y: [], customdata: [], hovertext: [] };
      for (const row of list) {
        data.measures.forEach((measure, i) => {
          out.x.push(place(row, i, now, ends[i]));
          out.y.push(i);
          out.customdata.push(row.id);
          if (hovers) out.hovertext.push(`${row.id}: ${measure.label.toLowerCase()} ${byUnit[measure.unit](valueOf(measure, row, now))}`);
        });
        out.x.push(null);
        out.y.push(null);
        out.customdata.push("");
        if (hovers) out.hovertext.push("");
      }
      return out;
    };
    const [outT, keptT] = structuredClone(linesSpec.data);
    Object.assign(outT, joined(rows.filter((r) => !now.kept.has(r.id)), false), { line: { color: c.line, width: 1 } });
    Object.assign(keptT, joined(now.keptRows, true), { mode: now.keptRows.length > 40 ? "lines" : "lines+markers", hoverinfo: "text", opacity: 0.5, line: { color: c.spruce, width: 1.1 }, marker: { size: 5, color: c.spruce } });
    // The two ends of every measure stand in the margins, where no line runs through them.
    const layout = base(linesSpec, c);
    const told = data.measures.map((measure, i) => {
      const [from, to] = [ends[i].from, ends[i].to].map(byUnit[measure.unit]);
      return from === to ? { worst: "all alike", best: to } : { worst: from, best: to };
    });
    const small = `font-size:11px;fill:${c.soft}`;
    layout.yaxis.ticktext = data.measures.map((measure, i) => `${measure.label}${between}<span style="${small}">${told[i].worst}</span>`);
    layout.annotations = told.map(({ best }, i) => ({ text: best, x: 1, xref: "paper", xanchor: "left", xshift: 2, y: i, showarrow: false, font: { size: 11, color: c.soft } }));
    layout.margin = { ...layout.margin, r: 12 + Math.ceil(6.5 * Math.max(...told.map(({ best }) => best.length))) };
    return { data: [outT, keptT], layout };
  };

  const fit = (figure, width) => {
    figure.layout.width = width;
    if (width < 460) {
      figure.layout.margin = { ...figure.layout.margin, l: 8, r: figure.layout.margin.r - 2 };
      figure.layout.font.size = 12;
    }
    return figure;
  };

  const figures = { stair: stairFigure, lines: linesFigure };
  const only = (change, ...keys) => Object.keys(change).every((key) => keys.includes(key));
  // A pick leaves a chart as it is and only moves the marks upon it.
  const part = (name, say) => (state, now, change) => {
    if (only(change, "sort")) return;
    const node = el(`chart-${name}`);
    if (!only(change, "chosen", "other", "sort")) {
      const figure = fit(figures[name](state, now), Math.max(260, node.clientWidth));
      Plotly.react(node, figure.data, figure.layout, config);
      if (change.first) onPick(node);
    }
    marks[name](node, state, now);
    say(state, now);
  };
  const onPick = (node) =>
    node.on("plotly_click", (event) => {
      const id = event.points.map((point) => point.customdata).find(Boolean);
      if (id) choose(id);
    });

  const sayStair = (state, now) => {
    const [first, last] = [now.stair[0], now.stair.at(-1)];
    const cloud = state.prices.size ? " The beaten walls are not drawn: their bills are not on this page." : ` The small dots are some of the walls that others beat.`;
    el("stair-says").textContent =
      `Along the stair, from ${degrees(first.angle_deg)} for ${money(now.cost.get(first.id))} (${first.id}) to ` +
      `${degrees(last.angle_deg)} for ${money(now.cost.get(last.id))} (${last.id}), each step is the cheapest wall of at least its angle. ` +
      `Larger marks have more fall space.${cloud}`;
  };
  const sayLines = (state, now) => {
    const row = views.get(state.chosen).row;
    el("lines-says").textContent =
      `Further right is better in every row; the worst and the best of all walls stand at its ends. ${row.id} (thick line): ` +
      data.measures.map((m) => `${m.label.toLowerCase()} ${byUnit[m.unit](valueOf(m, row, now))}`).join(", ") + ".";
  };

  const legend = () => {
    const mark = (body) => `<svg viewBox="-10 -9 20 18" aria-hidden="true">${body}</svg>`;
    const fill = `fill="var(--spruce)"`;
    const items = [
      [mark(`<circle r="6" ${fill}/>`), "fall space as guidance or more"],
      [mark(`<rect x="-5.5" y="-5.5" width="11" height="11" ${fill}/>`), `up to ${clearMetres(500).replace("0.50", "0.5")} short of it`],
      [mark(`<path d="M-6.5 -5H6.5L0 6Z" ${fill}/>`), `more than ${clearMetres(500).replace("0.50", "0.5")} short`],
      [mark(`<circle r="7" fill="none" stroke="var(--clay)" stroke-width="2.5"/>`), "chosen"],
      [mark(`<path d="M0 -8L8 0L0 8L-8 0Z" fill="none" stroke="var(--sky)" stroke-width="2.5"/>`), "set beside it"],
    ];
    el("stair-legend").innerHTML = items.map(([icon, words]) => `<li>${icon}${words}</li>`).join("");
  };

  // For paper: a chart of a given size that nobody clicks.
  const print = (name, node, width, height) => {
    const { state, now } = store;
    const figure = figures[name](state, now, "  ");
    Object.assign(figure.layout, { width, height });
    Plotly.newPlot(node, figure.data, figure.layout, { ...config, staticPlot: true });
    marks[name](node, state, now);
  };

  return { stair: part("stair", sayStair), lines: part("lines", sayLines), legend, print, scales, place, sizeOf };
})();
