import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { readOptions } from "../../../src/tools/start/options.js";

const SECRET = "a secret long enough";
const why = (words: readonly string[], env: NodeJS.ProcessEnv = {}) => {
  const options = readOptions(words, env);
  return options.is === "refused" ? options.why : options.is;
};

describe("npm start", () => {
  it("serves loopback, the demo shop and ./data unless it is told otherwise", () => {
    const usual = {
      empty: false,
      folder: resolve("data"),
      port: 4700,
      host: "127.0.0.1",
      secret: undefined,
      origin: undefined,
      proxies: undefined,
    };
    expect(readOptions([], {})).toEqual({ is: "start", start: usual });
    const words = ["--empty", "--data", "here", "--port", "0", "--host", "0.0.0.0"];
    const env = { OHMWRIGHT_DATA: "there", OHMWRIGHT_SECRET: SECRET, OHMWRIGHT_ORIGIN: "https://shop.example" };
    const told = {
      empty: true,
      folder: resolve("here"),
      port: 0,
      host: "0.0.0.0",
      secret: SECRET,
      origin: env.OHMWRIGHT_ORIGIN,
      proxies: undefined,
    };
    expect(readOptions(words, env)).toEqual({ is: "start", start: told });
    expect(readOptions([], { OHMWRIGHT_DATA: "there" })).toMatchObject({ start: { folder: resolve("there") } });
  });

  it("refuses to serve another address without a secret, or with one too short", () => {
    expect(why(["--host", "0.0.0.0"])).toContain("OHMWRIGHT_SECRET");
    expect(why(["--host", "0.0.0.0"], { OHMWRIGHT_SECRET: "short" })).toContain("OHMWRIGHT_SECRET");
    expect(why(["--host", "0.0.0.0"], { OHMWRIGHT_SECRET: SECRET })).toBe("start");
  });

  it("takes proxies by address or block, and nothing else", () => {
    expect(readOptions([], { OHMWRIGHT_PROXY: "127.0.0.1, 10.0.0.0/8,fd00::/8" })).toMatchObject({ is: "start" });
    for (const proxy of ["localhost", "10.0.0.0/33", "127.0.0.1,", "1"])
      expect(why([], { OHMWRIGHT_PROXY: proxy })).toContain(`OHMWRIGHT_PROXY is '${proxy}'`);
  });

  it.each(["shop.example", "https://shop.example/", "https://shop.example/estimates", "ftp://shop.example"])(
    "refuses %s as the address owners reach it at: only scheme and host will do",
    (origin) => {
      expect(why([], { OHMWRIGHT_ORIGIN: origin })).toContain(`OHMWRIGHT_ORIGIN is '${origin}'`);
    },
  );

  it.each(["http://localhost:4700", "http://127.0.0.1", "http://127.1.2.3:8080", "http://[::1]:4700", "http://shop.localhost"])(
    "refuses %s as that address too: only this machine opens it",
    (origin) => {
      expect(why([], { OHMWRIGHT_ORIGIN: origin })).toContain(`OHMWRIGHT_ORIGIN is '${origin}', which only this machine opens`);
    },
  );

  it.each([["--emtpy"], ["--port", "x"], ["--port", "65536"], ["--port", ""], ["--data"], ["stray"]])(
    "does not guess what %s %s means",
    (...words) => {
      expect(why(words)).toContain(words[0]);
    },
  );

  it("gives its help when asked, whatever else is said", () => {
    expect([why(["-h"]), why(["--help", "--port", "x"])]).toEqual(["help", "help"]);
  });
});
