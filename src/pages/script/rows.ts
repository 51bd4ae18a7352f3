/** Rows of a table follow what is typed in the box above it: those that have every word, in any order. Nothing typed in a row is touched. */
const box = document.getElementById("find") as HTMLInputElement;
const count = document.getElementById("find-count")!;
const rows = [...document.querySelectorAll<HTMLTableRowElement>("table.times tbody tr")];
const texts = rows.map((row) => (row.cells[0]?.textContent ?? "").toLowerCase());

function narrow(): void {
  const words = box.value.toLowerCase().split(/\s+/);
  let found = 0;
  for (const [at, row] of rows.entries()) {
    const fits = words.every((word) => texts[at]!.includes(word));
    row.classList.toggle("away", !fits);
    if (fits) found += 1;
  }
  count.textContent = box.value.trim() === "" ? "" : `${found} of ${rows.length}`;
}

box.addEventListener("input", narrow);
// Enter asks the server for what is shown already.
box.addEventListener("keydown", (event) => {
  if (event.key === "Enter") event.preventDefault();
});
narrow();

export {};
