/** The first account, made on the first visit; and, when no manager gets in any more, another one by the shop's secret. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { carryOut } from "../../acts/carryOut.js";
import { type Fault, shapeFaults } from "../../acts/fault.js";
import { setUpShop } from "../../acts/settings.js";
import { currencyCodes } from "../../estimating/money/currency.js";
import { SetUpPage } from "../../pages/staff/setUp.js";
import { isRefused } from "../../records/constraint.js";
import { PASSPHRASE_LENGTH } from "../../records/entryTerms.js";
import { newRecoveryCodes, recoveryCodes } from "../../records/recoveryCodes.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { signInEvents } from "../../records/signInEvents.js";
import { firstManager, joining, newStaff, staff, staffTable } from "../../records/staff.js";
import type { AppEnv, Bindings } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { isSame, isUsable } from "../guard/secret.js";
import { tooMany, waitBefore, wrongAttempt } from "./attempts.js";
import { bareAnswer, lookOf, passkeyPlace, showCodes } from "./bare.js";
import { comeIn, newWayIn, wayWrites } from "./comeIn.js";
import { nameFault, type SentFields, sentFields } from "./form.js";

const KEPT = ["name", "shopName", "currency", "locale", "timeZone", "paper"] as const;

export function setUp(secretOf: (bindings: Bindings) => string | undefined) {
  const app = new Hono<AppEnv>();

  app.get("/set-up", async (c) => show(c, "first", fieldsOf(await shopSettings(c.var.db)), {}));

  app.post("/set-up", async (c) => {
    const fields = await sentFields(c);
    const faults = await saveShop(c, fields);
    return faults ? show(c, "first", typed(fields), faults) : makeManager(c, "first", fields);
  });

  app.post("/set-up/later", async (c) => {
    await signInEvents.adding(c.var.db, { what: "went on without accounts" }, c.var.clock().toISOString());
    return c.redirect("/", 303);
  });

  app.get("/sign-in/secret", async (c) => {
    if (!c.var.reachable || !(await staff.anyone(c.var.db))) return c.redirect("/sign-in", 303);
    return show(c, "again", new Map(), {});
  });

  app.post("/sign-in/secret", async (c) => {
    const secret = secretOf(c.env);
    if (!isUsable(secret) || !(await staff.anyone(c.var.db))) return c.redirect("/sign-in", 303);
    const fields = await sentFields(c);
    const wait = await waitBefore(c);
    if (wait > 0) return show(c, "again", typed(fields), { secret: tooMany(c, wait) }, 429);
    if (!(await isSame(fields.raw("secret"), secret))) {
      await wrongAttempt(c);
      const event = { what: "refused", how: "shop's secret", caller: await c.var.caller("sign-in") } as const;
      await signInEvents.adding(c.var.db, event, c.var.clock().toISOString());
      return show(c, "again", typed(fields), { secret: "That is not the shop's secret." }, 401);
    }
    return makeManager(c, "again", fields);
  });
  return app;
}

const fieldsOf = ({ name, currency, locale, timeZone, paper }: Settings) =>
  new Map([["shopName", name], ...Object.entries({ currency, locale, timeZone, paper })]);

const typed = (fields: SentFields) => new Map(KEPT.map((name) => [name, fields.text(name)] as const));

/** Account, way in, codes and session in one batch; of two that make the first account at once one is refused. */
async function makeManager(c: Context<AppEnv>, when: "first" | "again", fields: SentFields) {
  const { db } = c.var;
  const at = c.var.clock().toISOString();
  const name = fields.text("name");
  const wrong = nameFault(name);
  if (wrong) return show(c, when, typed(fields), { name: wrong });
  const way = await newWayIn(c, fields, "Passkey 1");
  if (way.is === "none") return show(c, when, typed(fields), { passphrase: way.wrong });
  const id = way.is === "passkey" ? way.passkey.staffId : uuidv7();
  const row = newStaff(id, name, "manager", at);
  const { codes, rows } = await newRecoveryCodes(id, at);
  try {
    await comeIn(c, id, when === "first" ? "set-up" : "shop's secret", [
      when === "first" ? firstManager(db, row) : db.insert(staffTable).values(row),
      joining(db, id, at),
      signInEvents.adding(db, { what: "account made", staffId: id }, at),
      ...wayWrites(c, id, way),
      ...recoveryCodes.replacing(db, id, rows),
    ]);
  } catch (error) {
    if (!isRefused(error)) throw error;
    if (when === "first") return c.redirect("/sign-in", 303);
    return show(c, when, typed(fields), { name: "Someone has an account by this name already; choose another." });
  }
  return showCodes(c, { name, codes, next: "/" });
}

function show(
  c: Context<AppEnv>,
  when: "first" | "again",
  fields: ReadonlyMap<string, string>,
  errors: Readonly<Record<string, string>>,
  status?: 401 | 429,
) {
  const wrong = Object.keys(errors).length > 0;
  return bareAnswer(
    c,
    <SetUpPage
      look={lookOf(c)}
      place={passkeyPlace(c)}
      when={when}
      fields={fields}
      errors={new Map(Object.entries(errors))}
      shortest={PASSPHRASE_LENGTH}
      currencies={currencyCodes()}
      mayGoOn={!c.var.reachable}
    />,
    status ?? (wrong ? 422 : 200),
  );
}

const NAMES = { name: "shopName", currency: "currency", locale: "locale", timeZone: "timeZone", paper: "paper" } as const;

/** The shop's part: faults by field, or nothing when it is on record. */
async function saveShop(c: Context<AppEnv>, fields: SentFields): Promise<Record<string, string> | undefined> {
  const wanted = Object.fromEntries(Object.entries(NAMES).map(([name, field]) => [name, fields.text(field)]));
  const read = setUpShop.fields.safeParse(wanted);
  if (!read.success) return byField(shapeFaults(read.error.issues, wanted, setUpShop.fields));
  const outcome = await carryOut(setUpShop, deskOf(c), read.data, {});
  return outcome.ok ? undefined : byField(outcome.refusal.errors ?? []);
}

const byField = (faults: readonly Fault[]): Record<string, string> =>
  Object.fromEntries(
    faults.map(({ pointer, detail }) => [NAMES[pointer.split("/")[1] as keyof typeof NAMES] ?? "shopName", detail]),
  );
