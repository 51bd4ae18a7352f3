import { describe, expect, it } from "vitest";
import { PROFILES } from "../../src/estimating/law/profiles.js";
import { english } from "../../src/wording/english/index.js";
import { german } from "../../src/wording/german/index.js";
import { languageName, languageOf, usualLocale, wordsIn } from "../../src/wording/tongue.js";

/** Every text that stands as it is, by its path. */
function textsIn(words: object, path = ""): [path: string, text: string][] {
  return Object.entries(words).flatMap(([key, value]): [string, string][] => {
    const here = `${path}/${key}`;
    if (typeof value === "string") return [[here, value]];
    return typeof value === "object" && value !== null ? textsIn(value, here) : [];
  });
}

describe("the language of a document", () => {
  it.each([
    ["de", "de"],
    ["de-AT", "de"],
    ["DE", "de"],
    ["en-US", "en"],
    ["fr", "en"],
    ["toString", "en"],
    ["", "en"],
    [undefined, "en"],
  ] as const)("of %s is %s", (tag, language) => expect(languageOf(tag)).toBe(language));

  it("brings words, a name of its own and a usual way of writing figures", () => {
    expect(wordsIn("de-AT").words).toBe(german);
    expect(wordsIn(undefined).words).toBe(english);
    expect([languageName("de"), usualLocale("de"), usualLocale("en")]).toEqual(["Deutsch", "de-DE", "en-GB"]);
  });
});

describe("German", () => {
  it("says each text in its own words; a name is the same in both", () => {
    const own = new Map(textsIn(german));
    const alike = textsIn(english).filter(([path, text]) => text !== "" && own.get(path) === text);
    expect(alike.map(([path]) => path)).toEqual(
      ["/dangers/names/asbestos", "/paper/head/name", "/paper/agreement/name"].filter(
        (path) => own.get(path) === new Map(textsIn(english)).get(path),
      ),
    );
  });

  it("names every law profile", () => {
    for (const profile of PROFILES) expect(german.law.name(profile), profile.id).not.toBe(profile.name);
  });
});
