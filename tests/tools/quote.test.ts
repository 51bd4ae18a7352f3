import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { quote as quoted } from "../../src/tools/quote/quote.js";
import { money } from "../../src/wording/figures.js";
import { lineTitle } from "../../src/wording/line.js";
import { warningText } from "../../src/wording/reasons.js";
import { plannedBuyText } from "../../src/wording/risk.js";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const DEMO = ["string-organ-keyboard", "tape-echo", "valve-amplifier", "plain-counts"];
const fixture = (name: string) => `fixtures/demo/${name}.json`;

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

async function quote(words: readonly string[], typed = ""): Promise<Ran> {
  let [out, err] = ["", ""];
  const code = await quoted(words, {
    say: (text) => (out += `${text}\n`),
    complain: (text) => (err += `${text}\n`),
    typed: async () => typed,
  });
  return { code, out, err };
}

/** The command as package.json gives it, without npm's own lines. */
function command(words: readonly string[], typed: string): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ["--import", "tsx", "src/tools/quote.ts", ...words], { cwd: ROOT });
    let [out, err] = ["", ""];
    child.stdout.on("data", (piece) => (out += String(piece)));
    child.stderr.on("data", (piece) => (err += String(piece)));
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, err }));
    child.stdin.end(typed);
  });
}

const plain = (text: string) => text.replaceAll("\u00a0", " ");
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "quote-"));
});
afterAll(() => rm(folder, { recursive: true }));

it("is the command that package.json names", async () => {
  const { scripts } = JSON.parse(await readFile(join(ROOT, "package.json"), "utf8"));
  expect(scripts.quote).toBe("tsx src/tools/quote.ts");
});

it("takes in lines of work from CSV, and writes every line so that it reads them again", async () => {
  const lines = join(folder, "lines.csv");
  const [out, again] = [join(folder, "out.csv"), join(folder, "again.csv")];
  await writeFile(lines, "own,minutes,price\nTest the memory battery under load,15,\nTidy the wiring,,20.00\n");
  const plain = JSON.parse((await quote([fixture("tape-echo"), "--json"])).out);
  const lined = await quote([fixture("tape-echo"), "--json", "--lines", lines, "--lines-out", out]);
  expect([lined.code, lined.err]).toEqual([0, expect.stringContaining(`Lines written: ${out}`)]);
  const sheet = JSON.parse(lined.out).sheet;
  expect(sheet.totals.linesNet).toBeGreaterThan(plain.sheet.totals.linesNet + 2000);
  expect(await quote([fixture("tape-echo"), "--json", "--lines", out, "--lines-out", again])).toMatchObject({
    code: 0,
    out: lined.out,
  });
  expect(await readFile(again, "utf8")).toBe(await readFile(out, "utf8"));
  await writeFile(lines, "own,minutes,where\nLook it over,10,Nowhere board\n");
  const wrong = await quote([fixture("tape-echo"), "--lines", lines]);
  expect([wrong.code, wrong.out]).toEqual([2, ""]);
  expect(wrong.err).toContain(`${lines}: Row 2, where: Where: 'Nowhere board' is not known; choose one of `);
  expect((await quote([fixture("tape-echo"), "--lines", join(folder, "none.csv")])).code).toBe(3);
});

it("as a process of its own reads standard input, and says and answers the same", async () => {
  for (const typed of [await readFile(join(ROOT, fixture("plain-counts")), "utf8"), "{ half"]) {
    const ran = await command(["-", "--json"], typed);
    expect(ran).toEqual(await quote(["-", "--json"], typed));
    expect(ran.code).toBe(typed === "{ half" ? 3 : 0);
  }
});

it("takes work and parts in own words, and comes to what the worked case has", async () => {
  const read = async (name: string) => JSON.parse(await readFile(join(ROOT, `fixtures/cases/${name}.json`), "utf8"));
  const [base, { given }] = [await read("base"), await read("own-work-own-parts")];
  const { code, out } = await quote(["-"], JSON.stringify({ ...base, ...given }));
  expect(code).toBe(0);
  // Worked by hand in fixtures/cases/own-work-own-parts.json.
  for (const told of ["Test the memory battery under load", "118.75", "274.50"]) expect(out).toContain(told);
});

describe.each(DEMO)("%s", (name) => {
  it("prints every amount of the sheet, and its warnings", async () => {
    const { code, out, err } = await quote([fixture(name)]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    const input = JSON.parse(await readFile(join(ROOT, fixture(name)), "utf8")) as EstimateInput;
    const outcome = estimate(input);
    if (!outcome.ok) throw new Error("the demo has problems");
    const { sheet } = outcome;
    const tongue = { locale: "en-GB", currency: sheet.currency };
    const amounts = [
      ...sheet.lines.map(({ amount }) => amount),
      ...sheet.adjustments.map(({ amount, charge }) => (charge ? amount : -amount)),
      ...sheet.totals.taxGroups.map(({ tax }) => tax),
      ...[...sheet.options, ...sheet.ifFound].map(({ price }) => price),
      ...sheet.suggestions.flatMap(({ now, later }) => [now, later]),
      sheet.totals.linesNet,
      sheet.totals.withoutTax,
      sheet.totals.total,
      sheet.totals.due,
      sheet.ceiling.amount,
      sheet.ifDeclined.amount,
      sheet.deposit.amount,
    ];
    for (const amount of amounts) expect(out).toContain(money(amount, tongue));
    const read = plain(out).replaceAll(/\s+/g, " ");
    for (const warning of sheet.warnings) expect(read).toContain(plain(warningText(warning, tongue)));
    expect(out).toContain(`${input.unit.maker} ${input.unit.model}`);
    expect(read).not.toMatch(/undefined|NaN|\[object/);
  });
});

it("prints the outcome as JSON and nothing else", async () => {
  const { code, out, err } = await quote([fixture("tape-echo"), "--json"]);
  expect({ code, err }).toEqual({ code: 0, err: "" });
  const input = JSON.parse(await readFile(join(ROOT, fixture("tape-echo")), "utf8")) as EstimateInput;
  expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(estimate(input, { risk: true }))));
});

it("prints the allowances of a fixed price, and for the shop what the job may cost it", async () => {
  const input = JSON.parse(await readFile(join(ROOT, fixture("string-organ-keyboard")), "utf8")) as EstimateInput;
  const fixed: EstimateInput = { ...input, policy: { ...input.policy, pricing: { is: "fixed price", confidencePercent: 80 } } };
  const { code, out } = await quote(["-"], JSON.stringify(fixed));
  expect(code).toBe(0);
  const outcome = estimate(fixed, { risk: true });
  if (!outcome.ok) throw new Error("the demo has problems");
  const tongue = { locale: "en-GB", currency: fixed.currency };
  const read = plain(out).replaceAll(/\s+/g, " ");
  for (const line of outcome.sheet.lines.filter(({ sort }) => sort === "allowance")) {
    expect(read).toContain(plain(lineTitle(line)));
    expect(out).toContain(money(line.amount, tongue));
  }
  expect(read).toContain("If found (covered by the fixed price)");
  const shops = read.slice(read.indexOf("For the shop only"));
  expect(shops).toContain(plain(`4 jobs in 5 like this cost you ${money(outcome.sheet.risk!.p80, tongue)} or less.`));
  for (const plan of outcome.sheet.risk!.buyPlans) expect(shops).toContain(plain(plannedBuyText(plan, tongue)));
});

it("reads standard input", async () => {
  const { code, out } = await quote(["-", "--json"], await readFile(join(ROOT, fixture("plain-counts")), "utf8"));
  expect(code).toBe(0);
  expect(JSON.parse(out).sheet.detail.access).toBe("counts");
});

it("writes both documents and says so", async () => {
  const [pdf, bench] = [join(folder, "estimate.pdf"), join(folder, "bench.pdf")];
  const { code, err } = await quote([fixture("tape-echo"), "--pdf", pdf, "--bench", bench]);
  expect(code).toBe(0);
  for (const file of [pdf, bench]) {
    const bytes = await readFile(file);
    expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
    expect(err).toContain(`${file} (${bytes.length} bytes)`);
  }
});

it("shows examples first in its help", async () => {
  const { code, out } = await quote(["-h"]);
  expect(code).toBe(0);
  expect(out).toMatch(/^Examples\n {2}npm run quote -- fixtures\/demo\//);
});

describe("refusals", () => {
  it.each([
    ["no file", [], "Name the file to price"],
    ["two files", ["a.json", "b.json"], "leave out b.json"],
    ["an option it does not know", ["a.json", "--colour"], "--colour"],
  ])("of %s: exit 1 and the help", async (_, words, text) => {
    const { code, out, err } = await quote(words);
    expect({ code, out }).toEqual({ code: 1, out: "" });
    expect(err).toContain(text);
    expect(err).toContain("Examples");
  });

  it("of an input with problems: exit 2, each with what to do and where it is", async () => {
    const input = JSON.parse(await readFile(join(ROOT, fixture("plain-counts")), "utf8"));
    input.items[0].count = -2;
    input.unit.grade = "mint";
    const file = join(folder, "problems.json");
    await writeFile(file, JSON.stringify(input));
    const { code, out, err } = await quote([file]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain("the count is -2; give a whole number of 0 or more. (/items/0/count)\n");
    expect(err).toContain("no condition grade 'mint'");
    const machine = await quote([file, "--json"]);
    expect(machine.code).toBe(2);
    expect(JSON.parse(machine.out).problems).toHaveLength(2);
  });

  it("of an input of the wrong shape: exit 2, naming the key", async () => {
    const input = JSON.parse(await readFile(join(ROOT, fixture("plain-counts")), "utf8"));
    input.itmes = [];
    const { code, err } = await quote(["-"], JSON.stringify(input));
    expect(code).toBe(2);
    expect(err).toContain("(/itmes)");
  });

  it.each([
    ["a file that is not there", "no-such-file.json", "", /no-such-file\.json could not be read/],
    ["a file that is not JSON", "-", "{ half", /Standard input is not JSON/],
    ["a place where nothing can be written", "", "", /could not be written/],
  ])("of %s: exit 3", async (what, file, typed, text) => {
    const words = what.startsWith("a place") ? [fixture("plain-counts"), "--pdf", join(folder, "no/such/folder.pdf")] : [file];
    const { code, err } = await quote(words, typed);
    expect(code).toBe(3);
    expect(err).toMatch(text);
  });
});
