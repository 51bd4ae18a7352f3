/** A button that copies a field. It is hidden where there is no script, and the field can be copied by hand. */
for (const button of document.querySelectorAll<HTMLButtonElement>("button[data-copy]")) {
  const field = document.getElementById(button.dataset.copy ?? "") as HTMLInputElement | null;
  const said = document.getElementById("copied");
  button.hidden = false;
  button.addEventListener("click", async () => {
    field?.select();
    try {
      await navigator.clipboard.writeText(field?.value ?? "");
      if (said) said.textContent = "Copied.";
    } catch {
      if (said) said.textContent = "It is marked; copy it with the keyboard or the menu.";
    }
  });
}
