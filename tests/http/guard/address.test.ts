import { describe, expect, it } from "vitest";
import { refuseAddress } from "../../../src/http/guard/secret.js";

describe("an address to serve", () => {
  it.each(["127.0.0.1", "::1", "localhost"])("may be %s without a secret", (host) => {
    expect(refuseAddress(host, undefined)).toBeUndefined();
  });

  it.each(["0.0.0.0", "::", "", "192.0.2.1", "shop.example", "127.0.0.1.example"])("may be %j only with a secret", (host) => {
    expect(refuseAddress(host, undefined)).toContain("OHMWRIGHT_SECRET");
    expect(refuseAddress(host, "sixteen letters!")).toBeUndefined();
  });

  it("wants a secret of at least 16 characters, on loopback too", () => {
    expect(refuseAddress("127.0.0.1", "fifteen letters")).toContain("at least 16 characters");
  });
});
