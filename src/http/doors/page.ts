/** The door for people: a form of a page, read by the act's own fields, carried out, and shown again with what is wrong beside each field. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { z } from "zod";
import type { Act, Desk, Refusal } from "../../acts/act.js";
import { carryOut } from "../../acts/carryOut.js";
import { saysOf } from "../../acts/field.js";
import { fieldErrors, readForm, type Typed, typedFrom } from "../../acts/readForm.js";
import type { Seen } from "../../acts/record.js";
import { ANSWERS } from "../../acts/refusals.js";
import { writeForm } from "../../acts/writeForm.js";
import type { Kept } from "../../records/columns.js";
import type { StoredReply } from "../../records/replies.js";
import type { Saying } from "../../wording/saying.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { answered, replayed } from "./api.js";
import { deskOf, KEY_UNREADABLE, keyIn, onceOf } from "./desk.js";

/** A form as it came back: nothing typed is lost. */
export interface Again {
  readonly typed: Typed;
  /** The same by name, the last of each. */
  readonly fields: ReadonlyMap<string, string>;
  /** Field -> sentence; "" stands for the whole form, and says the refusal where there is one. */
  readonly errors: ReadonlyMap<string, string>;
  /** What the act says of its fields. */
  readonly says: ReadonlyMap<string, Saying>;
  /** Why it was not done, where no field is wrong. */
  readonly refusal?: Refusal;
  /** The refusal's, or 422. */
  readonly status: 404 | 409 | 422;
}

interface Tongue {
  readonly locale: string;
  readonly currency: string;
}

export type PageStatus = 200 | Again["status"];

export interface PageDoor<A, On> {
  readonly on: On | ((typed: Typed) => On);
  /** Of the figures typed. */
  readonly tongue: Tongue;
  /** Where to go when it is done. */
  readonly done?: (answer: A) => string;
  /** In place of that: what is told this once, such as a secret, and kept nowhere, so that nothing is kept for a repeat either. */
  readonly once?: (answer: A, typed: Typed) => Response | Promise<Response>;
  readonly show: (again: Again) => Response | Promise<Response>;
  /** What a script gets that asked for JSON in place of a page. */
  readonly told?: (answer: A) => unknown;
  /** Where the page has read what stands already. */
  readonly desk?: Desk;
  readonly said?: SaidOtherwise;
  /** A form with files in it, read before; `files` are what makes them the same. */
  readonly withFiles?: { readonly typed: Typed; readonly files: readonly string[] };
  /** A form that is gone back to and sent with something else in it is another one. */
  readonly anew?: true;
}

/** A form that says the act's fields not by their own names. */
export interface SaidOtherwise {
  /** As the act reads it. */
  readonly typed: Typed;
  /** Field of the act -> field of the form. */
  readonly names?: Readonly<Record<string, string>>;
  /** What could not be said so, by field of the form. */
  readonly wrong?: ReadonlyMap<string, string>;
}

/** Undefined where it is no form. */
export async function sentForm(c: Context<AppEnv>): Promise<Typed | undefined> {
  if (!/^application\/x-www-form-urlencoded\b/i.test(c.req.header("content-type") ?? "")) return undefined;
  return typedFrom(new URLSearchParams(await c.req.text()));
}

export const NOT_A_FORM = { detail: "Send the form as application/x-www-form-urlencoded." };

export const fieldsOf = (typed: Typed): ReadonlyMap<string, string> =>
  new Map(typed.names.map((name) => [name, typed.get(name) ?? ""]));

/** A form before anything was sent: a fresh token, and what is known already. */
export const fresh = (act: { readonly fields: z.ZodType }, known: Readonly<Record<string, string | undefined>> = {}) => ({
  fields: new Map([
    ["token", uuidv7()],
    ...Object.entries(known).filter((pair): pair is [string, string] => pair[1] !== undefined),
  ]),
  errors: new Map<string, string>(),
  says: saysOf(act.fields),
});

/** The form's hidden `token`, or the Idempotency-Key of a script, makes a form that is sent twice count once. */
export async function pageDoor<F extends z.ZodObject, A, On>(
  c: Context<AppEnv>,
  act: Act<F, A, On>,
  { on, tongue, done = () => c.req.path, once: tellOnce, show, told, said, withFiles, anew, desk = deskOf(c) }: PageDoor<A, On>,
): Promise<Response> {
  const typed = withFiles?.typed ?? (await sentForm(c));
  if (!typed) return refuse(c, "media type unsupported", NOT_A_FORM);
  const again = { typed, fields: fieldsOf(typed), says: saysOf(act.fields) };
  const asJson = told !== undefined && !(c.req.header("accept") ?? "").includes("text/html");
  const header = c.req.header("idempotency-key");
  const key = header === undefined ? typed.get("token") : keyIn(header);
  if (header !== undefined && key === undefined) return refuse(c, "header refused", KEY_UNREADABLE);

  const { names = {}, wrong = new Map<string, string>() } = said ?? {};
  const named = (errors: ReadonlyMap<string, string>) =>
    new Map([...[...errors].map(([field, text]) => [names[field] ?? field, text] as const), ...wrong]);
  const read = readForm(act.fields, said?.typed ?? typed, { ...tongue, hand: desk.staff?.name });
  if (!read.ok || wrong.size > 0) {
    const errors = named(read.ok ? new Map() : read.errors);
    return asJson ? refuse(c, "input refused", { errors: faultsOf(errors) }) : show({ ...again, errors, status: 422 });
  }
  const reply = (answer: A): StoredReply =>
    asJson
      ? { status: 200, headers: { "content-type": "application/json" }, body: JSON.stringify(told(answer)) }
      : { status: 303, headers: { location: done(answer) }, body: "" };
  const sent =
    key &&
    !tellOnce &&
    (await onceOf(c, key, withFiles ? [...fieldsOf(typed).values(), ...withFiles.files] : [await c.req.text()]));
  const once = sent && { ...sent, reply, ...(anew && header === undefined && { key: `${key} ${sent.fingerprint}` }) };
  const place = typeof on === "function" ? (on as (typed: Typed) => On)(typed) : on;
  const outcome = await carryOut(act, desk, read.value, place, once || undefined);
  if (outcome.ok && !("replayed" in outcome) && tellOnce) return tellOnce(outcome.answer, typed);
  if (outcome.ok) return "replayed" in outcome ? replayed(c, outcome.replayed) : answered(c, reply(outcome.answer));
  const { refusal } = outcome;
  if (asJson) return refuse(c, refusal.is, refusal);
  if (ANSWERS[refusal.is].status === 404) return refuse(c, refusal.is, refusal);
  if (refusal.errors) return show({ ...again, errors: named(fieldErrors(refusal.errors, act.fields, read.rows)), status: 422 });
  if (refusal.is === "version moved")
    return show({ ...meanwhile(act.fields, again, refusal.current as Kept, tongue), refusal, status: 409 });
  const detail = refusal.is === "idempotency key reused" ? SENT_BEFORE : (refusal.detail ?? ANSWERS[refusal.is].title);
  return show({ ...again, errors: new Map([["", detail]]), refusal, status: refusal.is === "input refused" ? 422 : 409 });
}

const SENT_BEFORE =
  "This form was sent before and is done; gone back to and changed, it is not done again. Open the page anew to do another.";

/** The version of a record that a form was made from. */
export const seenIn = (typed: Typed): Seen => [Number(typed.get("version")) || 0];

/** Someone else saved first: what they wrote stands beside each field that differs, and the form is of their version now. */
function meanwhile<A extends Pick<Again, "fields">>(fields: z.ZodObject, again: A, current: Kept, tongue: Tongue) {
  const theirs = writeForm(fields, current, tongue);
  const says = saysOf(fields);
  // A tick that is no part of the record asks for something to be done.
  const kept = [...says.keys()].filter((name) => says.get(name)!.kind !== "tick" || name in current);
  const said = (name: string) => (again.fields.get(name) ?? "").replaceAll("\r\n", "\n").trim();
  const drawn = drawnIn(again.fields);
  const now = new Map([...again.fields, ...standsIn(current, theirs)]);
  const errors = kept.flatMap((name): (readonly [string, string])[] => {
    const text = theirs.get(name) ?? "";
    if (said(name) === text) return [];
    if (drawn?.get(name)?.trim() !== said(name))
      return [[name, `Someone else saved '${text}' here meanwhile. Save again to keep yours.`]];
    if (theirs.has(name)) now.set(name, text);
    else now.delete(name);
    return [[name, "Someone else changed this meanwhile and you did not, so it reads as they saved it."]];
  });
  return {
    ...again,
    fields: now,
    errors: new Map(errors.length > 0 ? errors : [["", "Someone else saved the same meanwhile; nothing is left to save."]]),
  };
}

/** The form of a change: the record as it stands. */
export function changing(act: { readonly fields: z.ZodType }, record: Kept, tongue: Tongue) {
  const stands = writeForm(act.fields, record, tongue);
  return {
    fields: new Map([...stands, ...standsIn(record, stands)]),
    errors: new Map<string, string>(),
    says: saysOf(act.fields),
  };
}

/** What a form is drawn from, which it carries unseen. */
const standsIn = ({ version }: Kept, stands: ReadonlyMap<string, string>) =>
  [
    ["version", String(version)],
    ["drawn", JSON.stringify([...stands])],
  ] as const;

/** Field -> text, with nothing where the record said nothing; undefined of a form that carries none. */
function drawnIn(fields: ReadonlyMap<string, string>): { readonly get: (name: string) => string } | undefined {
  try {
    const pairs = JSON.parse(fields.get("drawn") ?? "") as [string, string][];
    const texts = new Map(pairs.map(([name, text]) => [String(name), String(text)] as const));
    return { get: (name) => texts.get(name) ?? "" };
  } catch {
    return undefined;
  }
}

const faultsOf = (errors: ReadonlyMap<string, string>) =>
  [...errors].map(([field, detail]) => ({ pointer: `/${field.replaceAll(".", "/")}`, name: "shape unknown", detail }));
