// The table is the keyboard's way to everything a mouse can do in the charts.
const table = (() => {
  const box = el("designs");
  const body = box.tBodies[0];
  const lines = new Map([...body.rows].map((line) => [line.dataset.id, line]));
  const heads = [...box.tHead.querySelectorAll("th[data-key]")];

  const start = () => {
    for (const head of heads) {
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
      line.cells[0].innerHTML = `<button type="button" data-choose="${esc(id)}" aria-pressed="false">${esc(id)}</button>`;
      line.insertCell().innerHTML = `<button type="button" data-beside="${esc(id)}" aria-label="Set ${esc(id)} beside the chosen wall" aria-pressed="false">beside</button>`;
    }
    body.addEventListener("click", (event) => {
      const button = event.target.closest("button");
      if (button?.dataset.beside) setBeside(store.state.other === button.dataset.beside ? "" : button.dataset.beside);
      else choose(event.target.closest("tr").dataset.id);
    });
  };

  const marked = { chosen: "", other: "" };
  const mark = (key, id, cls, button) => {
    for (const [one, on] of [[marked[key], false], [id, true]]) {
      const line = lines.get(one);
      if (!line) continue;
      line.classList.toggle(cls, on);
      line.querySelector(`[data-${button}]`).setAttribute("aria-pressed", String(on));
    }
    marked[key] = id;
  };

  const sorting = (state) => {
    for (const head of heads) {
      if (head.dataset.key === state.sort.key) head.setAttribute("aria-sort", state.sort.down ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
  };

  const draw = (state, now, change) => {
    if (change.first || change.sort || change.prices) {
      body.append(...now.order.map((row) => lines.get(row.id)));
      sorting(state);
    }
    if (change.first || change.prices) {
      for (const [id, line] of lines) {
        line.classList.toggle("beaten", !now.front.has(id));
        line.querySelector(".cost").textContent = amount(now.cost.get(id));
      }
    }
    for (const id of change.wish || change.prices ? lines.keys() : [marked.chosen, marked.other, state.chosen, state.other]) {
      const line = lines.get(id);
      if (line) line.hidden = !now.kept.has(id) && id !== state.chosen && id !== state.other;
    }
    mark("chosen", state.chosen, "chosen", "choose");
    mark("other", state.other, "beside-it", "beside");
    if (change.chosen) bring(lines.get(state.chosen));
  };

  // The table scrolls in its own box: the chosen row comes into it, the page stays where it is.
  const bring = (line) => {
    const frame = box.parentElement;
    const top = line.offsetTop - box.tHead.offsetHeight;
    const bottom = line.offsetTop + line.offsetHeight - frame.clientHeight;
    if (frame.scrollTop > top) frame.scrollTop = top;
    else if (frame.scrollTop < bottom) frame.scrollTop = bottom;
  };

  return { start, draw };
})();
