/** What is owed on a job, looked up wherever it stands: page of the job, payments, bench, board, the owner's page and the API. */
import { expect } from "vitest";
import type { Owed } from "../../../src/acts/owed.js";
import { owedText } from "../../../src/wording/account.js";
import { money } from "../../../src/wording/figures.js";
import { words } from "../../http/support/noScript.js";
import type { Story, Visitor } from "../../http/support/story.js";
import { Paper } from "../../paper/pdf/tool.js";

const POUNDS = { locale: "en-GB", currency: "GBP" } as const;
export const cash = (minor: number): string => money(minor, POUNDS);

export async function api<T>({ opened }: Story, path: string): Promise<T> {
  const answer = await opened.call(path);
  expect(answer.status, path).toBe(200);
  return (await answer.json()) as T;
}

/** A PDF as poppler reads it, for whoever the visitor is. */
export async function printed({ opened }: Story, path: string, { jar }: Visitor) {
  const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join("; ");
  const answer = await opened.app.request(`http://localhost:4700${path}`, { headers: cookie ? { cookie } : {} });
  expect([answer.status, answer.headers.get("content-type")], path).toEqual([200, "application/pdf"]);
  const bytes = new Uint8Array(await answer.arrayBuffer());
  return { bytes, text: await (await Paper.of(bytes)).text() };
}

/** `state` as the board has it; the same figures in all places, and each of them said. */
export async function everywhere(told: Story, owner: Visitor, state: string, next: string, owed: Owed): Promise<void> {
  const { total, paid, due, deposit } = owed;
  expect((await api<{ owed: Owed }>(told, `/api/jobs/${told.jobId}/standing`)).owed).toEqual(owed);
  expect(await api(told, `/api/jobs/${told.jobId}`)).toMatchObject({ state, next });
  const text = owedText(owed, POUNDS);
  for (const page of [told.job, `${told.job}/payments`]) expect(words((await told.desk.get(page)).html), page).toContain(text);
  const bench = words((await told.desk.get(`${told.job}/bench`)).html);
  const awaited = `A deposit of ${cash(deposit)} is awaited before work begins.`;
  expect(bench.includes(awaited)).toBe(deposit > 0);
  expect(bench.includes("is awaited before work begins")).toBe(deposit > 0);
  const { html } = await told.desk.get(`/?state=${encodeURIComponent(state)}`);
  const row = words(/<tr>(?:(?!<\/tr>).)*$/s.exec(html.slice(0, html.indexOf("</tr>", html.indexOf(`href="${told.job}"`))))![0]);
  expect(row.replaceAll("\n", " ").toLowerCase()).toContain(next === "nothing" ? state : next);
  if (total !== undefined && state !== "declined") expect(row).toContain(cash(total));
  expect(row.includes(`of ${cash(deposit)}`)).toBe(deposit > 0 && next === "take the deposit");
  const left =
    due === undefined || state !== "closed"
      ? undefined
      : due === 0
        ? "paid"
        : due > 0
          ? `${cash(due)} unpaid`
          : `${cash(-due)} to pay back`;
  expect(row).toContain(left ?? (paid > 0 ? `${cash(paid)} paid` : ""));
  const theirs = words((await owner.get("/o/estimate")).html);
  expect(theirs.includes(`Deposit still to pay: ${cash(deposit)}.`)).toBe(deposit > 0);
  if (paid > 0) expect(theirs).toContain(`Paid so far: ${cash(paid)}`);
}
