import { describe, expect, it } from "vitest";
import { newPassphrase, passphraseFault } from "../../src/records/passphrases.js";
import { scrypt } from "../../src/records/secrets.js";

/** RFC 7914, section 12, from memory; the fourth wants 1 GiB and is left out. */
const VECTORS = [
  [
    "",
    "",
    { n: 16, r: 1, p: 1 },
    "77d6576238657b203b19ca42c18a0497f16b4844e3074ae8dfdffa3fede21442fcd0069ded0948f8326a753a0fc81f17e8d3e0fb2e0d3628cf35e20c38d18906",
  ],
  [
    "password",
    "NaCl",
    { n: 1024, r: 8, p: 16 },
    "fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b3731622eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640",
  ],
  [
    "pleaseletmein",
    "SodiumChloride",
    { n: 16384, r: 8, p: 1 },
    "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887",
  ],
] as const;

describe("scrypt", () => {
  it.each(VECTORS)("makes of '%s' and '%s' what RFC 7914 says", async (secret, salt, cost, expected) => {
    expect(Buffer.from(await scrypt(secret, new TextEncoder().encode(salt), 64, cost)).toString("hex")).toBe(expected);
  });
});

describe("a passphrase", () => {
  it.each([
    ["fourteen signs", "too short"],
    ["kettle thimble orchard", undefined],
    ["ÄÖÜ äöü ßßß 12 é", undefined],
    ["🎹🎛️🎚️🔧🪛🧲🔌💡🔋🧯🧪🧰🧵🪡🎧", undefined],
    ["aaaaaaaaaaaaaaaaaaaaaa", "too plain"],
    ["x y".repeat(100), "too long"],
  ])("%j is judged by its length, not by rules of composition: %s", (passphrase, fault) => {
    expect(passphraseFault(passphrase)).toBe(fault);
  });

  it("is kept with a salt of its own and the cost it was made at, and not as itself", async () => {
    const [one, two] = await Promise.all([
      newPassphrase("kettle thimble orchard", "t"),
      newPassphrase("kettle thimble orchard", "t"),
    ]);
    expect(one).toMatchObject({ n: 16384, r: 8, p: 5, salt: expect.stringMatching(/^[0-9a-f]{32}$/) });
    expect(one.hash).not.toBe(two.hash);
    expect(JSON.stringify(one)).not.toContain("kettle");
  });
});
