/** Finding a job by what stands in it, and a page of the help. */
import { Hono } from "hono";
import { sectionsWith } from "../../pages/help/guides.js";
import { FindPage } from "../../pages/shop/find.js";
import { search, wordsIn } from "../../records/search.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { findScriptFor, frameFor, pageAnswer } from "../frame/frame.js";

export const find = new Hono<AppEnv>();

const SHOWN = 50;
const GUIDES_SHOWN = 5;
const LONGEST = 200;

find.get("/find", async (c) => {
  const settings = await shopSettings(c.var.db);
  const typed = (c.req.query("q") ?? "").slice(0, LONGEST);
  const words = wordsIn(typed);
  const found = await search(c.var.db, words, SHOWN + 1);
  return pageAnswer(
    c,
    <FindPage
      frame={frameFor(c, settings.name)}
      script={findScriptFor(c)}
      locale={settings.locale}
      typed={typed}
      words={words}
      rows={found.slice(0, SHOWN)}
      more={found.length > SHOWN}
      guides={sectionsWith(words, GUIDES_SHOWN)}
    />,
  );
});
