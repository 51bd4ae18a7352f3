/** The lines of an estimate as a table: taken away, and of a draft taken in. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { importLines, LINES } from "../../acts/importLines.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { refuse } from "../problems/refuse.js";
import { askTable, sentTable, type TakenIn } from "./dataIn.js";

export const lines = new Hono<AppEnv>();

lines.get("/estimates/:id/lines", async (c) => {
  const place = await placeOf(c, c.req.param("id"));
  return place ? askTable(c, place) : refuse(c, "not found", missing);
});

lines.post("/estimates/:id/lines", async (c) => {
  const place = await placeOf(c, c.req.param("id"));
  return place ? sentTable(c, place) : refuse(c, "not found", missing);
});

const missing = { detail: "There is no such estimate." };

async function placeOf(c: Context<AppEnv>, id: string): Promise<TakenIn | undefined> {
  const job = await deskOf(c).job({ estimate: id });
  const stands = job?.revision(id);
  if (!job || !stands) return undefined;
  const { unit } = job;
  const issued = stands.issuedAt !== undefined;
  return {
    page: {
      ...{ action: `/estimates/${id}/lines`, at: "/", title: `Lines of revision ${stands.revision} as CSV`, closed: issued },
      back: { href: issued ? `/jobs/${job.id}` : `/estimates/${id}`, name: `${job.job.number}, ${unit.maker} ${unit.model}` },
      lead: (
        <>
          <p class="actions">
            <a class="button" href={`/api/estimates/${id}/lines.csv`} download={`${job.job.number}-lines.csv`}>
              Take the lines away
            </a>
          </p>
          <p class="hint">
            {issued
              ? "An issued revision never changes, so no lines are taken in."
              : "A row with the id of a line replaces that line; a row without an id adds one. Lines that the file does not name stay."}
          </p>
        </>
      ),
    },
    ...{ columns: LINES, thing: "line" },
    run: (value, _, read) => carryOut(importLines, deskOf(c), value, { estimate: id, read }),
  };
}
