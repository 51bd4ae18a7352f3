import { describe, expect, it } from "vitest";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { BASE } from "../support/documented.js";
import { person, signedIn } from "../support/people.js";
import { demo, shop } from "../support/shop.js";

describe("a technician", () => {
  it("takes files in, and is refused every way out, the erasure and the restore; a manager's name goes on record", async () => {
    const opened = await shop();
    const [wilmot, tamsin] = [await person(opened, "Wilmot", "technician"), await person(opened, "Tamsin", "manager")];
    const [technician, manager] = [await signedIn(opened, wilmot), await signedIn(opened, tamsin)];
    const { id } = (await demo()).owners[0]!;
    const ask = (who: typeof manager, method: string, path: string, type = "application/json", body = "{}") =>
      opened.app.request(`${BASE}${path}`, {
        method,
        headers: {
          cookie: [...who.jar].map(([name, value]) => `${name}=${value}`).join("; "),
          ...{ origin: BASE, "content-type": type },
        },
        ...(method === "GET" ? {} : { body }),
      });
    const shut = [
      ["GET", "/api/csv/owners"],
      ["GET", `/api/owners/${id}/file`],
      ["POST", `/api/owners/${id}/erasure`],
      ["GET", "/api/backup"],
      ["POST", "/api/restore", "application/gzip"],
      ["GET", "/data/owners"],
      ["GET", `/data/owners/${id}`],
      ["POST", `/data/owners/${id}/erasure`, "application/x-www-form-urlencoded"],
    ] as const;
    for (const [method, path, type] of shut) {
      const answer = await ask(technician, method, path, type);
      expect([answer.status, (await answer.json()).type], `${method} ${path}`).toEqual([403, "/problems/role-wanted"]);
    }
    for (const path of ["/data", "/data/in/part-kinds", "/data/in/offers", "/data/in/parts-list"])
      expect((await ask(technician, "GET", path)).status, path).toBe(200);

    expect(await (await ask(technician, "GET", "/data")).text()).toContain("Only a manager of the shop can export data");
    expect(await (await ask(manager, "GET", "/data")).text()).toContain('href="/api/backup"');
    const form = "application/x-www-form-urlencoded";
    const erased = await ask(manager, "POST", `/data/owners/${id}/erasure`, form, "sure=yes&by=Someone+else");
    expect(erased.status).toBe(303);
    const [job] = (await demo()).jobs.filter(({ ownerId }) => ownerId === id);
    const { items } = await (await ask(manager, "GET", `/api/jobs/${job!.id}/events`)).json();
    expect(items.at(-1)).toMatchObject({ is: "personal data erased", content: { by: "Tamsin" } });
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
  });
});
