/** Runs one work n times in a request. The caller takes the time, since a Worker's clock stands still while it computes. */
import { works } from "./works.js";

const ready = works();

export default {
  async fetch(request: Request): Promise<Response> {
    const query = new URL(request.url).searchParams;
    const list = await ready;
    const name = query.get("work");
    if (!name) return Response.json(list.map((work) => work.name));
    const work = list.find((entry) => entry.name === name)!;
    const run = query.get("side") === "floor" ? work.floor : work.run;
    for (let left = Number(query.get("times")); left > 0; left -= 1) await run();
    return new Response("done");
  },
};
