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

  // Only the walls that the page speaks of carry a label; one that would lie on another is left out.
  const labels = (state, now, figure, c) => {
    const { wide, spanX, spanY, maxX } = figure;
    const [gapX, gapY] = [(spanX * 96) / (wide - 90), spanY / 4.2];
    const ids = [state.chosen, state.other, data.answer, ...data.steps, now.stair[0].id, now.stair.at(-1).id];
    const taken = [];
    for (const row of ids.map((id) => views.get(id)?.row)) {
      if (!row || taken.some((t) => t.id === row.id)) continue;
      const at = { id: row.id, x: row.angle_deg, y: now.cost.get(row.id), row };
      if (!taken.some((t) => Math.abs(t.x - at.x) < gapX && Math.abs(t.y - at.y) < gapY)) taken.push(at);
    }
    return taken.map(({ id, x, y, row }) => ({
      x,
      y: y / 100,
      text: `${id === state.chosen ? "<b>" : ""}${id} · ${clearMetres(row.fall_space_mm)}${id === state.chosen ? "</b>" : ""}`,
      font: { size: 12, color: id === state.chosen ? c.clay : id === state.other ? c.sky : c.ink },
      bgcolor: c.card,
      opacity: 0.92,
      showarrow: false,
      borderpad: 1,
      yshift: 21,
      xanchor: x > maxX - gapX * 0.6 ? "right" : "center",
    }));
  };

  const stairFigure = (state, now, wide) => {
    const c = colours();
    const cloud = state.prices.size ? [] : data.cloud;
    const pay = (id) => now.cost.get(id) / 100;
    const xs = rows.map((r) => r.angle_deg);
    const ys = rows.map((r) => now.cost.get(r.id));
    const spanX = Math.max(...xs) - Math.min(...xs) || 1;
    const spanY = Math.max(...ys) - Math.min(...ys) || 1;
    const [cloudT, stairT, designsT, comparedT, chosenT] = structuredClone(stairSpec.data);
    const kept = (row) => now.kept.has(row.id);
    Object.assign(cloudT, { x: cloud.map((p) => p[0]), y: cloud.map((p) => p[1] / 100), marker: { size: 4, color: c.strong, opacity: 0.38 } });
    Object.assign(stairT, { x: now.stair.map((r) => r.angle_deg), y: now.stair.map((r) => pay(r.id)), line: { shape: "vh", color: c.spruce, width: 2 } });
    Object.assign(designsT, {
      x: xs,
      y: rows.map((r) => pay(r.id)),
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
    const ring = (trace, row, colour, symbol) => {
      if (!row) return Object.assign(trace, { x: [], y: [] });
      return Object.assign(trace, {
        x: [row.angle_deg],
        y: [pay(row.id)],
        hoverinfo: "skip",
        marker: { symbol, size: sizeOf(row) + 13, color: colour, line: { width: 3, color: colour } },
      });
    };
    ring(comparedT, views.get(state.other)?.row, c.sky, "diamond-open");
    ring(chosenT, views.get(state.chosen)?.row, c.clay, "circle-open");
    const layout = base(stairSpec, c);
    layout.shapes = wishLines(state, c);
    layout.annotations = labels(state, now, { wide, spanX, spanY, maxX: Math.max(...xs) }, c);
    // The beaten walls reach far above; the frame keeps to where the choice is made.
    const [low, high] = [Math.min(...ys) / 100, Math.max(...ys) / 100];
    const room = Math.max(high - low, high * 0.05);
    layout.xaxis.range = [Math.min(...xs) - spanX * 0.05, Math.max(...xs) + spanX * 0.05];
    layout.yaxis.range = [low - room * 0.18, high + room * 0.75];
    return { data: [cloudT, stairT, designsT, comparedT, chosenT], layout };
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

  const linesFigure = (state, now) => {
    const c = colours();
    const scales = data.measures.map((measure) => {
      const values = rows.map((row) => valueOf(measure, row, now));
      const [low, high] = [Math.min(...values), Math.max(...values)];
      return measure.more_is_better ? { from: low, to: high } : { from: high, to: low };
    });
    const place = (row, i) => {
      const { from, to } = scales[i];
      return from === to ? 1 : (valueOf(data.measures[i], row, now) - from) / (to - from);
    };
    const joined = (list, hovers) => {
      const out = { x: [], y: [], customdata: [], hovertext: [] };
      for (const row of list) {
        data.measures.forEach((measure, i) => {
          out.x.push(place(row, i));
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
    const one = (id) => (views.has(id) ? [views.get(id).row] : []);
    const [outT, keptT, comparedT, chosenT] = structuredClone(linesSpec.data);
    Object.assign(outT, joined(rows.filter((r) => !now.kept.has(r.id)), false), { line: { color: c.line, width: 1 } });
    Object.assign(keptT, joined(now.keptRows, true), { mode: now.keptRows.length > 40 ? "lines" : "lines+markers", hoverinfo: "text", opacity: 0.55, line: { color: c.spruce, width: 1.2 }, marker: { size: 5, color: c.spruce } });
    Object.assign(comparedT, joined(one(state.other), true), { hoverinfo: "text", line: { color: c.sky, width: 3, dash: "dash" }, marker: { size: 9, symbol: "diamond", color: c.sky } });
    Object.assign(chosenT, joined(one(state.chosen), true), { hoverinfo: "text", line: { color: c.clay, width: 3.5 }, marker: { size: 9, color: c.clay } });
    const layout = base(linesSpec, c);
    const at = (x, i, text, anchor) => ({ bgcolor: c.card, borderpad: 0, x, y: i - 0.34, text, xanchor: anchor, showarrow: false, font: { size: 11, color: c.soft } });
    layout.annotations = data.measures.flatMap((measure, i) => {
      const say = byUnit[measure.unit];
      if (scales[i].from === scales[i].to) return [at(1, i, `all ${say(scales[i].to)}`, "right")];
      return [at(0, i, say(scales[i].from), "left"), at(1, i, say(scales[i].to), "right")];
    });
    return { data: [outT, keptT, comparedT, chosenT], layout };
  };

  const onPick = (node) =>
    node.on("plotly_click", (event) => {
      const id = event.points.map((point) => point.customdata).find(Boolean);
      if (id) choose(id);
    });

  const fit = (figure, node) => {
    const width = Math.max(260, node.clientWidth);
    figure.layout.width = width;
    if (width < 460) {
      figure.layout.margin = { ...figure.layout.margin, l: 8, r: 8 };
      figure.layout.font.size = 12;
    }
    return figure;
  };

  let started = false;
  const draw = (state, now, change) => {
    const [stair, lines] = [el("chart-stair"), el("chart-lines")];
    const a = fit(stairFigure(state, now, stair.clientWidth), stair);
    const b = fit(linesFigure(state, now), lines);
    Plotly.react(stair, a.data, a.layout, config);
    const onlyPicked = change && Object.keys(change).every((key) => key === "chosen" || key === "other");
    if (started && onlyPicked) {
      const of = (key) => [b.data[2][key], b.data[3][key]];
      Plotly.restyle(lines, { x: of("x"), y: of("y"), customdata: of("customdata"), hovertext: of("hovertext") }, [2, 3]);
    } else {
      Plotly.react(lines, b.data, b.layout, config);
    }
    if (!started) {
      onPick(stair);
      onPick(lines);
      started = true;
    }
    say(state, now);
  };

  const say = (state, now) => {
    const steps = now.stair;
    const [first, last] = [steps[0], steps.at(-1)];
    const cloud = state.prices.size ? " The beaten walls are not drawn: their bills are not on this page." : ` The small dots are some of the walls that others beat.`;
    el("stair-says").textContent =
      `Along the stair, from ${degrees(first.angle_deg)} for ${money(now.cost.get(first.id))} (${first.id}) to ` +
      `${degrees(last.angle_deg)} for ${money(now.cost.get(last.id))} (${last.id}), each step is the cheapest wall of at least its angle. ` +
      `Larger marks have more fall space.${cloud}`;
    const row = views.get(state.chosen).row;
    el("lines-says").textContent =
      `Further right is better in every row. ${row.id} (thick line): ` +
      data.measures.map((m) => `${m.label.toLowerCase()} ${byUnit[m.unit](valueOf(m, row, now))}`).join(", ") + ".";
  };

  const legend = () => {
    const mark = (body) => `<svg viewBox="-10 -9 20 18" aria-hidden="true">${body}</svg>`;
    const fill = `fill="var(--spruce)"`;
    const items = [
      [mark(`<circle r="6" ${fill}/>`), "fall space as guidance or more"],
      [mark(`<rect x="-5.5" y="-5.5" width="11" height="11" ${fill}/>`), "up to 0.5 m short of it"],
      [mark(`<path d="M-6.5 -5H6.5L0 6Z" ${fill}/>`), "more than 0.5 m short"],
      [mark(`<circle r="7" fill="none" stroke="var(--clay)" stroke-width="2.5"/>`), "chosen"],
      [mark(`<path d="M0 -8L8 0L0 8L-8 0Z" fill="none" stroke="var(--sky)" stroke-width="2.5"/>`), "set beside it"],
    ];
    el("stair-legend").innerHTML = items.map(([icon, words]) => `<li>${icon}${words}</li>`).join("");
  };

  return { draw, legend, stairFigure, linesFigure };
})();
