/** Who is of the staff, and the list of sign-ins. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { StaffPage } from "../../pages/staff/staff.js";
import { apiTokens } from "../../records/apiTokens.js";
import { INVITATION_DAYS, invitations } from "../../records/invitations.js";
import { sessions } from "../../records/sessions.js";
import { shopSettings } from "../../records/settings.js";
import { type SignInWhat, signInEvents } from "../../records/signInEvents.js";
import { ROLES, type Role, type StaffChange, staff } from "../../records/staff.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { copyScriptFor, frameFor, pageAnswer } from "../site/frame.js";
import { nameFault, sentFields } from "./form.js";

export const staffPages = new Hono<AppEnv>();

const SHOWN = 100;
const LAST_MANAGER = "This is the last manager who can sign in; make someone else a manager first.";
const SAID: Readonly<Record<string, string>> = {
  role: "The role is changed.",
  closed: "The account is closed: its sessions and tokens open nothing any more.",
  opened: "The account is open again.",
};

staffPages.get("/staff", (c) => show(c, { say: SAID[c.req.query("said") ?? ""] }));

staffPages.post("/staff", async (c) => {
  const fields = await sentFields(c);
  const [name, role] = [fields.text("name"), roleOf(fields.text("role"))];
  const typed = new Map([
    ["name", name],
    ["role", role],
  ] as const);
  const wrong = nameFault(name);
  if (wrong) return show(c, { fields: typed, errors: { name: wrong } });
  const [id, at] = [uuidv7(), now(c)];
  if (!(await staff.add(c.var.db, id, name, role, at)))
    return show(c, { fields: typed, errors: { name: "Someone has an account by this name already; choose another." } });
  return invite(c, id, name);
});

staffPages.post("/staff/:id/invitation", async (c) => {
  const person = await staff.find(c.var.db, c.req.param("id"));
  if (!person || person.leftAt) return refuse(c, "not found", { detail: "There is no such open account." });
  return invite(c, person.id, person.name);
});

staffPages.post("/staff/:id/role", async (c) => {
  const role = roleOf((await sentFields(c)).text("role"));
  return changed(c, await staff.changeRole(c.var.db, c.req.param("id"), role, now(c)), "role changed", "role");
});

/** What was signed in before stays out when the account is opened again. */
staffPages.post("/staff/:id/closing", async (c) => {
  const { db } = c.var;
  const id = c.req.param("id");
  const change = await staff.leave(db, id, now(c));
  if (change === "changed") {
    await sessions.endOthers(db, id, undefined, now(c));
    await apiTokens.revokeAllOf(db, id, now(c));
  }
  return changed(c, change, "account closed", "closed");
});

staffPages.post("/staff/:id/opening", async (c) =>
  changed(c, await staff.comeBack(c.var.db, c.req.param("id"), now(c)), "account opened again", "opened"),
);

const now = (c: Context<AppEnv>) => c.var.clock().toISOString();
const roleOf = (text: string): Role => ROLES.find((role) => role === text) ?? "technician";

async function invite(c: Context<AppEnv>, id: string, name: string) {
  const by = c.var.staff!.id;
  const secret = await invitations.add(c.var.db, id, by, now(c));
  await signInEvents.adding(c.var.db, { what: "invited", staffId: id, byId: by }, now(c));
  const from = c.req.header("origin") ?? "";
  const here = new URL(URL.canParse(from) ? from : c.var.origin).origin;
  return show(c, { link: { name, address: `${here}/sign-in/invitation?secret=${secret}`, days: INVITATION_DAYS } });
}

async function changed(c: Context<AppEnv>, change: StaffChange, what: SignInWhat, said: string) {
  if (change === "missing") return refuse(c, "not found", { detail: "There is no such account." });
  if (change === "last manager") return show(c, { errors: { "": LAST_MANAGER } });
  await signInEvents.adding(c.var.db, { what, staffId: c.req.param("id")!, byId: c.var.staff!.id }, now(c));
  return c.redirect(`/staff?said=${said}`, 303);
}

interface Showing {
  readonly say?: string | undefined;
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: Readonly<Record<string, string>>;
  readonly link?: { readonly name: string; readonly address: string; readonly days: number };
}

async function show(c: Context<AppEnv>, { say, fields = new Map(), errors = {}, link }: Showing) {
  const { db } = c.var;
  const [shop, all, open, events] = await Promise.all([
    shopSettings(db),
    staff.all(db),
    invitations.openUntil(db, now(c)),
    signInEvents.latest(db, SHOWN),
  ]);
  const when = (at: string) => moment(at, shop.locale, shop.timeZone);
  const wrong = new Map(Object.entries(errors));
  return pageAnswer(
    c,
    <StaffPage
      frame={frameFor(c, shop.name)}
      script={copyScriptFor(c)}
      people={all.map(({ id, name, role, joinedAt, leftAt }) => ({
        id,
        name,
        role,
        joined: joinedAt !== undefined,
        ...(leftAt && { left: when(leftAt) }),
        ...(open.has(id) && { invitedUntil: when(open.get(id)!) }),
      }))}
      events={events.map(({ at, ...event }) => ({ ...event, at: when(at) }))}
      link={link}
      fields={fields}
      errors={wrong}
      say={say}
    />,
    wrong.size > 0 ? 422 : 200,
  );
}
