// Finding as one types; without this the form asks the server for the same.
const field = document.getElementById("find");
const rows = [...document.querySelectorAll("#players tr[data-find]")];
const said = document.getElementById("found");

function matches(row, wanted) {
  const at = row.dataset.find.indexOf(" ");
  return row.dataset.find.slice(0, at) === wanted || row.dataset.find.slice(at + 1).includes(wanted);
}

function find() {
  const wanted = field.value.trim().toLowerCase().replace(/^#/, "");
  let shown = 0;
  for (const row of rows) {
    row.hidden = wanted !== "" && !matches(row, wanted);
    shown += row.hidden ? 0 : 1;
  }
  said.textContent = wanted === "" ? "" : shown === 1 ? "1 player found." : `${shown} players found.`;
}

field?.addEventListener("input", find);
for (const choice of document.querySelectorAll(".find select")) {
  choice.addEventListener("change", () => choice.form.requestSubmit());
}
