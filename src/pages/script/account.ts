/** Sign-in, account and set-up pages: asking the browser for a passkey, printing the recovery codes, and what the browser knows of the shop. */
import { startAuthentication, startRegistration } from "@simplewebauthn/browser";
import { currencyOf } from "../../wording/currencyName.js";

// Nobody has said anything of the shop yet: where the browser is tells its money, its clock and how it writes figures.
if (document.querySelector("form[data-guess]")) {
  const { language } = navigator;
  fill("currency", currencyOf(language));
  fill("timeZone", Intl.DateTimeFormat().resolvedOptions().timeZone);
  fill("locale", language);
}

// From an address without a name to one that has it: what was typed goes along behind the #, which no server is told; secrets do not.
const CARRIED = "#typed=";
for (const link of document.querySelectorAll<HTMLAnchorElement>("form[action='/set-up'] a[data-carry]"))
  link.addEventListener("click", () => {
    link.href = `${link.href.split("#")[0]}${CARRIED}${encodeURIComponent(String(plainOf(link.closest("form")!)))}`;
  });
if (location.hash.startsWith(CARRIED) && document.querySelector("form[action='/set-up']")) {
  for (const [name, value] of new URLSearchParams(decodeURIComponent(location.hash.slice(CARRIED.length)))) fill(name, value);
  history.replaceState(null, "", location.pathname);
}

/** All that was typed but secrets and their proofs. */
function plainOf(form: HTMLFormElement): URLSearchParams {
  const typed = [...new FormData(form)].filter(
    ([name, value]) => typeof value === "string" && !/^(pass|secret|current)/.test(name),
  );
  return new URLSearchParams(typed as [string, string][]);
}

function fill(name: string, value: string | undefined): void {
  const field = document.querySelector<HTMLInputElement | HTMLSelectElement>(
    `[name="${CSS.escape(name)}"]:not([type=hidden], [type=password])`,
  );
  if (!field || !value || (field instanceof HTMLSelectElement && ![...field.options].some((option) => option.value === value)))
    return;
  if (field.type === "checkbox") (field as HTMLInputElement).checked = true;
  else field.value = value;
}

// Signing out ends here, from whatever page. Bench pages kept to be read are for who is signed in; entries that wait stay.
if (document.querySelector('form[action="/sign-in"]') && "caches" in window) void caches.delete("ohmwright bench");

for (const button of document.querySelectorAll<HTMLButtonElement>("button[data-print]")) {
  button.hidden = false;
  button.addEventListener("click", () => window.print());
}

for (const button of document.querySelectorAll<HTMLButtonElement>("button[data-passkey]")) {
  const form = button.form!;
  const said = form.querySelector(".passkey-said");
  const say = (text: string) => {
    if (said) said.textContent = text;
  };
  if (!("PublicKeyCredential" in window)) {
    say("This browser has no passkeys here.");
    continue;
  }
  button.hidden = false;
  button.addEventListener("click", async () => {
    button.disabled = true;
    say("");
    try {
      const passkey = await ask(button, form);
      form.querySelector<HTMLInputElement>('[name="passkey"]')!.value = JSON.stringify(passkey);
      form.submit();
    } catch (error) {
      say(
        error instanceof Refused
          ? error.message
          : (REASONS[(error as Error).name] ?? "The browser could not use a passkey. Try again."),
      );
      button.disabled = false;
    }
  });
}

class Refused extends Error {}

const REASONS: Readonly<Record<string, string>> = {
  NotAllowedError: "No passkey was used: it was cancelled, or took too long. Try again.",
  InvalidStateError: "This device has a passkey of yours already; sign in with that.",
  SecurityError: "This address cannot have passkeys. Open the shop over HTTPS by its name.",
};

async function ask(button: HTMLButtonElement, form: HTMLFormElement): Promise<object> {
  // What is wrong with the form is told before the device makes a passkey.
  const answer = await fetch(button.dataset.options!, { method: "POST", body: plainOf(form) });
  const reply = await answer.json();
  if (!answer.ok) throw new Refused(reply.detail);
  return button.dataset.passkey === "create"
    ? startRegistration({ optionsJSON: reply })
    : startAuthentication({ optionsJSON: reply });
}
