// The table is the keyboard's way to everything a mouse can do in the charts.
const table = (() => {
  const body = el("designs").tBodies[0];
  const lines = new Map([...body.rows].map((line) => [line.dataset.id, line]));

  const start = () => {
    for (const head of el("designs").tHead.querySelectorAll("th[data-key]")) {
      const label = head.querySelector("span").textContent;
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = label;
      button.addEventListener("click", () => {
        const { key, down } = store.state.sort;
        store.set({ sort: { key: head.dataset.key, down: key === head.dataset.key && !down } });
      });
      head.querySelector("span").replaceChildren(button);
    }
    for (const [id, line] of lines) {
      line.cells[0].innerHTML = `<button type="button" data-choose="${esc(id)}">${esc(id)}</button>`;
      line.insertCell().innerHTML = `<button type="button" data-beside="${esc(id)}" aria-label="Set ${esc(id)} beside the chosen wall">beside</button>`;
    }
    body.addEventListener("click", (event) => {
      const button = event.target.closest("button");
      if (button?.dataset.beside) setBeside(button.dataset.beside);
      else choose(event.target.closest("tr").dataset.id);
    });
  };

  const draw = (state, now, change) => {
    if (!change || change.sort || change.prices) body.append(...now.order.map((row) => lines.get(row.id)));
    for (const head of el("designs").tHead.querySelectorAll("th[data-key]")) {
      const sorted = head.dataset.key === state.sort.key;
      if (sorted) head.setAttribute("aria-sort", state.sort.down ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
    for (const [id, line] of lines) {
      line.hidden = !now.kept.has(id) && id !== state.chosen && id !== state.other;
      line.classList.toggle("chosen", id === state.chosen);
      line.classList.toggle("beside-it", id === state.other);
      line.classList.toggle("beaten", !now.front.has(id));
      line.querySelector(".cost").textContent = amount(now.cost.get(id));
      line.querySelector("[data-choose]").setAttribute("aria-pressed", String(id === state.chosen));
      line.querySelector("[data-beside]").setAttribute("aria-pressed", String(id === state.other));
    }
  };

  return { start, draw };
})();
