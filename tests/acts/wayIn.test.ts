/** Who comes in, by what, and what ends with it. People and passphrases invented. */
import { describe, expect, it } from "vitest";
import { removePasskey, removePassphrase, setPassphrase } from "../../src/acts/ownAccount.js";
import { addManager, setUp } from "../../src/acts/setUp.js";
import { signIn } from "../../src/acts/signIn.js";
import { NAME_TAKEN } from "../../src/acts/staff.js";
import { newWay } from "../../src/acts/wayIn.js";
import { passkeys } from "../../src/records/passkeys.js";
import { passphrases } from "../../src/records/passphrases.js";
import { newSession, sessions } from "../../src/records/sessions.js";
import { signInEventsTable } from "../../src/records/signInEvents.js";
import { person } from "../http/support/people.js";
import { shop } from "../http/support/shop.js";
import { at } from "../records/support/livedIn.js";
import { answerOf } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const PHRASE = "kettle thimble orchard";
const nobody = async () => undefined;
const ENTRANCE = { caller: "a place", cost: { n: 16, r: 1, p: 1 }, created: nobody, proven: nobody, spent: nobody };

/** Tamsin, with a passphrase and a browser in which she is signed in. */
async function inTheShop() {
  const opened = await shop();
  const id = await person(opened, "Tamsin", "manager");
  const { db } = opened;
  const way = await newWay(deskAt(db, at(0)), { passphrase: PHRASE }, ENTRANCE, "");
  if ("wrong" in way) throw new Error(way.wrong.detail);
  for (const write of way.writes(id)) await write;
  const begun = async (staffId = id) => {
    const { row } = await newSession({ staffId, how: "passkey", agent: "a test" }, at(0));
    await sessions.adding(db, row);
    return row;
  };
  const live = async (staffId = id) => (await sessions.of(db, staffId, at(2))).map((session) => session.id);
  const told = async () => (await db.select().from(signInEventsTable)).map(({ what }) => what);
  return { db, id, begun, live, told };
}

describe("signing in", () => {
  const tried = async (db: Awaited<ReturnType<typeof inTheShop>>["db"], entrance: object, passphrase = PHRASE) =>
    answerOf(
      await done(signIn, deskAt(db, at(1)), { name: "Tamsin", passphrase } as never, { ...ENTRANCE, ...entrance } as never),
    );

  it("ends the session that this browser had, and no other", async () => {
    const { db, begun, live } = await inTheShop();
    const [before, elsewhere] = [await begun(), await begun()];
    expect(await tried(db, { before })).toMatchObject({ is: "in", name: "Tamsin" });
    const after = await live();
    expect(after).toHaveLength(2);
    expect(after).toContain(elsewhere.id);
    expect(after).not.toContain(before.id);
  });

  it("ends that of whoever was in before, where it is another person's", async () => {
    const { db, begun, live } = await inTheShop();
    const other = await person({ db }, "Ines", "technician");
    const before = await begun(other);
    expect(await tried(db, { before })).toMatchObject({ is: "in" });
    expect(await live(other)).toEqual([]);
    expect(await live()).toHaveLength(1);
  });

  it("that is refused ends none", async () => {
    const { db, begun, live } = await inTheShop();
    const before = await begun();
    expect(await tried(db, { before }, "another phrase altogether")).toMatchObject({ is: "refused" });
    expect(await live()).toEqual([before.id]);
  });

  it("is refused where name or passphrase is missing, each at its field", async () => {
    const { db } = await inTheShop();
    const lacks = async (said: object) => {
      const outcome = await done(signIn, deskAt(db, at(1)), said as never, ENTRANCE as never);
      return outcome.ok ? [] : outcome.refusal.errors;
    };
    const [name, phrase] = [
      { pointer: "/name", name: "key missing", detail: "Enter your name." },
      { pointer: "/passphrase", name: "key missing", detail: "Enter your passphrase." },
    ];
    expect(await lacks({})).toEqual([name, phrase]);
    expect(await lacks({ name: "Tamsin" })).toEqual([phrase]);
    expect(await lacks({ passphrase: PHRASE })).toEqual([name]);
  });
});

describe("a new passphrase", () => {
  const desk = (db: Awaited<ReturnType<typeof inTheShop>>["db"], id: string) => ({
    ...deskAt(db, at(1)),
    staff: { id, name: "Tamsin", role: "manager" as const },
  });

  it("wants the one that stands, ends every other session, and stands in the list of sign-ins", async () => {
    const { db, id, begun, live, told } = await inTheShop();
    const [mine] = [await begun(), await begun()];
    const set = (current: string) =>
      done(setPassphrase, desk(db, id), { current, passphrase: "lantern saddle quince" }, { ...ENTRANCE, session: mine!.id });
    expect(await set("not the one")).toMatchObject({
      ok: false,
      refusal: {
        errors: [{ pointer: "/current", name: "value unreadable", detail: "This is not your passphrase now." }],
      },
    });
    expect(await live()).toHaveLength(2);
    expect(await set(PHRASE)).toMatchObject({ ok: true });
    expect(await live()).toEqual([mine!.id]);
    expect(await passphrases.matches(db, id, "lantern saddle quince", ENTRANCE.cost)).toBe(true);
    expect(await passphrases.matches(db, id, PHRASE, ENTRANCE.cost)).toBe(false);
    expect((await told()).at(-1)).toBe("passphrase set");
  });

  it("is asked for where none is typed, and says what is wrong with one", async () => {
    const { db } = await inTheShop();
    const wrong = async (passphrase?: string) => newWay(deskAt(db, at(1)), { passphrase }, ENTRANCE, "");
    const told = (name: string, detail: RegExp) => ({
      wrong: { pointer: "/passphrase", name, detail: expect.stringMatching(detail) },
    });
    expect(await wrong()).toEqual(told("key missing", /^Make a passkey, or type a passphrase\.$/));
    expect(await wrong("short")).toEqual(told("value unreadable", /^The passphrase is too short; use at least \d+ characters/));
    expect(await wrong("a".repeat(30))).toEqual(
      told("value unreadable", /^The passphrase has too few different characters; use four or five words\.$/),
    );
    expect(await wrong("kettle ".repeat(1000))).toEqual(
      told("text too long", /^The passphrase is longer than \d+ characters; shorten it\.$/),
    );
  });

  it("or a passkey: one that does not hold, is on record, or was made for someone else is refused where it stands", async () => {
    const { db, id } = await inTheShop();
    const made = { id: "key-1", staffId: id, publicKey: new Uint8Array([1]), algorithm: -7, counter: 0, createdAt: at(1) };
    const created = async () => made as never;
    const way = (entrance: object, more: Parameters<typeof newWay>[4] = {}) =>
      newWay(deskAt(db, at(1)), { passkey: "sent" }, { ...ENTRANCE, ...entrance }, "Passkey 1", more);
    const unchecked = { name: "value unreadable", detail: "The passkey could not be checked; make it again." };
    expect(await way({})).toEqual({ wrong: { pointer: "/passphrase", ...unchecked } });
    expect(await way({ created }, { whose: "another", under: "/passkey" })).toEqual({
      wrong: { pointer: "/passkey", ...unchecked },
    });
    expect(await way({ created }, { whose: id })).toMatchObject({ staffId: id });
  });
});

it("the only way in stays: a passkey goes beside a passphrase, and a passphrase beside a passkey", async () => {
  const { db, id } = await inTheShop();
  const desk = { ...deskAt(db, at(1)), staff: { id, name: "Tamsin", role: "manager" as const } };
  const made = { site: "shop.example", publicKey: "key", counter: 0, transports: [], madeAt: at(1) };
  const onlyWay = (pointer: string, next: string) => ({
    refusal: { errors: [{ pointer, name: "key missing", detail: `This is your only way in. ${next}` }] },
  });
  const phraseGoes = () => done(removePassphrase, desk, {}, {});
  const keyGoes = () => done(removePasskey, desk, {}, { passkey: "key-1" });
  expect(await phraseGoes()).toMatchObject(onlyWay("/passphrase", "Make a passkey first."));
  await passkeys.adding(db, { id: "key-1", staffId: id, name: "Passkey 1", ...made });
  expect(await phraseGoes()).toMatchObject({ ok: true });
  expect(await passphrases.setAt(db, id)).toBeUndefined();
  expect(await keyGoes()).toMatchObject(onlyWay("/passkey", "Make another passkey or set a passphrase first."));
});

describe("a manager's account", () => {
  const manager = (db: Awaited<ReturnType<typeof inTheShop>>["db"], said: object, right = true) =>
    done(
      addManager,
      deskAt(db, at(1)),
      { secret: "s", name: "Ottoline", passphrase: PHRASE, ...said } as never,
      { ...ENTRANCE, right: async () => right } as never,
    );

  it("is added by the shop's secret alone, under a name that nobody has", async () => {
    const { db, told } = await inTheShop();
    const before = await told();
    expect(await manager(db, {}, false)).toMatchObject({ answer: { refused: "That is not the shop's secret." } });
    expect(await told()).toEqual([...before, "refused"]);
    expect(await manager(db, { name: "tamsin" })).toMatchObject({
      ok: false,
      refusal: {
        is: "input refused",
        errors: [{ pointer: "/name", name: "name taken", detail: NAME_TAKEN }],
      },
    });
    expect(await manager(db, { passphrase: "short" })).toMatchObject({
      ok: false,
      refusal: { errors: [{ pointer: "/passphrase", name: "value unreadable" }] },
    });
    expect(await told()).toEqual([...before, "refused"]);
    expect(answerOf(await manager(db, {}))).toMatchObject({ name: "Ottoline", codes: { length: 10 } });
    expect((await told()).slice(before.length + 1)).toEqual(["account made", "passphrase set", "signed in"]);
  });

  it("is not founded twice", async () => {
    const { db } = await inTheShop();
    expect(await done(setUp, deskAt(db, at(1)), { name: "Ines" } as never, ENTRANCE as never)).toMatchObject({
      ok: false,
      refusal: { is: "id taken", detail: "The shop is set up already; sign in." },
    });
  });

  it("of a new shop is refused together with its rates: all that is wrong is told at once", async () => {
    const { db } = await shop();
    const said = {
      ...{ shopName: "Quellmarsh Repairs", currency: "GBP", timeZone: "Europe/London", locale: "en-GB", paper: "A4" },
      ...{ hourlyRate: 6000, tax: "added", name: "Ines", passphrase: "short" },
    };
    const outcome = await done(setUp, deskAt(db, at(1)), said as never, ENTRANCE as never);
    expect(!outcome.ok && outcome.refusal.errors?.map(({ pointer }) => pointer)).toEqual([
      "/taxName",
      "/taxPercent",
      "/passphrase",
    ]);
  });
});
