/**
 * What an act costs where the database is hosted: requests that the libSQL client really sends, counted where the development endpoint
 * takes them, so that a batch is one however it is wrapped; and how often the engine prices.
 */
import { subscribe, unsubscribe } from "node:diagnostics_channel";
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import type { IncomingMessage } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished, vi } from "vitest";
import * as engine from "../../../src/estimating/estimate.js";
import { connectWeb } from "../../../src/records/connectWeb.js";
import { startEndpoint } from "../../../src/tools/libsqlEndpoint.js";
import { openShop } from "../../http/support/shop.js";

export interface Cost {
  readonly trips: number;
  readonly pricings: number;
}

const SECRET = "a secret of forty characters, for tests.";

/** A hosted shop whose database starts as a copy of `from`. */
export async function hostedShop(from: string) {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  const path = join(folder, "shop.db");
  await copyFile(from, path);
  const endpoint = await startEndpoint(path);
  const db = connectWeb(endpoint.url);
  const opened = await openShop({ openDatabase: () => db, guard: "secret", secretOf: () => SECRET });

  let trips = 0;
  const arrived = (message: unknown) => {
    const { url, method, headers } = (message as { readonly request: IncomingMessage }).request;
    if (method === "POST" && url === "/v2/pipeline" && endpoint.url.endsWith(headers.host ?? "no host")) trips += 1;
  };
  subscribe("http.server.request.start", arrived);
  const priced = vi.spyOn(engine, "estimate");
  onTestFinished(async () => {
    unsubscribe("http.server.request.start", arrived);
    priced.mockRestore();
    await opened.close();
    await endpoint.stop();
    await rm(folder, { recursive: true });
  });

  return {
    ...opened,
    db,
    secret: SECRET,
    /** What `act` cost, and what it answered. */
    costOf: async <Answer>(act: () => Promise<Answer>): Promise<{ readonly cost: Cost; readonly answer: Answer }> => {
      trips = 0;
      priced.mockClear();
      const answer = await act();
      return { cost: { trips, pricings: priced.mock.calls.length }, answer };
    },
  };
}
