/** The intake page as an answer. */
import type { Context } from "hono";
import type { Fields } from "../../pages/form/fields.js";
import type { ConflictView } from "../../pages/intake/conflict.js";
import { IntakePage } from "../../pages/intake/intakePage.js";
import { type IntakeView, viewOf } from "../../pages/intake/view.js";
import type { Estimate } from "../../records/estimates.js";
import { jobs } from "../../records/jobs.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer, scriptFor } from "./frame.js";
import { around, fieldsOfKept } from "./intakeFields.js";
import type { Shop } from "./shop.js";

export interface Shown {
  readonly say?: string | undefined;
  readonly conflict?: ConflictView;
  readonly status?: 200 | 409 | 422;
}

export async function show(
  c: Context<AppEnv>,
  { settings }: Shop,
  view: IntakeView,
  found: Estimate | undefined,
  shown: Shown = {},
) {
  const job = found && (await jobs.find(c.var.db, found.jobId));
  const heading = job && found ? `${job.number}, revision ${found.revision}` : "New estimate";
  const lead = job && found && (
    <p class="links">
      <a href={`/jobs/${job.id}`}>The job</a>
      <a href={`/jobs/${job.id}/photos`}>Photos</a>
      {found.sheet ? <a href={`/estimates/${found.id}.pdf`}>Estimate PDF</a> : null}
      {found.sheet ? <a href={`/estimates/${found.id}/bench-sheet.pdf`}>Bench sheet PDF</a> : null}
      {found.sheet ? <a href={`/estimates/${found.id}/shop-copy.pdf`}>Shop's copy PDF</a> : null}
    </p>
  );
  const page = (
    <IntakePage
      frame={frameFor(c, settings.name)}
      script={scriptFor(c)}
      view={view}
      heading={heading}
      lead={lead}
      say={shown.say}
      conflict={shown.conflict}
    />
  );
  return pageAnswer(c, page, shown.status);
}

/** Theirs beside ours; saving again then knowingly keeps ours. */
export async function showConflict(c: Context<AppEnv>, shop: Shop, fields: Fields, current: Estimate) {
  const theirs = await fieldsOfKept(c, current, shop);
  const ours = new Map(fields).set("meta.version", String(current.version));
  const time = new Intl.DateTimeFormat(shop.settings.locale, {
    dateStyle: "medium",
    timeStyle: "short",
    timeZone: shop.settings.timeZone,
  });
  const conflict = {
    theirs,
    savedAt: time.format(new Date(current.updatedAt)),
    version: current.version,
    href: `/estimates/${current.id}`,
  };
  return show(c, shop, viewOf(ours, shop.context, await around(c, current)), current, { conflict, status: 409 });
}
