import { describe, expect, it } from "vitest";
import { placeOf } from "../../../src/http/guard/place.js";
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

describe("the place that tries are counted by", () => {
  it.each([
    ["192.0.2.1", "192.0.2.1"],
    ["::ffff:192.0.2.1", "192.0.2.1"],
    ["::FFFF:c000:0201", "192.0.2.1"],
    ["0:0:0:0:0:ffff:192.0.2.1", "192.0.2.1"],
    ["2001:db8:1:2::1", "2001:db8:1:2::/64"],
    ["2001:0DB8:1:2:ffff:ffff:ffff:ffff", "2001:db8:1:2::/64"],
    ["2001:db8::", "2001:db8:0:0::/64"],
    ["::1", "0:0:0:0::/64"],
    ["fe80::1%eth0", "fe80:0:0:0::/64"],
    ["", ""],
    ["no:address", "no:address"],
  ])("of '%s' is '%s'", (address, place) => {
    expect(placeOf(address)).toBe(place);
  });
});
