/** Who is of the staff, and the list of sign-ins. */
import { type Context, Hono } from "hono";
import type { z } from "zod";
import type { Act } from "../../acts/act.js";
import { addStaff, closeAccount, everyone, giveRole, type Invited, inviteStaff, openAccount } from "../../acts/staff.js";
import { StaffPage, type StaffPageProps } from "../../pages/staff/staff.js";
import { INVITATION_DAYS } from "../../records/entryTerms.js";
import { shopSettings } from "../../records/settings.js";
import { signInEvents } from "../../records/signInEvents.js";
import { staff } from "../../records/staff.js";
import { timersOn } from "../../records/timers.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { type Again, fresh, pageDoor } from "../doors/page.js";
import { copyScriptFor, frameFor, pageAnswer } from "../frame/frame.js";
import { opensElsewhere } from "../guard/host.js";

export const staffPages = new Hono<AppEnv>();

const SHOWN = 100;
const SAID: Readonly<Record<string, string>> = {
  role: "The role is changed.",
  closed:
    "The account is closed: its sessions, tokens and ways in open nothing any more, and a timer that ran is stopped and its time logged.",
  opened: "The account is open again. Make a new invitation: its old ways in are gone.",
};

staffPages.get("/staff", (c) => show(c, { say: SAID[c.req.query("said") ?? ""] }));

staffPages.post("/staff", (c) =>
  door(c, addStaff, "", {}, ({ name, invitation }) => show(c, { link: linkFor(c, name, invitation) })),
);

staffPages.post("/staff/:id/invitation", (c) =>
  door(c, inviteStaff, "", on(c), async (invited) => {
    const { name } = (await staff.find(c.var.db, c.req.param("id")))!;
    return show(c, { link: linkFor(c, name, invited) });
  }),
);

staffPages.post("/staff/:id/role", (c) => door(c, giveRole, "role", on(c)));
staffPages.post("/staff/:id/closing", (c) => door(c, closeAccount, "closed", on(c)));
staffPages.post("/staff/:id/opening", (c) => door(c, openAccount, "opened", on(c)));

const on = (c: Context<AppEnv, "/staff/:id/role">) => ({ staff: c.req.param("id") });

async function door<F extends z.ZodObject, A, On>(
  c: Context<AppEnv>,
  act: Act<F, A, On>,
  said: string,
  of: On,
  once?: (answer: A) => Promise<Response>,
) {
  const tongue = await shopSettings(c.var.db);
  const done = () => `/staff?said=${said}`;
  return pageDoor(c, act, { on: of, tongue, done, ...(once && { once }), show: (again) => show(c, { again }) });
}

/** Where the browser sees the shop, which may be another address than owners reach it at; theirs where only this machine opens it. */
function linkFor(c: Context<AppEnv>, name: string, { address }: Invited): NonNullable<StaffPageProps["link"]> {
  const from = c.req.header("origin") ?? "";
  const seen = new URL(URL.canParse(from) ? from : c.var.origin).origin;
  const origin = [seen, c.var.publicOrigin ?? seen].find(opensElsewhere) ?? seen;
  return { name, address: origin + address, days: INVITATION_DAYS, here: c.var.reachable && !opensElsewhere(origin) };
}

interface Showing {
  readonly say?: string | undefined;
  readonly again?: Again;
  readonly link?: StaffPageProps["link"];
}

async function show(c: Context<AppEnv>, { say, again, link }: Showing) {
  const { db } = c.var;
  const [shop, all, events, timers] = await Promise.all([
    ...([shopSettings(db), everyone(deskOf(c)), signInEvents.latest(db, SHOWN)] as const),
    timersOn(db),
  ]);
  const when = (at: string) => moment(at, shop.locale, shop.timeZone);
  const { fields, errors } = again ?? fresh(addStaff);
  return pageAnswer(
    c,
    <StaffPage
      frame={frameFor(c, shop.name)}
      script={copyScriptFor(c)}
      people={all.map(({ id, name, role, joinedAt, leftAt, invitedUntil }) => ({
        id,
        name,
        role,
        joined: joinedAt !== undefined,
        ...(leftAt && { left: when(leftAt), timer: timers.find(({ person }) => person === name) }),
        ...(invitedUntil && { invitedUntil: when(invitedUntil) }),
      }))}
      events={events.map(({ at, ...event }) => ({ ...event, at: when(at) }))}
      link={link}
      says={fresh(addStaff).says}
      fields={fields}
      errors={errors}
      say={say}
    />,
    again?.status ?? 200,
  );
}
