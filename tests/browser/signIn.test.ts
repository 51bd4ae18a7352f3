/** A shop set up and signed in to with passkeys, by Chromium's virtual authenticator (W3C Web Authentication Level 3, 11). */
import type { BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { faultsOn, overflowOf } from "./support/faults.js";
import { field, type OpenShop, openShop, picture } from "./support/shop.js";

let shop: OpenShop;
beforeAll(async () => {
  shop = await openShop("empty");
});
afterAll(() => shop.close());

const PHONE: BrowserContextOptions = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true };
const here = () => shop.url.replace("127.0.0.1", "localhost");

/** A page with a security key of its own in the device. */
async function withAuthenticator(options: BrowserContextOptions = PHONE) {
  const page = await shop.page({ ...options, baseURL: here() });
  const cdp = await page.context().newCDPSession(page);
  await cdp.send("WebAuthn.enable");
  const { authenticatorId } = await cdp.send("WebAuthn.addVirtualAuthenticator", {
    options: {
      protocol: "ctap2",
      transport: "internal",
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  });
  const verified = (isUserVerified: boolean) => cdp.send("WebAuthn.setUserVerified", { authenticatorId, isUserVerified });
  return { page, verified };
}

async function looked(page: Page, name: string, dark = false): Promise<void> {
  expect(await faultsOn(page), name).toEqual([]);
  expect(await overflowOf(page), name).toBe(0);
  await picture(page, `who-${name}`);
  if (!dark) return;
  await page.emulateMedia({ colorScheme: "dark" });
  expect(await faultsOn(page, "dark"), `${name}, dark`).toEqual([]);
  await picture(page, `who-${name}-dark`);
  await page.emulateMedia({ colorScheme: "light" });
}

it("sets up the shop by a passkey, signs out and in by it, invites a technician, and keeps a form over an ended sign-in", async () => {
  const { page, verified } = await withAuthenticator();
  await page.goto("/");
  await looked(page, "offer");
  await page.getByRole("link", { name: "Set up the shop and your account" }).click();
  // What the browser knows: its language and its clock.
  expect(await field(page, "currency").inputValue()).toBe("GBP");
  expect(await field(page, "timeZone").inputValue()).toBe(
    await page.evaluate(() => Intl.DateTimeFormat().resolvedOptions().timeZone),
  );
  await looked(page, "set-up", true);
  // Begun at an address that can have no passkey: what was typed goes along to the one that can.
  await page.goto(`${shop.url}/set-up`);
  await field(page, "shopName").fill("Quellmarsh & Söhne");
  await field(page, "address").fill("3 Lock Lane\nLarkholt");
  await field(page, "passphrase").fill("kettle thimble orchard");
  await field(page, "feeCredited").check();
  await page.getByRole("link", { name: "open this page at localhost" }).click();
  await page.waitForURL(`${here()}/set-up`);
  expect(await field(page, "shopName").inputValue()).toBe("Quellmarsh & Söhne");
  expect(await field(page, "address").inputValue()).toBe("3 Lock Lane\nLarkholt");
  expect(await field(page, "feeCredited").isChecked()).toBe(true);
  expect(await field(page, "passphrase").inputValue()).toBe("");
  await field(page, "shopName").fill("Quellmarsh Repairs");
  await field(page, "name").fill("Tamsin Oakhollow");
  await page.getByRole("button", { name: "Make a passkey" }).click();
  await page.getByText("Hourly rate is missing; give an amount.").waitFor();
  await field(page, "hourlyRate").fill("60");
  await field(page, "tax").selectOption("none");
  await page.getByRole("button", { name: "Make a passkey" }).click();
  await page.getByRole("heading", { name: "Recovery codes of Tamsin Oakhollow" }).waitFor();
  expect(await page.locator(".codes code").count()).toBe(10);
  await looked(page, "codes");
  await page.getByRole("link", { name: "I have put them away" }).click();
  await page.getByRole("button", { name: "Menu" }).click();
  await page.getByRole("link", { name: "Tamsin Oakhollow" }).click();
  await looked(page, "account");
  await page.getByRole("button", { name: "Make a passkey" }).click();
  await page.getByText("This device has a passkey of yours already").waitFor();
  await page.getByRole("link", { name: "API tokens" }).click();
  await field(page, "name").fill("Till");
  await page.getByRole("button", { name: "Make the token" }).click();
  await looked(page, "tokens");

  await page.getByRole("link", { name: "Staff" }).click();
  await field(page, "name").fill("Wilmot Farrow");
  await page.getByRole("button", { name: "Make an invitation" }).click();
  const link = await page.locator("#address").inputValue();
  await looked(page, "staff", true);

  // A bench page kept to be read goes when its reader signs out, from any page; what waits to be sent does not.
  await page.evaluate(async () => {
    await (await caches.open("ohmwright bench")).put("/jobs/one/bench", new Response("a job of the shop"));
    localStorage.setItem("ohmwright bench one", "[]");
  });
  await page.getByRole("button", { name: "Menu" }).click();
  await page.getByRole("button", { name: "Sign out" }).click();
  await page.waitForFunction(async () => !(await caches.has("ohmwright bench")));
  expect(await page.evaluate(() => localStorage.getItem("ohmwright bench one"))).toBe("[]");
  await looked(page, "sign-in");
  await verified(false);
  await page.getByRole("button", { name: "Sign in with a passkey" }).click();
  await page.getByText("No passkey was used").waitFor();
  await verified(true);
  await page.getByRole("button", { name: "Sign in with a passkey" }).click();
  await page.getByRole("heading", { name: "Jobs" }).waitFor();

  const bench = await withAuthenticator();
  await bench.page.goto(link);
  await looked(bench.page, "invitation");
  await bench.page.getByRole("button", { name: "Make a passkey" }).click();
  await bench.page.getByRole("link", { name: "I have put them away" }).click();

  // The session is taken away while a form is being filled in.
  await page.goto("/estimates/new?open=intake");
  await field(page, "owner.name").fill("Žofie Kapradinová");
  await page.context().clearCookies();
  await page.getByRole("button", { name: "Save the estimate" }).click();
  await page.getByText("What you typed is kept here").waitFor();
  await looked(page, "held");
  await page.getByRole("button", { name: "Sign in with a passkey" }).click();
  await page.getByRole("heading", { name: "Send what you typed" }).waitFor();
  await looked(page, "send-again", true);
  await page.getByRole("button", { name: "Go on with the form" }).click();
  await field(page, "unit.maker").waitFor();
  expect(await field(page, "owner.name").inputValue()).toBe("Žofie Kapradinová");
});

it("at an address without a name the page says where passkeys work", async () => {
  const page = await shop.page(PHONE);
  await page.goto("/sign-in");
  await page.getByRole("link", { name: "open this page at localhost" }).waitFor();
});
