import { describe, expect, it } from "vitest";
import { mailTo } from "../../../src/pages/revise/linkOnce.js";

const link = {
  job: { id: "1", number: "J-2026-0007", unit: "Threnwick Cadence 3 & Co" },
  shop: "Lanternfold Electronics Repair",
  revision: 2,
  owner: { name: "Žofie Kapradinová", email: "zofie+repairs@kapradinova.example" },
  address: "https://shop.example/o#abcdefghijkl.ABCDEFGHIJKLMNOPQRSTUVWX",
  code: "3F6ER-7FCNF",
  until: "23 February 2027 at 11:02 GMT",
  deliveredTo: "zofie+repairs@kapradinova.example",
};

describe("the e-mail with the owner's link", () => {
  const mail = mailTo(link);

  it("is a mailto address of RFC 6068: percent-encoded, lines ended by CR and LF, no plus for a space", () => {
    expect(mail).toMatch(/^mailto:[^?\s]+\?subject=[^&\s]+&body=[^&\s]+$/);
    expect(mail).not.toContain("+");
    expect(mail).toContain("%0D%0A");
    expect(mail.replaceAll("%0D%0A", "")).not.toMatch(/%0[AD]/);
  });

  it("says which estimate, and holds the whole address, the number and the code", () => {
    const [, to, subject, body] = /^mailto:([^?]+)\?subject=([^&]+)&body=(.+)$/.exec(mail)!.map(decodeURIComponent);
    expect(to).toBe(link.owner.email);
    expect(subject).toBe("Estimate J-2026-0007, revision 2: Threnwick Cadence 3 & Co");
    for (const text of [
      link.address,
      link.code,
      "https://shop.example/o and type the number J-2026-0007",
      "Dear Žofie Kapradinová,",
    ])
      expect(body).toContain(text);
  });

  it("goes to nobody where no e-mail address is known", () => {
    expect(mailTo({ ...link, owner: { name: "" } })).toMatch(/^mailto:\?subject=/);
  });
});
