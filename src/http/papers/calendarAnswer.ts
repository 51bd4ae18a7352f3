/** The days of a job that belong in a calendar: when the offer ends while it waits for an answer, and when the agreed work is about ready. */
import type { Context } from "hono";
import { jobAsItStands } from "../../acts/job.js";
import { today } from "../../acts/today.js";
import { type CalendarDay, calendar } from "../../documents/calendar.js";
import { addDays } from "../../estimating/day.js";
import { dayName } from "../../wording/sending.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

/** `pageUrl`: what the calendar points back to. */
export async function calendarAnswer(c: Context<AppEnv>, jobId: string, pageUrl?: string): Promise<Response> {
  const stands = await jobAsItStands(c.var.db, jobId);
  if (!stands) return refuse(c, "not found", { detail: "There is no such job." });
  const { job, settings, unit, current } = stands;
  const named = { number: job.number, unit: `${unit.maker} ${unit.model}`, shop: settings.name };
  const days: CalendarDay[] = [];
  const agreed = stands.agreed();
  const offered = current && !stands.answerTo(current.id) ? stands.revision(current.id) : undefined;
  if (offered?.sheet)
    days.push({
      uid: `${jobId}-offer@ohmwright`,
      revision: offered.revision,
      on: offered.sheet.validUntil,
      ...dayName({ is: "offer ends", revision: offered.revision, ...named, language: offered.input.paperwork?.language }),
      ...(pageUrl && { url: pageUrl }),
    });
  if (agreed) {
    const agreedOn = today(new Date(agreed.agreement.at), settings.timeZone);
    const { total } = agreed.sheet.days;
    days.push({
      uid: `${jobId}-ready@ohmwright`,
      revision: agreed.agreement.revision,
      on: addDays(agreedOn, total),
      ...dayName({ is: "ready", days: total, agreedOn, ...named, language: agreed.input.paperwork?.language }),
      ...(pageUrl && { url: pageUrl }),
    });
  }
  if (days.length === 0)
    return refuse(c, "not found", { detail: "No offer waits for an answer and nothing is agreed: there is no day to keep." });
  return c.body(calendar(days, c.var.clock().toISOString()), 200, {
    "content-type": "text/calendar; charset=utf-8",
    "content-disposition": `attachment; filename="${job.number}.ics"`,
  });
}
