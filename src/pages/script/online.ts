/** A form sent without a network would give way to the browser's own error page: it stays instead, and says so where the hand was. */
const SAID: Readonly<Record<string, string>> = {
  en: "There is no connection: nothing was sent, and what you typed is still here.",
  de: "Keine Verbindung: Es wurde nichts abgeschickt, Ihre Eingaben sind noch da.",
};

export function notSent(button: HTMLElement | null, form: HTMLFormElement): void {
  withdrawn();
  const told = document.createElement("p");
  told.id = "not-sent";
  told.className = "wrong";
  told.role = "alert";
  told.textContent = SAID[document.documentElement.lang] ?? SAID.en!;
  (button?.closest(".actions, .till-buttons, p") ?? button ?? form).after(told);
  // Below a button at the foot of the screen it would not be seen.
  told.scrollIntoView({ block: "nearest" });
}

const withdrawn = (): void => document.getElementById("not-sent")?.remove();

export function staysWithoutNetwork(): void {
  window.addEventListener("online", withdrawn);
  document.addEventListener("submit", (event) => {
    const { target: form, submitter } = event;
    if (event.defaultPrevented || navigator.onLine || !(form instanceof HTMLFormElement)) return;
    // The bench keeps its own until there is one again.
    if (form.method !== "post" || form.classList.contains("bench-form")) return;
    event.preventDefault();
    notSent(submitter, form);
  });
}
