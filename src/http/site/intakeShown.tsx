/** The intake page as an answer, and what it says when someone else saved first. */
import type { Context } from "hono";
import type { Refusal } from "../../acts/act.js";
import { broughtUpToDate } from "../../pages/form/drawn.js";
import type { Fields } from "../../pages/form/fields.js";
import { fieldsForOwner } from "../../pages/form/fieldsFor.js";
import { labelOf } from "../../pages/form/label.js";
import type { Begun } from "../../pages/frame/begun.js";
import type { ConflictView } from "../../pages/intake/conflict.js";
import { IntakePage } from "../../pages/intake/intakePage.js";
import { type IntakeView, viewOf } from "../../pages/intake/view.js";
import { owners } from "../../records/owners.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer, scriptFor } from "../frame/frame.js";
import { around, type Drafted, fieldsOfKept, withMapSeen } from "./intakeFields.js";
import type { Shop } from "./shop.js";

export interface Shown {
  readonly say?: string | undefined;
  readonly conflict?: ConflictView;
  readonly begun?: readonly Begun[];
  readonly status?: 200 | 409 | 422;
}

export function show(c: Context<AppEnv>, { settings }: Shop, view: IntakeView, found: Drafted | undefined, shown: Shown = {}) {
  const lead = found && (
    <p class="links">
      <a href={`/jobs/${found.job.id}`}>The job</a>
      <a href={`/jobs/${found.job.id}/photos`}>Photos</a>
      <a href={`/jobs/${found.job.id}/papers`}>What the owner gets</a>
      <a href={`/estimates/${found.estimate.id}/intake-receipt.pdf`}>Intake receipt and tag</a>
      {found.estimate.sheet ? <a href={`/estimates/${found.estimate.id}.pdf`}>Estimate PDF</a> : null}
      {found.estimate.sheet ? <a href={`/estimates/${found.estimate.id}/bench-sheet.pdf`}>Bench sheet PDF</a> : null}
      {found.estimate.sheet ? <a href={`/estimates/${found.estimate.id}/shop-copy.pdf`}>Shop's copy PDF</a> : null}
    </p>
  );
  const page = (
    <IntakePage
      frame={frameFor(c, settings.name)}
      script={scriptFor(c)}
      view={view}
      heading={found ? `${found.job.job.number}, revision ${found.estimate.revision}` : "New estimate"}
      lead={lead}
      say={shown.say}
      conflict={shown.conflict}
      begun={shown.begun}
    />
  );
  return pageAnswer(c, page, shown.status);
}

/** The field that a pointer into what was said stands for. */
const FIELD: Readonly<Record<string, string>> = {
  "/input/unit/declaredValue": "unit.value",
  "/input/unit/hazards": "part-hazards",
  "/map": "meta.keepModel",
};
const fieldAt = (pointer: string): string => FIELD[pointer] ?? pointer.replace("/input", "").slice(1).replaceAll("/", ".");

/** Both versions beside each field that both changed, and in one list; saving again then knowingly keeps ours. */
export async function showConflict(
  c: Context<AppEnv>,
  shop: Shop,
  fields: Fields,
  { errors = [] }: Refusal,
  current: Drafted | undefined,
) {
  const { db } = c.var;
  const theirs = new Map(current ? fieldsOfKept(current, shop) : []);
  const chosen = await owners.find(db, fields.get("owner.id") ?? "");
  for (const [name, text] of chosen ? fieldsForOwner(chosen) : []) theirs.set(name, text ?? "");
  const ours = await withMapSeen(db, broughtUpToDate(fields, theirs));
  if (current) ours.set("meta.version", theirs.get("meta.version")!);

  const view = viewOf(ours, shop.context, { ...(await around(c, current)), unsaved: true });
  const told = errors.map(({ pointer }): readonly [string, string] => {
    const field = fieldAt(pointer);
    const label = labelOf(field, view.read.draft, view.context);
    if (field === "meta.keepModel")
      return [
        field,
        `A map of ${ours.get("unit.maker")} ${ours.get("unit.model")} is on record and reads otherwise. Save again to put this one in its place, or untick it.`,
      ];
    const text = theirs.get(field);
    return [
      field,
      `${label}: someone else changed it meanwhile; ${text ? `by now it reads '${text}'` : "by now it is empty"}. Save again to keep yours.`,
    ];
  });
  const { locale, timeZone } = shop.settings;
  const conflict = current && {
    theirs,
    savedAt: moment(lastOf(current), locale, timeZone),
    version: current.estimate.version,
    href: `/estimates/${current.estimate.id}`,
  };
  return show(
    c,
    shop,
    { ...view, errors: new Map(told), complaints: [...told.map(([field, text]) => ({ field, text })), ...view.complaints] },
    current,
    {
      ...(conflict && { conflict }),
      say: "Not saved yet: someone else saved meanwhile. Nothing you typed is lost.",
      status: 409,
    },
  );
}

/** When what stands was last written. */
const lastOf = ({ estimate, job }: Drafted): string =>
  [estimate.updatedAt, job.owner.updatedAt, job.unit.updatedAt, job.job.updatedAt].sort().at(-1)!;
