import { describe, expect, it } from "vitest";
import { come, issued, story } from "../support/story.js";

describe("the days of a job for a calendar", () => {
  it("are the last day of the offer until it is answered, and then the day the work is about ready", async () => {
    const told = await story();
    const none = await told.desk.get(`${told.job}/calendar.ics`);
    expect(none.status).toBe(404);
    const { owner, seen } = await come(told, await issued(told));
    const before = (await told.desk.get(`${told.job}/calendar.ics`)).html;
    expect(before).toContain("-offer@ohmwright");
    expect(before).not.toContain("-ready@ohmwright");
    expect(seen.html).toContain('href="/o/calendar.ics"');
    const theirs = await owner.get("/o/calendar.ics");
    expect(theirs.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    expect(theirs.html).toContain("-offer@ohmwright");
    expect(theirs.html.replaceAll("\r\n ", "")).toMatch(/URL:http:\/\/[^/]+\/o\r\n/);

    const check = await owner.press(seen, /^Agree to/, { name: "Žofie Kapradinová" });
    await owner.press(check, /^Agree to/);
    const after = (await told.desk.get(`${told.job}/calendar.ics`)).html;
    expect(after).not.toContain("-offer@ohmwright");
    expect(after).toContain("-ready@ohmwright");
  });

  it("are nobody's without a link", async () => {
    const told = await story();
    const answer = await told.desk.get("/o/calendar.ics");
    expect(answer.html).not.toContain("BEGIN:VCALENDAR");
  });
});
