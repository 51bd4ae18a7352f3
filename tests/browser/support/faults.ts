/** What axe-core finds wrong with a page. */
import axe from "axe-core";
import type { Page } from "playwright-core";

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** Each fault with the element it is on and what to do about it, on all of the page or a part of it. Dark differs from light in colours alone. */
export async function faultsOn(page: Page, scheme: "light" | "dark" = "light", part = "html"): Promise<readonly string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe.source);
  const runOnly =
    scheme === "dark" ? { type: "rule" as const, values: ["color-contrast"] } : { type: "tag" as const, values: RULES };
  return page.evaluate(
    async ([part, runOnly]) => {
      const { axe } = window as unknown as { axe: typeof import("axe-core") };
      const { violations } = await axe.run(part, { runOnly, resultTypes: ["violations"] });
      return violations.flatMap(({ id, nodes }) =>
        nodes.map(({ target, failureSummary }) => `${id} ${target.join(" ")}: ${failureSummary}`),
      );
    },
    [part, runOnly] as const,
  );
}

/** By how much the page is wider than its window. */
export const overflowOf = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
