/** The first page of a shop whose jobs are all closed. Numbers are invented. */
import { expect, it } from "vitest";
import { JobList } from "../../src/pages/shop/jobList.js";

const FRAME = { shop: "Bellfield", style: "/s", icon: "/i", script: "/j", guarded: false };

it.each([
  [false, "what is still to be paid on them", "Start with"],
  [true, "Start with", "what is still to be paid on them"],
])("with none open leads to the closed ones, and begins only where there never was one: %s", (none, said, unsaid) => {
  const html = String(
    <JobList
      frame={FRAME as never}
      locale="en-GB"
      rows={[]}
      unpaid={[]}
      states={[
        { name: "open", jobs: 0 },
        { name: "closed", href: "/?state=closed" },
      ]}
      first
      none={none}
      demo={false}
      unsettled={false}
      untouched={false}
      begun={[]}
    />,
  );
  const text = html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");
  expect(text).toContain(said);
  expect(text).not.toContain(unsaid);
  expect(html.includes("/?state=closed")).toBe(!none);
});
