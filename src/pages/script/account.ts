/** Buttons that need script on the sign-in and account pages: asking the browser for a passkey, printing the recovery codes. */
import { startAuthentication, startRegistration } from "@simplewebauthn/browser";

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
  const [name, invitation] = [new FormData(form).get("name"), new FormData(form).get("invitation")];
  const body = new URLSearchParams({ name: String(name ?? ""), invitation: String(invitation ?? "") });
  const answer = await fetch(button.dataset.options!, { method: "POST", body });
  const reply = await answer.json();
  if (!answer.ok) throw new Refused(reply.detail);
  return button.dataset.passkey === "create"
    ? startRegistration({ optionsJSON: reply })
    : startAuthentication({ optionsJSON: reply });
}
