/** The demo shop's first job, taken as far as a test wants by the pages alone. */
import { expect } from "vitest";
import { type Seen, visitor, words } from "./noScript.js";
import { demo, shop } from "./shop.js";

export type Shop = Awaited<ReturnType<typeof shop>>;
export type Visitor = ReturnType<typeof visitor>;

export const HAND = "Tamsin Oakhollow";

export interface Story {
  readonly opened: Shop;
  /** Path of the job's page. */
  readonly job: string;
  readonly jobId: string;
  readonly estimateId: string;
  readonly desk: Visitor;
}

export async function story(at = 0, options: Parameters<typeof shop>[0] = {}): Promise<Story> {
  const opened = await shop(options);
  const { id, estimates } = (await demo()).jobs[at]!;
  return { opened, job: `/jobs/${id}`, jobId: id, estimateId: estimates[0]!.id, desk: visitor(opened) };
}

export interface Link {
  /** What stands after the # of the address. */
  readonly fragment: string;
  readonly code: string;
}

export function linkOn({ html }: Seen): Link {
  const fragment = /id="address"[^>]*value="[^"#]*#([^"]+)"/.exec(html)?.[1];
  const code = /id="code">([^<]+)</.exec(html)?.[1];
  expect([fragment, code], words(html)).not.toContain(undefined);
  return { fragment: fragment!, code: code! };
}

/** Issues the open draft. */
export async function issued({ desk, job }: Story): Promise<Link> {
  const page = await desk.get(`${job}/issue`);
  const [, revision] = /<h1>Issue revision (\d+)/.exec(page.html) ?? [];
  return linkOn(await desk.press(page, `Issue revision ${revision}`, { by: HAND }));
}

/** The owner, come in by the link as the script would send it. */
export async function come({ opened }: Story, { fragment }: Link): Promise<{ owner: Visitor; seen: Seen }> {
  const owner = visitor(opened);
  const seen = await owner.send("/o/entry", [["link", fragment]]);
  expect(seen.status, words(seen.html)).toBe(200);
  return { owner, seen };
}

export const totalOn = (html: string): string => /id="total".*?<strong>([^<]+)</s.exec(html)?.[1] ?? "";
