// Costs, front and stair at the prices of the moment; prices.py and stair.py are the reference.
const model = (() => {
  const listed = new Map(data.prices.map((line) => [line.sku, line.unit_cents]));

  const costs = (prices) =>
    new Map(
      data.designs.map((view) => [
        view.row.id,
        view.bill.reduce(
          (sum, line) => sum + line.quantity * (prices.get(line.sku) ?? line.unit_cents),
          0,
        ),
      ]),
    );

  const score = (row, cost) => [cost.get(row.id), -angleMdeg(row.angle_deg), -row.fall_space_mm];

  const front = (cost) => {
    const scored = data.designs.map((view, i) => [...score(view.row, cost), i, view.row.id]);
    scored.sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3]);
    const kept = [];
    for (const one of scored) {
      if (!kept.some((k) => k[0] <= one[0] && k[1] <= one[1] && k[2] <= one[2])) kept.push(one);
    }
    return new Set(kept.map((one) => one[4]));
  };

  const stair = (rows, cost) => {
    const steps = [];
    const sorted = [...rows].sort(
      (a, b) => b.angle_deg - a.angle_deg || cost.get(a.id) - cost.get(b.id),
    );
    for (const row of sorted) {
      if (!steps.length || cost.get(row.id) < cost.get(steps.at(-1).id)) steps.push(row);
    }
    return steps.reverse();
  };

  const fits = (row, cost, wish) =>
    (wish.angle === null || row.angle_deg >= wish.angle) &&
    (wish.budget === null || cost.get(row.id) <= wish.budget) &&
    (wish.fall === null || row.fall_space_mm >= wish.fall) &&
    (!wish.beam || row.beam === wish.beam) &&
    (!wish.facing || row.facing === wish.facing) &&
    (!wish.people || (row.people && row.people <= wish.people));

  // Of equals the one less short of the guidance on fall space, then the steeper: views/guidance.py.
  const short = (row) => Math.max(0, row.asked_front_mm - row.fall_space_mm);
  const cheapest = (rows, cost) =>
    rows.reduce((best, row) => {
      if (!best) return row;
      const by =
        cost.get(row.id) - cost.get(best.id) ||
        short(row) - short(best) ||
        best.angle_deg - row.angle_deg ||
        best.fall_space_mm - row.fall_space_mm;
      return by < 0 ? row : best;
    }, null);

  // No wall, on this page or not, costs less than this share of what it cost at the listed prices.
  const leastRatio = (prices) =>
    Math.min(
      1,
      ...[...prices].filter(([sku]) => listed.get(sku)).map(([sku, now]) => now / listed.get(sku)),
    );

  return { listed, costs, front, stair, fits, cheapest, leastRatio };
})();
